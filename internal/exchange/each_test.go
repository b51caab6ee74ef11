package exchange

import (
	"iter"

	"awn/ledger"
)

// each gives facts one by one, as a store does.
func each(facts []ledger.Fact) iter.Seq2[ledger.Fact, error] {
	return func(yield func(ledger.Fact, error) bool) {
		for _, f := range facts {
			if !yield(f, nil) {
				return
			}
		}
	}
}

package malthouse

import (
	"awn/ledger"
	"awn/malt"
)

// parameters are the figures of a malt analysis by the name under which a
// record keeps them.
var parameters = func() map[ledger.Quantity]malt.Limit {
	out := map[ledger.Quantity]malt.Limit{}
	for _, p := range malt.Parameters() {
		for _, b := range p.Bases() {
			out[ledger.Quantity(p.Key(b))] = malt.Limit{Parameter: p, Basis: b}
		}
	}
	return out
}()

// Parameter is the figure of a malt analysis that a quantity is, with its
// basis.
func Parameter(q ledger.Quantity) (malt.Parameter, malt.Basis, bool) {
	l, found := parameters[q]
	return l.Parameter, l.Basis, found
}

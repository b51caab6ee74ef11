package ledger_test

import (
	"errors"
	"testing"

	"awn/ledger"
)

// TestForkOfTheSameLength: of two ends known of one place, one on the chain and
// one not, the record parts there, in whichever order they are named.
func TestForkOfTheSameLength(t *testing.T) {
	good := recall(t, ledger.DrawnMixed).facts
	last := good[len(good)-1]
	here := ledger.Head{Seq: last.Seq, Hash: last.Hash}
	there := here
	there.Hash[0] ^= 1
	for _, known := range [][]ledger.Head{{here, there}, {there, here}} {
		_, err := ledger.Verify(each(good), known...)
		if broken, ok := errors.AsType[*ledger.Broken](err); !ok || broken.Code != "record.chain.head" || broken.Seq != last.Seq {
			t.Errorf("%v: %v", known, err)
		}
	}
}

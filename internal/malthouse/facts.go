package malthouse

import (
	"context"
	"iter"

	"awn/ledger"
)

// Facts gives the facts of the record from the first to the one that is the
// last now, as often as it is asked.
func (h *House) Facts(ctx context.Context, a Actor) (iter.Seq2[ledger.Fact, error], error) {
	if err := a.Permit(UseLook); err != nil {
		return nil, err
	}
	r := h.Store.Read(h.Code)
	head, err := r.Head(ctx)
	if err != nil || head.Seq == 0 {
		return func(func(ledger.Fact, error) bool) {}, err
	}
	return r.Facts(ctx, ledger.Query{To: head.Seq}), nil
}

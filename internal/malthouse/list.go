package malthouse

import (
	"cmp"
	"context"
	"slices"

	"awn/ledger"
)

// Entered is a fact in force with its body.
type Entered[B ledger.Body] struct {
	Fact ledger.Fact
	Body B
}

// list gives the facts of a kind that are in force, the latest first.
func list[B ledger.Body](ctx context.Context, h *House, a Actor, kind ledger.Kind) ([]Entered[B], error) {
	if err := a.Permit(UseLook); err != nil {
		return nil, err
	}
	all, facts, err := bodies[B](ctx, h.Store.Read(h.Code), "", kind)
	out := make([]Entered[B], len(all))
	for i := range all {
		out[len(all)-1-i] = Entered[B]{facts[i], all[i]}
	}
	return out, err
}

// Deliveries lists the loads of barley that were received, the latest first.
func (h *House) Deliveries(ctx context.Context, a Actor) ([]Entered[*ledger.Receipt], error) {
	return list[*ledger.Receipt](ctx, h, a, ledger.Received)
}

// Shipments lists the loads that were sent, the latest first.
func (h *House) Shipments(ctx context.Context, a Actor) ([]Entered[*ledger.Shipping], error) {
	return list[*ledger.Shipping](ctx, h, a, ledger.Shipped)
}

// Certificates lists those that were issued, the latest first.
func (h *House) Certificates(ctx context.Context, a Actor) ([]Entered[*ledger.Certificate], error) {
	return list[*ledger.Certificate](ctx, h, a, ledger.Certified)
}

// Lot is a lot of malt as it stands.
type Lot struct {
	Code    ledger.Code
	Opened  int64 // number of the first entry about it
	Leave   ledger.Leave
	Results []ledger.Result
}

// Lots lists the lots of malt, the latest first.
func (h *House) Lots(ctx context.Context, a Actor) ([]Lot, error) {
	if err := a.Permit(UseLook); err != nil {
		return nil, err
	}
	r := h.Store.Read(h.Code)
	all, err := r.Subjects(ctx, ledger.LotKind)
	if err != nil {
		return nil, err
	}
	slices.SortFunc(all, func(a, b ledger.Subject) int {
		return cmp.Or(cmp.Compare(b.Opened, a.Opened), cmp.Compare(a.Ref, b.Ref))
	})
	refs := make([]ledger.Ref, len(all))
	for i, s := range all {
		refs[i] = s.Ref
	}
	found, err := r.Results(ctx, refs...)
	if err != nil {
		return nil, err
	}
	of := map[ledger.Ref][]ledger.Result{}
	for _, x := range found {
		of[x.Of] = append(of[x.Of], x)
	}
	out := make([]Lot, len(all))
	for i, s := range all {
		out[i] = Lot{ledger.Code(ledger.Account(s.Ref).Code()), s.Opened, s.Leave, of[s.Ref]}
	}
	return out, nil
}

// PieceLine is a piece in a list.
type PieceLine struct {
	Code  ledger.Code
	State ledger.State
	Cast  Entered[*ledger.Casting]
}

// Underway reports whether a piece is not dressed yet.
func (p PieceLine) Underway() bool { return p.State != ledger.Done }

// Pieces lists the pieces that were cast, the latest first.
func (h *House) Pieces(ctx context.Context, a Actor) ([]PieceLine, error) {
	casts, err := list[*ledger.Casting](ctx, h, a, ledger.Cast)
	if err != nil {
		return nil, err
	}
	all, err := h.Store.Read(h.Code).Subjects(ctx, ledger.Piece)
	if err != nil {
		return nil, err
	}
	states := map[ledger.Code]ledger.State{}
	for _, s := range all {
		states[ledger.Code(ledger.Account(s.Ref).Code())] = s.State
	}
	var out []PieceLine
	seen := map[ledger.Code]bool{}
	for _, c := range casts {
		if code := c.Body.Piece; !seen[code] {
			seen[code] = true
			out = append(out, PieceLine{code, states[code], c})
		}
	}
	return out, nil
}

// ThingView is what the record says of one thing.
type ThingView struct {
	Subject ledger.Subject
	Told    []Told
	Results []ledger.Result
	Traced  bool // it has grain in it, and can be followed
}

// Thing gathers what the record says of one thing.
func (h *House) Thing(ctx context.Context, a Actor, ref ledger.Ref) (v ThingView, err error) {
	if err := a.Permit(UseLook); err != nil {
		return v, err
	}
	r := h.Store.Read(h.Code)
	if v.Subject, err = known(ctx, r, ref); err != nil {
		return v, err
	}
	if v.Told, err = h.told(ctx, r, ref); err != nil {
		return v, err
	}
	kind := ledger.Account(ref).Kind()
	v.Traced = kind != ledger.CertificateKind && kind != ledger.SampleKind
	v.Results, err = r.Results(ctx, ref)
	return v, err
}

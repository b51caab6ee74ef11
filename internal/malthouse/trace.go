package malthouse

import (
	"cmp"
	"context"
	"slices"
	"strings"
	"time"

	"awn/ledger"
)

// newTrace is an empty trace that knows which places give first what came
// first.
func newTrace(ctx context.Context, r ledger.Reader) (*ledger.Trace, error) {
	drawn := map[ledger.Account]bool{}
	for _, kind := range []string{ledger.Silo, ledger.MaltStore, ledger.ByProduct} {
		all, err := r.Subjects(ctx, kind)
		if err != nil {
			return nil, err
		}
		for _, s := range all {
			drawn[ledger.Account(s.Ref)] = s.Drawn == ledger.DrawnLayers
		}
	}
	return ledger.NewTrace(func(a ledger.Account) bool { return drawn[a] }), nil
}

// Source is what a thing holds or was made of by one origin.
type Source struct {
	Origin        ledger.Origin
	Share         float64 // of the dry matter, if all were well mixed
	Least, Most   float64
	DryKg         float64
	Grower, Grown string
	Variety       string
	Crop          int64
	Results       []ledger.Result
}

// Holder is who or what holds some of a lot.
type Holder struct {
	Place             ledger.Account
	DryKg             float64 // of the lot, if all were well mixed
	LeastKg, MostKg   float64 // dry matter
	FreshKg           float64 // of the lot with its water, as the place holds it
	HeldKg            float64 // all that the place holds
	Receiver, Contact string  // of a shipment
	Vehicle           string
	ShippedMs         int64
}

// Mixed is what a figure comes to by the shares of its origins: a mean if all
// is well mixed, and the least and the most that it can be.
type Mixed struct {
	Quantity          ledger.Quantity
	Mean, Least, Most float64
	Partly            bool // not measured of every origin; worked out from the others
}

// Traced is what the record knows of a thing, behind it and ahead of it.
type Traced struct {
	Thing   ledger.Ref
	Order   ledger.Order
	Subject ledger.Subject
	Sources []Source
	Mixed   []Mixed
	Pieces  []LotShare // that a load or a store was made of
	Holders []Holder
	InKg    float64 // dry matter of the lot that came in, of a delivery
	Took    time.Duration
	Head    ledger.Head
}

// Trace follows a thing both ways, in the order in which facts were entered or
// in that in which they happened.
func (h *House) Trace(ctx context.Context, a Actor, thing ledger.Ref, order ledger.Order) (Traced, error) {
	began := h.Clock()
	if err := a.Permit(UseLook); err != nil {
		return Traced{}, err
	}
	r := h.Store.Read(h.Code)
	t := Traced{Thing: thing, Order: order}
	var err error
	if t.Subject, err = known(ctx, r, thing); err != nil {
		return t, err
	}
	if t.Head, err = r.Head(ctx); err != nil {
		return t, err
	}
	switch kind := ledger.Account(thing).Kind(); kind {
	case ledger.DeliveryKind, ledger.LotKind:
		err = h.ahead(ctx, r, &t)
	case ledger.CertificateKind, ledger.SampleKind:
		err = refuse("use.thing.unknown", Kinds[kind]+" "+ledger.Account(thing).Code()+" with a mass")
	default:
		err = h.behind(ctx, r, &t, ledger.Account(thing))
		if err == nil && kind == ledger.Piece {
			err = h.pieceAhead(ctx, r, &t)
		}
	}
	t.Took = h.Clock().Sub(began)
	return t, err
}

// behind fills in what a place is or was made of.
func (h *House) behind(ctx context.Context, r ledger.Reader, t *Traced, place ledger.Account) error {
	trace, err := newTrace(ctx, r)
	if err != nil {
		return err
	}
	steps, err := ledger.Behind(ctx, r, t.Order, place)
	if err != nil {
		return err
	}
	trace.Replay(steps)
	shares := trace.At(place)
	if place.Kind() == ledger.Piece || place.Kind() == ledger.Shipment {
		shares = trace.Into(place)
	}
	if err := h.sources(ctx, r, t, shares); err != nil {
		return err
	}
	if place.Kind() == ledger.MaltStore {
		t.Pieces, err = lotsAt(ctx, r, place)
	} else if place.Kind() == ledger.Shipment {
		t.Pieces, err = lotsInto(ctx, r, place)
	}
	return err
}

// sources says what is known of each origin.
func (h *House) sources(ctx context.Context, r ledger.Reader, t *Traced, shares []ledger.Share) error {
	var origins []ledger.Ref
	for _, s := range shares {
		origins = append(origins, ledger.Ref(s.Origin))
	}
	receipts, err := receiptsOf(ctx, r, origins)
	if err != nil {
		return err
	}
	results, err := r.Results(ctx, origins...)
	if err != nil {
		return err
	}
	found := map[ledger.Ref][]ledger.Result{}
	for _, x := range results {
		found[x.Of] = append(found[x.Of], x)
	}
	for _, s := range shares {
		src := Source{
			Origin: s.Origin, Share: s.Mean / s.Of, Least: s.Least / s.Of, Most: s.Most / s.Of, DryKg: s.Mean / 1000, Results: found[ledger.Ref(s.Origin)],
		}
		if in := receipts[ledger.Ref(s.Origin)]; in != nil {
			src.Grower, src.Grown, src.Variety, src.Crop = in.Grower, in.Grown, in.Variety, in.Crop
		}
		t.Sources = append(t.Sources, src)
	}
	t.Mixed = mixed(t.Sources)
	return nil
}

// many is from how many things on it is sooner to go through all facts of a
// kind than to ask of each.
const many = 24

// receiptsOf are the loads behind origins that are deliveries.
func receiptsOf(ctx context.Context, r ledger.Reader, origins []ledger.Ref) (map[ledger.Ref]*ledger.Receipt, error) {
	about := origins
	if len(origins) > many {
		about = []ledger.Ref{""}
	}
	out := map[ledger.Ref]*ledger.Receipt{}
	for _, of := range about {
		all, _, err := bodies[*ledger.Receipt](ctx, r, of, ledger.Received)
		if err != nil {
			return nil, err
		}
		for _, b := range all {
			if of := ledger.To(ledger.DeliveryKind, b.Lot); out[of] == nil {
				out[of] = b
			}
		}
	}
	return out, nil
}

// mixed works out what was measured of the origins for the whole.
func mixed(sources []Source) []Mixed {
	var names []ledger.Quantity
	for _, s := range sources {
		for _, r := range s.Results {
			if !slices.Contains(names, r.Quantity) {
				names = append(names, r.Quantity)
			}
		}
	}
	var out []Mixed
	for _, n := range names {
		var some []Source
		var values []float64
		for _, s := range sources {
			if v, ok := lastOf(s.Results, n); ok {
				some, values = append(some, s), append(values, v)
			}
		}
		m := Mixed{Quantity: n, Partly: len(some) < len(sources), Least: extreme(some, values, 1), Most: extreme(some, values, -1)}
		var share float64
		for i, s := range some {
			m.Mean += s.Share * values[i]
			share += s.Share
		}
		if share > 0 {
			m.Mean /= share
			out = append(out, m)
		}
	}
	return out
}

func lastOf(results []ledger.Result, n ledger.Quantity) (float64, bool) {
	for _, r := range slices.Backward(results) {
		if r.Quantity == n {
			return r.Value, true
		}
	}
	return 0, false
}

// extreme is the least (sign 1) or the most (sign -1) that a mean can be when
// the shares may be anything within their bounds that makes up a whole: what
// must be there of each, and then of the best as much as may be.
func extreme(sources []Source, values []float64, sign float64) float64 {
	order := make([]int, len(sources))
	var left, sum float64
	left = 1
	for i, s := range sources {
		order[i] = i
		left -= s.Least
		sum += s.Least * values[i]
	}
	slices.SortFunc(order, func(i, j int) int { return cmp.Compare(sign*values[i], sign*values[j]) })
	taken := 1 - left
	for _, i := range order {
		more := min(max(left, 0), sources[i].Most-sources[i].Least)
		sum += more * values[i]
		left -= more
		taken += more
	}
	return sum / taken
}

// ahead fills in who holds what of a lot that was brought in.
func (h *House) ahead(ctx context.Context, r ledger.Reader, t *Traced) error {
	code := ledger.Code(ledger.Account(t.Thing).Code())
	if ledger.Account(t.Thing).Kind() == ledger.LotKind {
		made, err := h.makerOf(ctx, r, t.Thing)
		if err != nil || made != "" {
			if err == nil {
				err = h.follow(ctx, r, t, ledger.Origin(made), true, made)
			}
			return err
		}
	}
	steps, err := ledger.Ahead(ctx, r, t.Order, code)
	if err != nil {
		return err
	}
	brought, err := r.Bringing(ctx, code)
	if err != nil {
		return err
	}
	for _, f := range brought {
		t.InKg += kg(f.Dry)
	}
	trace, err := newTrace(ctx, r)
	if err != nil {
		return err
	}
	trace.Replay(steps)
	return h.holders(ctx, r, t, trace.Holders(ledger.Origin(t.Thing)))
}

// makerOf is the piece that a lot of malt was made in, or the store in which it
// was blended; "" of opening stock.
func (h *House) makerOf(ctx context.Context, r ledger.Reader, lot ledger.Ref) (ledger.Account, error) {
	dressed, _, err := bodies[*ledger.Dressing](ctx, r, lot, ledger.Dressed)
	if err != nil {
		return "", err
	}
	if len(dressed) > 0 {
		return ledger.In(ledger.Piece, dressed[0].Piece), nil
	}
	blended, _, err := bodies[*ledger.Blending](ctx, r, lot, ledger.Blended)
	if err != nil || len(blended) == 0 {
		return "", err
	}
	return blended[0].To, nil
}

// pieceAhead fills in where the malt of a piece is.
func (h *House) pieceAhead(ctx context.Context, r ledger.Reader, t *Traced) error {
	return h.follow(ctx, r, t, ledger.Origin(t.Thing), false, ledger.Account(t.Thing))
}

// follow says who holds some of a piece or of a blend, by replaying all that
// happened: a piece is no origin that the record can be asked for by name.
func (h *House) follow(ctx context.Context, r ledger.Reader, t *Traced, o ledger.Origin, sources bool, place ledger.Account) error {
	if sources {
		if err := h.behind(ctx, r, t, place); err != nil {
			return err
		}
	}
	if place.Kind() != ledger.Piece {
		return nil // a blend is what its store holds
	}
	balances, err := r.Balances(ctx)
	if err != nil {
		return err
	}
	var all []ledger.Account
	for _, b := range balances {
		if b.Account.Inside() {
			all = append(all, b.Account)
		}
	}
	steps, err := ledger.Behind(ctx, r, t.Order, all...)
	if err != nil {
		return err
	}
	trace, err := newTrace(ctx, r)
	if err != nil {
		return err
	}
	trace.ByPiece().Replay(steps)
	return h.holders(ctx, r, t, trace.Holders(o))
}

// holders says of each place that holds some of a lot what it is and whose.
func (h *House) holders(ctx context.Context, r ledger.Reader, t *Traced, shares []ledger.Share) error {
	for _, s := range shares {
		out := Holder{Place: s.Place, DryKg: s.Mean / 1000, LeastKg: s.Least / 1000, MostKg: s.Most / 1000}
		if s.Place.Inside() {
			b, err := r.Balance(ctx, s.Place)
			if err != nil {
				return err
			}
			out.HeldKg = kg(b.Dry + b.Water)
			if b.Dry > 0 {
				out.FreshKg = out.DryKg * float64(b.Dry+b.Water) / float64(b.Dry)
			}
		}
		if s.Place.Kind() == ledger.Shipment {
			if err := h.receiver(ctx, r, &out); err != nil {
				return err
			}
		}
		t.Holders = append(t.Holders, out)
	}
	return nil
}

// receiver fills in who has a shipment.
func (h *House) receiver(ctx context.Context, r ledger.Reader, out *Holder) error {
	all, facts, err := bodies[*ledger.Shipping](ctx, r, out.Place.Ref(), ledger.Shipped)
	if err != nil || len(all) == 0 {
		return err
	}
	out.Receiver, out.Vehicle, out.ShippedMs = all[0].Receiver, all[0].Vehicle, facts[0].At
	people, err := h.Desk.People(ctx)
	for _, p := range people {
		if strings.EqualFold(p.ID, out.Receiver) || strings.EqualFold(p.Name, out.Receiver) {
			out.Receiver, out.Contact = p.Name, p.Contact
		}
	}
	return err
}

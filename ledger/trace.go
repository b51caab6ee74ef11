package ledger

import (
	"cmp"
	"slices"
	"strings"
)

// Origin is where grain is traced back to: a delivery, opening stock that was
// named, or an account that it came out of without anybody knowing more.
type Origin string

// Share is what a place holds of one origin, in grams of dry matter: the mean
// if all were well mixed, and the least and the most that can be true.
type Share struct {
	Origin            Origin
	Place             Account
	Mean, Least, Most float64
	Of                float64 // all that the place holds
}

// Trace replays flows of dry matter and knows what is where. A place is well
// mixed or gives first what came first; when it is well mixed, the mean is
// the mixture's, and least and most hold however badly it was mixed.
type Trace struct {
	layered  func(Account) bool
	pieces   bool
	numbers  map[Origin]int
	origins  []Origin
	totals   []total // of each origin
	holdings map[Account]*holding
}

// total is what came in of one origin and what all places together hold of it.
type total struct{ in, low, top float64 }

// holding is what a place holds: one mix, or layers with the oldest first.
type holding struct {
	layers []mix
	into   mix     // all that ever went in, of places where that is asked for
	owed   float64 // more went out than was there
}

// NewTrace begins with empty places. Layered says which places give first
// what came first.
func NewTrace(layered func(Account) bool) *Trace {
	return &Trace{layered: layered, numbers: map[Origin]int{}, holdings: map[Account]*holding{}}
}

// ByPiece makes the pieces the origins of what comes out of them, instead of
// the deliveries they were made of.
func (t *Trace) ByPiece() *Trace {
	t.pieces = true
	return t
}

// Replay adds steps in the order given. What has no dry matter in it changes
// nothing.
func (t *Trace) Replay(steps []Step) {
	for _, s := range steps {
		if s.FromEmpty {
			t.empty(s.From)
		}
		if s.ToEmpty {
			t.empty(s.To)
		}
		if s.Dry > 0 {
			t.add(s.Flow)
		}
	}
}

// empty lets what a place seems to hold go where nobody asks for it.
func (t *Trace) empty(a Account) {
	h := t.holdings[a]
	if h == nil {
		return
	}
	layers := h.layers
	h.layers, h.owed = nil, 0
	for _, l := range layers {
		t.count(l, -1)
		t.put("", l)
	}
}

func (t *Trace) add(f Flow) {
	m := float64(f.Dry)
	var out []mix
	if f.From.Inside() {
		out = t.take(f.From, m, f.Alike)
	} else {
		out = []mix{t.make(origin(f), m)}
	}
	if t.pieces && f.From.Kind() == Piece {
		t.put("", out...) // what it was made of ends here
		out = []mix{t.make(Origin(f.From), m)}
	}
	t.put(f.To, out...)
}

// origin names what a flow from outside brings.
func origin(f Flow) Origin {
	switch {
	case f.Lot == "":
		return Origin(f.From)
	case f.From == Field:
		return Origin(To(DeliveryKind, f.Lot))
	}
	return Origin(To(LotKind, f.Lot))
}

// make brings a mass of one origin into the world.
func (t *Trace) make(o Origin, m float64) mix {
	n, ok := t.numbers[o]
	if !ok {
		n = len(t.origins)
		t.numbers[o] = n
		t.origins, t.totals = append(t.origins, o), append(t.totals, total{})
	}
	t.totals[n].in += m
	return pure(n, m)
}

func (t *Trace) at(a Account) *holding {
	h := t.holdings[a]
	if h == nil {
		h = &holding{}
		t.holdings[a] = h
	}
	return h
}

// count adds what a mix holds to the totals, or takes it off again.
func (t *Trace) count(x mix, sign float64) {
	for _, p := range x.parts {
		t.totals[p.origin].low += sign * p.low
		t.totals[p.origin].top += sign * p.top
	}
}

// take draws a mass from a place, in layers if it lies in layers. What is not
// there comes from nobody knows where.
func (t *Trace) take(a Account, m float64, alike bool) (out []mix) {
	h := t.at(a)
	if alike {
		out, m = t.shedFrom(h, m)
	}
	for !alike && len(h.layers) > 0 && m > 0 {
		first := &h.layers[0]
		t.narrow(h)
		t.count(*first, -1)
		drawn := first.draw(m)
		t.count(*first, 1)
		m -= drawn.mass
		out = append(out, drawn)
		if first.mass <= 0 {
			h.layers = h.layers[1:]
		}
	}
	if m > 0 {
		h.owed += m
		out = append(out, t.make("unknown:"+Origin(a), m))
	}
	return out
}

// shedFrom takes a mass from every corn of a place alike and says what it
// could not find there.
func (t *Trace) shedFrom(h *holding, m float64) (out []mix, missing float64) {
	var all float64
	for _, l := range h.layers {
		all += l.mass
	}
	found := min(m, all)
	left := found
	for i := range h.layers {
		l := &h.layers[i]
		part := l.mass * (found / all)
		if i == len(h.layers)-1 {
			part = left // whole grams, whatever rounding says
		}
		left -= part
		t.count(*l, -1)
		out = append(out, l.shed(part))
		t.count(*l, 1)
	}
	if found == all {
		h.layers = nil
	}
	return out, m - found
}

// put brings grain to a place, where each layer stays one if the place is
// drawn in layers. What was owed there went out before.
func (t *Trace) put(a Account, layers ...mix) {
	h := t.at(a)
	for _, x := range layers {
		if a.Kind() == Piece || a.Kind() == Shipment {
			h.into.add(x)
		}
		if h.owed > 0 {
			paid := x.draw(h.owed)
			h.owed -= paid.mass
			t.put("", paid)
		}
		switch {
		case x.mass <= 0:
		case len(h.layers) == 0 || t.layered(a):
			h.layers = append(h.layers, x.clone())
			t.count(x, 1)
		default:
			last := &h.layers[len(h.layers)-1]
			t.count(*last, -1)
			last.add(x)
			t.count(*last, 1)
		}
	}
}

// slack keeps rounding of sums from narrowing a bound beyond the truth.
const slack = 1e-9

// narrow uses that what is not elsewhere is here.
func (t *Trace) narrow(h *holding) {
	if len(h.layers) != 1 {
		return
	}
	for i := range h.layers[0].parts {
		p := &h.layers[0].parts[i]
		all := &t.totals[p.origin]
		was := *p
		p.bound(all.in-(all.top-p.top)-slack*all.in, all.in-(all.low-p.low)+slack*all.in)
		all.low += p.low - was.low
		all.top += p.top - was.top
	}
}

// At is what a place holds now, the largest share first.
func (t *Trace) At(a Account) []Share {
	h := t.holdings[a]
	if h == nil {
		return nil
	}
	t.narrow(h)
	var all mix
	for _, l := range h.layers {
		all.add(l)
	}
	return t.shares(a, all)
}

// Into is what ever went into a piece or a shipment, as it was when it went
// in, the largest share first.
func (t *Trace) Into(a Account) []Share {
	h := t.holdings[a]
	if h == nil {
		return nil
	}
	return t.shares(a, h.into)
}

func (t *Trace) shares(a Account, x mix) []Share {
	out := make([]Share, 0, len(x.parts))
	for _, p := range x.parts {
		if p.top > 0 {
			out = append(out, Share{t.origins[p.origin], a, p.mean, p.low, p.top, x.mass})
		}
	}
	slices.SortStableFunc(out, func(p, q Share) int {
		return cmp.Or(cmp.Compare(q.Mean, p.Mean), strings.Compare(string(p.Origin), string(q.Origin)))
	})
	return out
}

// Holders is where an origin is now, by name of the place. Places outside
// tell what was breathed away or lost; "" is what the record says nothing of:
// grain that went out of a place before the record knew that it was in.
func (t *Trace) Holders(o Origin) []Share {
	n, ok := t.numbers[o]
	if !ok {
		return nil
	}
	var out []Share
	for a, h := range t.holdings {
		t.narrow(h)
		var all mix
		for _, l := range h.layers {
			all.add(l)
		}
		if p, ok := all.find(n); ok && p.top > 0 {
			out = append(out, Share{o, a, p.mean, p.low, p.top, all.mass})
		}
	}
	slices.SortFunc(out, func(p, q Share) int { return strings.Compare(string(p.Place), string(q.Place)) })
	return out
}

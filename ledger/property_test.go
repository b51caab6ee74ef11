package ledger_test

import (
	"context"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"awn/ledger"
)

var places = []ledger.Account{"silo:A", "silo:B", "silo:C", "piece:P", "malt:M", "byproduct:F", "shipment:S", "shipment:T"}

// truth is one way in which the corns may really have gone: how much of each
// origin each place holds, to the gram, drawn as badly mixed as chance likes.
type truth map[ledger.Account]map[ledger.Origin]float64

// move takes a mass of whole corns in an order that chance chooses.
func (w truth) move(rt *rapid.T, from, to ledger.Account, m float64) {
	origins := []ledger.Origin{}
	for o, g := range w[from] {
		if g > 0 {
			origins = append(origins, o)
		}
	}
	slices.Sort(origins)
	if len(origins) > 1 {
		origins = rapid.Permutation(origins).Draw(rt, "order")
	}
	for _, o := range origins {
		part := min(m, w[from][o])
		w[from][o] -= part
		w.put(to, o, part)
		m -= part
	}
}

func (w truth) put(to ledger.Account, o ledger.Origin, m float64) {
	if w[to] == nil {
		w[to] = map[ledger.Origin]float64{}
	}
	w[to][o] += m
}

// enterAny makes a random history of valid moves beside one truth of it.
func enterAny(rt *rapid.T, t *testing.T) (*book, truth) {
	b, w := newBook(t), truth{}
	for i := range rapid.IntRange(3, 25).Draw(rt, "facts") {
		from := rapid.SampledFrom(places).Draw(rt, "from")
		holds := int64(b.held[from].Dry)
		if holds <= 0 || rapid.IntRange(0, 3).Draw(rt, "what") == 0 {
			lot := ledger.Code("L" + itoa(int64(i)))
			kg := rapid.Int64Range(1, 50).Draw(rt, "kg")
			b.enter(&ledger.Receipt{Lot: lot, To: from, Amount: weighed(float64(kg)/1000, 0)})
			w.put(from, ledger.Origin(ledger.To(ledger.DeliveryKind, lot)), float64(kg*1000))
			continue
		}
		to := rapid.SampledFrom(places).Draw(rt, "to")
		if to == from {
			continue
		}
		g := rapid.Int64Range(1, holds).Draw(rt, "g")
		if rapid.IntRange(0, 2).Draw(rt, "all") == 0 {
			g = holds
		}
		dry := ledger.Fraction(0)
		b.enter(&ledger.Move{From: from, To: to, Amount: ledger.Amount{FreshKg: ledger.Grams(g), Standing: ledger.Weighed, MoistureWB: &dry}})
		w.move(rt, from, to, float64(g))
	}
	return b, w
}

// TestTraceHoldsTheTruth: whatever order the corns went in, what is really
// there lies between least and most; shares sum to one both ways; loading only
// what is connected answers the same.
func TestTraceHoldsTheTruth(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		b, w := enterAny(rt, t)
		tr := replay(b)
		const tol = 1e-6 // of a gram, beside sums of some 1e6 g in float64
		for _, a := range places {
			var sum float64
			for _, s := range tr.At(a) {
				sum += s.Mean
				if real := w[a][s.Origin]; real < s.Least-1e-2 || real > s.Most+1e-2 {
					rt.Fatalf("%s in %s: really %v g, said %v to %v", s.Origin, a, real, s.Least, s.Most)
				}
				if s.Mean < s.Least-1e-2 || s.Mean > s.Most+1e-2 {
					rt.Fatalf("%s in %s: mean %v outside %v to %v", s.Origin, a, s.Mean, s.Least, s.Most)
				}
			}
			if held := float64(b.held[a].Dry); math.Abs(sum-held) > 1e-9*held+tol {
				rt.Fatalf("%s holds %v g, shares make %v", a, held, sum)
			}
			steps, err := ledger.Behind(context.Background(), b, ledger.AsEntered, a)
			if err != nil {
				rt.Fatal(err)
			}
			part := ledger.NewTrace(b.layered)
			part.Replay(steps)
			for _, s := range part.At(a) {
				whole := share(t, tr.At(a), s.Origin)
				if math.Abs(whole.Mean-s.Mean) > tol+1e-9*whole.Mean {
					rt.Fatalf("%s in %s: %v g from what is connected, %v from all", s.Origin, a, s.Mean, whole.Mean)
				}
				if real := w[a][s.Origin]; real < s.Least-1e-2 || real > s.Most+1e-2 {
					rt.Fatalf("%s in %s: really %v g, said %v to %v from what is connected", s.Origin, a, real, s.Least, s.Most)
				}
			}
		}
		for _, f := range b.flows {
			if f.From != ledger.Field || f.Dry == 0 {
				continue
			}
			o := ledger.Origin(ledger.To(ledger.DeliveryKind, f.Lot))
			steps, err := ledger.Ahead(context.Background(), b, ledger.AsEntered, f.Lot)
			if err != nil {
				rt.Fatal(err)
			}
			ahead := ledger.NewTrace(b.layered)
			ahead.Replay(steps)
			var sum float64
			for _, h := range ahead.Holders(o) {
				sum += h.Mean
			}
			if math.Abs(sum-float64(f.Dry)) > 1e-9*float64(f.Dry) {
				rt.Fatalf("%s: %v g came in, %v g found", o, f.Dry, sum)
			}
		}
	})
}

// TestFirstInFirstOut: in layers, mean, least and most are one, and are what a
// queue of single grams gives.
func TestFirstInFirstOut(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		b := newBook(t)
		for _, a := range places {
			b.enter(&ledger.Decision{Of: a.Ref(), Drawn: ledger.DrawnLayers, Decision: "x"})
		}
		queues := map[ledger.Account][]ledger.Code{} // one entry per gram
		for i := range rapid.IntRange(3, 20).Draw(rt, "facts") {
			from := rapid.SampledFrom(places[:4]).Draw(rt, "from")
			if len(queues[from]) == 0 || rapid.Bool().Draw(rt, "in") {
				lot := ledger.Code("L" + itoa(int64(i)))
				g := rapid.IntRange(1, 9).Draw(rt, "g")
				b.enter(&ledger.Receipt{Lot: lot, To: from, Amount: weighed(float64(g)/1e6, 0)})
				queues[from] = append(queues[from], slices.Repeat([]ledger.Code{lot}, g)...)
				continue
			}
			to := places[(slices.Index(places, from)+1)%4]
			g := rapid.IntRange(1, len(queues[from])).Draw(rt, "g")
			b.enter(&ledger.Move{From: from, To: to, Amount: weighed(float64(g)/1e6, 0)})
			queues[to] = append(queues[to], queues[from][:g]...)
			queues[from] = slices.Clone(queues[from][g:])
		}
		tr := replay(b)
		for a, queue := range queues {
			count := map[ledger.Origin]float64{}
			for _, lot := range queue {
				count[ledger.Origin(ledger.To(ledger.DeliveryKind, lot))]++
			}
			for o, n := range count {
				s := share(t, tr.At(a), o)
				if math.Abs(s.Mean-n) > 1e-9 || math.Abs(s.Least-n) > 1e-6 || math.Abs(s.Most-n) > 1e-6 {
					rt.Fatalf("%s in %s: %+v, want %v g", o, a, s, n)
				}
			}
		}
	})
}

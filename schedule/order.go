package schedule

import (
	"cmp"
	"math"
	"slices"

	"awn/odds"
)

// Order is what pieces are made for, and when all of it is ready.
type Order struct {
	Name   string
	Runs   []int
	DueH   float64 // the earliest that any of its pieces was given; NaN where none was
	Ready  Moment  // NaN where nobody can say of one of its pieces
	InTime odds.Proportion
}

// Orders are the orders that runs are for, the earliest due first. An order is
// ready with the last of its pieces; draws of the same number go together, for
// what the model is off by it is off by in all of them.
func Orders(runs []Run) (out []Order) {
	at := map[string]int{}
	for i, r := range runs {
		if r.Order == "" {
			continue
		}
		k, known := at[r.Order]
		if !known {
			k = len(out)
			at[r.Order] = k
			out = append(out, Order{Name: r.Order, DueH: math.NaN()})
		}
		out[k].Runs = append(out[k].Runs, i)
		if !math.IsNaN(r.Due) && !(out[k].DueH <= r.Due) {
			out[k].DueH = r.Due
		}
	}
	for k := range out {
		out[k].reckon(runs)
	}
	slices.SortStableFunc(out, func(a, b Order) int { return cmp.Compare(orNever(a.DueH), orNever(b.DueH)) })
	return out
}

func orNever(h float64) float64 {
	if math.IsNaN(h) {
		return neverH
	}
	return h
}

// reckon works out when all pieces of an order are ready.
func (o *Order) reckon(runs []Run) {
	draws := 0
	for _, i := range o.Runs {
		n := len(runs[i].Ready)
		if n == 0 {
			o.Ready = Moment{math.NaN(), math.NaN(), math.NaN()}
			return
		}
		draws = max(draws, n)
	}
	last := make([]float64, draws)
	for d := range last {
		last[d] = math.Inf(-1)
		for _, i := range o.Runs {
			last[d] = max(last[d], runs[i].Ready[d%len(runs[i].Ready)])
		}
	}
	slices.Sort(last)
	o.Ready = Moment{odds.Quantile(last, 0.5), odds.Quantile(last, 0.1), odds.Quantile(last, 0.9)}
	if math.IsNaN(o.DueH) {
		return
	}
	o.InTime = odds.Proportion{Of: draws}
	for _, h := range last {
		if h <= o.DueH {
			o.InTime.Hits++
		}
	}
}

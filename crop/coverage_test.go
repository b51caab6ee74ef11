package crop

import (
	"flag"
	"math"
	"math/rand/v2"
	"testing"
)

var surveys = flag.Int("surveys", 0, "how many surveys are drawn for the coverage of intervals; 0 draws a few")

// The coverage that is accepted of intervals meant for 95 %: over 400 draws
// chance alone moves it by two points; linearised intervals of ratio means fall
// somewhat short with few farms, and those of shares lie above.
const (
	leastCovered = 0.92
	leastFew     = 0.88 // of a district of 15 farms; reports mark such figures
	mostMissed   = 0.80 // of the few draws of the first tier, which only show that nothing is off by much
	fewSurveys   = 40
)

// TestIntervalsHoldTheTruth draws survey after survey of one harvest and counts
// how often the interval holds the truth. With -surveys 400 or more it is the
// check; without, a look. What it prints goes into docs/figures.md.
func TestIntervalsHoldTheTruth(t *testing.T) {
	n, least := *surveys, leastCovered
	if n == 0 {
		n, least = fewSurveys, mostMissed
	}
	h := newHarvest(rand.New(rand.NewPCG(7, 7)))
	r := rand.New(rand.NewPCG(11, 13))
	names := []string{"mean protein", "mean plump", "mean germination", "mean DON, lognormal", "share taken", "median protein", "protein of a district"}
	held, said := make([]int, len(names)), make([]int, len(names))
	truths := []float64{
		h.mean(func(b []float64) float64 { return b[0] }), h.mean(func(b []float64) float64 { return b[1] }), h.mean(func(b []float64) float64 { return b[2] }),
		h.mean(func(b []float64) float64 { return b[3] }), h.mean(acceptable), h.median(), h.district(),
	}
	for range n {
		s := h.sample(r, 5)
		d := s.Design(Options{})
		all := s.All()
		count := func(k int, low, high float64) {
			if math.IsNaN(low) || math.IsNaN(high) {
				return
			}
			said[k]++
			if low <= truths[k] && truths[k] <= high {
				held[k]++
			}
		}
		for k := range 3 {
			low, high := d.Mean(s.Column(k), all).Interval(confidence)
			count(k, low, high)
		}
		trace := s.trace(d, 3, all)
		low, high := trace.Mean.LogInterval(confidence)
		count(3, low, high)
		y := make([]float64, len(s.Samples))
		for i, x := range s.Samples {
			y[i] = acceptable([]float64{x.Readings[0].X, x.Readings[1].X})
		}
		share := d.Share(y, all, confidence)
		count(4, share.Low, share.High)
		q := d.Distribution(s.Column(0), all).Quantile(0.5, confidence)
		count(5, q.Low, q.High)
		low, high = d.Mean(s.Column(0), s.InDistrict("D0")).Interval(confidence)
		count(6, low, high)
	}
	for k, name := range names {
		covered := float64(held[k]) / float64(said[k])
		t.Logf("coverage: %-24s %5.1f %% of %d", name, 100*covered, said[k])
		if *surveys > 0 && k == len(names)-1 {
			least = leastFew
		}
		if !(covered >= least) || said[k] < n*9/10 {
			t.Errorf("%s: the interval holds the truth in %.1f %% of %d", name, 100*covered, said[k])
		}
	}
}

// median is that of protein, by tonnes.
func (h *harvest) median() float64 {
	low, high := 0.0, 1.0
	for range 60 {
		mid := (low + high) / 2
		if h.mean(func(b []float64) float64 { return map[bool]float64{true: 1}[b[0] <= mid] }) < 0.5 {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// district is the mean protein of the first district.
func (h *harvest) district() float64 {
	part := &harvest{}
	for k, st := range h.strata {
		if st.District == "D0" {
			part.strata, part.farms = append(part.strata, st), append(part.farms, h.farms[k])
		}
	}
	return part.mean(func(b []float64) float64 { return b[0] })
}

package crop

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"awn/intake"
)

// harvest is an invented one whose truth is known: farms of three varieties in
// six districts, each with its bins.
type harvest struct {
	strata []Stratum
	farms  [][]grower
}

type grower struct {
	tonnes []float64
	bins   [][]float64 // protein, plump, germination, DON
}

func newHarvest(r *rand.Rand) *harvest {
	h := &harvest{}
	for d := range 6 {
		for v := range 3 {
			h.strata = append(h.strata, Stratum{fmt.Sprintf("D%d", d), fmt.Sprintf("V%d", v)})
			var all []grower
			for range 20 + r.IntN(30) {
				var g grower
				own := 0.006 * r.NormFloat64()
				for range 1 + r.IntN(4) {
					protein := 0.105 + 0.004*float64(d-3)/3 + 0.003*float64(v-1) + own + 0.004*r.NormFloat64()
					plump := 1 / (1 + math.Exp(-2.5+60*(protein-0.105)+0.4*r.NormFloat64()))
					g.tonnes = append(g.tonnes, 60*math.Exp(0.5*r.NormFloat64()))
					g.bins = append(g.bins, []float64{protein, plump, 1 - 0.02*r.ExpFloat64(), 1e-6 * math.Exp(-1.2+60*own+0.8*r.NormFloat64())})
				}
				all = append(all, g)
			}
			h.farms = append(h.farms, all)
		}
	}
	return h
}

// mean is the truth, by tonnes.
func (h *harvest) mean(of func(bin []float64) float64) float64 {
	sum, all := 0.0, 0.0
	for _, farms := range h.farms {
		for _, g := range farms {
			for i, t := range g.tonnes {
				sum, all = sum+t*of(g.bins[i]), all+t
			}
		}
	}
	return sum / all
}

// sample draws farms in each stratum and up to two bins of each.
func (h *harvest) sample(r *rand.Rand, farms int) *Survey {
	s := &Survey{Weighting: ByFrame, Slots: true, Qualities: []Quality{
		{Key: intake.Of(intake.Protein)}, {Key: intake.Key{Factor: intake.Held, SlotM: plumpSlotM}}, {Key: intake.Of(intake.Energy)}, {Key: intake.Of(intake.DON)},
	}}
	for k, st := range h.strata {
		all := h.farms[k]
		for n, f := range r.Perm(len(all))[:farms] {
			g := all[f]
			bins := r.Perm(len(g.bins))[:min(2, len(g.bins))]
			for _, b := range bins {
				x := Sample{District: st.District, Variety: st.Variety, Farm: fmt.Sprintf("F%d-%d", k, n), Loads: 1,
					WeightT: float64(len(all)) / float64(farms) * float64(len(g.bins)) / float64(len(bins)) * g.tonnes[b]}
				for _, y := range g.bins[b] {
					x.Readings = append(x.Readings, Reading{X: y})
				}
				if don := &x.Readings[3]; don.X < 2e-7 {
					*don = Reading{X: 2e-7, Below: true}
				}
				s.Samples = append(s.Samples, x)
			}
		}
	}
	s.complete()
	return s
}

// acceptable is a contract on the invented harvest.
func acceptable(bin []float64) float64 {
	if bin[0] <= 0.115 && bin[1] >= 0.88 {
		return 1
	}
	return 0
}

// BenchmarkSurvey2000 is all that is said of 2000 samples without the course.
func BenchmarkSurvey2000(b *testing.B) {
	r := rand.New(rand.NewPCG(1, 2))
	h := newHarvest(r)
	s := h.sample(r, 20)
	for len(s.Samples) < 2000 {
		more := h.sample(r, 20)
		for i := range more.Samples {
			more.Samples[i].Farm += fmt.Sprint("-", len(s.Samples))
		}
		s.Samples = append(s.Samples, more.Samples...)
	}
	s.Samples = s.Samples[:2000]
	q := question()
	q.Buyers = append(q.Buyers, q.Buyers[0], q.Buyers[0])
	for b.Loop() {
		s.Summarise(q)
	}
	b.ReportMetric(float64(b.Elapsed())/float64(time.Second)/float64(b.N), "s/survey")
}

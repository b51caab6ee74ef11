package main

import (
	"context"
	"fmt"
	"maps"
	"math"
	"runtime"
	"strings"

	"awn/course"
	"awn/examples"
	"awn/internal/paper"
)

// truth is a way to compute what a band is held against: the piece behind the
// band, and the piece as it is taken to be in truth.
type truth struct {
	name  string
	file  string
	band  func(p *course.Piece)
	truth func(p *course.Piece)
}

// finer cuts the layers and steps of a piece in half.
func finer(p *course.Piece) {
	p.Grid = course.Grid{GerminateLayers: 40, KilnLayers: 120, StepShare: 0.5}
}

// times moves a constant of the model.
func times(key string, factor float64) func(*course.Piece) {
	return func(p *course.Piece) {
		values := maps.Clone(p.House.Parameters)
		if values == nil {
			values = map[string]float64{}
		}
		for _, line := range course.Parameters() {
			if line.Key == key {
				values[key] = factor * line.Default
			}
		}
		p.House.Parameters = values
	}
}

func asIs(*course.Piece) {}

// truths are the model's own laws on a finer grid, and laws that are wrong.
var truths = []truth{
	{"finer grid", "piece.yaml", asIs, finer},
	{"drying x 1.3", "piece.yaml", asIs, times("kiln.k.multiplier", 1.3)},
	{"breath x 1.2", "piece.yaml", asIs, times("kernel.respire.peak", 1.2)},
	{"uneven depth", "piece-uneven.yaml", func(p *course.Piece) { p.Level = true }, asIs},
}

// held are the figures whose bands are tried.
var held = []string{
	"malt.moisture_wb", "malt.extract_fine_dm", "malt.kolbach", "malt.colour_ebc", "malt.diastatic_power_wk",
	"malt.wort_beta_glucan_mg_l", "malt.friability", "malt.smm_mg_kg_dm", "steep.end.drained_wb", "germinate.end.moisture_wb",
	"kilned.break_h", "kilned.moisture_wettest_wb", "yield.per_steeped", "yield.malting_loss_dm", "cost.heat_to_air_kwh",
}

// What a band of eight draws in ten is to hold: where the laws are right, and
// where they are wrong.
const (
	heldOfRight = 0.80
	heldOfWrong = 0.70
)

// leastHeld is the share wanted of a truth. Where the laws are right it is less
// by two standard errors of a count, of which band and truths make one each.
func (r runner) leastHeld(i int) float64 {
	if i > 0 {
		return heldOfWrong
	}
	return heldOfRight - 2*math.Sqrt(2*heldOfRight*(1-heldOfRight)/float64(r.draws))
}

// runCoverage draws bands, and truths with other points on other laws, and counts
// how often the band holds the truth.
func (r runner) runCoverage() (string, error) {
	var b strings.Builder
	fmt.Fprintf(&b, "%d draws behind each band, %d truths; of a hundred truths the band from P10 to P90 holds\n\n%-28s", r.draws, r.draws, "")
	shares := make([][]float64, len(truths))
	for i, t := range truths {
		fmt.Fprintf(&b, "%15s", t.name)
		var err error
		if shares[i], err = r.covered(t); err != nil {
			return "", err
		}
	}
	sums := make([]float64, len(truths))
	for k, key := range held {
		fmt.Fprintf(&b, "\n%-28s", key)
		for i := range truths {
			mark := " "
			if shares[i][k] < r.leastHeld(i) {
				mark = "*"
			}
			fmt.Fprintf(&b, "%14.0f%s", 100*shares[i][k], mark)
			sums[i] += shares[i][k] / float64(len(held))
		}
	}
	fmt.Fprintf(&b, "\n%-28s", "mean")
	var failed []string
	for i, sum := range sums {
		fmt.Fprintf(&b, "%14.0f ", 100*sum)
		if sum < r.leastHeld(i) {
			failed = append(failed, truths[i].name)
		}
	}
	fmt.Fprintf(&b, "\n\n* fewer than the %.0f (right laws) or %.0f (wrong ones) wanted: the band is too narrow for such an error\n", 100*r.leastHeld(0), 100*heldOfWrong)
	if len(failed) > 0 {
		return b.String(), fmt.Errorf("bands too narrow in the mean: %s", strings.Join(failed, ", "))
	}
	return b.String(), nil
}

// covered is how often each figure's band holds the truth.
func (r runner) covered(t truth) ([]float64, error) {
	band, err := r.drawn(t.file, 1, t.band)
	if err != nil {
		return nil, err
	}
	truth, err := r.drawn(t.file, 2, t.truth)
	if err != nil {
		return nil, err
	}
	var out []float64
	for _, key := range held {
		within, ok := band.Find(key)
		values := truth.Values(key)
		if !ok || len(values) == 0 {
			return nil, fmt.Errorf("%s: the draws have no %s", t.name, key)
		}
		n := 0
		for _, x := range values {
			if x >= within.P10 && x <= within.P90 {
				n++
			}
		}
		out = append(out, float64(n)/float64(len(values)))
	}
	return out, nil
}

// drawn draws a piece of the examples.
func (r runner) drawn(file string, seed uint64, change func(*course.Piece)) (*course.Ensemble, error) {
	p, _, faults := paper.Load(examples.Files, file)
	if len(faults) > 0 {
		return nil, faults
	}
	change(&p)
	return course.Draw(context.Background(), &p, course.Sampling{Draws: r.draws, Seed: seed, Workers: runtime.NumCPU()})
}

package variety

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"
)

// grown is an invented trial of one plot a cell, a share of cells lost.
func grown(entries, sites, years int, lost float64) Trials {
	r := rand.New(rand.NewPCG(3, 3))
	tr := Trials{Traits: []Trait{CommonTrait("yield", "t/ha")}, Checks: []string{"V1"}}
	effect := make([]float64, entries)
	for i := range effect {
		effect[i] = 0.4 * r.NormFloat64()
	}
	for s := range sites {
		for y := range years {
			place := r.NormFloat64()
			for i := range entries {
				if r.Float64() < lost {
					continue
				}
				tr.Records = append(tr.Records, Record{Entry: fmt.Sprint("V", i+1), Site: fmt.Sprint("S", s), Year: 2001 + y, Plots: 1,
					Value: []float64{6 + place + effect[i] + 0.6*r.NormFloat64()}})
			}
		}
	}
	return tr
}

func BenchmarkAnalyse(b *testing.B) {
	for _, c := range []struct {
		name string
		Trials
	}{
		{"152x16x1", grown(152, 16, 1, 0)},
		{"240x37x1", grown(240, 37, 1, 0.16)},
		{"240x12x3", grown(240, 12, 3, 0.14)},
	} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				a, err := c.Analyse(context.Background(), Question{Trait: "yield"})
				if err != nil {
					b.Fatal(err)
				}
				if len(a.Against("V1", 0.95)) == 0 {
					b.Fatal("no comparison")
				}
			}
		})
	}
}

// All that is said of a trial, as a command says it.
func BenchmarkWeigh(b *testing.B) {
	for _, c := range []struct {
		name string
		Trials
	}{
		{"152x16x1", grown(152, 16, 1, 0)},
		{"240x37x1", grown(240, 37, 1, 0.16)},
		{"240x12x3", grown(240, 12, 3, 0.14)},
	} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				if _, err := c.Weigh(context.Background(), Brief{MoreYears: 1, MoreSites: 1, Rank: RankOptions{Draws: 4000, Seed: 1}}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

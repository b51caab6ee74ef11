package intake

import (
	"math"

	"awn/finding"
)

// Settlement is the price of a load, line by line.
type Settlement struct {
	Currency string
	Mass     Mass
	PriceT   float64 // per tonne payable, all lines together
	Lines    []Line
	Total    float64 // the sum of the lines, to the cent
	Findings []finding.Finding
}

// Line is one line of a settlement. The first is the base price and has no
// Key.
type Line struct {
	Key    Key
	Read   float64 // the reading it turns on, in the printed unit and rounded as the contract rounds
	PriceT float64 // per tonne
	Amount float64 // for the load, to the cent
}

// cents rounds money to the cent, half away from zero.
func cents(x float64) float64 { return math.Round(100*x*(1+1e-15)) / 100 }

// settle works out the price; NaN where something is missing.
func (c *Contract) settle(l *Load) Settlement {
	s := Settlement{Currency: c.Currency, PriceT: c.PriceT}
	moisture, _ := l.Value(Of(Moisture))
	dockage := l.Dockage
	s.Mass = Weigh(l.NetKg, dockage, moisture.Mid, c.Dockage, c.Shrink)
	tonnes := s.Mass.PayableKg / 1000
	add := func(line Line) {
		line.Amount = cents(line.PriceT * tonnes)
		s.Lines = append(s.Lines, line)
		s.Total += line.Amount
	}
	add(Line{Read: math.NaN(), PriceT: c.PriceT})
	for _, t := range c.Terms {
		if t.Rule == nil {
			continue
		}
		x := HalfUp(t.In.printed(t.value(l).Mid), t.Decimals)
		if math.IsNaN(x) {
			if !t.Optional {
				s.PriceT = math.NaN()
			}
			continue
		}
		per := t.Rule.Adjust(x, c.Boundary)
		if math.IsNaN(per) {
			s.Findings = append(s.Findings, beyondRule(t.Column, x))
		}
		s.PriceT += per
		if per != 0 {
			add(Line{Key: t.Key, Read: x, PriceT: per})
		}
	}
	s.Total = cents(s.Total)
	if math.IsNaN(s.PriceT) {
		s.Total = math.NaN()
	}
	s.Findings = append(s.Findings, s.Mass.Findings()...)
	return s
}

// Totals are many loads of one contract together.
type Totals struct {
	Loads     map[Decision]int
	NetKg     float64 // of the loads taken
	PayableKg float64
	Amount    float64
	Unpriced  int // taken, but a figure is missing that the price needs
}

// Sum adds up what was judged. Loads that are held or refused count as loads
// only.
func Sum(judgements []Judgement) Totals {
	t := Totals{Loads: map[Decision]int{}}
	for _, j := range judgements {
		t.Loads[j.Decision]++
		if !j.Taken() {
			continue
		}
		if math.IsNaN(j.Settlement.Total) {
			t.Unpriced++
			continue
		}
		t.NetKg += j.Settlement.Mass.NetKg
		t.PayableKg += j.Settlement.Mass.PayableKg
		t.Amount = cents(t.Amount + j.Settlement.Total)
	}
	return t
}

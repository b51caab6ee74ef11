package germinate

import (
	"math"

	"awn/barley"
	"awn/finding"
)

// Analysis is what growth makes of corns, as a laboratory would find it in
// their malt. Fractions are 0 to 1; per dry matter where they have a basis.
type Analysis struct {
	AgeD               float64
	BetaGlucan         float64 // kg/kg
	WortBetaGlucanMgL  float64
	Friability         float64
	Kolbach            float64
	FANMg100g          float64
	AlphaAmylaseDU     float64
	DiastaticPowerASBC float64
	LimitDextrinase    float64 // share of what long growth gives
	ViscosityMPas      float64
	ExtractFine        float64 // kg/kg
	CoarseFineGap      float64 // kg/kg
}

// Modification is what a piece has become: the mean, the mean without its idle
// corns, the least grown layer beside them, and the corns by number.
type Modification struct {
	Mean, Living, Worst Analysis
	WorstColumn         int
	WorstLayer          int
	Layers              []Analysis // per cell, as barley.Grain counts them

	// Of all corns by number.
	Acrospire   float64    // mean, of the length of the corn
	Quarters    [5]float64 // up to 1/4, 1/2, 3/4, 1 of the corn, and beyond
	Overgrown   float64    // acrospire beyond the corn
	Undergrown  float64    // acrospire below half of the corn
	WholeCorns  float64    // wholly unmodified
	PartlyCorns float64    // partly unmodified, the wholly so left out
	Idle        float64    // dead, dormant or drowned
}

// Modification assesses a piece of grain, green or kilned. The figures of
// enzymes are those of malt from a pale kiln, scaled by what Heat has left.
// Analyses are means by dry matter.
func (c *Constants) Modification(g *barley.Grain, lot *barley.Lot) Modification {
	m := Modification{Layers: make([]Analysis, g.Cells())}
	var all, living heap
	total := g.TotalDryKg()
	a := assessor{c: c, barleyGlucan: lot.BetaGlucan.Mid, protein: lot.Protein.Mid,
		kernelDryMg: lot.KernelMassMg.Mid * (1 - lot.Moisture.Mid)}
	worst := math.Inf(-1)
	for cell := range m.Layers {
		var layer heap
		dry, ages := g.Of(g.DryKg, cell), g.Of(g.AgeD, cell)
		here := g.CellDryKg(cell) / total
		for k, class := range g.Classes {
			corn := a.corn(ages[k], g.Heat[cell])
			layer.add(&corn, dry[k])
			all.add(&corn, dry[k])
			if !class.Idle {
				living.add(&corn, dry[k])
			}
			m.count(c, class, corn, lot.BetaGlucan.Mid, here*class.Number)
		}
		m.Layers[cell] = a.settle(layer)
		if b := m.Layers[cell].BetaGlucan; b > worst {
			worst, m.WorstColumn, m.WorstLayer = b, cell/g.Layers, cell%g.Layers
		}
	}
	m.Mean, m.Living = a.settle(all), a.settle(living)
	m.Worst = m.Layers[g.Cell(m.WorstColumn, m.WorstLayer)]
	m.Undergrown = m.Quarters[0] + m.Quarters[1]
	m.Overgrown = m.Quarters[4]
	return m
}

// count adds corns of one class, by number.
func (m *Modification) count(c *Constants, class barley.Class, corn Analysis, barleyGlucan, number float64) {
	length := c.Acrospire(corn.AgeD)
	m.Acrospire += number * length
	m.Quarters[min(max(int(math.Ceil(4*length))-1, 0), 4)] += number
	switch dissolved := 1 - corn.BetaGlucan/barleyGlucan; {
	case dissolved < c.WholeBelow:
		m.WholeCorns += number
	case dissolved < c.PartlyBelow:
		m.PartlyCorns += number
	}
	if class.Idle {
		m.Idle += number
	}
}

// assessor turns ages into analyses for one lot.
type assessor struct {
	c                                  *Constants
	barleyGlucan, protein, kernelDryMg float64
}

// corn is the analysis of corns of one age from one layer, as far as it adds up
// by dry matter.
func (a *assessor) corn(ageD float64, h barley.Heat) Analysis {
	alpha, power := Survival(h)
	glucan := a.c.BetaGlucan(a.barleyGlucan, ageD)
	return Analysis{
		AgeD:               ageD,
		BetaGlucan:         glucan,
		Friability:         a.c.Friability(glucan, a.barleyGlucan),
		Kolbach:            a.c.Kolbach(ageD),
		AlphaAmylaseDU:     a.c.AlphaAmylase(ageD) * alpha,
		DiastaticPowerASBC: a.c.DiastaticPower(ageD) * power,
		LimitDextrinase:    a.c.LimitDextrinase(ageD),
		ExtractFine:        a.c.ExtractFine(ageD, a.protein, a.kernelDryMg),
	}
}

// settle divides the sums and adds what follows from the means.
func (a *assessor) settle(h heap) Analysis {
	var mean heap
	mean.add(&h.sum, 1/h.kg)
	out := mean.sum
	out.WortBetaGlucanMgL = a.c.WortBetaGlucan(out.BetaGlucan)
	out.ViscosityMPas = a.c.Viscosity(out.WortBetaGlucanMgL)
	out.CoarseFineGap = a.c.CoarseFineGap(out.BetaGlucan, a.barleyGlucan)
	out.FANMg100g = a.c.FAN(out.Kolbach, a.protein)
	return out
}

// heap gathers corns by dry matter.
type heap struct {
	sum Analysis
	kg  float64
}

func (h *heap) add(a *Analysis, kg float64) {
	h.kg += kg
	s := &h.sum
	s.AgeD += kg * a.AgeD
	s.BetaGlucan += kg * a.BetaGlucan
	s.Friability += kg * a.Friability
	s.Kolbach += kg * a.Kolbach
	s.AlphaAmylaseDU += kg * a.AlphaAmylaseDU
	s.DiastaticPowerASBC += kg * a.DiastaticPowerASBC
	s.LimitDextrinase += kg * a.LimitDextrinase
	s.ExtractFine += kg * a.ExtractFine
}

// Findings appends what the corns of finished green malt have to say.
func (m *Modification) Findings(dst []finding.Finding) []finding.Finding {
	if m.WholeCorns > mostWhole {
		f := finding.New("germinate.corns.unmodified", finding.Caution, "germinate",
			finding.Figure{Name: "whole_corns", Value: m.WholeCorns},
			finding.Figure{Name: "partly_corns", Value: m.PartlyCorns},
			finding.Figure{Name: "idle", Value: m.Idle})
		f.Act, f.Chance, f.Cost, f.Source = "act.germinate.longer-or-sound-barley", 0.6, 0.03, practice
		dst = append(dst, f)
	}
	if m.Overgrown > mostOvergrown {
		f := finding.New("germinate.corns.overgrown", finding.Caution, "germinate",
			finding.Figure{Name: "overgrown", Value: m.Overgrown},
			finding.Figure{Name: "acrospire", Value: m.Acrospire})
		f.Act, f.Chance, f.Cost, f.Source = "act.germinate.shorter-or-colder", 0.5, 0.02, practice
		dst = append(dst, f)
	}
	return dst
}

// Shares of corns by number that buyers grumble at. Assumed: common practice,
// no source.
const (
	mostWhole     = 0.03
	mostOvergrown = 0.05
)

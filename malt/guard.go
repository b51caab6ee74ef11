package malt

import (
	"math"

	"awn/lab"
)

// Names of the published precision behind the figures of a malt analysis.
const (
	matrix          = "malt"
	totalMethod     = "combustion"
	solubleMethod   = "combustion, Congress wort"
	totalAnalyte    = "nitrogen"
	solubleAnalyte  = "soluble_nitrogen"
	ofTheOnlyMethod = ""
)

// guard is how far two laboratories may differ at this figure, 19 times out of
// 20; NaN where no precision is published for it on that basis.
func (a Analysis) guard(l Limit, f Found) float64 {
	x := f.Value.Mid
	switch l.Parameter {
	case Moisture:
		return reproducibility("moisture", ofTheOnlyMethod, x)
	case Protein:
		if l.Basis == Dry {
			return lab.Protein(reproducibility(totalAnalyte, totalMethod, lab.Nitrogen(x)))
		}
	case SolubleProtein:
		if l.Basis == Dry {
			return lab.Protein(reproducibility(solubleAnalyte, solubleMethod, lab.Nitrogen(x)))
		}
	case KolbachIndex:
		return a.guardKolbach()
	case DiastaticPower:
		if l.Basis == ScaleWK {
			return reproducibility("diastatic_power", ofTheOnlyMethod, x)
		}
	case AlphaAmylase:
		if l.Basis == Dry {
			return reproducibility("alpha_amylase", ofTheOnlyMethod, x)
		}
	}
	return math.NaN()
}

// guardKolbach carries the precision of both nitrogens into their ratio.
func (a Analysis) guardKolbach() float64 {
	soluble, reason := a.On(SolubleProtein, Dry)
	total, reason2 := a.On(Protein, Dry)
	if reason != Given || reason2 != Given {
		return math.NaN()
	}
	sn, tn := lab.Nitrogen(soluble.Value.Mid), lab.Nitrogen(total.Value.Mid)
	return lab.RatioReproducibility(sn, reproducibility(solubleAnalyte, solubleMethod, sn), tn, reproducibility(totalAnalyte, totalMethod, tn))
}

func reproducibility(analyte, method string, x float64) float64 {
	p, ok := lab.FindPrecision(analyte, matrix, method)
	if !ok {
		return math.NaN()
	}
	return p.Reproducibility(x)
}

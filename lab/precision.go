package lab

import (
	"math"

	"awn/odds"
)

// Precision is how far two results of one method on one sample may differ, 19
// times out of 20: within one laboratory (r95) and between two (R95). Where
// the publication gives a span, it runs over the range of figures.
type Precision struct {
	Analyte    string // key of the figure, as in a specification
	Matrix     string // barley, malt
	Method     string
	From, To   float64 // range of figures it was found on
	R95        Span    // between two laboratories
	Repeat95   Span    // within one; NaN if not known
	Unit       string
	SourceMark odds.Standing
	Source     string // key in SOURCES.md
}

// Span is a limit at either end of the range of figures.
type Span struct {
	AtFrom, AtTo float64
}

var unknownSpan = Span{math.NaN(), math.NaN()}

func flat(x float64) Span { return Span{x, x} }

// Precisions is the table of published precision. Extract, friability,
// viscosity and beta-glucan are not in it: no figure was found.
//
// The within-laboratory limit of diastatic power is left out: its publication
// does not say which figures its span belongs to.
var Precisions = []Precision{
	{"moisture", "barley", "near infrared", 0.127, 0.158, flat(0.015), flat(0.003), "kg/kg", odds.Sourced, "Angelino 1996"},
	{"moisture", "malt", "near infrared", 0.040, 0.043, flat(0.013), flat(0.002), "kg/kg", odds.Sourced, "Angelino 1996"},
	{"nitrogen", "barley", "near infrared", 0.0157, 0.0214, flat(0.003), flat(0.001), "kg/kg dm", odds.Sourced, "Angelino 1996"},
	{"nitrogen", "malt", "near infrared", 0.0158, 0.0182, flat(0.002), flat(0.001), "kg/kg dm", odds.Sourced, "Angelino 1996"},
	{"nitrogen", "barley", "combustion", 0.0123, 0.0186, flat(0.00116), flat(0.00063), "kg/kg dm", odds.Sourced, "EBC Committee undated"},
	{"nitrogen", "malt", "combustion", 0.0123, 0.0186, flat(0.00116), flat(0.00063), "kg/kg dm", odds.Sourced, "EBC Committee undated"},
	{"soluble_nitrogen", "malt", "combustion, Congress wort", 0.00598, 0.00798, flat(0.00136), flat(0.00047), "kg/kg dm", odds.Sourced, "IOB abstract undated"},
	{"soluble_nitrogen", "malt", "combustion, hot water extract wort", 0.00534, 0.00706, flat(0.00144), flat(0.00039), "kg/kg dm", odds.Sourced, "IOB abstract undated"},
	{"diastatic_power", "malt", "EBC 4.12", 200, 600, Span{51, 110}, unknownSpan, "WK", odds.Sourced, "Glycospot undated"},
	{"alpha_amylase", "malt", "EBC 4.13", 30, 100, flat(10), Span{2, 6.7}, "DU", odds.Sourced, "Glycospot undated"},
}

// FindPrecision returns the precision of an analyte in a matrix by a method;
// an empty method takes the first in the table. It reports false where there
// is none.
func FindPrecision(analyte, matrix, method string) (Precision, bool) {
	for _, p := range Precisions {
		if p.Analyte == analyte && p.Matrix == matrix && (method == "" || p.Method == method) {
			return p, true
		}
	}
	return Precision{}, false
}

// Reproducibility is how far two laboratories may differ on a sample that
// reads x, 19 times out of 20.
//
//	R = R1 + (R2 - R1) (x - x1) / (x2 - x1)
//
// Assumed: a straight line where the publication gives a span; common practice, no source.
// Valid: within the range of figures the precision was found on; NaN outside.
func (p Precision) Reproducibility(x float64) float64 { return p.at(p.R95, x) }

// Repeatability is how far two results of one laboratory may differ on a
// sample that reads x, 19 times out of 20.
//
//	r = r1 + (r2 - r1) (x - x1) / (x2 - x1)
//
// Assumed: a straight line where the publication gives a span; common practice, no source.
// Valid: within the range of figures the precision was found on; NaN outside or if not known.
func (p Precision) Repeatability(x float64) float64 { return p.at(p.Repeat95, x) }

func (p Precision) at(s Span, x float64) float64 {
	if !(x >= p.From && x <= p.To) {
		return math.NaN()
	}
	return s.AtFrom + (s.AtTo-s.AtFrom)*(x-p.From)/(p.To-p.From)
}

// Result is one laboratory's reading with the band in which the mean of many
// laboratories lies; without a band outside the range of the precision.
func (p Precision) Result(x float64) odds.Value {
	return odds.WithDeviation(x, Deviation(p.Reproducibility(x)), odds.Measured)
}

// Deviation is the standard deviation of one result behind a limit for the
// difference of two.
//
//	s = R95 / (1.960 sqrt 2)
//
// Recalled: ISO 5725-6.
func Deviation(limit95 float64) float64 {
	return limit95 / (odds.NormalQuantile(0.975) * math.Sqrt2)
}

// RatioReproducibility is how far two laboratories may differ on the ratio of
// two figures that each measures, as in the Kolbach index.
//
//	R = (a/b) sqrt((Ra/a)² + (Rb/b)²)
//
// Assumed: independent errors, to first order; common practice, no source.
// Check: soluble 0.643 ± 0.136 % over total 1.66 ± 0.116 % gives 8.6 points.
func RatioReproducibility(a, ra, b, rb float64) float64 {
	return a / b * math.Hypot(ra/a, rb/b)
}

package malt

import (
	"math"

	"awn/odds"
	"awn/unit"
)

// Result is one figure of an analysis on the basis it was found on.
type Result struct {
	Value  odds.Value
	Basis  Basis
	Method string // body and number, or empty
}

// Analysis is what is known of a malt. What nobody found is absent.
type Analysis map[Parameter]Result

// Reason says why a figure cannot be given on a basis.
type Reason string

// The reasons.
const (
	Given            Reason = ""                 // it can
	Missing          Reason = "missing"          // nobody found it
	UnknownParameter Reason = "unknown"          // not one of the set
	BasisMissing     Reason = "basis-missing"    // a basis is needed and none is stated, or not one it can have
	MoistureMissing  Reason = "moisture-missing" // the basis turns on the moisture
	ExtractMissing   Reason = "extract-missing"  // the basis turns on the extract
	OutsideScale     Reason = "outside-scale"    // the conversion does not reach that far
	LimitEmpty       Reason = "limit-empty"      // the limit has neither end
)

// Found is a figure on the basis that was asked for, with what it came from.
type Found struct {
	Value  odds.Value
	On     Basis       // the basis it was found on
	From   []Parameter // the other figures that entered
	Method string
}

// notFound is a figure that nobody has.
var notFound = Found{Value: odds.Alone(math.NaN(), "")}

// On returns a figure on a basis. A figure on another basis is converted, and
// From names what that took; the Kolbach index and the difference of extracts
// are worked out from their parts where they were not found themselves.
func (a Analysis) On(p Parameter, basis Basis) (Found, Reason) {
	if !p.Known() {
		return notFound, UnknownParameter
	}
	if !p.Takes(basis) {
		return notFound, BasisMissing
	}
	r, ok := a[p]
	if !ok || !r.Value.Known() {
		return a.fromParts(p, basis)
	}
	if !p.Takes(r.Basis) {
		return notFound, BasisMissing
	}
	f, reason := a.convert(r, basis)
	if reason == Given && !f.Value.Known() {
		return notFound, OutsideScale
	}
	return f, reason
}

// convert carries a result to another basis.
func (a Analysis) convert(r Result, to Basis) (Found, Reason) {
	f := Found{Value: r.Value, On: r.Basis, Method: r.Method}
	if r.Basis == to {
		return f, Given
	}
	if scale, ok := scales[step{r.Basis, to}]; ok {
		f.Value = r.Value.Map(scale)
		return f, Given
	}
	moisture, reason := a.moisture()
	if reason != Given {
		return notFound, reason
	}
	f.From = []Parameter{Moisture}
	switch (step{r.Basis, to}) {
	case step{AsIs, Dry}:
		f.Value = odds.Combine(func(x []float64) float64 { return x[0] / drySolids(unit.WetBasis(x[1])) }, r.Value, moisture)
	case step{Dry, AsIs}:
		f.Value = odds.Combine(func(x []float64) float64 { return x[0] * drySolids(unit.WetBasis(x[1])) }, r.Value, moisture)
	default:
		return a.convertWort(f, to, moisture)
	}
	return f, Given
}

// convertWort carries what was found in the Congress wort to the malt, or back.
func (a Analysis) convertWort(f Found, to Basis, moisture odds.Value) (Found, Reason) {
	extract, reason := a.On(ExtractFine, Dry)
	if reason == Missing {
		return notFound, ExtractMissing
	} else if reason != Given {
		return notFound, reason
	}
	f.From = append(f.From, ExtractFine)
	f.Value = odds.Combine(func(x []float64) float64 {
		dry, w := ExtractDry(x[1]), unit.WetBasis(x[2])
		malt := MaltGLitre(CongressWort(dry.AsIs(w), w), dry)
		if to == Per100g {
			return OfMalt(x[0], malt) * mgPer100g
		}
		return OfWort(x[0]/mgPer100g, malt)
	}, f.Value, extract.Value, moisture)
	return f, Given
}

// mgPer100g turns kg/kg into mg per 100 g.
const mgPer100g = 1e5

// moisture returns the moisture, which every change of basis needs.
func (a Analysis) moisture() (odds.Value, Reason) {
	r, ok := a[Moisture]
	switch {
	case !ok || !r.Value.Known():
		return odds.Value{}, MoistureMissing
	case r.Basis != WetBasis:
		return odds.Value{}, BasisMissing
	}
	return r.Value, Given
}

// fromParts works out a figure that was not found itself.
func (a Analysis) fromParts(p Parameter, basis Basis) (Found, Reason) {
	switch p {
	case KolbachIndex:
		return a.ofTwo(SolubleProtein, Protein, Dry, basis, func(x []float64) float64 { return Kolbach(x[0], x[1]) })
	case ExtractGap:
		return a.ofTwo(ExtractFine, ExtractCoarse, basis, basis, func(x []float64) float64 { return x[0] - x[1] })
	}
	return notFound, Missing
}

// ofTwo is f of two figures on one basis, given on the basis asked for.
func (a Analysis) ofTwo(p, q Parameter, on, asked Basis, f func(x []float64) float64) (Found, Reason) {
	first, reason := a.On(p, on)
	if reason != Given {
		return notFound, reason
	}
	second, reason := a.On(q, on)
	if reason != Given {
		return notFound, reason
	}
	out := Found{Value: odds.Combine(f, first.Value, second.Value), On: asked, From: []Parameter{p, q}}
	if len(first.From)+len(second.From) > 0 {
		out.From = append(out.From, Moisture)
	}
	if !out.Value.Known() {
		return notFound, OutsideScale
	}
	return out, Given
}

// step is a change from one basis to another.
type step struct{ from, to Basis }

// scales are the changes that need no other figure. Diastatic power is counted
// on dry matter by the method of the EBC and as-is by that of the ASBC; the
// line between the two is drawn, as the trade draws it, without the moisture.
var scales = map[step]func(float64) float64{
	{ScaleEBC, ScaleSRM}:      func(x float64) float64 { return float64(ColourEBC(x).SRM()) },
	{ScaleSRM, ScaleEBC}:      func(x float64) float64 { return float64(ColourSRM(x).EBC()) },
	{ScaleEBC, ScaleLovibond}: func(x float64) float64 { return float64(ColourEBC(x).Lovibond()) },
	{ScaleSRM, ScaleLovibond}: func(x float64) float64 { return float64(ColourSRM(x).EBC().Lovibond()) },
	{ScaleLovibond, ScaleEBC}: func(x float64) float64 { return float64(Lovibond(x).EBC()) },
	{ScaleLovibond, ScaleSRM}: func(x float64) float64 { return float64(Lovibond(x).SRM()) },
	{ScaleWK, ScaleLintner}:   func(x float64) float64 { return float64(WindischKolbach(x).Lintner()) },
	{ScaleLintner, ScaleWK}:   func(x float64) float64 { return float64(Lintner(x).WindischKolbach()) },
}

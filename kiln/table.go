package kiln

import (
	"math"

	"awn/air"
	"awn/barley"
	"awn/unit"
)

// The march asks for the same few functions of temperature a hundred thousand
// times. No uncertain parameter enters these tables, so all runs share them.
const (
	leastC  = -40.0
	mostC   = 130.0
	perC    = 8 // points per °C: straight lines between them are within 8e-6
	points  = int((mostC-leastC)*perC) + 1
	wettest = 1.5
	perDB   = 2048
	decayTo = 32 // e^-32 is 1e-14, taken as 0
	perUnit = 64
)

// row is what the march needs to know at one temperature.
type row struct {
	satPa   float64 // saturation pressure
	gabPa   float64 // saturation pressure over C of the isotherm
	gabAB   float64 // A B of the isotherm
	gabB1   float64 // B - 1
	wetRate float64 // of drying, 1/s
	dryRate float64
	lnRatio float64 // ln of the dry rate over the wet rate
}

var rows = func() (t [points]row) {
	gab := barley.MaltIsotherm(barley.Constants{MaltEMC: 1})
	for i := range t {
		c := unit.Celsius(leastC + float64(i)/perC)
		T := float64(c.Kelvin())
		ps := air.SaturationPressure(c)
		ab, b1, gc := gab.At(c).Coefficients()
		wet, dry := wetRate*math.Exp(wetRateK/T), dryRate*math.Exp(dryRateK/T)
		t[i] = row{ps, ps / gc, ab, b1, wet, dry, math.Log(dry / wet)}
	}
	return t
}()

// between finds the two rows around a temperature and how far it is from the
// first to the second. Beyond the table, and for NaN, the answer is NaN.
func between(tempC float64) (low, high *row, part float64) {
	u := (tempC - leastC) * perC
	if !(u >= 0 && u < float64(points-1)) {
		return &rows[0], &rows[1], math.NaN()
	}
	i := int(u)
	return &rows[i], &rows[i+1], u - float64(i)
}

// sorptions holds barley's heat of sorption, all its water's, as kg of water
// evaporated per kg dry matter, by moisture. Straight lines between its points
// are within 3e-7, which is 0.0005 K.
var sorptions = func() (t [wettest*perDB + 2]float64) {
	for i := range t {
		t[i] = -barley.SorptionShare / barley.SorptionDecay * math.Expm1(-barley.SorptionDecay*float64(i)/perDB)
	}
	return t
}()

// sorption looks it up. Outside 0 to 1.5 kg per kg, and for NaN, it is NaN.
func sorption(moistureDB float64) float64 {
	u := moistureDB * perDB
	if !(u >= 0 && u <= wettest*perDB) {
		return math.NaN()
	}
	i := int(u)
	return sorptions[i] + (u-float64(i))*(sorptions[i+1]-sorptions[i])
}

var decays = func() (t [decayTo*perUnit + 1]float64) {
	for i := range t {
		t[i] = math.Exp(-float64(i) / perUnit)
	}
	return t
}()

// decay is e^-x for x of 0 and more: a tabled step times the series of the rest.
// Rounding may bring x a little below 0; further below, and for NaN, it is NaN.
func decay(x float64) float64 {
	if !(x > -1./perUnit && x < decayTo) {
		if x >= decayTo {
			return 0
		}
		return math.NaN()
	}
	i := int(x * perUnit)
	r := float64(i)/perUnit - x
	return decays[i] * (1 + r*(1+r*(1./2+r*(1./6+r*(1./24)))))
}

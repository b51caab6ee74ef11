package kiln

import (
	"math"

	"awn/barley"
)

const (
	gasJMolK  = 8.314  // as the fits below were made
	cureK     = 353.15 // 80 °C, where enzyme losses are stated
	cureWB    = 0.05   // and the moisture
	wettestWB = 0.45   // beyond which moisture adds nothing
	smmC      = 100.0  // where the half-life of SMM is stated
	smmPerK   = 6.0    // that double its loss
	colourK   = 357.15 // 84 °C, where the colour rate is stated
	colourJ   = 125e3  // activation, J/mol
)

// Enzyme is how an enzyme dies on the kiln: first order, faster where it is
// hot and where the malt is wet.
type Enzyme struct {
	PerH     float64 // at 80 °C and 5 % wet basis
	JMol     float64 // activation
	Moisture float64 // rise of ln rate per unit of moisture
}

// Enzymes are the four in the order of barley.Heat.
func (c *Constants) Enzymes() [4]Enzyme {
	return [4]Enzyme{
		{c.Alpha, 116.3e3, byStarch},
		{c.Beta, 67.4e3, byStarch},
		{c.Endo, 102.7e3, byGlucan},
		{c.Exo, 87.7e3, byGlucan},
	}
}

// How much faster wet enzymes die. Assumed: judgement, no source.
const (
	byStarch = 10.0
	byGlucan = 12.0
)

// Loss is the rate at which the enzyme is lost, 1/h.
//
//	k = k80 exp(-(E/R)(1/T - 1/353.15) + c (min(w, 0.45) - 0.05))      (T in K)
//
// Assumed: two numbers fitted to the survivals that textbooks give for a pale
// and a dark malt, the effect of moisture judged. The form is in the
// literature; its own authors found it coarse: an indication only.
// Valid: -40 to 130 °C, moisture 0 to 1; NaN outside.
// Check: survivals of alpha-amylase, beta-amylase, endo- and exo-beta-glucanase
// near 0.93, 0.60, 0.70 and 0.40 on the pale programme.
func (e Enzyme) Loss(tempC, moistureWB float64) float64 {
	if !(tempC >= leastC && tempC <= mostC && moistureWB >= 0 && moistureWB <= 1) {
		return math.NaN()
	}
	return e.PerH * e.byHeat(tempC) * math.Exp(e.Moisture*(min(moistureWB, wettestWB)-cureWB))
}

func (e Enzyme) byHeat(tempC float64) float64 {
	return math.Exp(-e.JMol / gasJMolK * (1/(tempC+zeroC) - 1/cureK))
}

// SMMLoss is the rate at which S-methylmethionine, the precursor of dimethyl
// sulphide, is split, 1/h.
//
//	k = 60 ln 2/h · 2^((t - 100)/6)      (h the half-life at 100 °C in min)
//
// Source: Wilson 1979 for the half-life; Dickenson 1979 (recalled) for its
// halving with every 6 K. Both were measured in wort.
// Assumed: the same in malt of any moisture.
// Valid: -40 to 130 °C; NaN outside.
// Check: 35 min at 100 °C, twice that at 94 °C.
func (c *Constants) SMMLoss(tempC float64) float64 {
	if !(tempC >= leastC && tempC <= mostC) {
		return math.NaN()
	}
	return 60 * math.Ln2 / c.SMM * smmByHeat(tempC)
}

func smmByHeat(tempC float64) float64 { return math.Exp2((tempC - smmC) / smmPerK) }

// ColourRate is the rate at which malt gains colour, EBC units per hour.
//
//	dC/dt = 0.328 exp(-(125000/R)(1/T - 1/357.15))      (T in K)
//
// Assumed: rate tuned so that pale malt ends at 3.3 EBC, common practice;
// zero order with this activation is in the literature (Coonce, not read).
// Valid: -40 to 130 °C; NaN outside. Blind to soluble nitrogen and sugars.
func (c *Constants) ColourRate(tempC float64) float64 {
	if !(tempC >= leastC && tempC <= mostC) {
		return math.NaN()
	}
	return c.Colour * colourByHeat(tempC)
}

func colourByHeat(tempC float64) float64 {
	return math.Exp(-colourJ / gasJMolK * (1/(tempC+zeroC) - 1/colourK))
}

// cureItems counts what is summed per layer: four enzymes, SMM, colour.
const cureItems = 6

// cureRows holds the dependence of the six on temperature alone.
var cureRows = func() (t [points][cureItems]float64) {
	enzymes := new(Constants).Enzymes()
	for i := range t {
		c := leastC + float64(i)/perC
		for n, e := range enzymes {
			t[i][n] = e.byHeat(c)
		}
		t[i][4], t[i][5] = smmByHeat(c), colourByHeat(c)
	}
	return t
}()

// cureWets holds how moisture, wet basis, speeds the losses that depend on
// starch and on glucan. Straight lines between its points are within 2e-5.
var cureWets = func() (t [wettestWB*perWB + 2][2]float64) {
	for i := range t {
		w := min(float64(i)/perWB, wettestWB) - cureWB
		t[i] = [2]float64{math.Exp(byStarch * w), math.Exp(byGlucan * w)}
	}
	return t
}()

const perWB = 1000

// cure adds losses and colour at the present state for dtS. Called at both ends
// of each step for half of it, it makes the trapezoidal rule.
func (r *Run) cure(dtS float64) {
	hours := dtS / 3600
	for n := range r.columns {
		c := &r.columns[n]
		for i, t := range c.tempC {
			u := (t - leastC) * perC // within the table: survey has seen to it
			k := int(u)
			low, high, part := &cureRows[k], &cureRows[k+1], u-float64(k)
			m := min(c.moistureWB(i), wettestWB) * perWB
			j := int(m)
			drier, wetter, wet := &cureWets[j], &cureWets[j+1], m-float64(j)
			starch := hours * (drier[0] + wet*(wetter[0]-drier[0]))
			glucan := hours * (drier[1] + wet*(wetter[1]-drier[1]))
			sum := (*[cureItems]float64)(c.cure[i*cureItems:])
			sum[0] += starch * r.perH[0] * (low[0] + part*(high[0]-low[0]))
			sum[1] += starch * r.perH[1] * (low[1] + part*(high[1]-low[1]))
			sum[2] += glucan * r.perH[2] * (low[2] + part*(high[2]-low[2]))
			sum[3] += glucan * r.perH[3] * (low[3] + part*(high[3]-low[3]))
			sum[4] += hours * r.perH[4] * (low[4] + part*(high[4]-low[4]))
			sum[5] += hours * r.perH[5] * (low[5] + part*(high[5]-low[5]))
		}
	}
}

// cured is what the sums of one layer did to the grain.
func cured(green barley.Heat, sum []float64) barley.Heat {
	return barley.Heat{
		AlphaAmylase:  green.AlphaAmylase * math.Exp(-sum[0]),
		BetaAmylase:   green.BetaAmylase * math.Exp(-sum[1]),
		EndoGlucanase: green.EndoGlucanase * math.Exp(-sum[2]),
		ExoGlucanase:  green.ExoGlucanase * math.Exp(-sum[3]),
		SMM:           green.SMM * math.Exp(-sum[4]),
		ColourEBC:     green.ColourEBC + sum[5],
	}
}

package kiln

import (
	"math"

	"awn/air"
	"awn/unit"
)

// survey takes stock after a step: temperatures of all layers, and an error if
// one is not a number or beyond the tables.
func (r *Run) survey() error {
	for n := range r.columns {
		c := &r.columns[n]
		for i := range c.water {
			t, _ := grainC(c.heat[i]*c.perDry[i], c.water[i]*c.perDry[i])
			if !(t > leastC && t < mostC && c.water[i] >= 0) {
				return r.fault("layer %d of column %d came to %.1f °C with %.3g kg/m² of water", i+1, n+1, t, c.water[i])
			}
			c.tempC[i] = t
			c.peakC[i] = max(c.peakC[i], t)
		}
	}
	return nil
}

// watch reads the air of this moment for the break, and notes what a step of
// dtS from here on shows of the plant.
func (r *Run) watch(dtS float64) {
	worst := 0.0
	heating := r.heating()
	for n := range r.columns {
		wet := r.columns[n].wettest()
		worst = max(worst, wet)
		r.watches[n].see(r.hour, r.offs[n].tempC, r.humidity(r.offs[n]), heating, wet)
	}
	off := r.view.off
	r.whole().see(r.hour, off.tempC, r.humidity(off), heating, worst)
	r.note(dtS)
}

// whole watches the air off the whole bed.
func (r *Run) whole() *watch { return &r.watches[len(r.columns)] }

func (r *Run) heating() bool {
	if r.setup.Supply != nil {
		return r.view.on.tempC > heatingC
	}
	return r.asked(r.hour).airOnC > heatingC && r.view.heaterJKg > heatingJKg
}

func (r *Run) humidity(s stream) float64 {
	return float64(air.RelativeHumidity(unit.Celsius(s.tempC), unit.HumidityRatio(s.w), r.setup.PressurePa))
}

// wettest is the moisture of the wettest layer, wet basis.
func (c *column) wettest() float64 {
	worst := 0.0
	for i, w := range c.water {
		worst = max(worst, w*c.perDry[i])
	}
	return worst / (1 + worst)
}

// Break returns what was seen of the break in the air off a column, or off the
// whole bed for a column of -1.
func (r *Run) Break(column int) Break {
	if column < 0 {
		return r.whole().found
	}
	return r.watches[column].found
}

// AirShare is the air per floor of a column over that of the whole bed, when air
// last moved; NaN if it never did.
//
// Definition.
func (r *Run) AirShare(column int) float64 {
	if r.share[column] == 0 {
		return math.NaN()
	}
	return r.share[column]
}

// broken says whether the break of the whole bed has been seen.
func (r *Run) broken() bool { return !math.IsNaN(r.whole().found.AtH) }

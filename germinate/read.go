package germinate

import (
	"math"

	"awn/air"
	"awn/programme"
)

// Read sets v to the readings of the moment.
func (r *Run) Read(v *programme.Values) {
	*v = programme.Blank()
	n := &r.now
	dry, water := r.totals()
	v[programme.Moisture] = water / (dry + water)
	v[programme.Drained] = v[programme.Moisture]
	v[programme.DryMatter] = dry
	v[programme.DriestLayer], v[programme.WorstLayer] = r.moistures()
	v[programme.TempMean], v[programme.TempLow], v[programme.TempHigh] = r.temps()
	v[programme.TempGap] = v[programme.TempHigh] - v[programme.TempLow]
	v[programme.Respiration] = 1000 * n.burnKgH / dry
	v[programme.Chit] = r.chits.Share(r.grain)
	r.readGrowth(v)
	r.readGas(v)
	v[programme.Flow] = r.totalKgS() / r.setup.Vessel.AreaM2
	v[programme.AirOn] = float64(n.plenum.on.TempC)
	v[programme.AirOnRH] = humidity(n.plenum.on)
	v[programme.AirOff] = float64(n.back.TempC)
	v[programme.AirOffRH] = humidity(n.back)
	if r.setup.blown() {
		v[programme.Recirculation] = 1 - n.plenum.fresh
		v[programme.FanPower] = n.fanW / wattsPerKW
		v[programme.HeaterPower] = n.plenum.heatW / wattsPerKW
	}
}

func humidity(s air.State) float64 {
	return float64(air.RelativeHumidity(s.TempC, s.W, s.PressurePa))
}

func (r *Run) totals() (dryKg, waterKg float64) {
	for i := range r.cells {
		dryKg += r.cells[i].dryKg
		waterKg += r.cells[i].waterKg
	}
	return dryKg, waterKg
}

func (r *Run) totalKg() float64 {
	dry, water := r.totals()
	return dry + water
}

func (r *Run) moisture() float64 {
	dry, water := r.totals()
	return water / (dry + water)
}

// moistures are those of the driest and the wettest layer, wet basis.
func (r *Run) moistures() (driest, wettest float64) {
	driest, wettest = math.Inf(1), math.Inf(-1)
	for i := range r.cells {
		m := r.cells[i].waterKg / (r.cells[i].dryKg + r.cells[i].waterKg)
		driest, wettest = min(driest, m), max(wettest, m)
	}
	return driest, wettest
}

// temps are the mean by dry matter and the coldest and warmest layer.
func (r *Run) temps() (mean, low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	dry := 0.0
	for i := range r.cells {
		c := &r.cells[i]
		mean += c.dryKg * c.tempC
		dry += c.dryKg
		low, high = min(low, c.tempC), max(high, c.tempC)
	}
	return mean / dry, low, high
}

// acrospireBins is how many lengths of acrospire are told apart when corns are
// counted by it.
const (
	acrospireBins = 240
	binsPerLength = acrospireBins / longestAcrospire
)

// readGrowth reads age and acrospire. Corns are counted by number: those of a
// class stand in the layers as the dry matter of the piece does.
func (r *Run) readGrowth(v *programme.Values) {
	clear(r.acro)
	g, stride := r.grain, len(r.grain.Classes)
	c, acro := r.setup.Constants, r.acro
	var age, dry, mean, count float64
	for cell := range r.cells {
		here := r.cells[cell].dryKg
		dry += here
		ages, kg := g.AgeD[cell*stride:][:stride], g.DryKg[cell*stride:][:stride]
		for k, a := range ages {
			age += kg[k] * a
			number := g.Classes[k].Number * here
			length := c.Acrospire(a)
			count += number
			mean += number * length
			acro[int(length*binsPerLength+0.5)] += number
		}
	}
	v[programme.Age] = age / dry
	v[programme.Acrospire] = mean / count
	v[programme.AcrospireP10] = quantile(r.acro, 0.1*count)
	v[programme.AcrospireP90] = quantile(r.acro, 0.9*count)
}

// quantile is the acrospire below which a number of corns lie; within a bin
// they are spread evenly.
func quantile(bins []float64, number float64) float64 {
	for i, n := range bins {
		if n >= number && n > 0 {
			x := (float64(i) - 0.5 + number/n) / binsPerLength
			return min(max(x, 0), longestAcrospire)
		}
		number -= n
	}
	return longestAcrospire
}

// readGas reads the least oxygen of any layer and the most carbon dioxide of
// any layer or the room, shares by volume.
func (r *Run) readGas(v *programme.Values) {
	oxygen, dioxide := math.Inf(1), r.now.roomCO2
	for i := range r.cells {
		oxygen = min(oxygen, r.cells[i].oxygen)
		dioxide = max(dioxide, r.cells[i].dioxide)
	}
	v[programme.OxygenLeast] = oxygenShare(oxygen)
	v[programme.CarbonDioxideMost] = dioxideShare(dioxide)
	v[programme.RoomDioxide] = dioxideShare(r.now.roomCO2)
}

// Shares by volume of a gas given in kg per kg of dry air.
func oxygenShare(kgKg float64) float64  { return kgKg * airMol / oxygenMol }
func dioxideShare(kgKg float64) float64 { return kgKg * airMol / dioxideMol }

package steep

import (
	"awn/air"
	"awn/programme"
	"awn/unit"
)

// Read sets v to the readings of the moment. Moisture is bulk, Drained has the
// film; the gases are shares by volume of the air between drained kernels.
func (r *Run) Read(v *programme.Values) {
	*v = programme.Blank()
	n := &r.now
	v[programme.Moisture] = wetBasis(r.kernelWaterKg(), n.dryKg)
	v[programme.Drained] = wetBasis(r.waterKg(), n.dryKg)
	v[programme.TempMean], v[programme.TempLow], v[programme.TempHigh] = n.tempC, n.tempC, n.tempC
	v[programme.DryMatter] = n.dryKg
	v[programme.Chit] = r.chits.Share(r.grain)
	v[programme.Age] = r.age()
	v[programme.Respiration] = gramsPerKg * n.burnKgH / n.dryKg
	if n.level > 0 {
		v[programme.WaterTemp] = n.waterC
	}
	if n.level < 1 {
		v[programme.OxygenLeast], v[programme.CarbonDioxideMost] = r.shares()
		v[programme.AirOff] = n.tempC
	}
	if n.suctionM3H > 0 {
		p := r.setup.PressurePa
		w := min(r.outsideW, float64(air.SaturationRatio(unit.Celsius(n.airC), p)))
		v[programme.AirOn] = n.airC
		v[programme.AirOnRH] = float64(air.RelativeHumidity(unit.Celsius(n.airC), unit.HumidityRatio(w), p))
		m3s := n.suctionM3H * (1 - n.level) / secondsPerHour
		v[programme.Flow] = m3s / air.SpecificVolume(unit.Celsius(n.airC), unit.HumidityRatio(w), p) / r.setup.floorM2()
	}
}

const gramsPerKg = 1000.0

func wetBasis(waterKg, dryKg float64) float64 { return waterKg / (waterKg + dryKg) }

// age is the mean growth age, by number, of the kernels that grow; NaN if none
// ever will.
func (r *Run) age() float64 {
	sum, number := 0.0, 0.0
	for i, c := range r.grain.Classes {
		if !c.Idle {
			sum += c.Number * r.grain.AgeD[i]
			number += c.Number
		}
	}
	return sum / number
}

// DryCore is the share of all kernels, by number, whose innermost shell holds
// less than the given moisture (wet basis): those that a cut test finds white.
//
// Definition.
func (r *Run) DryCore(belowWB float64) float64 {
	share := 0.0
	for i, f := range r.fractions {
		if wetBasis(r.now.soak[i].Shell[0], 1) >= belowWB {
			continue
		}
		for _, c := range r.grain.Classes[f.lo:f.hi] {
			share += c.Number
		}
	}
	return share
}

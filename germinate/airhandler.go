package germinate

import (
	"math"

	"awn/air"
	"awn/plant"
	"awn/unit"
)

// wish is the air that a programme asks for under the bed.
type wish struct {
	tempC, rh  float64
	leastFresh float64 // share of outside air, 0 to 1
}

// plenum is the air that goes under the bed, and what making it took.
type plenum struct {
	on      air.State
	fresh   float64 // share of outside air
	heatW   float64 // from the heater
	coolW   float64 // taken out by coil or chilled spray
	waterKg float64 // taken up from the humidifier, kg/s
}

// conditioner is an air handler at one airflow.
type conditioner struct {
	plant.AirHandler
	airKgS  float64
	fanJKg  float64 // what the fan adds to each kg of dry air
	waterC  float64
	outside air.State
	back    air.State // off the bed
	fresh   float64   // where the dampers stand
}

// make mixes, moves and conditions the air. It comes as near to the wish as
// dampers, humidifier, coil and heater allow; temperature goes before humidity.
//
// The dampers are set by heat content: whichever of outside and return air is
// nearer to the wish is taken, down to the least share of fresh air.
func (a *conditioner) make(want wish) plenum {
	back := a.back
	if a.FanPlace == plant.FanAirOff {
		back = back.Heated(a.fanJKg)
	}
	late := 0.0 // heat that comes after conditioning
	if a.FanPlace == plant.FanAfterConditioning {
		late = a.fanJKg
	}
	wet := air.HumidityRatio(unit.Celsius(want.tempC), unit.RelativeHumidity(want.rh), a.outside.PressurePa)
	aimC := unit.Celsius(want.tempC - late/air.HeatCapacity(wet))
	wet = min(wet, air.SaturationRatio(aimC, a.outside.PressurePa))

	fresh := a.dampers(back, aimC, wet, max(a.LeastFresh, want.leastFresh))
	p := a.condition(a.mix(back, fresh), aimC, wet)
	p.fresh = fresh
	p.on = p.on.Heated(late)
	return p
}

// dampers returns the share of outside air that comes nearest in heat content
// to the aim, counting what the humidifier can add.
func (a *conditioner) dampers(back air.State, aimC unit.Celsius, wet unit.HumidityRatio, least float64) float64 {
	apart := air.Enthalpy(a.outside.TempC, a.outside.W) - air.Enthalpy(back.TempC, back.W)
	fresh := min(max(a.fresh, least), 1)
	if math.Abs(apart) < sameJKg {
		return fresh
	}
	most := air.SaturationRatio(aimC, a.outside.PressurePa)
	for range mostDamperMoves {
		mixed := a.mix(back, fresh)
		got := min(a.spray(mixed, wet).W, most)
		short := air.Enthalpy(aimC, got) - air.Enthalpy(mixed.TempC, mixed.W) - max(0, float64(got-mixed.W))*a.waterJKg()
		next := min(max(fresh+short/apart, least), 1)
		moved := math.Abs(next - fresh)
		fresh = next
		if moved < damperStep {
			break
		}
	}
	return fresh
}

// The dampers move until they stand within damperStep of where they belong, the
// heater until it is within sameJKg; outside and return air that are no further
// apart leave the dampers alone.
const (
	damperStep      = 1e-3
	mostDamperMoves = 6
	mostHeaterMoves = 20
	sameJKg         = 1.0
)

// mix joins fresh and return air; a fan before the conditioning warms them.
func (a *conditioner) mix(back air.State, fresh float64) air.State {
	mixed, _ := air.Mix(back, 1-fresh, a.outside, fresh).Settled()
	if a.FanPlace == plant.FanBeforeConditioning {
		mixed = mixed.Heated(a.fanJKg)
	}
	return mixed
}

func (a *conditioner) waterJKg() float64 { return air.WaterJKgK * a.waterC }

// condition brings mixed air towards a temperature and a humidity ratio: the
// heater first, then the humidifier, then the coil; where the coil cannot follow,
// more spray cools by evaporation what the wet bulb allows.
func (a *conditioner) condition(s air.State, aimC unit.Celsius, wet unit.HumidityRatio) plenum {
	var p plenum
	wet = max(wet, min(s.W, air.SaturationRatio(aimC, s.PressurePa)))
	heatJKg := a.heating(s, aimC, wet)
	for range mostHeaterMoves { // air that the humidifier leaves drier needs less heat
		less := a.heating(s, aimC, min(wet, a.spray(s.Heated(heatJKg), wet).W))
		moved := heatJKg - less
		heatJKg = less
		if moved < sameJKg {
			break
		}
	}
	s = s.Heated(heatJKg)
	p.heatW = heatJKg * a.airKgS
	out, coolJKg := a.coil(a.spray(s, wet), aimC)
	if out.TempC > aimC {
		// The most vapour that still leaves the air no cooler than asked.
		h := air.Enthalpy(s.TempC, s.W) - coolJKg
		most := (h - float64(s.W)*a.waterJKg() - air.DryAirJKgK*float64(aimC)) / (air.VapourEnthalpy(aimC) - a.waterJKg())
		out, coolJKg = a.coil(a.spray(s, unit.HumidityRatio(most)), aimC)
	}
	p.coolW = coolJKg * a.airKgS
	p.waterKg = max(0, float64(out.W-s.W)) * a.airKgS
	p.on = out
	return p
}

// heating is what the heater gives to bring air to a temperature that it is to
// have at a humidity ratio, J per kg dry air.
func (a *conditioner) heating(s air.State, aimC unit.Celsius, wet unit.HumidityRatio) float64 {
	short := air.Enthalpy(aimC, wet) - air.Enthalpy(s.TempC, s.W) - max(0, float64(wet-s.W))*a.waterJKg()
	return min(max(short, 0), a.HeatingKW*wattsPerKW/a.airKgS)
}

// spray humidifies up to a humidity ratio, as far as the humidifier goes. It
// stands still in frost.
func (a *conditioner) spray(s air.State, upTo unit.HumidityRatio) air.State {
	if a.Humidifier <= 0 || upTo <= s.W || s.TempC <= 0 {
		return s
	}
	h := air.Enthalpy(s.TempC, s.W) + float64(upTo-s.W)*a.waterJKg()
	if !a.sprays(s, upTo) {
		return s.Humidified(a.Humidifier, unit.Celsius(a.waterC))
	}
	return air.State{TempC: air.TempFromEnthalpy(h, upTo), W: upTo, PressurePa: s.PressurePa}
}

// sprays says whether the humidifier reaches a humidity ratio: whether full
// wetting, that much further along the same line, is not past saturation.
func (a *conditioner) sprays(s air.State, upTo unit.HumidityRatio) bool {
	end := s.W + (upTo-s.W)/unit.HumidityRatio(a.Humidifier)
	t := air.TempFromEnthalpy(air.Enthalpy(s.TempC, s.W)+float64(end-s.W)*a.waterJKg(), end)
	return end <= air.SaturationRatio(t, s.PressurePa)
}

// coil cools towards a temperature within its capacity and returns what it took
// out, J per kg dry air.
func (a *conditioner) coil(s air.State, aimC unit.Celsius) (out air.State, coolJKg float64) {
	if s.TempC <= aimC || a.CoolingKW <= 0 {
		return s, 0
	}
	out, q, _ := s.BroughtTo(aimC)
	most := a.CoolingKW * wattsPerKW / a.airKgS
	if -q <= most {
		return out, -q
	}
	out, _ = s.Heated(-most).Settled()
	return out, most
}

const wattsPerKW = 1000.0

// FanHeat is what a fan gives to its air, J per kg of dry air.
//
//	q = ΔP v/η        (v in m³ of air per kg of dry air)
//
// Definition.
// Valid: motor and drive in the stream of air, where all the power ends as heat.
// Check: 1.3 K for 1000 Pa, worked by hand.
func FanHeat(risePa, efficiency, m3Kg float64) float64 { return risePa * m3Kg / efficiency }

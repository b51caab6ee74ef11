package germinate

import (
	"math"

	"awn/air"
	"awn/plant"
	"awn/unit"
)

// at is the outside air at an hour of germination.
func (o *Outside) at(atH, pPa float64) air.State {
	mean := unit.Celsius(o.MeanC)
	w := air.HumidityRatio(mean, unit.RelativeHumidity(o.RH), pPa)
	t := mean + unit.Celsius(o.SwingK*math.Cos(2*math.Pi*(atH-o.WarmestAt)/24))
	return air.State{TempC: t, W: min(w, air.SaturationRatio(t, pPa)), PressurePa: pPa}
}

// flowKgS is the dry air through one column now: of the fan, of the draught of
// warm air where the fan stands, or of a floor that lies open to its room.
func (r *Run) flowKgS(col int) float64 {
	n, v := &r.now, &r.setup.Vessel
	share := r.grain.Columns[col].Share
	switch {
	case !r.setup.blown():
		return r.floorKgM2S(col) * v.AreaM2 * share
	case n.step.FanOff:
		warm := max(0, r.columnC(col)-float64(n.outside.TempC))
		return r.setup.Constants.draught(n.step.DampersShut) * warm * r.setup.CastT * airKgM3 / 3600 * share
	}
	return n.airKgS * share * r.airMS[col]
}

// floorKgM2S is the exchange of air with the room that carries off a floor
// piece's loss of heat: the loss over what saturated air takes up per K between
// room and grain.
func (r *Run) floorKgM2S(col int) float64 {
	lossWM2K := r.setup.Vessel.LossWM2K
	if lossWM2K == 0 {
		lossWM2K = r.setup.Constants.FloorLossWM2K
	}
	mean := unit.Celsius((r.columnC(col) + r.now.step.AirOnC) / 2)
	return lossWM2K / (air.DryAirJKgK + air.VapourEnthalpy(mean)*air.SaturationRatioSlope(mean, r.setup.PressurePa))
}

// columnC is the mean temperature of a column.
func (r *Run) columnC(col int) float64 {
	sum, dry := 0.0, 0.0
	for i := r.grain.Cell(col, 0); i < r.grain.Cell(col+1, 0); i++ {
		sum += r.cells[i].dryKg * r.cells[i].tempC
		dry += r.cells[i].dryKg
	}
	return sum / dry
}

// wallWK is what one layer loses through the vessel's walls, W/K. A floor's loss
// is in its exchange with the room.
func (r *Run) wallWK() float64 {
	if !r.setup.blown() {
		return 0
	}
	return r.setup.Vessel.LossWM2K * r.setup.Vessel.AreaM2 / float64(len(r.cells))
}

// airOn is the air that meets the bed in the next step: made by the air
// handler, or the room's over a floor, or drawn in from outside by warmth alone.
func (r *Run) airOn(dtS float64) stream {
	n := &r.now
	n.moving = r.setup.blown() && !n.step.FanOff
	switch {
	case n.moving:
		c := conditioner{
			AirHandler: r.setup.Vessel.Air, airKgS: n.airKgS, fanJKg: n.fanJKg, waterC: r.setup.WaterC,
			outside: n.outside, back: n.back, fresh: n.plenum.fresh,
		}
		n.plenum = c.make(wish{n.step.AirOnC, n.step.AirOnRH, n.step.Fresh})
		r.pay(dtS)
	case r.setup.blown():
		n.plenum = plenum{on: n.outside, fresh: 1}
	default:
		room := air.State{TempC: unit.Celsius(n.step.AirOnC), PressurePa: r.setup.PressurePa}
		room.W = air.HumidityRatio(room.TempC, unit.RelativeHumidity(n.step.AirOnRH), room.PressurePa)
		n.plenum = plenum{on: room, fresh: 1}
	}
	kg := r.totalKgS() * dtS
	return stream{
		w:       float64(n.plenum.on.W),
		heatJ:   air.Enthalpy(n.plenum.on.TempC, n.plenum.on.W),
		oxygen:  r.returned(freshOxygen, n.roomO2, n.roseO2, kg),
		dioxide: r.returned(freshDioxide, n.roomCO2, n.roseCO2, kg),
	}
}

// returned is the share of a gas in the air under the bed, when the bed adds
// rose to what passes and part of the room's air comes back. The room is taken
// at the end of the step, so a closed loop neither swings nor lags.
func (r *Run) returned(fresh, room, rose, kg float64) float64 {
	share := 1 - r.now.plenum.fresh
	k := kg / (r.roomKg() + kg)
	back := share * ((1-k)*room + k*rose)
	return max(0, (r.now.plenum.fresh*fresh+back)/(1-share*k))
}

// roomKg is the dry air in the room over the bed.
func (r *Run) roomKg() float64 {
	return r.setup.Vessel.AreaM2 * r.setup.Constants.RoomHeightM * airKgM3
}

func (r *Run) totalKgS() float64 {
	sum := 0.0
	for col := range r.grain.Columns {
		sum += r.flowKgS(col)
	}
	return sum
}

// airOff takes the air that left the bed into the room above it.
func (r *Run) airOff(in, off stream, kg, dtS float64) {
	if kg == 0 {
		return
	}
	n := &r.now
	w := unit.HumidityRatio(off.w)
	n.back = air.State{TempC: air.TempFromEnthalpy(off.heatJ, w), W: w, PressurePa: r.setup.PressurePa}
	n.roseO2, n.roseCO2 = off.oxygen-in.oxygen, off.dioxide-in.dioxide
	if r.setup.Vessel.Kind == plant.Floor { // how its room is aired is not known
		return
	}
	k := kg / (r.roomKg() + kg)
	n.roomO2 += k * (off.oxygen - n.roomO2)
	n.roomCO2 += k * (off.dioxide - n.roomCO2)
}

package germinate

import (
	"fmt"
	"math"

	"awn/air"
	"awn/bed"
	"awn/programme"
	"awn/unit"
)

// blow finds the working point of the fan.
func (r *Run) blow(step programme.GerminateStep) error {
	v := &r.setup.Vessel
	on := air.State{TempC: unit.Celsius(step.AirOnC), PressurePa: r.setup.PressurePa}
	on.W = air.HumidityRatio(on.TempC, unit.RelativeHumidity(step.AirOnRH), on.PressurePa)
	m3Kg := air.SpecificVolume(on.TempC, on.W, on.PressurePa)
	askedKgM2S := step.Flow.KgM2S(r.setup.CastT, v.AreaM2)
	if !(askedKgM2S > 0 && m3Kg > 0) {
		return fmt.Errorf("germinate, hour %.1f: air of %g kg/(m² s) at %g °C and humidity %g cannot be",
			r.now.atH, askedKgM2S, step.AirOnC, step.AirOnRH)
	}
	r.measure()
	fan := bed.Fan{ShutOffPa: v.Air.Fan.ShutOffPa, FreeM3S: v.Air.Fan.FreeM3S, LossPa: v.Air.Fan.LossPa}
	velocity := min(askedKgM2S*m3Kg, fan.Most(r.spots, v.AreaM2, air.Density(on.TempC, on.W, on.PressurePa), r.airMS))
	dropPa := bed.Split(r.airMS, r.spots, velocity)
	if !(velocity > 0) {
		return fmt.Errorf("germinate, hour %.1f: the fan drives no air through the bed", r.now.atH)
	}
	if lift := bed.Lift(r.totalKg() / v.AreaM2); !(dropPa <= lift) {
		return fmt.Errorf("germinate, hour %.1f: an airflow of %.2f m/s takes %.0f Pa and would lift the bed, which weighs %.0f Pa",
			r.now.atH, velocity, dropPa, lift)
	}
	flow := velocity * v.AreaM2
	ducts := 4 * v.Air.Fan.LossPa * flow * flow / (v.Air.Fan.FreeM3S * v.Air.Fan.FreeM3S)
	n := &r.now
	n.askedKgS = askedKgM2S * v.AreaM2
	n.airKgS = flow / m3Kg
	n.fanJKg = FanHeat(dropPa+ducts, v.Air.Fan.Efficiency, m3Kg)
	n.fanW = n.fanJKg * n.airKgS
	for i := range r.airMS {
		r.airMS[i] /= velocity // from here on each column's share of the mean
	}
	return nil
}

// AirShare is the air per floor of a column over that of the whole bed, when the
// fan last drove it; NaN if it never did.
//
// Definition.
func (r *Run) AirShare(column int) float64 {
	if r.airMS[column] == 0 {
		return math.NaN()
	}
	return r.airMS[column]
}

// measure takes the depth of each column as it stands.
func (r *Run) measure() {
	g := r.grain
	for i, col := range g.Columns {
		dry := 0.0
		for layer := range g.Layers {
			dry += r.cells[g.Cell(i, layer)].dryKg
		}
		r.spots[i] = bed.Spot{
			Share:  col.Share,
			DepthM: dry / (r.setup.Bed.GreenDryKgM3 * r.setup.Vessel.AreaM2 * col.Share),
			Factor: r.setup.Bed.Resistance * col.Packing,
		}
	}
}

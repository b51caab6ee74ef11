package kiln

import "awn/barley"

// tally is what has crossed the boundaries of grain and plant, in kg and J of
// the whole kiln; within a step, per m² of floor and s.
type tally struct {
	air               float64 // dry, through the bed
	waterIn, waterOut float64 // with the air through the bed
	heatIn, heatOut   float64
	heater            float64 // given to air
	wall, recovered   float64
	fuelWater         float64
	fan               float64 // electrical
}

// add counts one stage: flow through the fan and bedFlow through the bed, which
// leaves it with the flows w of vapour and h of heat.
func (t *tally) add(flow, bedFlow float64, m *made, w, h float64, k *maker) {
	t.air += bedFlow
	t.waterIn += bedFlow * m.on.w
	t.waterOut += w
	t.heatIn += bedFlow * m.on.hJKg
	t.heatOut += h
	t.heater += flow * m.heater
	t.wall += flow * m.wall
	t.recovered += flow * m.recovered
	t.fuelWater += flow * k.fuelWater(m.heater)
}

// off counts what the sweep of a stage adds to the air off a column.
func (t *tally) off(flow float64, change drift) {
	t.waterOut += flow * change.w
	t.heatOut += flow * change.hJKg
}

func (t *tally) addScaled(o *tally, by float64) {
	t.air += by * o.air
	t.waterIn += by * o.waterIn
	t.waterOut += by * o.waterOut
	t.heatIn += by * o.heatIn
	t.heatOut += by * o.heatOut
	t.heater += by * o.heater
	t.wall += by * o.wall
	t.recovered += by * o.recovered
	t.fuelWater += by * o.fuelWater
}

// Account is what the kilning has taken so far, the whole kiln's.
type Account struct {
	HeatJ        float64 // given to the air by the heater
	FuelLHVJ     float64 // burned, lower heating value
	FuelHHVJ     float64 // the same, higher heating value, as bills have it
	FanJ         float64 // electrical
	RecoveredJ   float64 // by the heat exchanger
	WallJ        float64 // lost by the structure
	EvaporatedKg float64 // water that the air took from the grain, net
	FuelWaterKg  float64 // water of direct firing, put into the air
	RespiredKg   float64 // dry matter
}

// Account returns what the kilning has taken since Start.
func (r *Run) Account() Account {
	t, b := &r.tally, &r.setup.Kiln.Burner
	fuel := t.heater / b.Efficiency
	return Account{
		HeatJ: t.heater, FuelLHVJ: fuel, FuelHHVJ: fuel * b.HHVOverLHV, FanJ: t.fan,
		RecoveredJ: t.recovered, WallJ: t.wall, EvaporatedKg: t.waterOut - t.waterIn,
		FuelWaterKg: t.fuelWater, RespiredKg: r.burn.DryKg,
	}
}

// Lines appends the balance of the grain since Start: what came into it by
// name, what left it with a minus. Heat is counted above dry grain, dry air
// and liquid water at 0 °C. Oxygen and carbon dioxide, which grain does not
// hold, add up to nothing; the air on is counted as fresh, return air too, for
// life takes less than a hundredth of its oxygen.
func (r *Run) Lines(dst []barley.Line) []barley.Line {
	t, b := &r.tally, &r.burn
	oxygen, dioxide := t.air*oxygenByMass, t.air*dioxideByMass
	return append(dst,
		barley.Line{Good: barley.Dry, Code: "kiln.respired", Amount: -b.DryKg},
		barley.Line{Good: barley.Water, Code: "kiln.air-on", Amount: t.waterIn},
		barley.Line{Good: barley.Water, Code: "kiln.air-off", Amount: -t.waterOut},
		barley.Line{Good: barley.Water, Code: "kiln.respired", Amount: b.WaterKg},
		barley.Line{Good: barley.Oxygen, Code: "kiln.air-on", Amount: oxygen},
		barley.Line{Good: barley.Oxygen, Code: "kiln.air-off", Amount: b.OxygenKg - oxygen},
		barley.Line{Good: barley.Oxygen, Code: "kiln.respired", Amount: -b.OxygenKg},
		barley.Line{Good: barley.CarbonDioxide, Code: "kiln.air-on", Amount: dioxide},
		barley.Line{Good: barley.CarbonDioxide, Code: "kiln.air-off", Amount: -dioxide - b.CO2Kg},
		barley.Line{Good: barley.CarbonDioxide, Code: "kiln.respired", Amount: b.CO2Kg},
		barley.Line{Good: barley.HeatJ, Code: "kiln.air-on", Amount: t.heatIn},
		barley.Line{Good: barley.HeatJ, Code: "kiln.air-off", Amount: -t.heatOut},
		barley.Line{Good: barley.HeatJ, Code: "kiln.respired", Amount: b.HeatJ},
	)
}

package programme

import "math"

// Reading names something that can be read off a running piece. The same
// words serve until-conditions, curves, CSV columns and charts.
type Reading int

// The readings, in grain order. Means are weighted by dry matter, growth by
// number.
const (
	None Reading = iota
	Moisture
	Drained
	WorstLayer
	DriestLayer
	TempMean
	TempLow
	TempHigh
	Chit
	Acrospire
	AcrospireP10
	AcrospireP90
	Age
	DryMatter
	WaterTemp
	AirOn
	AirOnRH
	AirOff
	AirOffRH
	Flow
	Recirculation
	OxygenLeast
	CarbonDioxideMost
	Respiration
	Break
	HeaterPower
	FanPower
	TempGap     // between the coolest and the warmest layer
	RoomDioxide // above the bed
	Readings    // how many there are
)

var readingKeys = [Readings]string{
	None: "none", Moisture: "moisture_wb", Drained: "drained_wb", WorstLayer: "worst_layer_wb",
	DriestLayer: "driest_layer_wb", TempMean: "temp_mean_c", TempLow: "temp_low_c", TempHigh: "temp_high_c",
	Chit: "chit", Acrospire: "acrospire", AcrospireP10: "acrospire_p10", AcrospireP90: "acrospire_p90",
	Age: "age_d", DryMatter: "dry_kg", WaterTemp: "water_c", AirOn: "air_on_c", AirOnRH: "air_on_rh",
	AirOff: "air_off_c", AirOffRH: "air_off_rh", Flow: "flow_kg_m2_s", Recirculation: "recirculation",
	OxygenLeast: "oxygen_least", CarbonDioxideMost: "co2_most", Respiration: "respiration_g_kg_h",
	Break: "break", HeaterPower: "heater_kw", FanPower: "fan_kw",
	TempGap: "temp_gap_k", RoomDioxide: "co2_room",
}

// Key is the reading's name in JSON and CSV, ending in its unit.
func (r Reading) Key() string { return readingKeys[r] }

// Values holds one moment of all readings; NaN where a stage has no such one.
type Values [Readings]float64

// Blank returns Values in which nothing is known.
func Blank() Values {
	var v Values
	for i := range v {
		v[i] = math.NaN()
	}
	return v
}

// Met says whether a moment meets the condition.
func (u Until) Met(v *Values) bool {
	x := v[u.Reading]
	if u.Rising {
		return x >= u.Value
	}
	return x <= u.Value
}

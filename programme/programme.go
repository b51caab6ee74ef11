// Package programme holds what will be done to a piece, step by step, and the
// readings by which a step may end. ISA-88 calls it a recipe.
package programme

// Programme is the whole course of a piece. Hours count from the step's own
// start.
type Programme struct {
	Name      string
	Steep     []SteepStep
	Cast      Cast
	Germinate []GerminateStep
	Kiln      []KilnStep
	// StripC is the temperature below which kilned malt may be stripped.
	StripC float64
	// StripWorst is the moisture (wet basis) that no layer may exceed when
	// the kiln is stripped.
	StripWorst float64
	RestD      float64 // days between stripping and dispatch
	// SteepTransferMixes and KilnTransferMixes say whether moving the grain
	// to the next vessel mixes its layers; a combined vessel does not.
	SteepTransferMixes bool
	KilnTransferMixes  bool
	Additions          []Addition
	Route              *Route // nil: the malt of the kiln is what is sold
}

// Route is what is done to the malt after the kiln that nobody computes. NaN is
// not known.
type Route struct {
	Kind      string  // caramel, roast, smoked, acid
	Yield     float64 // finished malt over malt off the kiln, by mass
	ColourEBC float64
}

// SteepKind is what happens to the grain in a steep step.
type SteepKind int

// The kinds of steep step.
const (
	Immersion  SteepKind = iota // grain under water
	AirRest                     // drained, air drawn through
	Couch                       // drained, heaped and left to warm
	Drain                       // water running off
	SteepSpray                  // drained, sprayed with water
	Transfer                    // being cast out, drained or in water
)

// SteepStep is one step in the steep.
type SteepStep struct {
	Kind  SteepKind
	Until Until
	// WaterC is the temperature of the water of an immersion or spray; NaN
	// takes the house's water.
	WaterC float64
	// AerationM3HT is compressed air blown through the water, m³/h per tonne
	// as cast; SuctionM3HT is air drawn down through drained grain.
	AerationM3HT float64
	SuctionM3HT  float64
	// AirC is the temperature of the rest's air; NaN takes the house's
	// outside air.
	AirC float64
	// Reused is the share of the water of an immersion that has been the last
	// steep water of the piece before.
	Reused float64
	// Wet casts a Transfer in water.
	Wet bool
	// SprayKgT is water sprayed over the step, kg per tonne as cast.
	SprayKgT float64
}

// UnderWater says whether the vessel fills in the step.
func (s *SteepStep) UnderWater() bool { return s.Kind == Immersion || s.Kind == Transfer && s.Wet }

// Cast is how the grain leaves the steep.
type Cast struct {
	Wet         bool
	SuctionM3HT float64 // drawn through the drained grain meanwhile, m³/h per tonne as cast
}

// GerminateStep holds the settings of a stretch of germination.
type GerminateStep struct {
	Until    Until
	AirOnC   float64
	AirOnRH  float64 // 0 to 1
	Flow     Airflow
	Fresh    float64 // least share of outside air, 0 to 1
	TurnEvH  float64 // hours between turns; 0 means none
	SprayKgT float64 // water sprayed over the step at each turn's pass, kg per tonne as cast in all
	// SprayToWB, if above 0, sprays at each turn what brings the mean back to
	// this moisture (wet basis).
	SprayToWB float64
	FanOff    bool
	// DampersShut keeps the draught of warm air from the bed while the fan is off.
	DampersShut bool
	// HoldAirOn, HoldFlow and HoldFresh let these settings follow a reading.
	HoldAirOn, HoldFlow, HoldFresh Hold
}

// KilnStep is one stretch of kilning. Settings run in a straight line from
// where the step before left them (or from their From value, if it is not NaN)
// to the value here over RampH hours, and then hold.
type KilnStep struct {
	Name          string // wither, break, ramp, cure, cool: free text of the house
	Until         Until
	RampH         float64
	AirOnC        float64
	Flow          Airflow
	Recirculation float64 // share of return air, 0 to below 1
	HeaterOff     bool    // cooling
	FanOff        bool
	DampersShut   bool // with the fan off: no draught goes through the bed
	// HoldAirOn, HoldFlow and HoldRecirc let these settings follow a reading;
	// they start where they were and are not ramped.
	HoldAirOn, HoldFlow, HoldRecirc Hold
}

// Airflow is an amount of air with what it is counted in.
type Airflow struct {
	Value float64
	Per   AirflowPer
}

// AirflowPer says what an airflow is counted in.
type AirflowPer int

// The ways that air is counted.
const (
	PerFloor  AirflowPer = iota // kg dry air per m² and s
	PerTonne                    // m³/h per tonne of barley as cast, at 20 °C and 1013.25 hPa
	PerVessel                   // m³/h through the whole vessel, at 20 °C and 1013.25 hPa
	PerFace                     // m/s over the floor, at 20 °C and 1013.25 hPa
)

// ReferenceAirKgM3 is dry air per m³ at 20 °C and 1013.25 hPa, the state in
// which m³/h is counted.
const ReferenceAirKgM3 = 1.2041

// KgM2S is the airflow per floor area for a charge of castT tonnes on areaM2.
//
//	G = V ρ castT / (3600 A)
//
// Definition.
func (a Airflow) KgM2S(castT, areaM2 float64) float64 {
	switch a.Per {
	case PerTonne:
		return a.Value * ReferenceAirKgM3 / 3600 * castT / areaM2
	case PerVessel:
		return a.Value * ReferenceAirKgM3 / 3600 / areaM2
	case PerFace:
		return a.Value * ReferenceAirKgM3
	}
	return a.Value
}

// Until says when a step ends: at a time, or on a reading with a latest time.
type Until struct {
	Reading Reading // None if the step ends by time alone
	Value   float64 // SI: fraction, °C
	Rising  bool    // ends when the reading rises to Value; otherwise when it falls to it
	LatestH float64 // hours from the step's start; always set
}

// Addition is something put into the water or onto the grain. Its effect is
// not modelled unless Factor says so.
type Addition struct {
	Substance string
	Dose      float64
	DoseUnit  string
	Stage     string // steep, germinate, kiln
	AtH       float64
	Lot       string
	// ResidueMgKg is found in the malt, LimitMgKg is the most allowed; NaN is not
	// known, a limit of 0 is none.
	ResidueMgKg, LimitMgKg float64
	Permitted              string // who permits it: market or customer; "" means nobody does
	Factor                 map[string]float64
}

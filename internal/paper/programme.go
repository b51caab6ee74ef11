package paper

import (
	"fmt"
	"math"

	"awn/programme"
)

// Programme is what will be done to a piece, step by step.
type Programme struct {
	Name      string          `key:"name" doc:"Name of the programme."`
	Steep     []SteepStep     `key:"steep?" max:"40" doc:"Steps in the steep, in their order."`
	Cast      *Cast           `key:"cast" doc:"How the grain leaves the steep. Drained and without air drawn through, if nothing is said."`
	Germinate []GerminateStep `key:"germinate?" max:"60" doc:"Stretches of germination, in their order."`
	Kiln      []KilnStep      `key:"kiln?" max:"60" doc:"Stretches of kilning, in their order."`
	Strip     *Strip          `key:"strip" doc:"When malt may leave the kiln."`
	Rest      *Duration       `key:"rest" max:"366 d" doc:"Time that the malt rests between stripping and dispatch. 21 d, if it is not given."`
	Mixing    *Mixing         `key:"mixing" doc:"Whether moving the grain mixes its layers. It does, if nothing is said."`
	Route     *Route          `key:"route" doc:"What is done to the malt after the kiln that is recorded and not computed."`
	Additions []Addition      `key:"additions?" max:"40" doc:"What is added to water or grain. Its effect is not computed unless a factor is given."`
}

// Ending says when a step ends.
type Ending struct {
	For   Duration   `key:"for" min:"1 min" max:"14 d" doc:"How long. With until, the latest end."`
	Until *Condition `key:"until" doc:"What the step waits for, such as moisture 43 % wb, chit 90 %, acrospire 0.8, break, air-off 60 °C, worst layer 6 % wb."`
}

// SteepStep is one step in the steep, of one kind.
type SteepStep struct {
	Immersion *Immersion  `key:"immersion" doc:"Grain under water."`
	AirRest   *AirRest    `key:"air_rest" doc:"Drained, air drawn through."`
	Couch     *AirRest    `key:"couch" doc:"Drained, heaped and left to warm."`
	Drain     *Ending     `key:"drain" doc:"Water running off."`
	Spray     *SteepSpray `key:"spray" doc:"Drained and sprayed."`

	_ struct{} `rule:"one of immersion air_rest couch drain spray"`
}

// Immersion is grain under water.
type Immersion struct {
	Ending
	Water    *Temperature `key:"water" min:"0 °C" max:"45 °C" doc:"Temperature of the water. The house's own, if it is not given."`
	Reuse    *Percent     `key:"reuse" doc:"Share of the water that has been the last steep water of the piece before. None, if it is not given."`
	Aeration *Airflow     `key:"aeration" max:"100 m3/h/t" doc:"Compressed air blown through the water, in m3/h/t or cfm/bu."`
}

// Cast is how the grain leaves the steep.
type Cast struct {
	How     string   `key:"how" one:"dry|wet" doc:"Dry is drained. Wet carries it in water, which slows its life for a day."`
	Suction *Airflow `key:"suction" max:"2000 m3/h/t" doc:"Air drawn down through the drained grain while it is cast, in m3/h/t or cfm/bu."`
}

// Check finds air that is drawn through water, or counted in a way that a steep
// does not have.
func (c Cast) Check() []Fault {
	if c.How == "wet" && c.Suction != nil {
		return []Fault{{Code: "programme.cast.suction-wet", Path: "suction"}}
	}
	return checkPerTonne(c.Suction, "suction")
}

// AirRest is drained grain.
type AirRest struct {
	Ending
	Air     *Temperature `key:"air" min:"-20 °C" max:"40 °C" doc:"Temperature of the air drawn in. Outside air, if it is not given."`
	Suction *Airflow     `key:"suction" max:"2000 m3/h/t" doc:"Air drawn down through the grain, in m3/h/t or cfm/bu."`
}

// SteepSpray is drained grain under a spray.
type SteepSpray struct {
	AirRest
	Amount WaterDose    `key:"amount" max:"2 m3/t" doc:"Water sprayed over the step, per barley as cast."`
	Water  *Temperature `key:"water" min:"0 °C" max:"45 °C" doc:"Temperature of the water. The house's own, if it is not given."`
}

// GerminateStep is a stretch of germination with its settings.
type GerminateStep struct {
	Ending
	AirOn     TemperatureSetting `key:"air_on" min:"2 °C" max:"40 °C" doc:"Temperature of the air under the bed, or what it is to hold: hold hottest 18 °C between 11 °C and 15 °C."`
	Humidity  Percent            `key:"humidity" min:"20 %" doc:"Relative humidity of that air."`
	Flow      *AirflowSetting    `key:"flow" max:"4000 m3/h/t, 2 kg/m2/s, 2 m/s" doc:"Air through the bed, or what it is to hold. Must be given unless the fan is off."`
	Fresh     *PercentSetting    `key:"fresh" doc:"Least share of outside air, or what it is to hold: hold room carbon dioxide 0.5 % between 5 % and 60 %."`
	TurnEvery *Duration          `key:"turn_every" min:"1 h" max:"4 d" doc:"Time between turns. None, if it is not given."`
	Spray     *WaterDose         `key:"spray" max:"1 m3/t" doc:"Water sprayed over the step in all, at the turns, per barley as cast."`
	SprayTo   *Moisture          `key:"spray_to" min:"30 % wb" max:"55 % wb" doc:"Spray at each turn what brings the mean back to this moisture."`
	FanOff    bool               `key:"fan_off?" doc:"The fan stands still."`
	Dampers   string             `key:"dampers?" one:"open|shut" doc:"With the fan off: whether the warm bed can draw air. Open, if it is not given."`
}

// KilnStep is a stretch of kilning with its settings.
type KilnStep struct {
	Ending
	Name          string             `key:"name?" doc:"What the house calls it, such as withering or curing."`
	Ramp          *Duration          `key:"ramp" max:"48 h" doc:"Time over which the settings move in a straight line from those of the step before. At once, if it is not given."`
	AirOn         TemperatureSetting `key:"air_on" min:"-20 °C" max:"300 °C" doc:"Temperature of the air under the bed. Up to 110 °C: beyond that malt is roasted, which is recorded as a route."`
	Flow          *AirflowSetting    `key:"flow" max:"20000 m3/h/t, 3 kg/m2/s, 3 m/s" doc:"Air through the bed, or what it is to hold. Must be given unless the fan is off."`
	Recirculation *PercentSetting    `key:"recirculation" max:"98 %" doc:"Share of return air, or what it is to hold: hold air-off humidity 85 % between 0 % and 70 %."`
	HeaterOff     bool               `key:"heater_off?" doc:"No heat is given, as in cooling."`
	FanOff        bool               `key:"fan_off?" doc:"The fan stands still."`
	Dampers       string             `key:"dampers?" one:"open|shut" doc:"With the fan off: whether the warm bed can draw air. Open, if it is not given."`
}

// Route is a treatment that is recorded and not computed.
type Route struct {
	Kind   string   `key:"kind" one:"caramel|roast|smoked|acid" doc:"What is done."`
	Yield  *Percent `key:"yield" doc:"Finished malt over malt as it left the kiln, as it has been weighed."`
	Colour *Colour  `key:"colour" doc:"Colour of the finished malt, as it has been measured."`
}

// Strip is when malt may leave the kiln.
type Strip struct {
	Below      Temperature `key:"below" min:"0 °C" max:"60 °C" doc:"The malt must be cooler than this."`
	WorstLayer Moisture    `key:"worst_layer" min:"2 % wb" max:"12 % wb" doc:"No layer may hold more than this."`
}

// Mixing says which transfers mix the layers.
type Mixing struct {
	AfterSteep     bool `key:"after_steep?" doc:"Casting out of the steep mixes."`
	AfterGerminate bool `key:"after_germinate?" doc:"Loading the kiln mixes. In a combined vessel it does not."`
}

// Addition is something put into the water or onto the grain.
type Addition struct {
	Substance string             `key:"substance" doc:"What is added."`
	Dose      Dose               `key:"dose" doc:"How much, per barley as cast or per water."`
	Stage     string             `key:"stage" one:"steep|germinate|kiln" doc:"Where."`
	At        *Duration          `key:"at" max:"14 d" doc:"When, from the start of that stage."`
	Lot       string             `key:"lot?" doc:"Lot of the substance."`
	Residue   *Concentration     `key:"residue" doc:"What is found of it in the malt, per mass."`
	Limit     *Concentration     `key:"residual_limit" doc:"Most that market or customer allows in the malt, per mass."`
	Permitted string             `key:"permitted?" doc:"Which market or customer permits it. Nobody, if it is not given."`
	Factor    map[string]float64 `key:"factor?" match:"[a-z0-9_.-]+" min:"0" max:"10" doc:"What it multiplies in the model, by the key of the parameter table."`
}

// Kind is the word behind the first key.
func (Programme) Kind() string { return "programme/1" }

// Check finds what does not agree within a programme.
func (p Programme) Check() (faults []Fault) {
	if len(p.Steep)+len(p.Germinate)+len(p.Kiln) == 0 {
		faults = append(faults, Fault{Code: "programme.steps.none"})
	}
	check := func(stage string, i int, kind string, e Ending) {
		if e.Until != nil && !readable(e.Until.Reading, stage) {
			path := join(fmt.Sprintf("%s[%d]", stage, i), join(kind, "until"))
			faults = append(faults, Fault{Code: "programme.until.not-here", Path: path, Got: stage})
		}
	}
	last := lastImmersion(p.Steep)
	for i, s := range p.Steep {
		if i == last && s.Immersion.Reuse.Or("%", 0) > 0 {
			faults = append(faults, Fault{Code: "programme.reuse.last", Path: fmt.Sprintf("steep[%d].immersion.reuse", i)})
		}
		kind, e := s.ending()
		check("steep", i, kind, e)
	}
	for i, s := range p.Germinate {
		check("germinate", i, "", s.Ending)
	}
	for i, s := range p.Kiln {
		check("kiln", i, "", s.Ending)
	}
	return faults
}

// lastImmersion is the last step under water; -1 if there is none.
func lastImmersion(steps []SteepStep) int {
	for i := len(steps) - 1; i >= 0; i-- {
		if steps[i].Immersion != nil {
			return i
		}
	}
	return -1
}

// ending is the end of a steep step and the key of its kind.
func (s SteepStep) ending() (string, Ending) {
	switch {
	case s.Immersion != nil:
		return "immersion", s.Immersion.Ending
	case s.AirRest != nil:
		return "air_rest", s.AirRest.Ending
	case s.Couch != nil:
		return "couch", s.Couch.Ending
	case s.Spray != nil:
		return "spray", s.Spray.Ending
	}
	return "drain", *s.Drain
}

// Check finds air counted in a way that a steep does not have.
func (s Immersion) Check() []Fault { return checkPerTonne(s.Aeration, "aeration") }

// Check finds air counted in a way that a steep does not have.
func (s AirRest) Check() []Fault { return checkPerTonne(s.Suction, "suction") }

// Check finds air that is missing, and two rules for one spray.
func (s GerminateStep) Check() (faults []Fault) {
	if s.Spray != nil && s.SprayTo != nil {
		faults = append(faults, Fault{Code: "programme.spray.twice", Path: "spray_to"})
	}
	if s.TurnEvery == nil && (s.Spray != nil || s.SprayTo != nil) {
		faults = append(faults, Fault{Code: "programme.spray.no-turn", Path: "spray"})
	}
	faults = append(faults, s.AirOn.checkHold("air_on", inBed...)...)
	faults = append(faults, s.Flow.checkHold("flow", inBed...)...)
	faults = append(faults, s.Fresh.checkHold("fresh", inRoom...)...)
	return append(faults, checkFlow(s.Flow.given(), s.FanOff, s.Dampers)...)
}

// hottestAirOnC is where kilning ends and roasting begins.
const hottestAirOnC = 110 + 1e-9

// Check finds air that is missing, and air that roasts.
func (s KilnStep) Check() (faults []Fault) {
	if c := s.AirOn.In("°C"); c > hottestAirOnC {
		faults = append(faults, Fault{Code: "programme.kiln.roasts", Path: "air_on", Got: fmt.Sprintf("%.4g °C", c)})
	}
	faults = append(faults, s.AirOn.checkHold("air_on", offKiln...)...)
	faults = append(faults, s.Flow.checkHold("flow", offKiln[:2]...)...)
	faults = append(faults, s.Recirculation.checkHold("recirculation", offKiln[0])...)
	return append(faults, checkFlow(s.Flow.given(), s.FanOff, s.Dampers)...)
}

// The readings that settings can follow: growing beds answer air and its flow,
// the room the fresh air; a kiln's air-off answers all that goes in.
var (
	inBed   = []programme.Reading{programme.TempMean, programme.TempHigh, programme.TempGap}
	inRoom  = []programme.Reading{programme.RoomDioxide}
	offKiln = []programme.Reading{programme.AirOffRH, programme.AirOff, programme.TempMean, programme.TempHigh}
)

func checkPerTonne(a *Airflow, path string) []Fault {
	if a != nil && math.IsNaN(a.In("m3/h/t")) {
		return []Fault{{Code: "programme.air.not-per-tonne", Path: path, Got: a.Symbol, Allowed: []string{"m3/h/t", "cfm/bu"}}}
	}
	return nil
}

func checkFlow(a *Airflow, off bool, dampers string) []Fault {
	switch {
	case dampers != "" && !off:
		return []Fault{{Code: "programme.dampers.fan-on", Path: "dampers"}}
	case a == nil && !off:
		return []Fault{{Code: "programme.flow.missing"}}
	case a != nil && off:
		return []Fault{{Code: "programme.flow.fan-off", Path: "flow"}}
	}
	return nil
}

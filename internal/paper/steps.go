package paper

import (
	"math"

	"awn/dress"
	"awn/programme"
	"awn/unit"
)

// What a programme says nothing about.
//
// Assumed: common practice, no source.
const (
	usualStripC     = 35
	usualStripWorst = 0.06
	usualFresh      = 10 // %, least outside air
)

// Programme is the course that the document describes.
func (p Programme) Programme() programme.Programme {
	out := programme.Programme{
		Name: p.Name, StripC: usualStripC, StripWorst: usualStripWorst, RestD: p.Rest.Or("d", dress.UsualRestD), SteepTransferMixes: true, KilnTransferMixes: true,
	}
	for _, s := range p.Steep {
		out.Steep = append(out.Steep, s.step())
	}
	for _, s := range p.Germinate {
		out.Germinate = append(out.Germinate, s.step())
	}
	for _, s := range p.Kiln {
		out.Kiln = append(out.Kiln, s.step())
	}
	if c := p.Cast; c != nil {
		out.Cast = programme.Cast{Wet: c.How == "wet", SuctionM3HT: c.Suction.Or("m3/h/t", 0)}
	}
	if p.Strip != nil {
		out.StripC, out.StripWorst = p.Strip.Below.In("°C"), p.Strip.WorstLayer.In("% wb")/100
	}
	if p.Mixing != nil {
		out.SteepTransferMixes, out.KilnTransferMixes = p.Mixing.AfterSteep, p.Mixing.AfterGerminate
	}
	if r := p.Route; r != nil {
		out.Route = &programme.Route{Kind: r.Kind, Yield: r.Yield.In("%") / 100, ColourEBC: r.Colour.In("EBC")}
	}
	for _, a := range p.Additions {
		out.Additions = append(out.Additions, programme.Addition{
			Substance: a.Substance, Dose: a.Dose.In(a.Dose.Symbol), DoseUnit: a.Dose.Symbol,
			Stage: a.Stage, AtH: a.At.Or("h", 0), Permitted: a.Permitted, Factor: a.Factor,
			Lot: a.Lot, ResidueMgKg: a.Residue.In("mg/kg"), LimitMgKg: a.Limit.In("mg/kg"),
		})
	}
	return out
}

// until is when a step ends. Which way a reading comes to its value is as the
// grain goes there, unless the text says it: moisture rises where the grain is
// being wetted, temperatures fall where it is being cooled.
func (e Ending) until(wetting, cooling bool) programme.Until {
	u := programme.Until{LatestH: e.For.In("h")}
	c := e.Until
	if c == nil {
		return u
	}
	u.Reading, u.Value = c.Reading, c.Value
	switch {
	case c.Reading == programme.Break:
		u.Value, u.Rising = 1, true
	case c.Towards != unsaid:
		u.Rising = c.Towards == above
	case c.Reading == programme.Chit || c.Reading == programme.Acrospire:
		u.Rising = true
	case isMoisture(c.Reading):
		u.Rising = wetting
	case c.Reading != programme.AirOffRH:
		u.Rising = !cooling
	}
	return u
}

func isMoisture(r programme.Reading) bool {
	return r == programme.Moisture || r == programme.Drained || r == programme.WorstLayer || r == programme.DriestLayer
}

func (s SteepStep) step() programme.SteepStep {
	switch {
	case s.Immersion != nil:
		i := s.Immersion
		return programme.SteepStep{
			Kind: programme.Immersion, Until: i.until(true, false), WaterC: i.Water.In("°C"), AirC: math.NaN(), AerationM3HT: i.Aeration.Or("m3/h/t", 0),
			Reused: i.Reuse.Or("%", 0) / 100,
		}
	case s.AirRest != nil:
		return s.AirRest.step(programme.AirRest)
	case s.Couch != nil:
		return s.Couch.step(programme.Couch)
	case s.Spray != nil:
		step := s.Spray.step(programme.SteepSpray)
		step.SprayKgT, step.WaterC = s.Spray.Amount.In("L/t"), s.Spray.Water.In("°C")
		return step
	}
	return programme.SteepStep{Kind: programme.Drain, Until: s.Drain.until(true, false), WaterC: math.NaN(), AirC: math.NaN()}
}

func (r AirRest) step(kind programme.SteepKind) programme.SteepStep {
	return programme.SteepStep{
		Kind: kind, Until: r.until(true, false), WaterC: math.NaN(), AirC: r.Air.In("°C"), SuctionM3HT: r.Suction.Or("m3/h/t", 0),
	}
}

func (s GerminateStep) step() programme.GerminateStep {
	return programme.GerminateStep{
		Until: s.until(false, false), AirOnC: s.AirOn.In("°C"), AirOnRH: s.Humidity.In("%") / 100, Flow: counted(s.Flow.given()),
		Fresh: s.Fresh.given().Or("%", usualFresh) / 100, TurnEvH: s.TurnEvery.Or("h", 0),
		SprayKgT: s.Spray.Or("L/t", 0), SprayToWB: s.SprayTo.Or("% wb", 0) / 100, FanOff: s.FanOff, DampersShut: s.Dampers == "shut",
		HoldAirOn: s.AirOn.hold("°C", 1), HoldFlow: holdFlow(s.Flow, inBed...), HoldFresh: s.Fresh.hold("%", 100, inRoom...),
	}
}

func (s KilnStep) step() programme.KilnStep {
	return programme.KilnStep{
		Name: s.Name, Until: s.until(false, s.HeaterOff), RampH: s.Ramp.Or("h", 0), AirOnC: s.AirOn.In("°C"), Flow: counted(s.Flow.given()),
		Recirculation: s.Recirculation.given().Or("%", 0) / 100, HeaterOff: s.HeaterOff, FanOff: s.FanOff, DampersShut: s.Dampers == "shut",
		HoldAirOn: s.AirOn.hold("°C", 1, programme.AirOffRH), HoldFlow: holdFlow(s.Flow, programme.AirOffRH), HoldRecirc: s.Recirculation.hold("%", 100),
	}
}

// holdFlow is how a fan follows a reading: its limits are shares of the most.
func holdFlow(s *AirflowSetting, rises ...programme.Reading) programme.Hold {
	if s == nil || s.Hold == nil {
		return programme.Hold{}
	}
	h := s.hold(s.Symbol, 1, rises...)
	h.Low, h.High = h.Low/h.High, 1
	return h
}

// counted keeps an amount of air in the way it was counted.
func counted(a *Airflow) programme.Airflow {
	if a == nil {
		return programme.Airflow{}
	}
	switch a.Kind {
	case unit.KindPerTonne:
		return programme.Airflow{Value: a.In("m3/h/t"), Per: programme.PerTonne}
	case unit.KindVolume:
		return programme.Airflow{Value: a.In("m3/h"), Per: programme.PerVessel}
	case unit.KindVelocity:
		return programme.Airflow{Value: a.In("m/s"), Per: programme.PerFace}
	}
	return programme.Airflow{Value: a.In("kg/m2/s"), Per: programme.PerFloor}
}

package report

import (
	"encoding/json"
	"io"
	"math"

	"awn/barley"
	"awn/course"
	"awn/finding"
	"awn/internal/house"
	"awn/malt"
	"awn/odds"
	"awn/programme"
)

// Schema is the kind and number of the JSON that JSON writes.
const Schema = "outcome/1"

// object is a JSON object. Keys that end in a unit hold numbers in it; what is
// not known has no key.
type object map[string]any

// num sets a number, if it is one.
func (o object) num(key string, x float64) object {
	if !math.IsNaN(x) && !math.IsInf(x, 0) {
		o[key] = x
	}
	return o
}

// text sets a text, if there is one.
func (o object) text(key, s string) object {
	if s != "" {
		o[key] = s
	}
	return o
}

// quantity sets a figure with its standing, if it is known.
func (o object) quantity(key string, v odds.Value) object {
	if v.Known() {
		o[key] = object{"standing": v.Standing}.num("value", v.Mid)
	}
	return o
}

// JSON writes the whole outcome, curve included, in SI units and fractions.
func (r Report) JSON(w io.Writer) error {
	return envelope(w, Schema, r.Version, r.Inputs, r.seed(), r.result(), r.Outcome.Findings)
}

// envelope writes a result with what it rests on.
func envelope(w io.Writer, schema string, v house.Version, inputs []Input, seed *uint64, result object, fs []finding.Finding) error {
	return enveloped(w, schema, v, inputs, seed, result, findings(fs))
}

// enveloped is envelope for findings that are objects already.
func enveloped(w io.Writer, schema string, v house.Version, inputs []Input, seed *uint64, result object, fs []object) error {
	if inputs == nil {
		inputs = []Input{}
	}
	all := struct {
		Awn      string   `json:"awn"`
		Program  string   `json:"program"`
		Model    int      `json:"model"`
		Inputs   []Input  `json:"inputs"`
		Seed     *uint64  `json:"seed,omitempty"`
		Result   object   `json:"result"`
		Findings []object `json:"findings"`
	}{schema, v.Release, v.Model, inputs, seed, result, fs}
	e := json.NewEncoder(w)
	e.SetIndent("", " ")
	return e.Encode(all)
}

// result is the outcome itself.
func (r Report) result() object {
	o := r.Outcome
	out := object{
		"start_ms": o.Piece.StartMs, "offset_min": o.Piece.OffsetMin,
		"stages": each(o.Stages, stage), "curve": curve(o.Curve), "kilned": kilned(o.Kilned),
		"malt": r.withOdds(analysis(o.Malt)), "judged": each(o.Judged, judged), "cost": cost(o.Cost),
		"growth": growth(o), "yield": yield(o), "brewed": r.brewed(),
	}
	out["bed"] = "uneven"
	if len(o.Spots) == 0 {
		out["bed"] = "level"
	} else {
		out["spots"] = each(o.Spots, spot)
	}
	out["made_air"] = r.made()
	if r.dressed() {
		out["rested"] = r.rested()
	}
	if o.Water.FreshM3 > 0 {
		out["steep_water"] = steepWater(o.Water)
	}
	if m := o.Route; m.Kind != "" {
		out["route"] = object{"route": m.Kind}.num("malt_kg", m.MaltKg).num("colour_ebc", m.ColourEBC)
	}
	if a := o.Piece.Programme.Additions; len(a) > 0 {
		out["additions"] = each(a, addition)
	}
	if r.cleaned() {
		out["cleaned"] = r.cleanedObject()
	}
	if d := r.decks(); d != nil {
		out["decks"] = d
	}
	if len(o.Stops) > 0 {
		out["stops"] = each(o.Stops, stop)
	}
	if odds := r.odds(); odds != nil {
		out["odds"] = odds
	}
	return out.text("piece", o.Piece.Code).num("cast_kg", o.Piece.CastKg)
}

// seed is that of the draws, if there are any.
func (r Report) seed() *uint64 {
	if r.Odds == nil {
		return nil
	}
	return &r.Odds.Seed
}

// each turns every element into an object; none give an empty list.
func each[T any](in []T, f func(T) object) []object {
	out := make([]object, len(in))
	for i, x := range in {
		out[i] = f(x)
	}
	return out
}

func stage(s course.StageOutcome) object {
	return object{
		"stage": s.Stage.String(), "steps": each(s.Steps, step), "start": readings(s.Start), "end": readings(s.End),
		"balance": balance(s.Balance),
	}.num("from_h", s.FromH).num("to_h", s.ToH)
}

func step(s course.StepOutcome) object {
	ended := map[course.Ended]string{course.ByTime: "time", course.ByReading: "reading", course.AtLatest: "latest"}
	out := object{"step": s.Name, "ended": ended[s.Ended], "end": readings(s.End)}.num("from_h", s.FromH).num("to_h", s.ToH)
	until := object{}.num("latest_h", s.Until.LatestH)
	if s.Until.Reading != programme.None {
		until["rising"] = s.Until.Rising
		until.num(s.Until.Reading.Key(), s.Until.Value)
	}
	out["until"] = until
	return out
}

func readings(v programme.Values) object {
	out := object{}
	for k := programme.None + 1; k < programme.Readings; k++ {
		out.num(k.Key(), v[k])
	}
	return out
}

// goods are the keys of a balance and of its lines.
var goods = [...]struct{ good, amount string }{
	barley.Dry: {"dry", "amount_kg"}, barley.Water: {"water", "amount_kg"}, barley.Oxygen: {"oxygen", "amount_kg"},
	barley.CarbonDioxide: {"carbon_dioxide", "amount_kg"}, barley.HeatJ: {"heat", "amount_j"},
}

func balance(b course.Balance) object {
	out := object{}
	for g, key := range goods {
		lines := []object{}
		for _, l := range b.Lines {
			if int(l.Good) == g {
				lines = append(lines, object{"line": l.Code}.num(key.amount, l.Amount))
			}
		}
		out[key.good] = object{"lines": lines}.num("closure", b.Closure[g])
	}
	return out
}

// curve holds each reading as a list over the moments; null where there is
// none.
func curve(c course.Curve) object {
	out := object{"time_h": c.TimeH}
	for k := programme.None + 1; k < programme.Readings; k++ {
		list := make([]*float64, len(c.At))
		any := false
		for i := range c.At {
			if x := c.At[i][k]; !math.IsNaN(x) && !math.IsInf(x, 0) {
				list[i], any = &c.At[i][k], true
			}
		}
		if any {
			out[k.Key()] = list
		}
	}
	return out
}

func kilned(k course.Kilned) object {
	return object{}.
		num("moisture_mean_wb", k.MoistureMean).num("moisture_wettest_wb", k.MoistureWettest).num("moisture_driest_wb", k.MoistureDriest).
		num("spread_sd_wb", k.SpreadSD).num("break_h", k.BreakH).num("break_wettest_wb", k.BreakWettest).
		num("colour_mean_ebc", k.ColourMean).num("colour_least_ebc", k.ColourLeast).num("colour_most_ebc", k.ColourMost).
		num("alpha_amylase_left", k.Left.AlphaAmylase).num("beta_amylase_left", k.Left.BetaAmylase).
		num("endo_glucanase_left", k.Left.EndoGlucanase).num("exo_glucanase_left", k.Left.ExoGlucanase).num("smm_left", k.Left.SMM)
}

func analysis(a malt.Analysis) object {
	out := object{}
	for p, f := range a {
		out.quantity(p.Key(f.Basis), f.Value)
	}
	return out
}

// judged is one limit; its numbers have the unit of the figure it names.
func judged(v malt.Verdict) object {
	out := object{"figure": v.Limit.Parameter.Key(v.Limit.Basis), "verdict": v.Word}
	out.text("method", v.Limit.Method).text("reason", string(v.Reason))
	return out.num("least", v.Limit.Min).num("most", v.Limit.Max).num("value", v.Found.Value.Mid).
		num("margin", v.Margin).num("guard", v.Guard).num("chance", v.Chance)
}

func cost(c course.Cost) object {
	return object{}.text("currency", c.Currency).
		num("barley_t", c.BarleyT).num("water_m3", c.WaterM3).num("effluent_m3", c.EffluentM3).num("cod_kg", c.CODKg).
		num("heat_to_air_kwh", c.HeatToAirKWh).num("heat_to_water_kwh", c.HeatToWaterKWh).num("cold_to_water_kwh", c.ColdToWaterKWh).num("fuel_lhv_kwh", c.FuelLHVKWh).num("fuel_hhv_kwh", c.FuelHHVKWh).
		num("power_kwh", c.PowerKWh).num("duration_h", c.Hours).num("co2e_kg", c.CO2eKg).
		num("barley_cost", c.BarleyCost).num("water_cost", c.WaterCost).num("heat_cost", c.HeatCost).
		num("power_cost", c.PowerCost).num("vessel_cost", c.VesselCost).num("by_product_value", c.ByProductValue).
		num("per_tonne_cost", c.PerTonneMalt)
}

// FindingObjects are findings as they stand in every result, for results that
// are not written here.
func FindingObjects(fs []finding.Finding) []map[string]any {
	out := []map[string]any{}
	for _, f := range fs {
		out = append(out, findingObject(f))
	}
	return out
}

func findings(fs []finding.Finding) []object { return each(fs, findingObject) }

func findingObject(f finding.Finding) object {
	figures := object{}
	for _, g := range f.Figures {
		figures.num(g.Name, g.Value)
	}
	out := object{"code": f.Code, "severity": f.Severity.String(), "stage": f.Stage}
	if len(figures) > 0 {
		out["figures"] = figures
	}
	if f.AtH != finding.Nowhere {
		out.num("at_h", f.AtH)
	}
	for key, i := range map[string]int{"column": f.Column, "layer": f.Layer, "class": f.Class} {
		if i != finding.Nowhere {
			out[key] = i
		}
	}
	return out.text("act", f.Act).text("source", f.Source).num("chance", f.Chance).num("cost_share", f.Cost)
}

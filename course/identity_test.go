package course_test

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"awn/barley"
	"awn/course"
	"awn/finding"
	"awn/plant"
	"awn/programme"
)

// Three hundred pieces, a hundred in each of three builds of vessel (box, round
// and combined count as one: their air is the same). Dry matter, water, heat, oxygen
// and carbon dioxide close within 1e-9 of what passed through, from an inventory
// of the grain that no account has a part in; nothing is less than nothing; every
// figure is a number or is on the list of those that may be unknown.
func TestAnyPieceCloses(t *testing.T) {
	t.Parallel()
	base := load(t, "piece.yaml")
	drawn := map[string]int{}
	for name, kinds := range map[string][]plant.GerminatorKind{
		"box": {plant.Box, plant.Round, plant.Combined}, "drum": {plant.Drum}, "floor": {plant.Floor},
	} {
		t.Run(name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				p := anyPiece(t, base, rapid.SampledFrom(kinds).Draw(t, "build"))
				o, err := course.Run(p)
				if err != nil {
					t.Fatal(err)
				}
				cover(drawn, p)
				closes(t, o)
				whole(t, o)
				for _, fault := range unsound("outcome", reflect.ValueOf(*o)) {
					t.Error(fault)
				}
			})
		})
	}
	for _, kind := range slices.Sorted(keys(drawn)) {
		t.Logf("%4d %s", drawn[kind], kind)
	}
	for _, kind := range kinds {
		if drawn[kind] == 0 {
			t.Errorf("no piece with %s was drawn", kind)
		}
	}
}

func keys(m map[string]int) func(yield func(string) bool) {
	return func(yield func(string) bool) {
		for k := range m {
			if !yield(k) {
				return
			}
		}
	}
}

// kinds are what some of the pieces must hold.
var kinds = []string{
	"1 immersion", "2 immersions", "3 immersions", "air rest", "couch", "drain", "spray in the steep", "growth with air", "fan off in growth",
	"turns", "sprays to a moisture", "sprays by amount", "direct firing", "indirect firing", "return air", "fan off on the kiln", "dampers shut", "an uneven bed", "an uneven steep", "wet cast", "reused water", "frost", "heat",
	"above 2000 m", "from germination on", "from the kiln on", "condition that ends a step", "build 0", "build 1", "build 2", "build 3", "build 4",
}

// cover counts what a piece holds.
func cover(drawn map[string]int, p *course.Piece) {
	count := func(name string, yes bool) {
		if yes {
			drawn[name]++
		}
	}
	immersions := 0
	for _, s := range p.Programme.Steep {
		name := [...]string{"", "air rest", "couch", "drain", "spray in the steep"}[s.Kind]
		count(name, s.Kind != programme.Immersion)
		if s.Kind == programme.Immersion {
			immersions++
		}
		count("condition that ends a step", s.Until.Reading != programme.None)
	}
	count(fmt.Sprintf("%d immersion%s", immersions, strings.Repeat("s", min(1, immersions-1))), true)
	for _, s := range p.Programme.Germinate {
		count("growth with air", !s.FanOff)
		count("fan off in growth", s.FanOff)
		count("dampers shut", s.DampersShut)
		count("turns", s.TurnEvH > 0)
		count("sprays to a moisture", s.SprayToWB > 0)
		count("sprays by amount", s.SprayKgT > 0)
	}
	for _, s := range p.Programme.Kiln {
		count("return air", s.Recirculation > 0)
		count("fan off on the kiln", s.FanOff)
	}
	direct := p.House.Kilns[0].Burner.Firing == plant.Direct
	count("direct firing", direct)
	count("indirect firing", !direct)
	count("an uneven steep", p.House.Steeps[0].Columns != nil)
	count("wet cast", p.Programme.Cast.Wet)
	count("reused water", p.Programme.Steep[0].Reused > 0)
	count("an uneven bed", p.House.Kilns[0].Columns != nil)
	count("frost", p.House.Weather.AirC[0] < 0)
	count("heat", p.House.Weather.AirC[0] > 30)
	count("above 2000 m", p.House.AltitudeM > 2000)
	count("from germination on", p.Begin != nil && p.Begin.Stage == course.Germinate)
	count("from the kiln on", p.Begin != nil && p.Begin.Stage == course.Kiln)
	count(fmt.Sprintf("build %d", p.House.Germinators[0].Kind), true)
}

// closure is how far an account may be off, of what passed: rounding over some
// thousand steps.
const closure = 1e-9

// closes holds each stage's account to its inventory.
func closes(t *rapid.T, o *course.Outcome) {
	for _, s := range o.Stages {
		for good, off := range s.Balance.Closure {
			if !(off <= closure) {
				t.Errorf("%s: good %d is off by %.3g of what passed", s.Stage, good, off)
			}
		}
	}
}

// whole holds the products of dressing, and what was lost on the way, to the
// barley.
func whole(t *rapid.T, o *course.Outcome) {
	lost := 0.0
	for _, s := range o.Stages {
		for _, l := range s.Balance.Lines {
			if l.Good == barley.Dry {
				lost -= l.Amount
			}
		}
	}
	y := &o.Yield
	cast := o.Piece.CastKg * (1 - o.Lot.Moisture.Mid)
	if b := o.Piece.Begin; b != nil {
		cast = b.DryKg
	}
	if left := y.Malt.DryKg + y.Culms.DryKg + y.Screens.DryKg + y.Dust.DryKg; math.Abs(cast-lost-left) > closure*cast {
		t.Errorf("%.9g kg of dry matter, of which %.9g were lost and %.9g are left", cast, lost, left)
	}
	if c := &o.Cleaned; c.Received.DryKg > 0 {
		parts := c.Dust.DryKg + c.Foreign.DryKg + c.Screened.DryKg + c.Second.DryKg
		if math.Abs(c.Received.DryKg-parts-cast) > closure*cast {
			t.Errorf("%.9g kg of dry matter received, %.9g cleaned out and %.9g cast", c.Received.DryKg, parts, cast)
		}
	}
	kilnedDB, sentDB := o.Kilned.MoistureMean/(1-o.Kilned.MoistureMean), float64(o.Rested.Moisture.DryBasis())
	if math.Abs(sentDB-kilnedDB-o.Rested.Gained) > closure {
		t.Errorf("malt of %.12g takes up %.12g and is sent out at %.12g", kilnedDB, o.Rested.Gained, sentDB)
	}
	if share := y.PerDry + y.All; math.Abs(share-1) > closure {
		t.Errorf("malt and losses are %.12g of the barley", share)
	}
}

// What an outcome may hold below nothing: amounts with a direction, temperatures
// in frost, and what a piece costs once its by-products are sold.
var signed = []string{".Amount", ".DriedKg", ".Gained", ".DewC", ".WallC", "TempC", ".MeanC", ".HottestC", ".RestC", ".OutsideC", ".OffsetDB", "_c]", "[heater", "PerTonneMalt", ".Judged.Margin", ".StartMs", ".Column", ".Layer", ".Class", ".AtH", ".WorstLayer", ".WorstColumn"}

// What may be unknown, and why.
var unknown = map[string]string{
	"[":                                 "a reading that the stage has not, such as air-off of grain under water",
	".Low":                              "a single run has no band",
	".High":                             "a single run has no band",
	".Judged.Chance":                    "a single run gives no chances",
	".Judged.Guard":                     "the method's scatter is not known",
	".Judged.Margin":                    "the figure is not known",
	".Judged.Found.Value":               "the figure is not known",
	".Brewed.AttenuationLimit":          "short of enzymes, for which no formula is known",
	".Brewed.SpiritLTonne":              "the same",
	".Brewed.FinalPlato":                "the same",
	".Brewed.AlcoholByVolume":           "the same",
	"finding programme.condition.unmet": "what a step waited for could not be read, such as air-off of a fan that stands still",
	".Stops.":                           "a stop of the fan that does not come to the limit",
	"finding germinate.fan.stopped":     "a limit that is not come to at the usual draught, and is at the least",
	".Spots.AirGrown":                   "the piece begins later, or no fan has run",
	".Spots.AirKilned":                  "no fan has run",
	".Made.RestC":                       "no rest draws air",
	".Made.OutsideC":                    "the piece begins later",
	".Made.RoomDioxide":                 "the piece begins later",
	".OxygenMin":                        "the stop ended before",
	".HotMin":                           "the stop ended before",
	".Kilned.BreakH":                    "no break was seen",
	".Kilned.BreakWettest":              "no break was seen",
	".Yield.PerReceived":                "barley as received was not weighed",
	".Yield.PerCleaned":                 "barley as cleaned was not weighed",
	".Cleaned.":                         "nobody says what lies before the steep, or its lot's figures are unknown",
	".Water.":                           "nobody has recorded it, or no water is reused, or the piece begins later",
	".Rested.DewC":                      "malt too hot and wet for its air to have a dew point",
	".ExtractReceived":                  "barley as received was not weighed",
	".Lot.GreenSMM":                     "nobody measured it",
}

// unsound lists the figures that are infinite, below nothing or unknown without
// being allowed to. The question and the buyer's limits are not the answer's.
func unsound(path string, v reflect.Value) []string {
	var out []string
	switch v.Kind() {
	case reflect.Float64:
		x := v.Float()
		switch {
		case math.IsInf(x, 0):
			out = append(out, path+" is infinite")
		case math.IsNaN(x) && !mayBe(path):
			out = append(out, path+" is not a number")
		case x < 0 && !strings.HasSuffix(path, "_c") && !slices.ContainsFunc(signed, func(s string) bool { return strings.Contains(path, s) }):
			out = append(out, fmt.Sprintf("%s is %g", path, x))
		}
	case reflect.Struct:
		if f, ok := v.Interface().(finding.Finding); ok {
			for _, figure := range f.Figures {
				out = append(out, unsound("finding "+f.Code+" "+figure.Name, reflect.ValueOf(figure.Value))...)
			}
			return out
		}
		for i := range v.NumField() {
			f := v.Type().Field(i)
			if f.Name == "Piece" || f.Name == "Limit" || f.Name == "Until" || !f.IsExported() {
				continue
			}
			out = append(out, unsound(path+"."+f.Name, v.Field(i))...)
		}
	case reflect.Array, reflect.Slice:
		values := v.Type() == reflect.TypeFor[programme.Values]()
		for i := range v.Len() {
			at := path
			if values {
				at += "[" + programme.Reading(i).Key() + "]"
			}
			out = append(out, unsound(at, v.Index(i))...)
		}
	case reflect.Map:
		for it := v.MapRange(); it.Next(); {
			out = append(out, unsound(fmt.Sprintf("%s(%v)", path, it.Key()), it.Value())...)
		}
	}
	return out
}

func mayBe(path string) bool {
	for part := range unknown {
		if strings.Contains(path, part) {
			return true
		}
	}
	return false
}

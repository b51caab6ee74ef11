package course_test

import (
	"io/fs"
	"math"
	"os"
	"reflect"
	"strings"
	"testing"
	"testing/fstest"

	"awn/course"
	"awn/internal/paper"
	"awn/programme"
)

// edit is a change to the text of one of the examples.
type edit struct{ file, old, new string }

// edited reads the first example with changes to its documents.
func edited(t *testing.T, edits ...edit) (course.Piece, paper.Faults) {
	t.Helper()
	files := fstest.MapFS{}
	from := os.DirFS("../examples")
	names, err := fs.Glob(from, "*.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		data, err := fs.ReadFile(from, name)
		if err != nil {
			t.Fatal(err)
		}
		text := string(data)
		for _, e := range edits {
			if e.file != name {
				continue
			}
			if !strings.Contains(text, e.old) {
				t.Fatalf("%s holds no %q", name, e.old)
			}
			text = strings.ReplaceAll(text, e.old, e.new)
		}
		files[name] = &fstest.MapFile{Data: []byte(text)}
	}
	p, _, faults := paper.Load(files, "piece.yaml")
	return p, faults
}

// What cannot be is refused in the document, with a code and a place.
func TestDocumentsRefuse(t *testing.T) {
	for name, c := range map[string]struct {
		edit
		code, path string
	}{
		"steep water over 45 °C": {edit{"programme-pale.yaml", "for: 7 h, water: 17 °C", "for: 7 h, water: 46 °C"}, "number.range", "steep[0].immersion.water"},
		"kiln air over 110 °C":   {edit{"programme-pale.yaml", "air_on: 84 °C", "air_on: 111 °C"}, "programme.kiln.roasts", "kiln[2].air_on"},
		"nothing cast":           {edit{"piece.yaml", "cast: 60 t", "cast: 0 t"}, "number.range", "cast"},
		"less than nothing cast": {edit{"piece.yaml", "cast: 60 t", "cast: -60 t"}, "number.range", "cast"},
		"no basis":               {edit{"lot-easy.yaml", "moisture: 11.8 % wb", "moisture: 11.8 %"}, "unit.basis.missing", "moisture"},
		"sieves over 100 %":      {edit{"lot-easy.yaml", "2.8 mm: 61 %", "2.8 mm: 71 %"}, "lot.sieves.over-100", "sieves_ebc"},
		"a parameter unknown":    {edit{"plant.yaml", "prices:", "params: {kernel.respire.pace: 1}\nprices:"}, "plant.params.unknown", "params.kernel.respire.pace"},
		"air faster than any":    {edit{"programme-pale.yaml", "flow: 3600 m3/h/t", "flow: 360000 m3/h/t"}, "number.range", "kiln[0].flow"},
		"a condition of a bed":   {edit{"programme-pale.yaml", "until: chit 90 %", "until: break"}, "programme.until.not-here", "steep[5].air_rest.until"},
	} {
		_, faults := edited(t, c.edit)
		if len(faults) != 1 || faults[0].Code != c.code || faults[0].Path != c.path || faults[0].Line == 0 {
			t.Errorf("%s: %v", name, faults)
		}
	}
}

// What a document cannot know to be impossible is an error that names the stage.
func TestCourseRefuses(t *testing.T) {
	strong := edit{"plant.yaml", "fan: {shut_off: 3200 Pa, free: 420000 m3/h", "fan: {shut_off: 10 kPa, free: 2000000 m3/h"}
	for name, c := range map[string]struct {
		edits  []edit
		change func(p *course.Piece)
		says   string
	}{
		"air that lifts the bed":      {edits: []edit{strong, {"programme-pale.yaml", "flow: 3600 m3/h/t", "flow: 20000 m3/h/t"}}, says: "lift the bed"},
		"steep water over 45 °C":      {change: func(p *course.Piece) { p.Programme.Steep[0].WaterC = 46 }, says: "steep: water of 46"},
		"kiln air over 110 °C":        {change: func(p *course.Piece) { p.Programme.Kiln[2].AirOnC = 111 }, says: "kiln at"},
		"less than nothing cast":      {change: func(p *course.Piece) { p.CastKg = -1 }, says: "above 0 kg"},
		"cast that is not a number":   {change: func(p *course.Piece) { p.CastKg = math.NaN() }, says: "above 0 kg"},
		"a kiln that is not there":    {change: func(p *course.Piece) { p.Kiln = 7 }, says: "no kiln number 8"},
		"no steps":                    {change: func(p *course.Piece) { p.Programme.Germinate = nil }, says: "germinate: the programme has no step"},
		"a parameter unknown":         {change: func(p *course.Piece) { p.House.Parameters = map[string]float64{"kiln.k": 1} }, says: "the nearest is"},
		"a grid of less than nothing": {change: func(p *course.Piece) { p.Grid.StepShare = -1 }, says: "grid"},
		"grain of no moisture": {change: func(p *course.Piece) {
			p.Begin = &course.Begin{Stage: course.Kiln, DryKg: 5e4, Moisture: math.NaN(), TempC: 15, Chit: 1, AgeD: 4}
		}, says: "no piece of grain"},
	} {
		p, faults := edited(t, c.edits...)
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		if c.change != nil {
			c.change(&p)
		}
		o, err := course.Run(&p)
		if err == nil || o != nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// What is bad and can be computed is computed, told, and holds nothing that is
// not a number.
func TestHardPiecesAreTold(t *testing.T) {
	t.Parallel()
	weather := func(airC, waterC string) []edit {
		return []edit{
			{"plant.yaml", "air: [6 °C, 6 °C, 7 °C", "air: [" + airC + ", " + airC + ", " + airC},
			{"plant.yaml", "water: [9 °C, 9 °C, 9 °C", "water: [" + waterC + ", " + waterC + ", " + waterC},
		}
	}
	dead := []edit{
		{"lot-easy.yaml", "germinated: 148", "germinated: 1"}, {"lot-easy.yaml", "germinated: 195", "germinated: 2"},
		{"lot-easy.yaml", "germinated: 197", "germinated: 3"}, {"lot-easy.yaml", "germinated: 186", "germinated: 1"},
		{"lot-easy.yaml", "capacity: 99 %", "capacity: 2 %"},
	}
	for name, c := range map[string]struct {
		edits []edit
		says  []string
	}{
		"a condition never reached": {[]edit{{"programme-pale.yaml", "{for: 3 d, until: acrospire 0.75", "{for: 20 h, until: acrospire 0.75"}}, []string{"programme.condition.unmet"}},
		"a lot that will not grow":  {dead, []string{"steep.chit.impossible", "germinate.corns.unmodified"}},
		"a fan that stops in growth": {[]edit{{"programme-pale.yaml", "turn_every: 12 h, spray_to: 45 % wb}",
			"turn_every: 12 h, spray_to: 45 % wb}\n  - {for: 8 h, air_on: 14 °C, humidity: 98 %, fan_off: true}"}}, []string{"germinate.fan.stopped-breathless"}},
		"a fan that stops on the kiln": {[]edit{{"programme-pale.yaml", "kiln:\n", "kiln:\n  - {name: stopped, for: 5 h, air_on: 20 °C, fan_off: true}\n"}}, []string{"kiln.fan.stopped"}},
		"frost":                        {weather("-15 °C", "2 °C"), nil},
		"heat":                         {weather("40 °C", "25 °C"), []string{"germinate.air.warm"}},
		"3000 m":                       {[]edit{{"plant.yaml", "altitude: 9 m", "altitude: 3000 m"}}, nil},
		"curing at 110 °C":             {[]edit{{"programme-pale.yaml", "air_on: 84 °C", "air_on: 110 °C"}}, []string{"malt.colour.above"}},
	} {
		t.Run(name, func(t *testing.T) {
			p, faults := edited(t, c.edits...)
			if len(faults) > 0 {
				t.Fatal(faults)
			}
			o := run(t, &p)
			for _, code := range c.says {
				if _, ok := told(o, code); !ok {
					t.Errorf("%s is not told: %v", code, codes(o))
				}
			}
			for _, fault := range unsound("outcome", reflect.ValueOf(*o)) {
				t.Error(fault)
			}
		})
	}
}

// codes are those of the findings, weightiest first.
func codes(o *course.Outcome) (all []string) {
	for _, f := range o.Findings {
		all = append(all, f.Code)
	}
	return all
}

// The finding of a condition that is never reached says what was asked for, what
// was reached, and when the latest time was up.
func TestUnmetCondition(t *testing.T) {
	p := load(t, "piece.yaml")
	p.Programme.Germinate = p.Programme.Germinate[1:]
	p.Programme.Germinate[0].Until.LatestH = 20
	o := run(t, p)
	f, ok := told(o, "programme.condition.unmet")
	if !ok {
		t.Fatal(codes(o))
	}
	grown := stage(t, o, course.Germinate)
	near(t, "hour", f.AtH, grown.FromH+20, 1e-9)
	near(t, "latest", figure(f, "latest_h"), 20, 0)
	near(t, "asked", figure(f, "asked"), 0.75, 0)
	near(t, "reached", figure(f, "acrospire"), grown.End[programme.Acrospire], 0)
	if grown.Steps[0].Ended != course.AtLatest {
		t.Errorf("the step ended %v", grown.Steps[0].Ended)
	}
}

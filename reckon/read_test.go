package reckon

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"awn/unit"
)

// One line may be written in many ways.
func TestOneLineManyWays(t *testing.T) {
	want := value(t, "air t=30 °C rh=50 % altitude=300 m", "wet_bulb_c")
	for _, line := range []string{
		"air 30 °C 50 %rh at 300 m",
		"air 30°C 50%rh 300m",
		"air 50 % 30 °C 300 m",
		"air rh 50 % t 30 °C altitude 300 m",
		"air t = 30 C rh=50% alt 300 m",
		"air of 30 degC and 50 % on 300 m",
		"air 86 °F 50 % at 300 m in °F",
	} {
		if got := value(t, line, "wet_bulb_c"); math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: %g, want %g", line, got, want)
		}
	}
	if got := value(t, "air −5 °C 80 %", "dry_bulb_c"); got != -5 {
		t.Errorf("a minus sign: %g", got)
	}
}

func TestUnitsThatLookLikeWords(t *testing.T) {
	for line, want := range map[string]float64{
		"slot 7/64 in":           0.002778125, // 7/64 of 25.4 mm
		"slot 1 in in mm":        0.0254,
		"slot 2.5 mm in /64 in":  0.0025,
		"slot 0.109375 in in in": 0.002778125,
	} {
		if got := value(t, line, "length_m"); math.Abs(got-want) > 1e-12 { // exact but for rounding
			t.Errorf("%s: %g, want %g", line, got, want)
		}
	}
	if got := value(t, "mass 100 bu malt", "mass_kg"); math.Abs(got-1542.214) > 0.001 { // 3400 lb
		t.Errorf("100 bu malt: %g kg", got)
	}
}

func TestAskedUnitComesFirst(t *testing.T) {
	for line, want := range map[string]string{
		"mass 1000 bu in lb":                  "48000 lb",
		"temperature 62 °F in K":              "289.817 K", // (62 + 459.67)·5/9
		"slot 6/64 in in mm":                  "2.38125 mm",
		"water 1 t from 20 % to 10 % in ston": "0.979832 ston", // 1000/0.9 × 0.8 kg over 907.18474
	} {
		a, err := ask(line)
		if err != nil {
			t.Errorf("%s: %v", line, err)
		} else if got := a.Results[0].Shown[0]; got != want {
			t.Errorf("%s: %s first, want %s", line, got, want)
		}
	}
}

func TestFaults(t *testing.T) {
	for _, c := range []struct {
		line, codes, nearest string
		at                   int // of the first fault
	}{
		{"airr", "reckon.entry.unknown", "air", 0},
		{"air 30 50", "unit.missing unit.missing", "", 0},
		{"air 30 °K 50 %", "unit.unknown", "°C", 0},
		{"air 30 °C 20 °C", "reckon.input.name", "", 6},
		{"air 30 °C 50 % 60 %", "reckon.input.twice", "", 11},
		{"air t=30 °C t=31 °C", "reckon.input.twice", "", 10},
		{"air tt=30 °C rh=50 %", "reckon.word.unknown", "t", 0},
		{"air t= rh=50 %", "reckon.input.value", "", 0},
		{"air rh", "reckon.input.value", "", 0},
		{"air 30 °C 500 psii", "unit.unknown", "psi", 6},
		{"air 2000 °C 50 %", "number.range", "", 0},
		{"water 25 t frm 16 %", "reckon.word.unknown", "from", 5},
		{"water 25 t from 16 to 13,5 %", "unit.missing number.ambiguous", "", 10},
		{"water 25 t", "reckon.input.missing reckon.input.missing", "", 0},
		{"emc wheat 15 °C 65 %", "reckon.word.unknown", "", 0},
		{"emc grain=wheat 15 °C 65 %", "reckon.word.unknown", "", 6},
		{"emc 15 °C barley malt 65 %", "reckon.input.twice", "", 13},
		{"count 97,5 of 100", "number.malformed", "", 0},
		{"count 97 of 0", "number.range", "", 6},
		{"count 97 kg", "reckon.input.place", "", 0},
		{"mass 5 lb in kgg", "reckon.unit.asked", "kg", 8},
		{"mass 5 lb in", "reckon.input.value", "", 5},
		{"ticket 25 t 16 % 13.5 %", "reckon.input.missing", "", 0},
		{"ticket 25 t moisture 16 % basis 13.5 % rule 1.4 %", "unit.unknown", "", 37},
		{"ticket 25 t moisture 16 % basis 13.5 % rule 40 %/pt", "number.range", "", 37},
		{"sieves 61 % over 7/64 in 92 % over 6/64 in", "reckon.input.missing", "", 0},
		{"hwe 80 % dm", "reckon.word.unknown", "", 5},
		{"blend 50 % tn 1.6 % then tn 1.8 %", "reckon.input.missing", "", 0},
		{"blend 50 % wug 1 % then 50 % wug 2 % wug-max 2 % wug-max 3 %", "reckon.input.twice", "", 51},
		{"blend 50 % friabilty 90 %", "reckon.word.unknown reckon.input.name", "friability", 5},
		{"mass 5 t then 6 t", "reckon.word.unknown reckon.input.twice", "", 4},
		{"mass =", "reckon.word.unknown", "", 0},
		{"moisture 13 %wbb", "unit.unknown", "% wb", 0},
	} {
		faults, refused := faultsIn(t, c.line)
		if refused || strings.Join(codes(faults), " ") != c.codes {
			t.Errorf("%s: %v, want %s", c.line, codes(faults), c.codes)
			continue
		}
		if f := faults[0]; f.At != c.at || f.Nearest != c.nearest {
			t.Errorf("%s: at %d, nearest %q; want %d and %q", c.line, f.At, f.Nearest, c.at, c.nearest)
		}
	}
}

func TestNoAnswer(t *testing.T) {
	for line, code := range map[string]string{
		"air 30 °C":                     "reckon.air.two",
		"air":                           "reckon.air.two",
		"air 30 °C 50 % wb 20 °C":       "reckon.air.two",
		"air 30 °C 50 % 300 m 900 hPa":  "reckon.air.pressure",
		"air 30 °C wb 35 °C":            "air.pair.impossible",
		"air dp 10 °C w=8 g/kg":         "air.pair.same",
		"air wb 20 °C h=57 kJ/kg":       "air.pair.ambiguous",
		"air 300 °C 5 %":                "air.given.out-of-range",
		"air 30 °C 50 % 5 kPa":          "air.pressure.out-of-range",
		"emc barley 90 °C 50 %":         "reckon.answer.range",
		"emc barley 15 °C":              "reckon.input.missing",
		"wort 25 °P":                    "reckon.answer.range",
		"wort":                          "reckon.input.missing",
		"protein":                       "reckon.input.missing",
		"count 101 of 100":              "reckon.count.impossible",
		"count 9.5 of 100":              "reckon.count.impossible",
		"grist 1 hL 12 °P 80 % dm":      "reckon.extract.asis",
		"spirit 80 % dm":                "reckon.extract.asis",
		"kolbach 4 % dm 11 % asis":      "reckon.kolbach.basis",
		"alcohol from 2 °P to 12 °P":    "reckon.answer.range",
		"steeped 100 g at 12 % to 50 g": "reckon.answer.range",
		"airflow 300 m3/h on 0 m2":      "reckon.airflow.needs",

		"sieves 61 % over 7/64 in 92 % over 6/64 in for 2 mm":      "reckon.sieves.between",
		"sieves 92 % over 7/64 in 61 % over 6/64 in for 2.5 mm":    "reckon.sieves.order",
		"test-weight 200 g/0.5 L":                                  "reckon.answer.range",
		"blend 50 % wug 1 %":                                       "reckon.blend.parts",
		"blend 50 % wug 1 % then 50 %":                             "reckon.blend.parts",
		"blend 50 % then 50 %":                                     "reckon.blend.parts",
		"blend 50 % tn 1.6 % then 50 % tn 1.8 %":                   "reckon.blend.parts",
		"blend 50 % wug 1 % then 50 % wug 2 % friability-min 85 %": "reckon.blend.parts",
		"blend 50 % wug 1 % then 40 % wug 2 %":                     "reckon.blend.shares",
		"blend 50 % wug 1 % then 5 t wug 2 %":                      "reckon.blend.shares",
		"blend 0 t wug 1 % then 5 t wug 2 %":                       "reckon.blend.shares",
		"fan 150 mg/L 8.65 °P":                                     "reckon.input.missing",
		"soluble 720 mg/L 8.65 °P 76 % asis":                       "reckon.input.missing",
		"hwe 1.03 308 L°/kg dm":                                    "reckon.input.missing",
		"hwe 250 L°/kg dm":                                         "reckon.answer.range",
		"colour 3 EBC a430 0.2":                                    "reckon.input.missing",
		"alcohol 12 °P og=1.048 to 2.5 °P":                         "reckon.input.missing",
		"grist 1 hL 80 % asis":                                     "reckon.input.missing",
		"alcohol og=1.010 fg=1.048":                                "reckon.answer.range",
		"resistance 90 m/s 1 m":                                    "reckon.answer.range",
	} {
		faults, refused := faultsIn(t, line)
		if len(faults) == 0 || faults[0].Code != code || !refused {
			t.Errorf("%s: %v refused %v, want %s", line, codes(faults), refused, code)
		}
	}
}

// faultsIn are the faults of a line that must have some.
func faultsIn(t *testing.T, line string) (Faults, bool) {
	t.Helper()
	_, err := ask(line)
	var many Faults
	var one *Fault
	switch {
	case errors.As(err, &many):
	case errors.As(err, &one):
		many = Faults{one}
	default:
		t.Errorf("%s: answered, or %v", line, err)
	}
	return many, many.Refused()
}

func codes(faults Faults) []string {
	out := make([]string, len(faults))
	for i, f := range faults {
		out[i] = f.Code
	}
	return out
}

func TestEveryFaultHasASentence(t *testing.T) {
	for code, sentence := range Sentences {
		if _, twice := unit.Sentences[code]; twice || sentence == "" {
			t.Errorf("%s has two sentences or none", code)
		}
	}
	for _, line := range []string{"air 30 °C", "airr", "count 9.5 of 100", "mass 5 lb in kgg"} {
		_, err := ask(line)
		if text := err.Error(); len(text) < 20 || strings.ContainsAny(text, "{}") {
			t.Errorf("%s: %q", line, text)
		}
	}
}

// Whatever is typed is answered or refused, with every place inside the line.
func FuzzAsk(f *testing.F) {
	for _, e := range Entries() {
		for _, x := range e.Examples {
			f.Add(x)
		}
	}
	for _, x := range []string{"air 30 °C 20 °C", "air == 3", "count -1 of 1e9", "mass 1 in in in", "emc barley malt", "wort 1.0.4", "slot 7/64", "air t", "mass 0 kg", "water 0 t from 0 % to 0 %", "airflow 0 m3/h 0 t",
		"blend then", "blend 1 % then 99 % then then", "blend 50 % wug 0 % then 50 % wug 0 % wug-max 0 %", "blend 1 g moisture 95 % tn 0 % sn 0 % then 1 g moisture 95 % tn 0 % sn 0 %",
		"ticket 0 kg dockage 100 % moisture 95 % basis 0 % rule 10 %/pt", "sieves 100 % 1 mm 100 % 3 mm for 2 mm least 100 %", "fan 0 mg/L 0 °P moisture 0 %", "mass 5 [lb_av] in TNE"} {
		f.Add(x)
	}
	f.Fuzz(func(t *testing.T, line string) {
		a, err := ask(line)
		var faults Faults
		var fault *Fault
		switch {
		case err == nil:
			for _, r := range a.Results {
				if math.IsInf(r.Value, 0) || len(r.Shown) == 0 {
					t.Errorf("%q: %s is %g, shown as %q", line, r.Key, r.Value, r.Shown)
				}
			}
		case errors.As(err, &faults):
			if len(faults) == 0 || slices.ContainsFunc(faults, func(f *Fault) bool { return f.At < 0 || f.At+f.Width > len([]rune(line)) || f.Error() == "" }) {
				t.Errorf("%q: %+v", line, faults)
			}
		case !errors.As(err, &fault):
			t.Errorf("%q: %T", line, err)
		}
	})
}

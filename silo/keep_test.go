package silo

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"awn/finding"
	"awn/odds"
)

var nan = math.NaN()

// bare is a store of which little is known.
func bare() Store {
	return Store{Name: "1", IntakeWB: 0.135, IntakeC: 18, Today: 60, SteepDay: nan, KeepDays: nan, OutsideC: nan}
}

func codes(fs []finding.Finding) string {
	out := make([]string, len(fs))
	for i, f := range fs {
		out[i] = f.Code
	}
	return strings.Join(out, " ")
}

func has(fs []finding.Finding, code string) bool { return strings.Contains(codes(fs), code) }

// fine checks that no finding holds a figure that is infinite, and that each
// names its source.
func fine(t *testing.T, fs []finding.Finding) {
	t.Helper()
	for _, f := range fs {
		for _, g := range f.Figures {
			if math.IsInf(g.Value, 0) {
				t.Errorf("%s: %s is infinite", f.Code, g.Name)
			}
		}
		if f.Source == "" {
			t.Errorf("%s names no source", f.Code)
		}
	}
}

// weekly readings of one sensor.
func weekly(temps ...float64) (out []Reading) {
	for i, c := range temps {
		out = append(out, Reading{Day: float64(7 * i), Height: 0.5, TempC: c, Moisture: nan})
	}
	return out
}

func TestHistoryWithGaps(t *testing.T) {
	rs := []Reading{
		{Day: 30, Height: 0.5, TempC: 12, Moisture: 0.13}, // out of order on purpose
		{Day: 0, Height: 0.2, TempC: 18, Moisture: 0.15}, {Day: 0, Height: 0.9, TempC: 20, Moisture: nan},
		{Day: 10, Height: 0.5, TempC: 16, Moisture: nan},
		{Day: 20, Height: 0.5, TempC: nan, Moisture: nan}, // read nothing
		{Day: nan, TempC: 40}, {Day: 99, TempC: 40},
	}
	spells, gaps := History(rs, 0.14, 40)
	want := []Spell{{10, 0.15, 18}, {20, 0.15, 16}, {10, 0.13, 12}}
	if !slices.Equal(spells, want) {
		t.Errorf("%v, want %v", spells, want)
	}
	if !slices.Equal(gaps, []Gap{{10, 30}}) {
		t.Errorf("gaps %v", gaps)
	}
	if s, g := History(nil, 0.14, 40); s != nil || g != nil {
		t.Error("a history of nothing")
	}
	if got := since(want, 15); !slices.Equal(got, []Spell{{15, 0.15, 16}, {10, 0.13, 12}}) {
		t.Errorf("since day 15: %v", got)
	}
}

func TestWatch(t *testing.T) {
	rising := weekly(12, 12.1, 12.4, 13.1, 13.8, 14.6)
	if fs := Watch(rising, 0.14, 35, nan); !has(fs, "silo.temperature.rising") {
		t.Errorf("a steady rise: %s", codes(fs))
	}
	noise := weekly(12, 12.4, 11.9, 12.2, 11.8, 12.3)
	if fs := Watch(noise, 0.14, 35, nan); len(fs) != 0 {
		t.Errorf("noise: %s", codes(fs))
	}
	if fs := Watch(weekly(12, 15), 0.14, 10, nan); has(fs, "rising") {
		t.Errorf("two readings show a rise: %s", codes(fs))
	}
	if fs := Watch(noise, 0.14, 35, 3); !has(fs, "silo.temperature.gap") {
		t.Errorf("warm core, cold air: %s", codes(fs))
	}
	top := []Reading{{0, 0.2, 12, 0.14}, {0, 0.5, 12, 0.14}, {0, 1, 12, 0.16}}
	if fs := Watch(top, 0.14, 5, nan); !has(fs, "silo.moisture.top") {
		t.Errorf("a wet top: %s", codes(fs))
	}
	wet := []Reading{{0, 0.5, 14, 0.185}, {14, 0.5, 14, 0.185}}
	if fs := Watch(wet, 0.185, 14, nan); has(fs, "silo.mould.critical") {
		t.Errorf("two weeks at 18 %% are the limit: %s", codes(fs))
	}
	if fs := Watch(wet, 0.185, 15, nan); !has(fs, "silo.mould.critical") {
		t.Errorf("more than two weeks at 18 %%: %s", codes(fs))
	}
	for day, want := range map[float64]bool{14: false, 15: true} {
		if fs := Watch(weekly(16, 16, 16), 0.14, day, nan); has(fs, "silo.cooling.behind") != want {
			t.Errorf("16 °C on day %g: %s", day, codes(fs))
		}
	}
	if fs := Watch(nil, 0.14, 20, nan); !has(fs, "silo.readings.none") {
		t.Error("nobody looked, and nothing is said")
	}
	if fs := Watch(weekly(12), 0.14, 40, nan); !has(fs, "silo.readings.gap") {
		t.Error("five weeks without a reading")
	}
}

func TestKeepStates(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*Store)
		want   string
	}{
		{"short for the plan", func(s *Store) { s.IntakeWB, s.SteepDay = 0.16, 300 }, "silo.clock.too-short"},
		{"tight", func(s *Store) { s.IntakeWB, s.KeepDays = 0.14, 120 }, "silo.clock.tight"},
		{"half used", func(s *Store) { s.IntakeWB = 0.155 }, "silo.clock.half-used"},
		{"spent", func(s *Store) { s.IntakeWB, s.Today = 0.17, 100 }, "silo.clock.spent"},
		{"beyond the law", func(s *Store) { s.IntakeWB = 0.26 }, "silo.clock.beyond-law"},
		{"unknown", func(s *Store) { s.IntakeWB = nan }, "silo.grain.unknown"},
		{"sprouted", func(s *Store) { s.Sprouted = true }, "silo.life.sprouted"},
		{"wet", func(s *Store) { s.KeepDays = 250 }, "silo.drying.needed"},
		{"dead", func(s *Store) { s.Capacity, s.Today = trendSets["falling"], 150 }, "silo.life.below"},
		{"dying", func(s *Store) {
			s.Capacity, s.Today = looks([]float64{0, 30, 60, 90}, []int{399, 397, 393, 386}, 400), 91
		}, "silo.life.dying"},
		{"losing vigour", func(s *Store) { s.Energy, s.Capacity, s.Today = trendSets["falling"], trendSets["steady"], 170 }, "silo.life.vigour"},
		{"waking", func(s *Store) { s.Energy = trendSets["rising"] }, "silo.life.waking"},
		{"noise", func(s *Store) { s.Energy, s.Today = trendSets["noisy"], 84 }, "silo.life.not-shown"},
		{"dormant", func(s *Store) {
			s.Energy, s.Capacity, s.Today = looks([]float64{0}, []int{72}, 100), looks([]float64{0}, []int{99}, 100), 7
		}, "silo.dormancy.present"},
		{"old at steeping", func(s *Store) {
			s.Capacity, s.IntakeWB, s.IntakeC, s.SteepDay = looks([]float64{0}, []int{390}, 400), 0.15, 20, 180
		}, "silo.life.low-at-steep"},
	} {
		s := bare()
		c.change(&s)
		a, err := Keep(s)
		if err != nil || !has(a.Findings, c.want) {
			t.Errorf("%s: %v, %s; want %s", c.name, err, codes(a.Findings), c.want)
		}
		fine(t, a.Findings)
	}
	if _, err := Keep(Store{Today: nan}); err == nil {
		t.Error("a store without a day")
	}
}

// A dormant lot is warm enough after five weeks; cold, it stays dormant.
func TestDormancyWaitsForWarmth(t *testing.T) {
	s := bare()
	s.Energy, s.Capacity, s.Today = looks([]float64{0}, []int{72}, 100), looks([]float64{0}, []int{99}, 100), 40
	a, _ := Keep(s)
	if a.Dormant.Mid != 0 {
		t.Errorf("after 40 warm days %g are dormant", a.Dormant.Mid)
	}
	s.IntakeC = 10
	if a, _ = Keep(s); a.Dormant.Mid != 0.27 {
		t.Errorf("in the cold %g are dormant, want all 0.27", a.Dormant.Mid)
	}
}

// A count made later overrides the law, whatever came before it.
func TestMeasuredOverrides(t *testing.T) {
	s := bare()
	s.IntakeWB, s.IntakeC, s.Today = 0.16, 20, 100
	s.Capacity = looks([]float64{0, 100}, []int{396, 392}, 400)
	a, _ := Keep(s)
	near(t, "living today", a.Living.Mid, 0.98, 1e-9)
	s.Capacity = s.Capacity[:1]
	if a, _ = Keep(s); a.Living.Mid > 0.90 {
		t.Errorf("by the law alone %g live after 100 days at 16 %% and 20 °C", a.Living.Mid)
	}
}

func TestKeepWithTheTimeToCome(t *testing.T) {
	s, g := bare(), harvested()
	s.IntakeWB, s.IntakeC, s.Today, s.SteepDay = 0.14, 24, 0, 200
	s.Geometry, s.Weather = &g, SyntheticYear(coast, august)[:200*24]
	s.Capacity = looks([]float64{0}, []int{396}, 400)
	a, err := Keep(s)
	if err != nil || a.Aired == nil || a.Still == nil {
		t.Fatal(err, codes(a.Findings))
	}
	if !has(a.Findings, "silo.air.helps") || a.Aired.FanHours() == 0 || !(a.Aired.Layers()[5].Used < a.Still.Layers()[5].Used) {
		t.Errorf("%s, %d h", codes(a.Findings), a.Aired.FanHours())
	}
	w := a.Aired.Windows()
	sum := 0
	for _, x := range w {
		sum += x.ToH - x.FromH
	}
	if sum != a.Aired.FanHours() {
		t.Errorf("windows of %d h, the fan ran %d", sum, a.Aired.FanHours())
	}
	fine(t, a.Findings)
	g.Fan.FreeM3S = 0
	if _, err := Keep(s); err == nil {
		t.Error("a fan without a curve")
	}
}

func TestOrderOfUse(t *testing.T) {
	days := func(x float64) Days { return Days{x, x / 1.5, x * 1.5} }
	stocks := []Stock{
		{Name: "keeps", To95: days(200)}, {Name: "dormant", To95: days(400), ReadyIn: 20}, {Name: "falls", To95: days(40), Falling: true},
		{Name: "sprouted", To95: days(300), Sprouted: true}, {Name: "heats", To95: days(100), Heating: true},
		{Name: "cannot wait", To95: days(10), ReadyIn: 30}, {Name: "unknown", To95: Days{nan, nan, nan}},
	}
	var got []string
	for _, p := range Order(stocks) {
		got = append(got, fmt.Sprint(stocks[p.Stock].Name, p.Reasons))
	}
	want := []string{
		"sprouted[sprouted]", "heats[heating]", "cannot wait[cannot-wait]", "falls[falling]", "keeps[sooner]", "unknown[not-known]", "dormant[dormant]",
	}
	if !slices.Equal(got, want) {
		t.Errorf("%v", got)
	}
	// From stores: the damper of two like lots goes first.
	make := func(name string, w float64) (Store, Stock) {
		s := bare()
		s.Name, s.IntakeWB, s.Capacity = name, w, []Look{{0, odds.Proportion{Hits: 394, Of: 400}}}
		a, _ := Keep(s)
		return s, a.Stock(&s)
	}
	_, dry := make("dry", 0.12)
	_, damp := make("damp", 0.15)
	if o := Order([]Stock{dry, damp}); o[0].Stock != 1 {
		t.Errorf("%+v %+v", dry, damp)
	}
}

func TestCautionsNameTheirLimit(t *testing.T) {
	for act, n := range map[Act]int{Entering: 3, Unloading: 1, "reading": 0} {
		fs := Cautions(act)
		if len(fs) != n {
			t.Errorf("%s: %d", act, len(fs))
		}
		fine(t, fs)
	}
}

// FuzzKeep throws readings at a store: no panic, and nothing infinite.
func FuzzKeep(f *testing.F) {
	f.Add(0.14, 20.0, 30.0, 12.0, 0.15, 5.0, 380)
	f.Add(math.NaN(), -40.0, 0.0, 80.0, 0.9, -1.0, 400)
	f.Fuzz(func(t *testing.T, w, c, today, readC, readW, day float64, hits int) {
		s := bare()
		s.IntakeWB, s.IntakeC, s.Today, s.SteepDay = w, c, today, today+50
		s.Readings = []Reading{{day, 0.5, readC, readW}, {day + 10, 0.9, readC, nan}}
		s.Capacity = []Look{{day, odds.Proportion{Hits: hits, Of: 400}}, {day + 5, odds.Proportion{Hits: hits - 3, Of: 400}}}
		a, err := Keep(s)
		if err != nil {
			return
		}
		fine(t, a.Findings)
		a.Stock(&s)
	})
}

// What the house knows better takes the place of the table's figures.
func TestParametersOfTheHouse(t *testing.T) {
	s := bare()
	s.IntakeWB, s.Capacity = 0.15, looks([]float64{0}, []int{396}, 400)
	usual, _ := Keep(s)
	s.Constants = Defaults()
	s.Constants.ClockFactor, s.Constants.AgeingFactor = 2, 2
	slow, _ := Keep(s)
	near(t, "clock", slow.Used, usual.Used/2, 1e-12)
	near(t, "days", slow.LeftDays, 2*FraserMuir{}.SafeDays(0.15, 18)*(1-usual.Used/2), 1e-9)
	near(t, "probits lost", Probits(0.99)-Probits(slow.Living.Mid), (Probits(0.99)-Probits(usual.Living.Mid))/2, 1e-9)
}

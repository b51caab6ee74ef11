package words

import (
	"slices"
	"strings"
	"testing"
	"time"
)

// Figures beside what is published. The bushels of a tonne are those of the
// United States Department of Agriculture (45.9296 of barley at 48 lb; at 34 lb
// of malt by the same rule); factors of units are of NIST SP 811; EBC = 1.97 SRM
// is printed by both bodies (their definitions give 25/12.7 = 1.9685); 100 °Lintner
// are 334 WK. All are recalled; the tables of package unit name what was read.
func TestChosenFiguresAgreeWithPublished(t *testing.T) {
	bushels := Units{Mass: Bushels}
	for _, c := range []struct {
		name  string
		x     float64
		units Units
		want  string
	}{
		{"net_barley_kg", 1e6, bushels, "45 930 bu"},
		{"barley_kg", 48 * 0.45359237, bushels, "1 bu"},
		{"net_malt_kg", 34 * 0.45359237, bushels, "1 bu malt"},
		{"tonnes_t", 1000, bushels, "45 930 bu"},
		{"net_kg", 0.45359237, bushels, "1 lb"}, // barley or malt or water: nobody can say, so no bushel
		{"water_kg", 1000, bushels, "2205 lb"},
		{"dry_kg_dm", 1000, bushels, "2205 lb"},
		{"barley_kg", 1000, Units{Mass: Pounds}, "2205 lb"},
		{"tonnes_t", 0.90718474, Units{Mass: Pounds}, "1.0 short tons"},
		{"barley_kg", 1000, Units{Customary: true, Fahrenheit: true}, "1000 kg"},
		{"test_weight_kg_hl", 61.78, Units{Winchester: true}, "48.0 lb/bu"},
		{"test_weight_kg_hl", 61.78, American, "48.0 lb/bu"},
		{"test_weight_kg_hl", 61.78, bushels, "61.8 kg/hL"},
		{"temp_c", 100, Units{Fahrenheit: true}, "212.0 °F"},
		{"temp_c", -40, Units{Fahrenheit: true}, "−40.0 °F"},
		{"temp_c", 37, Units{Customary: true}, "37.0 °C"},
		{"colour_ebc", 19.7, Units{ASBC: true}, "10.0 SRM"},
		{"diastatic_power_wk", 334, Units{ASBC: true}, "100 °Lintner"},
		{"diastatic_power_wk", 334, Units{}, "334 WK"},
		{"fan_mg_100g_dm", 150, Units{ASBC: true}, "150 mg/100 g dm"}, // no rule turns it into another scale
		{"water_m3", 3.785411784, Units{Customary: true}, "1000 gal"},
		{"water_m3", 3.785411784, bushels, "4 m³"},
		{"colour_ebc", 3.5, Units{Tongue: Spanish}, "3,5 EBC"},
		{"colour_ebc", 3.5, Units{Tongue: Spanish, Mark: MarkPoint}, "3.5 EBC"},
	} {
		got := strings.NewReplacer("\u00a0", " ", thin, " ").Replace(Figure(c.name, c.x, c.units))
		if got != c.want {
			t.Errorf("%s of %g: %q, want %q", c.name, c.x, got, c.want)
		}
	}
}

func TestChoicesAreWrittenAndRead(t *testing.T) {
	zone, _ := ZoneOf("America/Mexico_City")
	u := Units{Tongue: Spanish, Mass: Bushels, Winchester: true, ASBC: true, Mark: MarkPoint, Dates: DateMonthFirst, Zone: zone}
	if got := (Units{}).Choose(u.Chosen()); got.Chosen() != u.Chosen() || got.Zone.String() != "America/Mexico_City" {
		t.Errorf("%q is read as %q", u.Chosen(), got.Chosen())
	}
	for _, text := range []string{"", "%", "mass=stone&tongue=xx&zone=Mars/Base&zone=../etc", "zone=Local", "us"} {
		if got := (Units{}).Choose(text); got != (Units{}) {
			t.Errorf("%q is read as %q", text, got.Chosen())
		}
	}
	if got := u.Preset("us"); got.Tongue != Spanish || got.Zone != zone || got.Mass != Pounds || !got.Fahrenheit || got.PresetName() != "us" {
		t.Errorf("a preset chooses %q", got.Chosen())
	}
	if u.PresetName() != "" || u.Preset("metric").PresetName() != "metric" || American.PresetName() != "us" {
		t.Error("presets are not known again")
	}
	seen := map[string]bool{}
	for _, c := range Choices() {
		if seen[c.Key] || !c.Takes(c.Of(u)) || c.Words != nil && !slices.Contains(c.Words, c.Of(Units{})) {
			t.Errorf("%s: %q", c.Key, c.Of(u))
		}
		seen[c.Key] = true
	}
}

// A moment is told by the clock of the house, or by the reader's own with how far
// that is ahead of UTC. Summer time in the European Union ends on 25 October
// 2026 (Directive 2000/84/EC: the last Sunday).
func TestMoments(t *testing.T) {
	madrid, _ := ZoneOf("Europe/Madrid")
	at := time.Date(2026, 11, 25, 13, 30, 0, 0, time.UTC).UnixMilli()
	summer := time.Date(2026, 10, 24, 13, 30, 0, 0, time.UTC).UnixMilli()
	for _, c := range []struct {
		u      Units
		ms     int64
		offset int
		want   string
	}{
		{Units{}, at, 0, "Wed 25 Nov 2026, 13:30"},
		{Units{}, at, -300, "Wed 25 Nov 2026, 08:30"},
		{Units{Tongue: Spanish}, at, 60, "mié 25 nov 2026, 14:30"},
		{Units{Dates: DateISO}, at, 0, "2026-11-25 13:30"},
		{Units{Dates: DateDayFirst}, at, 0, "25/11/2026 13:30"},
		{Units{Dates: DateMonthFirst}, at, 0, "11/25/2026 13:30"},
		{Units{Zone: madrid}, at, 0, "Wed 25 Nov 2026, 14:30 +01:00"},
		{Units{Zone: madrid}, at, 60, "Wed 25 Nov 2026, 14:30"},
		{Units{Zone: madrid, Dates: DateISO}, summer, 0, "2026-10-24 15:30 +02:00"},
	} {
		if got := c.u.Moment(c.ms, c.offset); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

func TestTongueOfTag(t *testing.T) {
	for tag, want := range map[string]string{"es": "es", "es-MX": "es", " ES ": "es", "en-GB": "en", "de": "", "*": "", "": ""} {
		got, ok := TongueOf(tag)
		if ok != (want != "") || ok && got.Tag() != want {
			t.Errorf("%q: %v %t", tag, got, ok)
		}
	}
}

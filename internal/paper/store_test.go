package paper

import (
	"math"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"awn/intake"
	"awn/silo"
)

func good(t *testing.T, name string) []byte {
	t.Helper()
	data, err := os.ReadFile("testdata/good/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func TestContractIsReadWhole(t *testing.T) {
	c := need[Contract](t, "contract.yaml").Contract()
	if c.Currency != "EUR" || !near(c.PriceT, 215) || c.Dockage != intake.DockageHalfDown || !near(c.Shrink.Basis, 0.145) || !near(c.Shrink.Handling, 0.005) || !math.IsNaN(c.Shrink.PerPoint) {
		t.Errorf("%+v", c)
	}
	by := map[intake.Factor]intake.Term{}
	var order []intake.Factor
	for _, term := range c.Terms {
		by[term.Factor] = term
		order = append(order, term.Factor)
	}
	if !slices.Equal(order[:4], []intake.Factor{intake.Moisture, intake.Protein, intake.Held, intake.Through}) {
		t.Errorf("order %v", order)
	}
	for what, pair := range map[string][2]float64{
		"most moisture":   {by[intake.Moisture].Most, 19},
		"moisture rule":   {by[intake.Moisture].Rule.Adjust(15.1, intake.ForSeller), -2.4},
		"protein, below":  {by[intake.Protein].Rule.Adjust(10.1, intake.ForSeller), 1},
		"protein, above":  {by[intake.Protein].Rule.Adjust(10.9, intake.ForSeller), -1},
		"held slot":       {by[intake.Held].SlotM, 0.0025},
		"through slot":    {by[intake.Through].SlotM, intake.Slot64(5.5)},
		"tolerance":       {by[intake.Held].Tolerance, 1},
		"admixture, tier": {by[intake.Admixture].Rule.Adjust(1.25, intake.ForSeller), -0.5},
		"admixture, both": {by[intake.Admixture].Rule.Adjust(2, intake.ForSeller), -3},
		"skinned, tie":    {by[intake.Skinned].Rule.Adjust(6, intake.ForSeller), -2},
		"don":             {by[intake.DON].Most, 1},
		"falling number":  {by[intake.FallingNumber].Least, 220},
	} {
		if !near(pair[0], pair[1]) {
			t.Errorf("%s: %g, want %g", what, pair[0], pair[1])
		}
	}
	if !by[intake.Skinned].Call || !by[intake.DON].Optional || by[intake.Protein].Decimals != 1 || by[intake.Capacity].Decimals != -1 {
		t.Errorf("%+v", by)
	}
}

func TestLoadIsReadWhole(t *testing.T) {
	d, inputs, faults := LoadTicket(fstest.MapFS{}, "load.yaml", good(t, "load.yaml"))
	if len(faults) > 0 || len(inputs) != 1 || d.Table == nil || d.Table.Edition != "2017" || d.Contract == nil || len(d.Bins) != 2 {
		t.Fatal(faults, inputs, d)
	}
	l := d.Load
	read := func(f intake.Factor) float64 { v, _ := l.Value(intake.Of(f)); return v.Mid }
	for what, pair := range map[string][2]float64{
		"moisture":    {read(intake.Moisture), 0.158},
		"protein":     {read(intake.Protein), 0.09 / (1 - 0.158)},
		"test weight": {read(intake.TestWeight), 51.2 * 1.28718540},
		"energy":      {read(intake.Energy), 0.96},
		"don":         {read(intake.DON), 0.4e-6},
		"net":         {l.NetKg, 29420},
		"oats":        {read(intake.WildOats), 0.002},
		"stones":      {read(intake.Stones), 1},
		"price":       {d.Contract.PriceT, 5.10 / 48 / 0.45359237 * 1000},
		"nitrogen":    {d.Contract.Terms[0].Most, 11.25},
		"free":        {d.Bins[1].FreeKg, 300e3},
	} {
		if math.Abs(pair[0]-pair[1]) > 1e-6*math.Abs(pair[1]) {
			t.Errorf("%s: %g, want %g", what, pair[0], pair[1])
		}
	}
	if v, _ := l.Value(intake.Of(intake.DON)); !v.Banded() {
		t.Error("the plan of the toxin is lost")
	}
	if l.TrueToType != intake.Yes || l.FumigantClear != "2026-08-19" || l.Arrived != "2026-08-20" || !l.Readings[intake.Ochratoxin].Below {
		t.Errorf("%+v", l)
	}
	if _, ok := l.Value(intake.Key{Factor: intake.Held, SlotM: 0.0025}); ok {
		t.Error("a slot of 64ths of an inch was read as one of millimetres")
	}
}

func TestSiloIsReadWhole(t *testing.T) {
	s, _, faults := LoadSilo(fstest.MapFS{}, "silo.yaml", good(t, "silo.yaml"))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	for what, pair := range map[string][2]float64{
		"today":   {s.Today, 74},
		"steep":   {s.SteepDay, 193},
		"reading": {s.Readings[1].TempC, 20},
		"on":      {s.Readings[0].Day, 12},
		"radius":  {s.Geometry.RadiusM, 4},
		"bulk":    {s.Geometry.BulkKgM3, 650},
		"target":  {s.Geometry.Aeration.TargetC, 10},
		"factor":  {s.Geometry.Constants.ClockFactor, 1.1},
		"hours":   {float64(len(s.Weather)), 119 * 24},
	} {
		if !near(pair[0], pair[1]) {
			t.Errorf("%s: %g, want %g", what, pair[0], pair[1])
		}
	}
	if !math.IsNaN(s.Readings[0].Moisture) || s.Energy[0].Count.Hits != 288 {
		t.Errorf("%+v", s)
	}
	if _, err := silo.Keep(s); err != nil {
		t.Error(err)
	}
}

const siloWithFiles = `awn: silo/1
name: "3"
filled: 2026-08-20
today: 2026-09-01
keep_for: 2 d
readings_file: readings.csv
weather_file: weather.csv
`

// hourly is a weather file with some of its hours.
func hourly(hours ...int) string {
	b := strings.Builder{}
	b.WriteString("time,temp_f,rh\n")
	for _, h := range hours {
		b.WriteString("2026-09-0" + string(rune('1'+h/24)) + "T" + string(rune('0'+h%24/10)) + string(rune('0'+h%24%10)) + ":00,50,80\n")
	}
	return b.String()
}

func TestSiloFromFiles(t *testing.T) {
	files := fstest.MapFS{
		"readings.csv": {Data: []byte("# sensors\ntime,height,temp_c,moisture_wb\n2026-08-28T06:00,50,20.5,\n2026-08-21,50,24,14.2\n2026-08-30,,,\n")},
		"weather.csv":  {Data: []byte(hourly(0, 1, 2, 3, 8, 9))},
	}
	s, inputs, faults := LoadSilo(files, "silo.yaml", []byte(siloWithFiles))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	if len(s.Readings) != 3 || s.Readings[0].Day != 1 || s.Readings[1].Day != 8.25 || !math.IsNaN(s.Readings[1].Moisture) || !math.IsNaN(s.Readings[2].TempC) {
		t.Errorf("%+v", s.Readings)
	}
	if len(s.Weather) != 10 || !near(s.Weather[5].TempC, 10) || !near(s.Weather[5].RH, 0.8) || len(inputs) != 1 {
		t.Errorf("%+v", s.Weather)
	}
}

func TestBrokenFilesOfASilo(t *testing.T) {
	good := "time,temp_c\n2026-08-21,24\n"
	for name, c := range map[string]struct{ readings, weather, code string }{
		"column":       {"time,temp\n2026-08-21,24\n", "", "csv.head.unknown@1:6"},
		"twice":        {"time,temp_c,temp_c\n", "", "csv.head.twice@1:13"},
		"both":         {"time,temp_c,temp_f\n", "", "csv.head.twice@1:1"},
		"no time":      {"temp_c\n24\n", "", "csv.head.time@1:1"},
		"time":         {"time,temp_c\n21.8.2026,24\n", "", "csv.cell.time@2:1"},
		"number":       {"time,temp_c\n2026-08-21,\"24,5\"\n", "", "csv.cell.number@2:12"},
		"nan":          {"time,temp_c\n2026-08-21,NaN\n", "", "csv.cell.number@2:12"},
		"range":        {"time,temp_c\n2026-08-21,300\n", "", "csv.cell.range@2:12"},
		"no rows":      {"time,temp_c\n", "", "csv.rows.none@1:1"},
		"empty":        {"", "", "csv.rows.none@1:1"},
		"short row":    {"time,temp_c\n2026-08-21\n", "", "csv.text.syntax@2:1"},
		"not text":     {"time\xff", "", "csv.text.encoding@1:1"},
		"too large":    {strings.Repeat("#", 17<<20), "", "csv.text.size@1:1"},
		"gap":          {good, hourly(0, 1, 12), "silo.weather.gap@7:15"},
		"late":         {good, hourly(5, 6), "silo.weather.gap@7:15"},
		"past":         {good, "time,temp_c,rh\n2026-08-01,20,80\n", "silo.weather.past@7:15"},
		"not there":    {good, "missing", "document.file.missing@7:15"},
		"two at fault": {"time,temp_c\nx,y\n", hourly(0), "csv.cell.time@2:1 csv.cell.number@2:3"},
	} {
		if c.weather == "" {
			c.weather = hourly(0)
		}
		files := fstest.MapFS{"readings.csv": {Data: []byte(c.readings)}, "weather.csv": {Data: []byte(c.weather)}}
		if c.weather == "missing" {
			delete(files, "weather.csv")
		}
		_, _, faults := LoadSilo(files, "silo.yaml", []byte(siloWithFiles))
		var got []string
		for _, f := range faults {
			got = append(got, f.Code+"@"+itoa(f.Line)+":"+itoa(f.Column))
		}
		if strings.Join(got, " ") != c.code {
			t.Errorf("%s: %s, want %s", name, strings.Join(got, " "), c.code)
		}
	}
}

func itoa(n int) string { return short(float64(n)) }

func TestTheEditionFollowsTheDayOfArrival(t *testing.T) {
	data := strings.Replace(string(good(t, "load.yaml")), "arrived: 2026-08-20", "arrived: 2010-08-20", 1)
	d, _, faults := LoadTicket(fstest.MapFS{}, "load.yaml", []byte(data))
	if len(faults) > 0 || d.Table.Edition != "1996" {
		t.Error(faults, d.Table)
	}
	for _, word := range shapeOfDocument(reflect.TypeFor[Ticket]()).fields {
		if word.key != "table" {
			continue
		}
		for _, key := range word.shape.words {
			for _, day := range []intake.Day{"", "1999-01-01", "2026-01-01"} {
				if _, ok := intake.FindTable(key, day); !ok {
					t.Errorf("no table %s on %q", key, day)
				}
			}
		}
	}
}

func FuzzReadSheet(f *testing.F) {
	f.Add("time,temp_c,moisture_wb\n2026-08-21,24,14\n")
	f.Add("time,temp_f\n2026-08-21T06:00,,\n\"")
	f.Fuzz(func(t *testing.T, text string) {
		rows, faults := readSheet("x.csv", []byte(text), readingColumns)
		for _, r := range rows {
			for name, x := range r.values {
				if math.IsNaN(x) || math.IsInf(x, 0) {
					t.Errorf("%s is %g", name, x)
				}
			}
		}
		if len(rows) == 0 && len(faults) == 0 {
			t.Error("neither rows nor faults")
		}
	})
}

func FuzzLoadTicket(f *testing.F) {
	for _, name := range []string{"load.yaml", "contract.yaml"} {
		data, err := os.ReadFile("testdata/good/" + name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(data))
	}
	f.Fuzz(func(t *testing.T, text string) {
		d, _, faults := LoadTicket(fstest.MapFS{}, "load.yaml", []byte(text))
		if len(faults) > 0 {
			return
		}
		if d.Table != nil {
			d.Table.Grade(&d.Load)
		}
		if d.Contract != nil {
			d.Contract.Judge(&d.Load)
		}
		intake.Fits(&d.Load, d.Bins)
	})
}

package paper

import (
	"math"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"awn/barley"
	"awn/course"
	"awn/malt"
	"awn/plant"
	"awn/programme"
)

// need reads an example that must be without fault.
func need[T Document](t *testing.T, name string) T {
	t.Helper()
	data, err := os.ReadFile("testdata/good/" + name)
	if err != nil {
		t.Fatal(err)
	}
	doc, faults := Read[T](name, data)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return doc
}

// near compares figures; the tolerance is rounding alone.
func near(a, b float64) bool {
	return math.Abs(a-b) <= 1e-9*max(1, math.Abs(b)) || math.IsNaN(a) && math.IsNaN(b)
}

func TestGoodDocumentsHaveNoFault(t *testing.T) {
	names, err := filepath.Glob("testdata/good/*.yaml")
	if err != nil || len(names) < 6 {
		t.Fatal(names, err)
	}
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		doc, faults := ReadAny(name, data)
		if len(faults) > 0 {
			t.Error(faults)
		} else if kind, _, _ := strings.Cut(doc.Kind(), "/"); !strings.HasPrefix(filepath.Base(name), kind) {
			t.Errorf("%s was read as %s", name, doc.Kind())
		}
	}
}

func TestLotInTwoSystemsOfUnitsIsTheSame(t *testing.T) {
	si, us := need[Lot](t, "lot.yaml").Lot(), need[Lot](t, "lot-us.yaml").Lot()
	// Tolerance: the last of the digits in which the second document is written.
	for what, pair := range map[string][2]float64{
		"moisture":    {si.Moisture.Mid, us.Moisture.Mid},
		"protein":     {si.Protein.Mid, us.Protein.Mid},
		"kernel":      {si.KernelMassMg.Mid, us.KernelMassMg.Mid},
		"test weight": {si.TestWeightKgHL.Mid, us.TestWeightKgHL.Mid},
		"hours":       {si.FirstImmersion.Hours, us.FirstImmersion.Hours},
		"water":       {si.FirstImmersion.WaterC, us.FirstImmersion.WaterC},
	} {
		if math.Abs(pair[0]/pair[1]-1) > 1e-5 {
			t.Errorf("%s: %v and %v", what, pair[0], pair[1])
		}
	}
	for i := range si.Sieve {
		if !near(si.Sieve[i], us.Sieve[i]) {
			t.Errorf("sieve %d: %v and %v", i, si.Sieve[i], us.Sieve[i])
		}
	}
	if si.Sieving != barley.SieveEBC || us.Sieving != barley.SieveUS {
		t.Error("the series of the sieves is lost")
	}
}

func TestLot(t *testing.T) {
	l := need[Lot](t, "lot.yaml").Lot()
	switch {
	case l.Code != "HS-26-014" || l.Rows != 2 || l.CropYear != 2026:
		t.Errorf("%+v", l)
	case !near(l.Protein.Mid, 0.106) || !near(l.KernelMassMg.Mid, 45.2) || !near(l.TestWeightKgHL.Mid, 67.5):
		t.Errorf("%+v", l)
	case !near(l.GreenSMM.Mid, 8.5) || !near(l.BetaGlucan.Mid, 0.039) || !near(l.Capacity.Mid, 0.99):
		t.Errorf("%+v", l)
	case len(l.Counts4mL) != 3 || l.Counts4mL[1].AtH != 48 || l.Counts4mL[1].Germinated != 95 || l.Counts8mL[0].Of != 100:
		t.Errorf("%+v", l.Counts4mL)
	case l.Dormant.Known() || l.WaterSensitivity.Known() || l.Uptake.Known() || l.ChitThermalTimeCH.Known():
		t.Errorf("what the document leaves out is known: %+v", l)
	case !near(l.Sieve[0], 0.612) || !near(l.FirstImmersion.Moisture, 0.315):
		t.Errorf("%+v", l)
	}
}

func TestHouse(t *testing.T) {
	h := need[Plant](t, "plant.yaml").House()
	s, g, k := h.Steeps[0], h.Germinators[0], h.Kilns[0]
	for what, pair := range map[string][2]float64{
		"steep fill": {s.FillH, 0.75}, "steep water": {s.WaterM3T, 1.4}, "steep capacity": {s.CapacityT, 30}, "suction": {s.SuctionM3H, 4500},
		"fan free": {g.Air.Fan.FreeM3S, 30000. / 3600}, "humidifier": {g.Air.Humidifier, 0.92}, "cooling": {g.Air.CoolingKW, 120}, "cop": {g.Air.COP, 3.5},
		"kiln fan": {k.Fan.ShutOffPa, 1200}, "burner": {k.Burner.MostKW, 3200}, "turn-down": {k.Burner.TurnDown, 0.1}, "ramp": {k.Burner.RampKPerH, 20},
		"recovery": {k.HeatRecovery, 0.65}, "draught": {k.DampersOpenKg, 0.01}, "loss": {k.LossWK, 900},
		"january": {h.Weather.AirC[0], 6}, "humidity": {h.Weather.RH[11], 0.86}, "swing": {h.Weather.SwingK, 3},
		"barley": {h.Prices.BarleyT, 210}, "cod": {h.Prices.EffluentCOD, 0.4}, "fuel": {h.Prices.HeatKWh, 4.5 * 3.6e6 / 1e9}, "power": {h.Prices.PowerKWh, 0.14}, "labour": {h.Prices.LabourH, 32},
		"fuel factor": {h.Factors.FuelKWh, 0.202}, "power factor": {h.Factors.PowerKWh, 0.3}, "barley factor": {h.Factors.BarleyT, 350},
		"screen": {h.Cleaning.ScreenMM, 2.2}, "dust": {h.Cleaning.DustShare, 0.004}, "foreign": {h.Cleaning.ForeignShare, 0.006}, "grade": {h.Cleaning.GradeMM, 2.5}, "hardness": {h.Water.HardnessMgL, 180}, "iron": {h.Water.IronMgL, 0.05}, "ph": {h.Water.PH, 7.4}, "heating": {h.Water.HeatKW, 600}, "chiller": {h.Water.COP, 4},
		"thick": {s.Columns[2].Depth, 1.05}, "silo": {h.MaltStore.AirM3HT, 2}, "second": {h.Cleaning.SecondPriceT, 180}, "culms": {h.Dressing.CulmsPriceT, 150}, "vessel": {h.Prices.VesselH, 0},
	} {
		if !near(pair[0], pair[1]) {
			t.Errorf("%s is %v, want %v", what, pair[0], pair[1])
		}
	}
	if !h.Prices.HeatOnHHV || h.Factors.FuelOnHHV || h.Prices.Currency != "EUR" || !k.FanPush || !s.Conical || g.Kind != plant.Box || h.Germinators[1].Kind != plant.Floor {
		t.Errorf("%+v", h)
	}
	noNaN(t, reflect.ValueOf(h), "house")
}

// noNaN fails on any figure that is not one.
func noNaN(t *testing.T, v reflect.Value, path string) {
	t.Helper()
	switch v.Kind() {
	case reflect.Float64:
		if math.IsNaN(v.Float()) {
			t.Errorf("%s is not a number", path)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			noNaN(t, v.Field(i), path+"."+v.Type().Field(i).Name)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			noNaN(t, v.Index(i), path)
		}
	}
}

func TestProgramme(t *testing.T) {
	p := need[Programme](t, "programme.yaml").Programme()
	u := func(r programme.Reading, value float64, rising bool, latestH float64) programme.Until {
		return programme.Until{Reading: r, Value: value, Rising: rising, LatestH: latestH}
	}
	for what, pair := range map[string][2]programme.Until{
		"immersion": {p.Steep[0].Until, u(programme.Moisture, 0.33, true, 8)},
		"drain":     {p.Steep[1].Until, u(programme.None, 0, false, 1)},
		"couch":     {p.Steep[4].Until, u(programme.Chit, 0.9, true, 12)},
		"acrospire": {p.Germinate[1].Until, u(programme.Acrospire, 0.8, true, 72)},
		"break":     {p.Kiln[0].Until, u(programme.Break, 1, true, 14)},
		"air-off":   {p.Kiln[1].Until, u(programme.AirOff, 60, true, 4)},
		"layer":     {p.Kiln[2].Until, u(programme.WorstLayer, 0.06, false, 6)},
		"cooling":   {p.Kiln[3].Until, u(programme.AirOff, 30, false, 2)},
	} {
		if a, b := pair[0], pair[1]; a.Reading != b.Reading || !near(a.Value, b.Value) || a.Rising != b.Rising || !near(a.LatestH, b.LatestH) {
			t.Errorf("%s: %+v, want %+v", what, a, b)
		}
	}
	for i, kind := range []programme.SteepKind{programme.Immersion, programme.Drain, programme.AirRest, programme.Immersion, programme.Couch, programme.SteepSpray} {
		if p.Steep[i].Kind != kind {
			t.Errorf("steep step %d is of kind %v, want %v", i, p.Steep[i].Kind, kind)
		}
	}
	for i, want := range map[int]programme.Airflow{0: {Value: 4000, Per: programme.PerTonne}, 1: {Value: 0.4, Per: programme.PerFloor}, 2: {Value: 120000, Per: programme.PerVessel}} {
		if got := p.Kiln[i].Flow; got.Per != want.Per || !near(got.Value, want.Value) {
			t.Errorf("kiln step %d: %+v, want %+v", i, got, want)
		}
	}
	if got, want := p.Kiln[1].HoldRecirc, (programme.Hold{Reading: programme.AirOffRH, Value: 0.85, High: 0.7}); got != want {
		t.Errorf("return air holds %+v, want %+v", got, want)
	}
	if got := p.Kiln[1].HoldFlow; got.Reading != programme.AirOffRH || !got.Rises || !near(got.Low, 0.5) || !near(got.High, 1) {
		t.Errorf("the fan holds %+v", got)
	}
	s, g := p.Steep, p.Germinate
	switch {
	case !math.IsNaN(s[3].WaterC) || !near(s[0].WaterC, 14) || !near(s[0].AerationM3HT, 3) || !near(s[2].SuctionM3HT, 150) || !near(s[5].SprayKgT, 20):
		t.Errorf("%+v", s)
	case !near(g[0].SprayToWB, 0.45) || !near(g[0].Fresh, 0.1) || !near(g[1].Fresh, 0.6) || g[1].HoldFresh != (programme.Hold{Reading: programme.RoomDioxide, Value: 0.005, Rises: true, Low: 0.1, High: 0.6}) || !g[2].DampersShut || g[1].Flow.Per != programme.PerFace || !g[2].FanOff || !near(g[0].TurnEvH, 8):
		t.Errorf("%+v", g)
	case !p.SteepTransferMixes || p.KilnTransferMixes || !p.Kiln[3].HeaterOff || !near(p.Kiln[2].Recirculation, 0.75):
		t.Errorf("%+v", p)
	case p.Additions[0].DoseUnit != "mg/kg" || !near(p.Additions[0].Dose, 0.1) || !near(p.Additions[0].AtH, 1):
		t.Errorf("%+v", p.Additions)
	}
}

func TestSpecification(t *testing.T) {
	s := need[Specification](t, "specification.yaml").Specification()
	if faults := s.Check(); faults != nil {
		t.Fatal(faults)
	}
	want := map[malt.Parameter]malt.Limit{
		malt.Moisture:       malt.AtMost(malt.Moisture, 0.045, malt.WetBasis),
		malt.ExtractFine:    malt.AtLeast(malt.ExtractFine, 0.8, malt.Dry),
		malt.Colour:         malt.Between(malt.Colour, 3, 5, malt.ScaleEBC),
		malt.KolbachIndex:   malt.Between(malt.KolbachIndex, 0.38, 0.44, malt.NoBasis),
		malt.FAN:            malt.AtLeast(malt.FAN, 140, malt.InWort),
		malt.DiastaticPower: malt.AtLeast(malt.DiastaticPower, 80, malt.ScaleLintner),
		malt.Viscosity:      malt.AtMost(malt.Viscosity, 1.56, malt.NoBasis),
		malt.DMSPrecursor:   malt.AtMost(malt.DMSPrecursor, 6, malt.Dry),
	}
	for _, l := range s.Limits {
		w, ok := want[l.Parameter]
		if ok && (!near(l.Min, w.Min) || !near(l.Max, w.Max) || l.Basis != w.Basis) {
			t.Errorf("%+v, want %+v", l, w)
		}
		delete(want, l.Parameter)
	}
	if len(want) > 0 || len(s.Limits) != 12 {
		t.Errorf("%d limits; not read: %v", len(s.Limits), want)
	}
}

func TestEveryParameterOfMaltCanBeLimited(t *testing.T) {
	keys := shapeOf(reflect.TypeFor[Limits](), "").keys()
	for _, p := range malt.Parameters() {
		found := false
		for _, key := range keys {
			found = found || key == string(p)
		}
		if !found {
			t.Errorf("no document can limit %s", p)
		}
	}
	if len(keys) != len(malt.Parameters()) {
		t.Errorf("%d keys, %d parameters", len(keys), len(malt.Parameters()))
	}
}

func TestLoadPiece(t *testing.T) {
	piece, inputs, faults := Load(os.DirFS("testdata"), "good/piece.yaml")
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	start := time.Date(2026, 3, 2, 5, 0, 0, 0, time.UTC).UnixMilli()
	if piece.StartMs != start || piece.OffsetMin != 60 || !near(piece.CastKg, 30000) || piece.Begin != nil {
		t.Errorf("%+v", piece)
	}
	if len(inputs) != 5 || inputs[0].Kind != "piece/1" || inputs[1].File != "good/lot.yaml" || len(inputs[2].SHA256) != 64 {
		t.Errorf("%+v", inputs)
	}
	if piece.Lot.Code != "HS-26-014" || piece.House.Name != "Hallow Sound" || len(piece.Programme.Kiln) != 4 || len(piece.Specification.Limits) != 12 {
		t.Error("a document was not carried over")
	}
}

func TestLoadPieceThatBeginsOnTheKiln(t *testing.T) {
	piece, inputs, faults := Load(os.DirFS("testdata/good"), "piece-kiln.yaml")
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	b := piece.Begin
	// 1 m of 330 kg/m3 on the 75 m2 of the kiln.
	if b.Stage != course.Kiln || !near(b.DryKg, 24750) || !near(b.Moisture, 0.45) || !near(b.AgeD, 4.5) || !near(b.Chit, 0.97) {
		t.Errorf("%+v", b)
	}
	if len(inputs) != 3 || piece.Lot.Code != "GREEN" || piece.OffsetMin != 0 {
		t.Errorf("%+v", inputs)
	}
}

// Spots are of the whole floor and of the mean depth, however they were written.
func TestUnevenBeds(t *testing.T) {
	h := need[Plant](t, "plant.yaml").House()
	if got := h.Germinators[0].Columns; !slices.Equal(got, barley.Uneven(0.1, 1.1)) {
		t.Errorf("the germinator's spots are %v", got)
	}
	if h.Germinators[1].Columns != nil {
		t.Errorf("a bed of which nothing is said has the spots %v", h.Germinators[1].Columns)
	}
	k := h.Kilns[0].Columns
	if len(k) != 2 || math.Abs(k[0].Share*k[0].Depth+k[1].Share*k[1].Depth-1) > 1e-12 || k[1].Packing != 1.2 || math.Abs(k[1].Depth/k[0].Depth-1.1/0.9) > 1e-12 {
		t.Errorf("the kiln's spots are %v", k)
	}
}

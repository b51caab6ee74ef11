package exchange

import (
	"bytes"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"

	"awn/examples"
	"awn/internal/paper"
	"awn/ledger"
)

// example reads a file of the example house.
func example(t testing.TB, name string) File {
	t.Helper()
	data, err := examples.Files.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return File{name, data}
}

func mapOf(t testing.TB, text []byte) paper.ImportMap {
	t.Helper()
	m, faults := paper.Read[paper.ImportMap]("map.yaml", text)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return m
}

var by = Entry{Who: "scales", AtMS: 1_790_000_000_000}

func body[B ledger.Body](t testing.TB, d ledger.Draft) B {
	t.Helper()
	b, err := ledger.Decode(d.Kind, d.Schema, d.Body)
	if err != nil {
		t.Fatal(err)
	}
	return b.(B)
}

func TestExampleTickets(t *testing.T) {
	b, faults := Import(example(t, "tickets.csv"), mapOf(t, example(t, "import-tickets.yaml").Data), by)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	if len(b.Drafts) != 6 || !slices.Equal(b.Rows, []int{3, 4, 5, 6, 7, 0}) || b.Media != "text/csv" {
		t.Fatalf("%d drafts of rows %v, %s", len(b.Drafts), b.Rows, b.Media)
	}
	d := b.Drafts[0]
	r := body[*ledger.Receipt](t, d)
	// 43.26 t less 14.80 t; 07:40 of a summer clock in London is 06:40 UTC,
	// which is 1786516800 s to the day's begin and 24000 s more.
	if r.Lot != "L26-0411" || r.To != "silo:N1" || r.Amount.FreshKg != 28_460_000 || *r.Amount.MoistureWB != 0.141 || r.Amount.UFreshKg != 20_000 {
		t.Errorf("%+v", r)
	}
	if d.At != 1_786_492_800_000+24_000_000 || d.OffsetMin != 60 || r.Crop != 2026 || r.Amount.MoistureStanding != "" {
		t.Errorf("%+v, %+v", d, r)
	}
	if note := body[*ledger.Decision](t, b.Drafts[5]); string(note.Document) != b.SHA256 || note.Reason != "tickets: 5" {
		t.Errorf("%+v", note)
	}
}

func TestExampleResults(t *testing.T) {
	b, faults := Import(example(t, "results.csv"), mapOf(t, example(t, "import-results.yaml").Data), by)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	a := body[*ledger.Analysis](t, b.Drafts[0])
	want := []ledger.Figure{
		{Quantity: "moisture_wb", Value: 0.142}, {Quantity: "protein_dm", Value: 0.104, Method: "combustion"},
		{Quantity: "germination", Value: 0.98, Method: "4 mL, 3 days"}, {Quantity: "don_mg_kg_asis", Value: 0.05, Less: true, Method: "immunoassay"},
	}
	for i, w := range want {
		g := a.Results[i]
		if g.Quantity != w.Quantity || g.Value != w.Value || g.Less != w.Less || g.Method != w.Method {
			t.Errorf("%+v, want %+v", g, w)
		}
	}
	if a.Of != "delivery:L26-0411" || a.Sample != "B26-0801" || *a.Results[0].U != 0.0012 {
		t.Errorf("%+v", a)
	}
	if last := body[*ledger.Analysis](t, b.Drafts[4]); len(last.Results) != 2 || last.Results[0].Quantity != "protein_dm" {
		t.Errorf("an empty cell became a result: %+v", last)
	}
}

// The same bytes give the same drafts, a corrected map the same ids with other
// contents, and a raised count others.
func TestSameFileTwice(t *testing.T) {
	m := mapOf(t, example(t, "import-tickets.yaml").Data)
	first, _ := Import(example(t, "tickets.csv"), m, by)
	later := by
	later.AtMS += 3_600_000
	second, _ := Import(File{"renamed.csv", example(t, "tickets.csv").Data}, m, later)
	m.Zone = "Europe/Madrid"
	other, _ := Import(example(t, "tickets.csv"), m, by)
	m.Again = new(int)
	*m.Again = 1
	again, _ := Import(example(t, "tickets.csv"), m, by)
	ids := map[string]bool{}
	for i, d := range first.Drafts {
		f := d.Fact("hallow-sound", ledger.Head{})
		if !second.Drafts[i].Same(f) {
			t.Errorf("draft %d says something else the second time", i)
		}
		if other.Drafts[i].ID != d.ID || other.Drafts[i].Same(f) {
			t.Errorf("draft %d under another zone: %+v", i, other.Drafts[i])
		}
		if again.Drafts[i].ID == d.ID || ids[d.ID] {
			t.Errorf("draft %d: id %s twice", i, d.ID)
		}
		ids[d.ID] = true
	}
}

// Every problem is named with row, column and the nearest right word, and
// nothing comes in.
func TestEveryFaultAtOnce(t *testing.T) {
	m := mapOf(t, example(t, "import-tickets.yaml").Data)
	head := "Ticket,Weighed,Lot,Gross,Tare,Moisture,Silo,Grower,Field,Variety,Vehicle\n"
	for text, want := range map[string]string{
		head + "1,12/08/2026 07:40,L1,43.26,14.80,14.1,Nort 1,,,,\n":             "2 Silo import.cell.word North 1",
		head + "1,12/08/2026 07:40,L1,43.26,14.80,,North 1,,,,\n":                "2 Moisture import.cell.missing ",
		head + "1,2026-08-12,L1,43.26,14.80,14.1,North 1,,,,\n":                  "2 Weighed import.time.form ",
		head + "1,29/03/2026 01:30,L1,43.26,14.80,14.1,North 1,,,,\n":            "2 Weighed import.time.gap ",
		head + "1,12/08/2026 07:40,l1,43.26,14.80,14.1,North 1,,,,\n":            "2 Lot record.code.form ",
		head + "1,12/08/2026 07:40,L1,\"1,234\",14.80,14.1,North 1,,,,\n":        "2 Gross number.ambiguous ",
		head + "1,12/08/2026 07:40,L1,43.26 q,14.80,14.1,North 1,,,,\n":          "2 Gross unit.unknown t",
		head + "1,12/08/2026 07:40,L1,43.26,54.80,14.1,North 1,,,,\n":            "2 Tare import.weight.tare ",
		head + "1,12/08/2026 07:40,L1,,,14.1,North 1,,,,\n":                      "2  import.weight.missing ",
		head + "1,12/08/2026 07:40,L1,43.26,14.80,14.1,North 1,,,,,x\n":          "2  import.row.long ",
		head + strings.Repeat("1,12/08/2026 07:40,L1,43,14,14,North 1,,,,\n", 2): "3 Lot import.row.twice ",
		head: "0  import.file.rows ",
		"":   "0  import.file.unread ",
		strings.Replace(head, "Gross", "Grosz", 1): "1 Grosz import.column.unknown Gross; 1  import.column.missing Grosz",
		strings.Replace(head, "Gross", "Lot", 1):   "1 Lot import.column.twice ; 1  import.column.missing ",
	} {
		b, faults := Import(File{"x.csv", []byte(text)}, m, by)
		var got []string
		for _, f := range faults {
			got = append(got, fmt.Sprintf("%d %s %s %s", f.Row, f.Column, f.Code, f.Nearest))
			if f.Sentence() == "" || strings.ContainsAny(f.Sentence(), "{}") {
				t.Errorf("%s has no sentence: %q", f.Code, f.Sentence())
			}
		}
		if strings.Join(got, "; ") != want || len(b.Drafts) > 0 {
			t.Errorf("%q:\n got %s\nwant %s", text, strings.Join(got, "; "), want)
		}
	}
	two := head + "1,12/08/2026 07:40,l1,43.26,14.80,14.1,Nort 1,,,,\n2,x,L2,a,14.80,99,Quay,,,,\n"
	if _, faults := Import(File{"x.csv", []byte(two)}, m, by); len(faults) < 4 {
		t.Errorf("faults of two rows: %v", faults)
	}
}

func TestEnteredByHand(t *testing.T) {
	m := mapOf(t, example(t, "import-tickets.yaml").Data)
	who := by
	kind, schema, text := ledger.NewBody(&ledger.Receipt{Lot: "L26-0413", To: "silo:N1"})
	f := ledger.Fact{House: "h", Seq: 1, ID: ledger.ID(5, [10]byte{1}), Kind: kind, Schema: schema, Body: text}
	kind, schema, text = ledger.NewBody(&ledger.Strike{Fact: ledger.FactID(f.ID), Reason: "typed twice"})
	strike := ledger.Fact{House: "h", Seq: 2, ID: ledger.ID(6, [10]byte{1}), Kind: kind, Schema: schema, Body: text}
	f.Body = []byte(`{"lot":"L26-0413","to":"silo:N1","amount":{"fresh_kg":1,"standing":"weighed","moisture_wb":0.1}}`)
	for n, want := range map[int]int{1: 1, 2: 0} {
		var err error
		if who.Known, err = Deliveries(each([]ledger.Fact{f, strike}[:n])); err != nil {
			t.Fatal(err)
		}
		if _, faults := Import(example(t, "tickets.csv"), m, who); len(faults) != want || want > 0 && (faults[0].Code != "import.row.entered" || faults[0].Row != 5) {
			t.Errorf("%d facts: %v", n, faults)
		}
	}
}

// A quantity without a home, and units that are none.
func TestMapAgainstUnits(t *testing.T) {
	const text = "awn: import-map/1\nrows: results\nzone: UTC\ntime_form: YYYY-MM-DD\ncolumns:\n  L: {field: delivery}\n  D: {field: date}\n  Q: {quantity: %s%s}\n"
	for c, want := range map[[2]string]string{
		{"don_mg_kgg", "ug/kg"}:        "import.quantity.ending",
		{"don_mg_kg_asis", "lb/kg"}:    "import.unit.unknown",
		{"don_mg_kg_asis", "mg/L"}:     "import.unit.unknown",
		{"protein_dm", "% asis"}:       "import.unit.unknown",
		{"protein_dm", ""}:             "unit.missing",
		{"moisture_wb", "% db"}:        "",
		{"colour_ebc", "Lovibond"}:     "",
		{"friability", "%"}:            "",
		{"viscosity_mpas", "mPa.s"}:    "",
		{"test_weight_kg_hl", "lb/bu"}: "",
	} {
		if c[1] != "" {
			c[1] = `, unit: "` + c[1] + `"`
		}
		m := mapOf(t, fmt.Appendf(nil, text, c[0], c[1]))
		_, faults := Import(File{"x.csv", []byte("L,D,Q\nL1,2026-08-12,40\n")}, m, by)
		got := ""
		if len(faults) > 0 {
			got = faults[0].Code
		}
		if got != want {
			t.Errorf("%v: %v, want %s", c, faults, want)
		}
	}
}

// The night on which the clock in London was put back: 01:30 was twice, and
// the first is taken, in summer time.
func TestClockPutBack(t *testing.T) {
	c := newClock(paper.ImportMap{Zone: "Europe/London", Form: "YYYY-MM-DD hh:mm"})
	for text, offset := range map[string]int{"2026-10-25 00:59": 60, "2026-10-25 01:30": 60, "2026-10-25 02:00": 0, "2026-01-05 9:05": 0} {
		if m, f := c.read(text); f.Code != "" || m.offsetMin != offset {
			t.Errorf("%s: %+v %v", text, m, f)
		}
	}
}

// A workbook of the same rows gives the same entries as CSV, but for the ids;
// excelize writes it, times as numbers of days.
func TestWorkbookSaysTheSame(t *testing.T) {
	csv, _ := Import(example(t, "tickets.csv"), mapOf(t, example(t, "import-tickets.yaml").Data), by)
	f := excelize.NewFile()
	days := map[int]float64{2: 46246 + 460./1440, 3: 46246 + 495./1440, 4: 46246 + 545./1440, 5: 46246 + 690./1440, 6: 46247 + 415./1440}
	for i, line := range strings.Split(strings.TrimSpace(string(example(t, "tickets.csv").Data)), "\n")[1:] {
		for j, cell := range strings.Split(line, ",") {
			at, _ := excelize.CoordinatesToCellName(j+1, i+1)
			var x float64
			if n, _ := fmt.Sscanf(cell, "%g", &x); n == 1 && j != 1 && j != 10 {
				f.SetCellValue("Sheet1", at, x)
			} else {
				f.SetCellValue("Sheet1", at, cell)
			}
			if day := days[i+1]; j == 1 && day > 0 {
				f.SetCellValue("Sheet1", at, day)
			}
		}
	}
	var data bytes.Buffer
	if err := f.Write(&data); err != nil {
		t.Fatal(err)
	}
	m := mapOf(t, example(t, "import-tickets.yaml").Data)
	m.Form = "serial"
	xlsx, faults := Import(File{"tickets.xlsx", data.Bytes()}, m, by)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	for i, d := range xlsx.Drafts[:5] {
		if !bytes.Equal(d.Body, csv.Drafts[i].Body) || d.At != csv.Drafts[i].At || d.OffsetMin != csv.Drafts[i].OffsetMin {
			t.Errorf("row %d: %s at %d\nwant %s at %d", i, d.Body, d.At, csv.Drafts[i].Body, csv.Drafts[i].At)
		}
	}
}

// Whatever weights a bridge writes, in whichever unit and with whichever mark,
// the net is gross less tare to the gram and the record takes it.
func TestWeightsProperty(t *testing.T) {
	grams := map[string]float64{"kg": 1e3, "t": 1e6, "lb": 453.59237}
	rapid.Check(t, func(rt *rapid.T) {
		symbol := rapid.SampledFrom(slices.Sorted(maps.Keys(grams))).Draw(rt, "unit")
		comma := rapid.Bool().Draw(rt, "comma")
		tare := float64(rapid.IntRange(0, 20_000).Draw(rt, "tare")) / 100
		net := float64(rapid.IntRange(1, 50_000).Draw(rt, "net")) / 100
		write := func(x float64) string {
			s := fmt.Sprintf("%.2f", x)
			if comma {
				s = strings.Replace(s, ".", ",", 1)
			}
			return s
		}
		m := paper.ImportMap{Rows: "tickets", Zone: "UTC", Form: "YYYY-MM-DD", Columns: map[string]paper.ImportColumn{
			"d": {Field: "date"}, "l": {Field: "lot", Also: "ticket"}, "g": {Field: "gross", Unit: symbol}, "t": {Field: "tare", Unit: symbol}, "n": {Field: "net", Unit: symbol},
		}, Fixed: map[string]string{"to": "B1", "moisture": "14 % wb"}}
		if comma {
			m.Decimal = "comma"
		}
		b, faults := Import(File{"x.csv", []byte("d;l;g;t;n\n2026-08-12;L1;" + write(net+tare) + ";" + write(tare) + ";" + write(net) + "\n")}, m, by)
		if len(faults) > 0 {
			rt.Fatal(faults)
		}
		r := body[*ledger.Receipt](t, b.Drafts[0])
		if r.Amount.FreshKg != *r.GrossKg-*r.TareKg || r.Amount.MoistureStanding != ledger.Estimated || r.Ticket != "L1" {
			rt.Fatalf("%+v", r)
		}
		// Tolerance: half a gram each for gross and tare.
		if math.Abs(float64(r.Amount.FreshKg)-net*grams[symbol]) > 1.0001 {
			rt.Fatalf("%v %s is %d g", net, symbol, r.Amount.FreshKg)
		}
	})
}

func FuzzImport(f *testing.F) {
	for _, n := range []string{"tickets.csv", "results.csv"} {
		f.Add(example(f, n).Data, n == "tickets.csv")
	}
	f.Add([]byte("PK\x03\x04"), true)
	f.Add([]byte("Ticket;Weighed\n\"x"), false)
	maps := map[bool]paper.ImportMap{true: mapOf(f, example(f, "import-tickets.yaml").Data), false: mapOf(f, example(f, "import-results.yaml").Data)}
	f.Fuzz(func(t *testing.T, data []byte, tickets bool) {
		b, faults := Import(File{"x", data}, maps[tickets], by)
		if (len(b.Drafts) == 0) == (len(faults) == 0) {
			t.Fatalf("%d drafts and %d faults", len(b.Drafts), len(faults))
		}
		for _, d := range b.Drafts {
			if err := d.Check(); err != nil {
				t.Fatal(err)
			}
		}
		for _, f := range faults {
			if f.Sentence() == "" {
				t.Fatalf("%s has no sentence", f.Code)
			}
		}
	})
}

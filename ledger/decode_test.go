package ledger_test

import (
	"encoding/hex"
	"errors"
	"maps"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"awn/ledger"
)

func hexOf(h [32]byte) string { return hex.EncodeToString(h[:]) }
func itoa(n int64) string     { return strconv.FormatInt(n, 10) }

// codes are the codes of all faults in an error.
func codes(err error) []string {
	var out []string
	if faults, ok := errors.AsType[ledger.Faults](err); ok {
		for _, f := range faults {
			out = append(out, f.Code)
		}
	}
	slices.Sort(out)
	return out
}

const good = `{"lot":"L26-0001","to":"silo:B7","amount":{"fresh_kg":28100.25,"standing":"weighed","moisture_wb":0.12}}`

func TestBodiesRefused(t *testing.T) {
	edit := func(from, to string) string { return strings.Replace(good, from, to, 1) }
	for _, c := range []struct {
		kind ledger.Kind
		body string
		want string // codes, with blanks between
	}{
		{ledger.Received, good, ""},
		{"recieved", good, "record.kind.unknown"},
		{ledger.Received, `[]`, "record.body.syntax"},
		{ledger.Received, good + " x", "record.body.syntax"},
		{ledger.Received, "{\"lot\":\"\xff\"}", "record.body.encoding"},
		{ledger.Received, strings.Repeat(" ", 70000) + good, "record.body.size"},
		{ledger.Received, strings.Repeat(`{"a":`, 20) + "1" + strings.Repeat("}", 20), "record.body.syntax"},
		{ledger.Received, edit(`"lot":"L26-0001"`, `"lot":"L26-0001","lot":"L26-0002"`), "record.key.twice"},
		{ledger.Received, edit(`"lot"`, `"lott"`), "record.key.missing record.key.unknown"},
		{ledger.Received, edit(`28100.25`, `28100.2501`), "record.mass.precision"},
		{ledger.Received, edit(`28100.25`, `-1`), "record.value.range"},
		{ledger.Received, edit(`28100.25`, `1e4`), "record.value.type"},
		{ledger.Received, edit(`28100.25`, `"28100"`), "record.value.type"},
		{ledger.Received, edit(`0.12`, `12`), "record.value.range"},
		{ledger.Received, edit(`,"moisture_wb":0.12`, ``), "record.moisture.missing"},
		{ledger.Received, edit(`0.12`, `0.12,"moisture_db":0.12`), "record.moisture.two"},
		{ledger.Received, edit(`0.12`, `0.12,"moisture_db":0.13636`), ""}, // 0.12 / 0.88
		{ledger.Received, edit(`"amount"`, `"gross_kg":40000,"tare_kg":12000,"amount"`), "record.net.differs"},
		{ledger.Received, edit(`"amount"`, `"gross_kg":40100.25,"tare_kg":12000,"amount"`), ""},
		{ledger.Received, `{"lot":"l","to":"sillo:B7","amount":{"fresh_kg":1,"standing":"wieghed","moisture_wb":2}}`,
			"record.account.form record.code.form record.value.choice record.value.range"},
		{ledger.Moved, `{"from":"field","to":"silo:B8","amount":{"fresh_kg":0,"standing":"weighed"}}`, "record.account.form"},
		{ledger.Blended, `{"lot":"M1","to":"malt:M1","from":[]}`, "record.list.empty"},
		{ledger.Analysed, `{"of":"lot:M1","results":[{"quantity":"DON","value":1}]}`, "record.quantity.form"},
		{ledger.Analysed, `{"of":"lot:M1","results":[{"quantity":"don_mg_kg_asis","value":1e999}]}`, "record.value.type"},
		{ledger.Logged, `{"series":"AIR","first_ms":5,"last_ms":4,"count":0,"rows_sha256":"ab"}`, "record.sha256.form"},
		{ledger.Decided, `{"decision":"x","drawn":"mixed"}`, "record.account.form"},
		{ledger.Struck, `{"fact":"7","reason":"x"}`, "record.id.form"},
	} {
		_, err := ledger.Decode(c.kind, 1, []byte(c.body))
		if got := strings.Join(codes(err), " "); got != c.want {
			t.Errorf("%s %.80s:\n got %s\nwant %s", c.kind, c.body, got, c.want)
		}
	}
	if _, err := ledger.Decode(ledger.Received, 2, []byte(good)); !slices.Equal(codes(err), []string{"record.schema.unknown"}) {
		t.Errorf("a schema of the future: %v", err)
	}
	_, err := ledger.Decode(ledger.Received, 1, []byte(edit(`"lot"`, `"lott"`)))
	if !strings.Contains(err.Error(), `nearest: “lot”`) {
		t.Errorf("no nearest word in %v", err)
	}
}

func TestEnvelopeRefused(t *testing.T) {
	d := draft(1, &ledger.Turning{Piece: "P26-0001"})
	if err := d.Check(); err != nil {
		t.Fatal(err)
	}
	d.ID, d.At, d.Entered, d.OffsetMin, d.Who, d.Body = "x", -1, math.MaxInt64, 1000, "", []byte("{")
	want := []string{"record.body.syntax", "record.id.form", "record.offset.range", "record.time.range", "record.time.range", "record.who.form"}
	if got := codes(d.Check()); !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}

// TestEveryCodeHasItsSentence: each code that stands in the source has one,
// and each sentence has its code somewhere, here or in the store.
func TestEveryCodeHasItsSentence(t *testing.T) {
	used := map[string]bool{}
	for _, pattern := range []string{"*.go", "../internal/sqlstore/*.go"} {
		files, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		for _, file := range files {
			if strings.HasSuffix(file, "_test.go") || file == "fault.go" {
				continue
			}
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			for _, m := range regexp.MustCompile(`"(record\.[a-z0-9-]+\.[a-z0-9-]+)"`).FindAllSubmatch(text, -1) {
				code := string(m[1])
				used[code] = true
				if _, ok := ledger.Sentences[code]; !ok && !strings.HasPrefix(file, "..") {
					t.Errorf("%s has no sentence", code)
				}
			}
		}
	}
	for _, code := range slices.Sorted(maps.Keys(ledger.Sentences)) {
		if !used[code] {
			t.Errorf("nothing says %s", code)
		}
	}
}

// A weighed mass is what was weighed, whatever its moisture: the two goods
// together are the fresh weight, and dry matter is off by half a gram at most.
func TestWeighedFreshWeightIsKept(t *testing.T) {
	for _, wb := range []float64{0, 0.0001, 0.12, 1.0 / 3, 0.4455, 0.99999, 1} {
		for _, kg := range []float64{0.001, 1, 28100.253, 1e8} {
			a := weighed(kg/1000, wb)
			b := newBook(t)
			b.enter(&ledger.Receipt{Lot: "L1", To: "silo:B7", Amount: a})
			m := b.held["silo:B7"]
			if m.Dry+m.Water != a.FreshKg {
				t.Errorf("%v kg at %v: %d g, weighed %d g", kg, wb, m.Dry+m.Water, a.FreshKg)
			}
			if off := math.Abs(float64(m.Dry) - float64(a.FreshKg)*(1-wb)); off > 0.5 {
				t.Errorf("%v kg at %v: dry matter is off by %v g", kg, wb, off)
			}
		}
	}
}

func TestTypedBodiesReadBack(t *testing.T) {
	wb := ledger.Fraction(0.0455)
	u := 0.01
	for _, b := range []ledger.Body{
		&ledger.Receipt{Lot: "L1", To: "silo:B7", Amount: ledger.Amount{FreshKg: 28100250, Standing: ledger.Weighed, UFreshKg: 20, MoistureWB: &wb, UMoistureWB: 0.002}, Grower: "Wenn\nFarm", Crop: 2026},
		&ledger.Adjustment{Place: "piece:P1", Counted: ledger.Amount{Standing: ledger.Measured}, BookDryKg: -1, BookWater: -1234567, Against: ledger.AgainstUnexplained, Month: "2026-11", Reason: "count"},
		&ledger.Analysis{Of: "lot:M1", Sample: "A1", Results: []ledger.Figure{{Quantity: "don_mg_kg_asis", Value: 0.2, U: &u, Less: true}}},
		&ledger.Dressing{Piece: "P1", Losses: &ledger.Losses{RespiredKg: 5, Standing: ledger.Computed}, Malt: []ledger.Malted{{Lot: "M1", To: "malt:M1", Amount: ledger.Amount{Standing: ledger.Weighed}}}, Beside: []ledger.Beside{{What: ledger.Culms, To: "byproduct:FEED", Amount: ledger.Amount{Standing: ledger.Estimated}}}},
	} {
		kind, schema, text := ledger.NewBody(b)
		back, err := ledger.Decode(kind, schema, text)
		if err != nil || !reflect.DeepEqual(back, b) {
			t.Errorf("%s\n%v %+v", text, err, back)
		}
	}
}

// FuzzDecode: what is read never panics, and what is read well reads the same
// once written again.
func FuzzDecode(f *testing.F) {
	f.Add("received", good)
	f.Add("adjusted", `{"place":"silo:B7","counted":{"fresh_kg":1,"standing":"estimated","moisture_db":0.1},"book_kg_dm":-0.001,"book_water_kg":5,"against":"dust","month":"2026-11","reason":""}`)
	f.Add("dressed", `{"piece":"P1","malt":[{"lot":"M1","to":"malt:M1","amount":null}],"losses":{}}`)
	f.Add("logged", `{"series":"A","first_ms":1,"last_ms":2,"count":9,"rows_sha256":"`+strings.Repeat("a", 64)+`"}`)
	f.Fuzz(func(t *testing.T, kind, body string) {
		b, err := ledger.Decode(ledger.Kind(kind), 1, []byte(body))
		if err != nil {
			if len(codes(err)) == 0 {
				t.Fatalf("%v has no codes", err)
			}
			return
		}
		k, schema, text := ledger.NewBody(b)
		again, err := ledger.Decode(k, schema, text)
		if err != nil || !reflect.DeepEqual(b, again) {
			t.Fatalf("%s\nbecame %s\n%v", body, text, err)
		}
		e, err := ledger.Of(ledger.Fact{Kind: k, Schema: schema, Body: []byte(body)})
		if err != nil {
			t.Fatal(err)
		}
		var dry, water ledger.Grams
		for _, p := range ledger.Postings(e.Flows) {
			dry, water = dry+p.Dry, water+p.Water
		}
		if dry != 0 || water != 0 {
			t.Fatalf("%s leaves %d and %d g", body, dry, water)
		}
	})
}

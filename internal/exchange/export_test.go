package exchange

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/parquet-go/parquet-go"
	"pgregory.net/rapid"

	"awn/internal/table"
	"awn/internal/tools/need"
	"awn/ledger"
)

// Lines are read back with their hashes, by encoding/json alone.
func TestLinesAreReadBack(t *testing.T) {
	facts, _ := history(t)
	var b bytes.Buffer
	if err := Lines(&b, facts); err != nil {
		t.Fatal(err)
	}
	var before [32]byte
	n := 0
	for line := range strings.Lines(b.String()) {
		var f factLine
		if err := json.Unmarshal([]byte(line), &f); err != nil {
			t.Fatal(err)
		}
		n++
		fact := ledger.Fact{House: f.House, Seq: f.Seq, ID: f.ID, Kind: f.Kind, Schema: f.Schema, At: f.At, OffsetMin: f.OffsetMin, Entered: f.Entered, Who: f.Who, Body: []byte(f.Body)}
		sum := fact.Sum(before)
		if hex.EncodeToString(sum[:]) != f.Hash {
			t.Errorf("fact %d: the hash is not that of the line", f.Seq)
		}
		before = sum
	}
	if n != 16 {
		t.Errorf("%d lines", n)
	}
}

// The program printed in docs/method/record.md checks the lines with nothing
// but Python.
func TestLinesAreCheckedByThePrintedProgram(t *testing.T) {
	python := need.Program(t, "python3")
	page, err := os.ReadFile("../../docs/method/record.md")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(page), "```python\n")
	program, _, _ := strings.Cut(rest, "```")
	facts, r := history(t)
	var b bytes.Buffer
	if err := Lines(&b, facts); err != nil {
		t.Fatal(err)
	}
	head, err := r.Head(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	run := func(lines []byte) string {
		cmd := exec.Command(python, "-c", program)
		cmd.Stdin = bytes.NewReader(lines)
		out, _ := cmd.CombinedOutput() // what it says is what counts
		return strings.TrimSpace(string(out))
	}
	if got, want := run(b.Bytes()), fmt.Sprintf("16 %x", head.Hash); got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	if got := run(bytes.Replace(b.Bytes(), []byte("28460"), []byte("28461"), 1)); got != "broken at 1" {
		t.Errorf("a changed line: %s", got)
	}
}

// sheetOf writes a table and reads it back with encoding/csv.
func sheetOf(t *testing.T, p table.Page) (records []map[string]string) {
	t.Helper()
	var b bytes.Buffer
	if err := table.WriteCSV(&b, p); err != nil {
		t.Fatal(err)
	}
	lines, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, cells := range lines[1:] {
		r := map[string]string{}
		for i, cell := range cells {
			r[lines[0][i]] = cell
		}
		records = append(records, r)
	}
	return records
}

func grams(t *testing.T, kg string) ledger.Grams {
	t.Helper()
	x, err := strconv.ParseFloat(kg, 64)
	if err != nil {
		t.Fatal(err)
	}
	return ledger.Grams(math.Round(x * 1000))
}

// The tables say what the store says that was made from the same facts.
func TestTablesAgreeWithTheStore(t *testing.T) {
	facts, r := history(t)
	pages, err := Tables(facts)
	if err != nil {
		t.Fatal(err)
	}
	tables := map[string][]map[string]string{}
	for _, p := range pages {
		tables[p.Name] = sheetOf(t, p)
	}
	// balances: the postings of an account, summed; zero per fact
	held, perFact := map[string][2]ledger.Grams{}, map[string][2]ledger.Grams{}
	for _, p := range tables["postings"] {
		for m, key := range map[*map[string][2]ledger.Grams]string{&held: p["account"], &perFact: p["seq"]} {
			s := (*m)[key]
			(*m)[key] = [2]ledger.Grams{s[0] + grams(t, p["dry_kg"]), s[1] + grams(t, p["water_kg"])}
		}
	}
	for seq, s := range perFact {
		if s != [2]ledger.Grams{} {
			t.Errorf("fact %s: postings sum to %v", seq, s)
		}
	}
	balances, err := r.Balances(t.Context())
	if err != nil || len(balances) == 0 {
		t.Fatal(err)
	}
	for _, b := range balances {
		if got := held[string(b.Account)]; got != [2]ledger.Grams{b.Dry, b.Water} {
			t.Errorf("%s: %v, the store has %d and %d", b.Account, got, b.Dry, b.Water)
		}
	}
	var things int
	for _, kind := range []string{"delivery", "lot", "sample", "certificate", "silo", "piece", "malt", "byproduct", "shipment"} {
		all, err := r.Subjects(t.Context(), kind)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range all {
			things++
			i := slices.IndexFunc(tables["subjects"], func(x map[string]string) bool { return x["thing"] == string(s.Ref) })
			if i < 0 {
				t.Errorf("%s is not in the table", s.Ref)
				continue
			}
			x := tables["subjects"][i]
			want := fmt.Sprint(s.State, "|", s.Leave, "|", s.Drawn, "|", s.Opened, "|", s.Seq)
			if got := strings.Join([]string{x["state"], x["leave"], x["drawn"], x["opened_seq"], x["last_seq"]}, "|"); got != want {
				t.Errorf("%s: %s, the store has %s", s.Ref, got, want)
			}
		}
	}
	if things != len(tables["subjects"]) {
		t.Errorf("%d things, %d rows", things, len(tables["subjects"]))
	}
	if f := tables["facts"]; len(f) != 16 || f[1]["struck_by_seq"] != "16" || f[0]["struck_by_seq"] != "" || f[0]["time"] != "2026-09-21T15:13:20.000+01:00" {
		t.Errorf("facts: %v", f[:2])
	}
	if x := tables["results"]; len(x) != 2 || x[0]["value"] != "0.142" || x[0]["u"] != "0.0012" || x[1]["below"] != "1" {
		t.Errorf("results: %v", x)
	}
	if x := tables["flows"]; !slices.ContainsFunc(x, func(r map[string]string) bool {
		return r["undo"] == "1" && r["from"] == "silo:N1" && r["to"] == "field"
	}) {
		t.Errorf("the struck flow was not taken back")
	}
}

// The whole record as one workbook.
func TestTablesAsWorkbook(t *testing.T) {
	facts, _ := history(t)
	pages, err := Tables(facts)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := table.WriteXLSX(&b, pages...); err != nil {
		t.Fatal(err)
	}
	s, err := table.Read(&b, "subjects")
	if err != nil || len(s.Cells) < 10 {
		t.Errorf("%d rows, %v", len(s.Cells), err)
	}
}

// An error of the record is not a short export.
func TestExportsHandErrorsOn(t *testing.T) {
	gone := errors.New("the record is gone")
	broken := func(yield func(ledger.Fact, error) bool) { yield(ledger.Fact{}, gone) }
	if err := Lines(&bytes.Buffer{}, broken); !errors.Is(err, gone) {
		t.Error(err)
	}
	if _, err := Tables(broken); !errors.Is(err, gone) {
		t.Error(err)
	}
	if _, err := EPCIS(&bytes.Buffer{}, broken, Partner{}); !errors.Is(err, gone) {
		t.Error(err)
	}
	if _, err := Readings(&bytes.Buffer{}, func(yield func(Reading, error) bool) { yield(Reading{}, gone) }); !errors.Is(err, gone) {
		t.Error(err)
	}
}

func eachReading(all []Reading) func(func(Reading, error) bool) {
	return func(yield func(Reading, error) bool) {
		for _, r := range all {
			if !yield(r, nil) {
				return
			}
		}
	}
}

// Whatever was read comes back bit for bit, in its order.
func TestReadingsComeBack(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		all := make([]Reading, rapid.SampledFrom([]int{0, 1, readingsAtOnce, readingsAtOnce + 1}).Draw(rt, "n"))
		seed := rapid.Uint64().Draw(rt, "bits")
		for i := range all {
			seed = seed*6364136223846793005 + 1442695040888963407 // Knuth's generator: any bits will do
			x := math.Float64frombits(seed)
			if math.IsNaN(x) {
				x = 0
			}
			all[i] = Reading{fmt.Sprintf("KILN%d", i%3), "temperature", "°C", int64(seed >> 20), x}
		}
		var b bytes.Buffer
		n, err := Readings(&b, eachReading(all))
		if err != nil || n != int64(len(all)) {
			rt.Fatal(n, err)
		}
		got, err := parquet.Read[Reading](bytes.NewReader(b.Bytes()), int64(b.Len()))
		if err != nil || !slices.Equal(got, all) {
			rt.Fatalf("%d readings came back of %d, %v", len(got), len(all), err)
		}
	})
}

// A reader of another make finds the same: that of the Apache Arrow project,
// pinned in tools/parquet.
func TestReadingsInAnotherReader(t *testing.T) {
	path := filepath.Join(t.TempDir(), "readings.parquet")
	all := []Reading{{"KILN1-AIR-ON", "temperature", "°C", 1_790_000_000_000, 64.5}, {"KILN1-AIR-ON", "temperature", "°C", 1_790_000_060_000, -0.25}}
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Readings(f, eachReading(all)); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("go", "tool", "-modfile=tools/parquet/go.mod", "parquet_reader", "--json", "--no-metadata", path)
	cmd.Dir = filepath.Join("..", "..")
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	var got []struct {
		Series, Quantity, Unit string
		At                     int64
		Value                  float64
	}
	if err := json.Unmarshal(out, &got); err != nil || len(got) != len(all) {
		t.Fatalf("%v: %s", err, out)
	}
	for i, r := range all {
		if g := got[i]; g.Series != r.Series || g.Quantity != r.Quantity || g.Unit != r.Unit || g.At != r.AtMS || g.Value != r.Value {
			t.Errorf("%+v was read as %+v", r, g)
		}
	}
}

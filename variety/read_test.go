package variety

import (
	"encoding/csv"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
)

func TestReadSaysAllAtOnce(t *testing.T) {
	_, faults := Read([][]string{
		{"variety", "site", "year", "yield [t/ha]", "yield"},
		{"A", "S1", "2021", "5,2", "1"},
		{"B", "S1", "twenty", "about 6", "1"},
		{"", "S1", "2021", "5", "1"},
		{"C", "", "", "5", "1"},
		{"D", "S1", "21", "5", "1", "stray"},
	}, Layout{Checks: []string{"a"}})
	var got []string
	for _, f := range faults {
		got = append(got, f.Code)
	}
	want := []string{"trial.header.twice", "trial.cell.comma", "trial.cell.not-a-number", "trial.cell.not-a-number", "trial.entry.missing",
		"trial.environment.missing", "trial.year.unreadable", "trial.row.long", "trial.check.absent"}
	if !slices.Equal(got, want) {
		t.Errorf("%v\nwant %v", got, want)
	}
	if f := faults[1]; f.Row != 2 || f.Column != 4 || f.Header != "yield" || f.Text != "5,2" {
		t.Errorf("%+v", f)
	}
	if faults[len(faults)-1].Meant != "A" {
		t.Errorf("meant %q, want A", faults[len(faults)-1].Meant)
	}
}

func TestReadKnowsColumns(t *testing.T) {
	tr, faults := Read([][]string{
		{"Genotype", "Location", "Season", "Replicate", "Row", "Col", "Check", "Plots", "Yield (t/ha)", "Lodging [%]", "Taste"},
		{"A", "S1", "2021", "1", "1", "1", "yes", "3", "5.5", "NA", "."}, {"", "", "", "", "", "", "", "", "", "", ""},
		{"B", "S1", "2021", "1", "1", "2", "", "", "6", "10", "3"},
	}, Layout{Traits: []Trait{{Name: "Taste", Direction: Higher, Scale: Graded}}})
	if len(faults) > 0 {
		t.Fatalf("%+v", faults)
	}
	if len(tr.Records) != 2 || !slices.Equal(tr.Checks, []string{"A"}) || tr.Records[0].Plots != 3 || tr.Records[1].Plots != 1 || tr.Records[1].Line != 4 {
		t.Errorf("%+v", tr)
	}
	if y := tr.Traits[0]; y.Name != "Yield" || y.Unit != "t/ha" || y.Direction != Higher {
		t.Errorf("%+v", y)
	}
	if l := tr.Traits[1]; l.Direction != Lower || l.Scale != Percent {
		t.Errorf("%+v", l)
	}
	if x := tr.Records[0].Value; x[0] != 5.5 || !math.IsNaN(x[1]) || !math.IsNaN(x[2]) {
		t.Errorf("%v", x)
	}
	for _, empty := range [][][]string{nil, {{}}, {{"variety"}}, {{"variety", "site", "yield"}}} {
		if _, faults := Read(empty, Layout{}); len(faults) == 0 {
			t.Errorf("%v must be refused", empty)
		}
	}
}

func TestInspection(t *testing.T) {
	cells := [][]string{{"variety", "site", "rep", "yield", "lodging"}}
	for i, site := range []string{"S1", "S2", "S3", "S4", "S5"} {
		for j, v := range []string{"A", "B", "C", "D", "c "} {
			y := 5 + 0.5*float64(i) + 0.2*float64(j) + 0.1*math.Sin(float64(7*i+3*j))
			cells = append(cells, []string{v, site, "1", strconv.FormatFloat(y, 'f', 3, 64), "0"})
		}
	}
	cells[8][3], cells[9][3], cells[12][4] = "25", "-1", "140"
	cells = append(cells, []string{"A", "S1", "1", "5", "0"})
	for _, v := range []string{"A", "B", "C", "D"} {
		cells = append(cells, []string{v, "S6", "1", "44", "3"})
	}
	tr := trials(t, cells, Layout{Checks: []string{"A"}})
	yield := codes(tr.Inspect("yield"))
	for _, code := range []string{"trial.value.far", "trial.value.impossible", "trial.cell.twice", "trial.environment.scale",
		"trial.environment.no-spread", "trial.year.single", "trial.entry.lookalike", "trial.cell.holes"} {
		if !slices.Contains(yield, code) {
			t.Errorf("%s not said: %v", code, yield)
		}
	}
	if !slices.Contains(codes(tr.Inspect("lodging")), "trial.value.impossible") {
		t.Error("140 % lodging must be remarked on")
	}
	if got := codes(tr.Inspect("colour")); !slices.Equal(got, []string{"trial.trait.unknown"}) {
		t.Errorf("%v", got)
	}
}

// Whatever stands in a table, reading and inspecting it ends.
func FuzzRead(f *testing.F) {
	f.Add("variety,site,year,yield\nA,S1,2021,5\nB,S1,2021,6\n")
	f.Add("gen,env,rep,lodging [%]\nA,E1,1,NA\nA,E1,1,\n")
	f.Add(",\n\"\"\n")
	f.Fuzz(func(t *testing.T, text string) {
		r := csv.NewReader(strings.NewReader(text))
		r.FieldsPerRecord, r.LazyQuotes = -1, true
		cells, err := r.ReadAll()
		if err != nil {
			return
		}
		tr, faults := Read(cells, Layout{})
		if len(tr.Records) == 0 && len(faults) == 0 {
			t.Error("nothing read and nothing said")
		}
		for _, trait := range tr.Traits {
			for _, r := range tr.Inspect(trait.Name) {
				if r.Code == "" {
					t.Error("a remark without code")
				}
			}
		}
	})
}

func TestLayoutNamesWhatIsNotThere(t *testing.T) {
	cells := [][]string{{"kind", "place", "yield [kg/ha]", "colour"}, {"A", "Holm", "5100", "pale"}, {"B", "Holm", "5200", "dark"}}
	tr, faults := Read(cells, Layout{Only: true, Roles: map[string]Role{"kind": EntryColumn}, Traits: []Trait{{Name: "yield", Unit: "t/ha", Direction: Higher}}})
	if len(faults) > 0 || len(tr.Traits) != 1 || tr.Traits[0].Unit != "kg/ha" {
		t.Errorf("%v, %v", tr.Traits, faults)
	}
	_, faults = Read(cells, Layout{Only: true, Roles: map[string]Role{"kinde": EntryColumn}, Traits: []Trait{{Name: "yeild"}}})
	if len(faults) != 3 || faults[0].Code != "trial.header.unknown" || faults[0].Meant != "kind" || faults[1].Meant != "yield" || faults[2].Text != "entry" {
		t.Errorf("%+v", faults)
	}
}

package report_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"

	"awn/crop"
	"awn/intake"
	"awn/internal/report"
)

// harvest is a survey of a few farms with names that nothing else has.
func harvest(t *testing.T) report.CropAccount {
	t.Helper()
	rows := [][]string{{"season", "district", "variety", "farm", "weight", "protein", "plump [2.5 mm]", "don"}}
	for season := 2025; season <= 2026; season++ {
		for d, n := range []int{7, 3} {
			for f := range n {
				rows = append(rows, []string{fmt.Sprint(season), fmt.Sprint("District ", d), "Merrow", fmt.Sprintf("SECRET%d%d", d, f), "100",
					fmt.Sprintf("%.1f", 9.8+0.2*float64(f)+0.1*float64(d)), fmt.Sprintf("%d", 88+f), map[bool]string{true: "<0.2", false: fmt.Sprintf("%.2f", 0.3+0.1*float64(f))}[f == 0]})
			}
		}
	}
	s, faults := crop.Read(rows, nil)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	s.ReadPlaces([][]string{{"district", "east", "north"}, {"District 0", "1", "2"}, {"District 1", "3", "4"}})
	c := &intake.Contract{Name: "Buyer's <own>", Currency: "EUR", PriceT: 200, Terms: []intake.Term{
		{Column: intake.Column{Key: intake.Of(intake.Protein), In: intake.PerCent, Decimals: 1}, Least: math.NaN(), Most: 10.5},
	}}
	q := crop.Question{Buyers: []crop.Buyer{{Contract: c, WantedT: 900}}, ElsewhereT: 150, Aims: []crop.Aim{{Key: intake.Of(intake.Protein), Half: 0.001}}}
	return report.CropAccount{Name: "test", Summary: s.Summarise(q), Lonely: string(crop.Adjust)}
}

// Farms are never named, and what stands on few of them is in no form.
func TestHarvestKeepsItsFarms(t *testing.T) {
	a := harvest(t)
	for name, write := range map[string]func(io.Writer) error{"text": a.Text, "json": a.JSON, "csv": a.CSV, "html": a.HTML} {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			t.Fatal(err)
		}
		text := b.String()
		for _, never := range []string{"SECRET", "NaN", "Inf", "<own>", "crop.", "{"} {
			if name == "json" && (never == "{" || never == "crop.") || name == "html" && never == "{" || (name == "text" || name == "csv") && never == "<own>" {
				continue
			}
			if strings.Contains(text, never) {
				t.Errorf("%s holds %q", name, never)
			}
		}
	}
	var b bytes.Buffer
	if err := a.JSON(&b); err != nil {
		t.Fatal(err)
	}
	var out struct {
		Result struct {
			Districts []struct {
				Name      string
				Withheld  bool
				Qualities []any
			}
		}
	}
	if err := json.Unmarshal(b.Bytes(), &out); err != nil {
		t.Fatal(err)
	}
	for i, d := range out.Result.Districts {
		if few := i == 1; d.Withheld != few || (len(d.Qualities) == 0) != few {
			t.Errorf("%s: withheld is %v, with %d qualities", d.Name, d.Withheld, len(d.Qualities))
		}
	}
}

// The CSV has a figure in each row, and machine numbers.
func TestHarvestAsCSV(t *testing.T) {
	var b bytes.Buffer
	if err := harvest(t).CSV(&b); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil || len(rows) < 20 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	for _, row := range rows {
		if len(row) != 4 || strings.ContainsAny(row[3], "\u202f\u2212") {
			t.Errorf("%q", row)
		}
	}
}

package paper

import (
	"math"
	"os"
	"testing"
	"testing/fstest"

	"awn/variety"
)

func TestTrialIsReadWhole(t *testing.T) {
	doc := need[Trial](t, "trial.yaml")
	b, l := doc.Brief(), doc.Layout()
	if len(l.Traits) != 1 || l.Traits[0].Direction != variety.Window || l.Traits[0].Low != 9.5 || l.Traits[0].High != 11.5 || l.Checks[0] != "Old Wenn" {
		t.Errorf("%+v", l)
	}
	var names []string
	for _, c := range b.Customers {
		names = append(names, c.Name)
	}
	if len(names) != 3 || names[0] != "grower" || names[1] != "maltster" || names[2] != "brewer" {
		t.Errorf("customers out of grain order: %v", names)
	}
	m := b.Customers[1]
	if m.Needed != 0.8 || m.Wishes[0].Trait != "extract" || m.Wishes[0].Weight != 1 || !math.IsNaN(m.Wishes[0].Min) {
		t.Errorf("%+v", m)
	}
	for _, w := range m.Wishes {
		if w.Trait == "protein" && (w.Min != 9 || w.Max != 11.5) || w.Trait == "plump" && (w.Min != 80 || !math.IsNaN(w.Max)) {
			t.Errorf("%+v", w)
		}
	}
	if b.MoreYears != 2 || b.MoreSites != 4 || b.Stressed[0] != "Marram 2025" || len(b.Sheet.Candidates) != 4 || len(b.Sheet.Stages) != 5 {
		t.Errorf("%+v", b)
	}
	step := b.Sheet.Candidates[0].Steps[1]
	if step.Decision != variety.Advance || len(step.Evidence) != 2 || step.Evidence[1].From != "pilot malting" || !near(step.Evidence[1].Beats, 0.98) {
		t.Errorf("%+v", step)
	}
	if !b.Sheet.Candidates[0].Steps[2].ThisTrial {
		t.Error("the trial at hand is to be evidence")
	}
}

func TestLoadTrial(t *testing.T) {
	text, err := os.ReadFile("testdata/good/trial.yaml")
	if err != nil {
		t.Fatal(err)
	}
	files := fstest.MapFS{"a/trial.csv": {Data: []byte("variety,site,yield\n")}}
	o, inputs, faults := LoadTrial(files, "a/trial.yaml", text)
	if len(faults) > 0 || o.File != "a/trial.csv" || len(o.Table) == 0 || len(inputs) != 1 || inputs[0].Kind != "trial/1" {
		t.Errorf("%+v %v %v", o, inputs, faults)
	}
	for table, code := range map[string]string{"gone.csv": "document.file.missing", "../../x.csv": "document.file.name"} {
		_, _, faults := LoadTrial(files, "a/trial.yaml", []byte("awn: trial/1\ntable: "+table+"\n"))
		if len(faults) != 1 || faults[0].Code != code || faults[0].Line != 2 {
			t.Errorf("%s: %v, want %s", table, faults, code)
		}
	}
	if _, _, faults := LoadTrial(files, "a/trial.yaml", []byte("awn: lot/1\n")); len(faults) == 0 {
		t.Error("a lot is no trial")
	}
}

package variety

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// malted is an invented trial of the usual traits: extract falls with protein and
// with nothing else, lodging with one variety.
func malted(reps int) Trials {
	r := rand.New(rand.NewPCG(8, 8))
	tr := Trials{Checks: []string{"V0"}}
	for _, name := range []string{"yield", "protein", "extract", "lodging"} {
		tr.Traits = append(tr.Traits, CommonTrait(name, ""))
	}
	for cell := range 8 * 6 * reps {
		v, place := cell%8, cell/8%6
		protein := 10.5 - 0.15*float64(v) + 0.2*r.NormFloat64()
		tr.Records = append(tr.Records, Record{
			Entry: fmt.Sprint("V", v), Site: fmt.Sprint("S", place%3), Year: 2024 + place/3, Rep: fmt.Sprint(cell / 48), Plots: 1,
			Value: []float64{6 + 0.1*float64(v) + float64(place)/5 + 0.2*r.NormFloat64(), protein, 92 - protein + 0.1*r.NormFloat64(),
				max(0, float64(10*place-20)+5*float64(v)+r.NormFloat64())},
		})
	}
	return tr
}

func TestWeigh(t *testing.T) {
	tr := malted(2)
	var told []int
	a, err := tr.Weigh(context.Background(), Brief{
		Rank: RankOptions{Draws: 200}, MoreYears: 1, MoreSites: 1, Stressed: []string{"S0 2024"}, Free: []string{"S2 2025"},
		Sheet:    Sheet{Stages: UsualStages(), Candidates: []Candidate{{Name: "V3", Year: 2015, Steps: []Step{{Year: 2025, Stage: "early", Decision: Hold, Reason: "once more", ThisTrial: true}}}}},
		Progress: func(done, _ int) { told = append(told, done) },
	})
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(told, []int{0, 1, 2, 3}) || len(a.Traits) != 4 || len(a.Guides) != 3 || len(a.Droughts) != 8 {
		t.Fatalf("told %v, %d traits, %d guides, %d under drought", told, len(a.Traits), len(a.Guides), len(a.Droughts))
	}
	extract, lodging := a.Traits[2], a.Traits[3]
	// Extract was made of protein alone: what a variety is ahead goes with it.
	last := extract.Adjusted.Entries[len(extract.Adjusted.Entries)-1]
	if !(last.BeatsPlain > 0.99 && last.OwedShare > 0.8) {
		t.Errorf("the extract of %s is owed to its protein: %+v", last.Entry, last)
	}
	if a.Traits[0].Adjusted != nil || a.Traits[1].Adjusted != nil {
		t.Error("yield and protein are no quality to be compared at equal protein")
	}
	if lodging.Shares == nil || len(lodging.SharesOf) != 7 || !(lodging.SharesOf[6].Less < 0.01) {
		t.Errorf("V7 lodges more than V0: %+v", lodging.SharesOf)
	}
	if len(a.Sheet.Candidates[0].Steps[0].Evidence) < 4 {
		t.Errorf("the trial is no evidence: %+v", a.Sheet.Candidates[0].Steps[0])
	}
	if got := extract.Outlook; len(got) != 4 || !(got[3].Reliability > got[0].Reliability) {
		t.Errorf("more trials are worth more: %+v", got)
	}
}

// Two traits made alike cannot both stand in an index, and the account says so.
func TestGuideOfTwins(t *testing.T) {
	tr := malted(2)
	for i := range tr.Records {
		tr.Records[i].Value[2] = tr.Records[i].Value[0]
	}
	a, err := tr.Weigh(context.Background(), Brief{Rank: RankOptions{Draws: 50},
		Customers: []Customer{{Name: "cook", Wishes: []Wish{wish("yield", 1), wish("extract", 1)}}}})
	if err != nil {
		t.Fatal(err)
	}
	if g := a.Guides[0]; g.SmithHazel != nil || g.Base == nil {
		t.Errorf("%+v", g)
	}
	if !slices.Contains(codes(a.Remarks), "rank.index.singular") {
		t.Errorf("not said: %v", codes(a.Remarks))
	}
	for _, e := range a.Guides[0].Entries {
		if !(e.Desirability >= 0 && e.Desirability <= 1) || math.IsNaN(e.Base) {
			t.Errorf("%+v", e)
		}
	}
}

func TestWeighOfNothing(t *testing.T) {
	tr := Trials{Traits: []Trait{CommonTrait("yield", "")}, Records: []Record{{Entry: "A", Site: "S", Plots: 1, Value: []float64{5}}}}
	a, err := tr.Weigh(context.Background(), Brief{})
	if !errors.Is(err, ErrNothing) || len(a.Remarks) == 0 {
		t.Errorf("%v, %+v", err, a)
	}
	if _, err := malted(1).Weigh(stopped(), Brief{}); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped: %v", err)
	}
}

func stopped() context.Context {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	return ctx
}

// A tiny trial whose interactions would explain every figure sheds them with a
// caution, and still ranks.
func TestSaturated(t *testing.T) {
	cells := [][]string{{"variety", "site", "year", "yield"}}
	for _, c := range []string{"A X 2024 5.1", "B X 2024 5.6", "E X 2024 6.4", "B Y 2024 5.2", "C Y 2024 5.5", "D Y 2024 5.7", "A X 2025 5.4",
		"C X 2025 6.1", "E X 2025 6.6", "A Y 2025 5.0", "D Y 2025 6.1", "E Y 2025 6.0", "B Z 2025 5.5", "D Z 2025 6.3", "E Z 2025 6.2"} {
		var entry, site, year, yield string
		fmt.Sscan(c, &entry, &site, &year, &yield)
		cells = append(cells, []string{entry, site, year, yield})
	}
	a := analyse(t, trials(t, cells, Layout{Checks: []string{"A"}}), Question{Trait: "yield"})
	if !slices.Contains(codes(a.Remarks), "trial.term.saturated") {
		t.Errorf("not said: %v", codes(a.Remarks))
	}
	for _, c := range a.Against("A", 0.95) {
		if !c.Difference.Known() || !(c.Difference.SE > 0) || math.IsNaN(c.Beats) {
			t.Errorf("%+v", c)
		}
	}
}

func TestDroughtSaysWhatItCannot(t *testing.T) {
	tr := malted(1)
	for _, c := range []struct {
		stressed, free string
		code           string
	}{
		{"nowhere", "S0 2024", "trial.drought.nothing"}, {"S2 2025", "S0 2024", "trial.drought.none"}, {"S0 2024", "S1 2024", "trial.drought.slight"},
	} {
		_, remarks := tr.drought([]string{c.stressed}, []string{c.free})
		if !slices.Equal(codes(remarks), []string{c.code}) {
			t.Errorf("%s against %s: %v, want %s", c.stressed, c.free, codes(remarks), c.code)
		}
	}
}

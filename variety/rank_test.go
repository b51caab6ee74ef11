package variety

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"testing"
)

// sown is an invented trial in three traits. Entry V1 is the check, average in
// all; V2 is far better in yield and worse in extract, V3 the other way, V4 worse
// in both, V5 too rich in protein.
func sown(t testing.TB) Trials {
	r := rand.New(rand.NewPCG(11, 11))
	truth := map[string][3]float64{"V1": {}, "V2": {1.5, -2, 0}, "V3": {-1, 2.5, 0}, "V4": {-1.5, -2.5, 0}, "V5": {1, 1, 3}, "V6": {0.2, 0.1, -0.2}, "V7": {-0.2, 0.3, 0.2}, "V8": {0.1, -0.2, -0.3}}
	cells := [][]string{{"variety", "site", "year", "rep", "yield [t/ha]", "extract [% dm]", "protein [% dm]"}}
	for _, year := range []string{"2021", "2022"} {
		for site := range 4 {
			place := r.NormFloat64()
			for rep := range 2 {
				for v := range 8 {
					name := fmt.Sprint("V", v+1)
					row := []string{name, fmt.Sprint("S", site), year, strconv.Itoa(rep)}
					for k, mean := range []float64{6 + place, 80, 10.5} {
						row = append(row, strconv.FormatFloat(mean+truth[name][k]+0.3*r.NormFloat64(), 'f', 3, 64))
					}
					cells = append(cells, row)
				}
			}
		}
	}
	return trials(t, cells, Layout{Checks: []string{"V1"}})
}

func sownRanking(t testing.TB, tr Trials, customers []Customer, o RankOptions) *Ranking {
	t.Helper()
	var analyses []*Analysis
	for _, trait := range []string{"yield", "extract", "protein"} {
		analyses = append(analyses, analyse(t, tr, Question{Trait: trait}))
	}
	r, err := tr.Rank(context.Background(), analyses, customers, "V1", o)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func score(t testing.TB, r Ruler, entry string) Score {
	t.Helper()
	at := slices.IndexFunc(r.Scores, func(s Score) bool { return s.Entry == entry })
	if at < 0 {
		t.Fatalf("no score of %s", entry)
	}
	return r.Scores[at]
}

func TestThreeRules(t *testing.T) {
	tr := sown(t)
	customers := Customers(tr.Traits)
	if len(customers) != 3 {
		t.Fatalf("%d customers", len(customers))
	}
	r := sownRanking(t, tr, customers, RankOptions{Seed: 1})
	grower, maltster := r.Rulers[0], r.Rulers[1]
	if best := grower.Scores[0].Entry; best != "V2" {
		t.Errorf("the grower's best is %s", best)
	}
	if best := maltster.Scores[0].Entry; best != "V3" {
		t.Errorf("the maltster's best is %s", best)
	}
	check := score(t, grower, "V1")
	if check.Value.Mid != 0 || !math.IsNaN(check.BeatsCheck) {
		t.Errorf("the check is the zero of its own rule: %+v", check)
	}
	if s := score(t, maltster, "V4"); s.BeatsCheck > 0.01 || s.Value.High >= 0 {
		t.Errorf("V4 is worse for certain: %+v", s)
	}
	if s := grower.Scores[0]; s.First < 0.9 || s.BeatsCheck < 0.99 || s.Rank.Mid != 1 {
		t.Errorf("V2 leads for certain: %+v", s)
	}
	if !slices.Contains(r.Front, "V2") || !slices.Contains(r.Front, "V3") || slices.Contains(r.Front, "V4") {
		t.Errorf("front %v", r.Front)
	}
	sum := 0.0
	for _, s := range grower.Scores {
		sum += s.First
	}
	near(t, "chances of being first", sum, 1, 1e-9)
}

func TestHardLimits(t *testing.T) {
	tr := sown(t)
	customers := Customers(tr.Traits)
	for i := range customers[1].Wishes {
		if w := &customers[1].Wishes[i]; w.Trait == "protein" {
			w.Max = 12
		}
	}
	r := sownRanking(t, tr, customers, RankOptions{Seed: 1, Draws: 400})
	last := r.Rulers[1].Scores[7]
	if last.Entry != "V5" || !slices.Equal(last.Culled, []string{"protein"}) || last.First != 0 {
		t.Errorf("V5 with 13.5 %% protein must fall out: %+v", last)
	}
	for _, s := range r.Rulers[1].Scores[:7] {
		if len(s.Culled) > 0 {
			t.Errorf("%s culled for %v", s.Entry, s.Culled)
		}
	}
	if slices.Contains(r.Front, "V5") {
		t.Error("a culled entry is not on the front")
	}
}

// An entry without any figure of a trait counts as average there, with doubt.
func TestGuessedEntry(t *testing.T) {
	tr := sown(t)
	tr.Records = slices.Clone(tr.Records)
	for i, r := range tr.Records {
		if r.Entry == "V3" {
			tr.Records[i].Value = slices.Clone(r.Value)
			tr.Records[i].Value[1] = math.NaN()
		}
	}
	r := sownRanking(t, tr, Customers(tr.Traits), RankOptions{Seed: 1, Draws: 400})
	s := score(t, r.Rulers[1], "V3")
	if !slices.Equal(s.Guessed, []string{"extract"}) {
		t.Errorf("guessed %v", s.Guessed)
	}
	sure := score(t, r.Rulers[1], "V2")
	if s.Value.High-s.Value.Low < 2*(sure.Value.High-sure.Value.Low) {
		t.Errorf("band of the guess %+v, of one that is known %+v", s.Value, sure.Value)
	}
}

func TestRankingRepeats(t *testing.T) {
	tr := sown(t)
	a := sownRanking(t, tr, Customers(tr.Traits), RankOptions{Seed: 5, Draws: 200})
	b := sownRanking(t, tr, Customers(tr.Traits), RankOptions{Seed: 5, Draws: 200})
	for i, s := range a.Rulers[2].Scores {
		if s.Entry != b.Rulers[2].Scores[i].Entry || s.Value != b.Rulers[2].Scores[i].Value {
			t.Fatalf("%+v and %+v", s, b.Rulers[2].Scores[i])
		}
	}
	if _, err := tr.Rank(context.Background(), nil, nil, "V99", RankOptions{}); !errors.Is(err, ErrCheck) {
		t.Errorf("%v, want no check", err)
	}
}

// Two traits with equal effects whose plots err together: the spread of a sum of
// both is that of errors that add, not that of independent ones.
func TestErrorsGoTogether(t *testing.T) {
	tr := sown(t)
	double := tr
	double.Traits = append(slices.Clone(tr.Traits), Trait{Name: "again", Direction: Higher, Scale: Measure})
	double.Records = nil
	for _, r := range tr.Records {
		r.Value = append(slices.Clone(r.Value), r.Value[0])
		double.Records = append(double.Records, r)
	}
	one := Customer{Name: "one", Wishes: []Wish{wish("yield", 1)}}
	both := Customer{Name: "both", Wishes: []Wish{wish("yield", 1), wish("again", 1)}}
	var analyses []*Analysis
	for _, trait := range []string{"yield", "again"} {
		analyses = append(analyses, analyse(t, double, Question{Trait: trait}))
	}
	r, err := double.Rank(context.Background(), analyses, []Customer{one, both}, "V1", RankOptions{Seed: 2})
	if err != nil {
		t.Fatal(err)
	}
	a, b := score(t, r.Rulers[0], "V2").Value, score(t, r.Rulers[1], "V2").Value
	near(t, "band of both over band of one", (b.High-b.Low)/(a.High-a.Low), 2, 0.05)
}

// The quality that goes with protein: extract falls by one for each per cent.
func TestAdjustedForProtein(t *testing.T) {
	tr := sown(t)
	for i, r := range tr.Records {
		v := slices.Clone(r.Value)
		if r.Entry == "V6" {
			v[2] -= 1.5 // V6 is poor in protein
		}
		v[1] = 80 - (v[2] - 10.5) + 0.01*math.Sin(float64(i))
		tr.Records[i].Value = v
	}
	a, err := tr.AdjustFor(context.Background(), Question{Trait: "extract"}, "protein", "V1")
	if err != nil {
		t.Fatal(err)
	}
	near(t, "slope", a.Slope.Value, -1, 0.01)
	for _, e := range a.Entries {
		if e.Entry == "V6" {
			near(t, "V6 as found", e.Plain.Value, 1.6, 0.4)
			near(t, "V6 at equal protein", e.Equal.Value, 0, 0.02)
			near(t, "owed to protein", e.OwedShare, 1, 0.02)
			near(t, "protein of V6", e.ByDifference, -1.7, 0.3)
		}
	}
	if _, err := tr.AdjustFor(context.Background(), Question{Trait: "extract"}, "starch", "V1"); !errors.Is(err, ErrNothing) {
		t.Errorf("%v, want nothing", err)
	}
}

// The components of Minnesota barley, 1927 to 1936 (lme4 1.1-31), and what trials
// of some sizes are worth by them.
func TestReliability(t *testing.T) {
	v := Variances{Entry: 7.33998, EntrySite: 1.72030, EntryYear: 2.73695, EntrySiteYear: 21.8322}
	for _, c := range []struct{ sites, years, want float64 }{
		{3, 1, .409}, {6, 1, .524}, {12, 1, .610}, {6, 2, .679}, {12, 2, .752}, {6, 3, .753}, {12, 3, .815},
	} {
		near(t, fmt.Sprint(c), Reliability(v, Size{c.sites, c.years, 1}), c.want, 5e-4)
	}
	if !math.IsNaN(Reliability(v, Size{0, 1, 1})) || !math.IsNaN(Reliability(Variances{}, Size{1, 1, 1})) {
		t.Error("no trial, no reliability")
	}
}

func TestOutlook(t *testing.T) {
	a := analyse(t, sown(t), Question{Trait: "yield"})
	buys := a.Outlook(1, 2)
	if len(buys) != 6 || buys[0].Years != 2 || buys[5].Years != 3 {
		t.Fatalf("%+v", buys)
	}
	near(t, "sites now", buys[0].Sites, 4, 1e-9)
	near(t, "plots now", buys[0].Plots, 2, 1e-9)
	for i, b := range buys[1:] {
		if b.Reliability < buys[0].Reliability || b.Gain < buys[0].Gain {
			t.Errorf("more of a trial is worth less: %d %+v", i, b)
		}
	}
}

func TestSheet(t *testing.T) {
	tr := sown(t)
	analyses := []*Analysis{analyse(t, tr, Question{Trait: "yield"})}
	ranking := sownRanking(t, tr, Customers(tr.Traits), RankOptions{Draws: 200})
	evidence := tr.EvidenceOf("V2", "V1", analyses, ranking)
	if len(evidence) != 4 || evidence[0].Trait != "yield" || !slices.Equal(evidence[0].Years, []int{2021, 2022}) || evidence[0].Beats < 0.99 {
		t.Fatalf("%+v", evidence)
	}
	one := []Evidence{{Trait: "yield", Years: []int{2021}}}
	s := Sheet{Stages: UsualStages(), Candidates: []Candidate{
		{Name: "good", Cross: "A x B", Year: 2010, Steps: []Step{
			{2014, "early", Advance, one, "upright", false}, {2016, "yield", Advance, one, "yields", false},
			{2018, "co-operative", Advance, evidence, "beats the check", false},
		}},
		{Name: "hasty", Year: 2010, Steps: []Step{
			{2014, "early", Advance, one, "upright", false}, {2015, "co-operative", Advance, one, "", false},
			{2015, "pilot", Drop, nil, "haze", false}, {2017, "pilot", Advance, evidence, "again", false},
		}},
	}}
	got := codes(s.Check())
	want := []string{"sheet.reason.missing", "sheet.stage.skipped", "sheet.gate.too-few-crops", "sheet.year.backwards", "sheet.evidence.missing", "sheet.step.after-end"}
	if !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	sheet := s.Rows()
	if len(sheet) != 5 || sheet[0].Year != 2014 || sheet[0].Steps[1].Stage != "early" || sheet[1].Steps[0] != nil {
		t.Errorf("%+v", sheet)
	}
}

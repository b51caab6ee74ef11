package variety

import (
	"cmp"
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"testing"
)

func analyse(t testing.TB, trials Trials, q Question) *Analysis {
	t.Helper()
	a, err := trials.Analyse(context.Background(), q)
	if err != nil {
		t.Fatalf("%v: %+v", err, a.Remarks)
	}
	return a
}

func codes(remarks []Remark) []string {
	var out []string
	for _, r := range remarks {
		out = append(out, r.Code)
	}
	return out
}

// immerTwoWay is the ten barleys with every site and year an environment.
func immerTwoWay(t testing.TB) Trials {
	tr := trials(t, rows(t, "immer.csv"), Layout{Checks: []string{"Manchuria"}})
	for i, r := range tr.Records {
		tr.Records[i].Environment = r.where()
		tr.Records[i].Site, tr.Records[i].Year = "", 0
	}
	return tr
}

// Means, effects and their errors, against lme4 1.1-31 to five figures, as its
// optimiser stops there.
func TestEntriesOfImmer(t *testing.T) {
	a := analyse(t, immerTwoWay(t), Question{Trait: "yield", EnvironmentsRandom: true})
	for name, want := range figures(t, "immer_stability.csv") {
		e := a.Entries[a.Place(name)]
		near(t, name+" mean", e.Mean.Value, want["blue"], 1e-5)
		near(t, name+" its error", e.Mean.SE, want["se_blue"], 1e-5)
		near(t, name+" effect", e.Effect.Value, want["blup"], 1e-5)
		near(t, name+" its error", e.Effect.SE, want["se_blup_pev"], 1e-5)
		near(t, name+" reliability", e.Reliability, want["reliability"], 1e-5)
		if e.Plots != 12 || e.Environments != 12 {
			t.Errorf("%s: %d plots in %d environments", name, e.Plots, e.Environments)
		}
	}
	// 1 - MSR/MSG of the complete table; all three forms agree there.
	for _, h := range []float64{a.Heritability.Cullis, a.Heritability.Piepho, a.Heritability.Balanced} {
		near(t, "heritability", h, 0.82087215698, 1e-6)
	}
	for _, c := range a.Components {
		if !(c.Low <= c.Variance && c.Variance <= c.High) {
			t.Errorf("%s %v outside %v to %v", c.Name, c.Variance, c.Low, c.High)
		}
	}
	for _, code := range []string{"trial.cell.unreplicated", "trial.year.single"} {
		if !slices.Contains(codes(a.Remarks), code) {
			t.Errorf("%s not said", code)
		}
	}
}

// Sites by years are told apart by themselves, environments fixed. lme4 1.1-31.
func TestPlanOfSitesAndYears(t *testing.T) {
	a := analyse(t, trials(t, rows(t, "immer.csv"), Layout{Checks: []string{"Trebi"}}), Question{Trait: "yield"})
	for _, c := range a.Components {
		want := map[string]float64{EntryTerm: 6.7901489012, EntrySiteTerm: 6.0811689194, EntryYearTerm: 1.4459832119, "residual": 14.6323820841}[c.Name]
		closeTo(t, c.Name, c.Variance, want, 1e-4)
	}
}

// Replicated, with holes. lme4 1.1-31.
func TestPlanOfReplicates(t *testing.T) {
	a := analyse(t, trials(t, rows(t, "simulated.csv"), Layout{Checks: []string{"V01"}}), Question{Trait: "yield"})
	near(t, "log-likelihood", a.LogLik, -237.5189709409, 1e-5)
	near(t, "Cullis", a.Heritability.Cullis, 0.84284649165, 1e-5)
	for _, c := range a.Components {
		want := map[string]float64{EntryTerm: 0.1332869503, InteractionTerm: 0.12139827703, RepTerm: 0.020945807946, "residual": 0.12267404326}[c.Name]
		closeTo(t, c.Name, c.Variance, want, 1e-4)
	}
}

// LSD and the pairs of a complete table, against R 4.2.2. The comparison with the
// check has 99 degrees of freedom and nine candidates: testdata of package mixed
// gives 2.73589267.
func TestComparisons(t *testing.T) {
	a := analyse(t, immerTwoWay(t), Question{Trait: "yield", EnvironmentsRandom: true})
	with := a.Against("Manchuria", 0.95)
	if len(with) != 9 {
		t.Fatalf("%d comparisons", len(with))
	}
	for _, c := range with {
		near(t, c.Entry+" SED", c.Difference.SE, 1.868575, 1e-5)
		near(t, c.Entry+" LSD", c.LSD, 3.707658, 1e-4)
		near(t, c.Entry+" Dunnett", c.Need, 2.73589267*1.868575, 2e-4)
		if c.Entry == "Trebi" {
			near(t, "Trebi", c.Difference.Value, 39.4-31.46389, 1e-4)
			if !(c.P < 1e-3 && c.PDunnett < 1e-2 && c.PDunnett > c.P && c.Beats > 0.99 && c.BeatsAllLooked > 0.99 && c.BeatsAllLooked < 1) {
				t.Errorf("Trebi beats Manchuria by 4 errors: %+v", c)
			}
		}
	}
	pairs, err := a.Pairs(context.Background(), 0.95)
	if err != nil {
		t.Fatal(err)
	}
	want := map[[2]string][]string{}
	for _, row := range rows(t, "immer_pairs.csv")[1:] {
		want[[2]string{row[0], row[1]}] = row
	}
	for _, p := range pairs {
		row, sign := want[[2]string{p.A, p.B}], 1.0
		if row == nil {
			row, sign = want[[2]string{p.B, p.A}], -1
		}
		near(t, p.A+p.B, p.Difference.Value, sign*number(t, row[2]), 1e-6)
		near(t, p.A+p.B+" P", p.P, number(t, row[4]), 1e-6)
		near(t, p.A+p.B+" Tukey", p.PTukey, number(t, row[5]), 1e-6)
		near(t, p.A+p.B+" Holm", p.PHolm, number(t, row[6]), 1e-5)
		near(t, p.A+p.B+" HSD", p.HSD, 6.0486067185, 1e-4)
	}
}

// Bad trials: said in codes, no panic, nothing that is not a number where one is
// promised.
func TestBadTrials(t *testing.T) {
	head := []string{"variety", "environment", "yield"}
	plots := func(cells ...[3]string) Trials {
		table := [][]string{head}
		for _, c := range cells {
			table = append(table, c[:])
		}
		return trials(t, table, Layout{})
	}
	for _, c := range []struct {
		name string
		Trials
		nothing bool
		codes   []string
	}{
		{"one entry", plots([3]string{"A", "E1", "5"}, [3]string{"A", "E2", "6"}, [3]string{"A", "E3", "7"}), true, []string{"trial.entry.single"}},
		{"one environment", plots([3]string{"A", "E1", "5"}, [3]string{"B", "E1", "6"}, [3]string{"C", "E1", "7"}), true, []string{"trial.environment.single", "trial.fit.impossible"}},
		{"one environment, replicated", plots([3]string{"A", "E1", "5"}, [3]string{"A", "E1", "5.3"}, [3]string{"B", "E1", "6"}, [3]string{"B", "E1", "6.1"}, [3]string{"C", "E1", "7"}, [3]string{"C", "E1", "7.2"}), false, []string{"trial.environment.single", "trial.term.mingled"}},
		{"all equal", plots([3]string{"A", "E1", "5"}, [3]string{"B", "E1", "5"}, [3]string{"A", "E2", "5"}, [3]string{"B", "E2", "5"}), true, []string{"trial.trait.constant", "trial.fit.impossible"}},
		{"nothing measured", plots([3]string{"A", "E1", "NA"}, [3]string{"B", "E1", ""}), true, []string{"trial.trait.empty"}},
		{"disconnected", plots([3]string{"A", "E1", "5"}, [3]string{"B", "E1", "6"}, [3]string{"A", "E2", "5.1"}, [3]string{"B", "E2", "6.4"},
			[3]string{"C", "E3", "3"}, [3]string{"D", "E3", "4"}, [3]string{"C", "E4", "3.3"}, [3]string{"D", "E4", "4.1"}), false, []string{"trial.environment.disconnected"}},
	} {
		a, err := c.Analyse(context.Background(), Question{Trait: "yield"})
		if errors.Is(err, ErrNothing) != c.nothing || err != nil && !c.nothing {
			t.Errorf("%s: %v, %v", c.name, err, codes(a.Remarks))
			continue
		}
		for _, code := range c.codes {
			if !slices.Contains(codes(a.Remarks), code) {
				t.Errorf("%s: %s not said, only %v", c.name, code, codes(a.Remarks))
			}
		}
		for _, e := range a.Entries {
			if math.IsNaN(e.Effect.Value) || math.IsNaN(e.Effect.SE) {
				t.Errorf("%s: effect of %s is %+v", c.name, e.Name, e.Effect)
			}
		}
	}
}

// Four cells in ten lost, at random: the analysis still ranks, and says so.
func TestHoles(t *testing.T) {
	cells := rows(t, "immer.csv")
	kept := cells[:1]
	r := rand.New(rand.NewPCG(4, 4))
	for _, row := range cells[1:] {
		if r.Float64() >= 0.4 {
			kept = append(kept, row)
		}
	}
	a := analyse(t, trials(t, kept, Layout{Checks: []string{"Manchuria"}}), Question{Trait: "yield"})
	if !slices.Contains(codes(a.Remarks), "trial.cell.holes") {
		t.Errorf("holes not said: %v", codes(a.Remarks))
	}
	// Trebi and Wisconsin No. 38 lead the whole table with equal means, three and
	// a half bushels above the third.
	byEffect := slices.Clone(a.Entries)
	slices.SortFunc(byEffect, func(a, b Entry) int { return cmp.Compare(b.Effect.Value, a.Effect.Value) })
	lead := []string{byEffect[0].Name, byEffect[1].Name}
	if !slices.Contains(lead, "Trebi") || !slices.Contains(lead, "Wisconsin No. 38") {
		t.Errorf("the lead is %v", lead)
	}
	if h := a.Heritability.Cullis; !(h > 0 && h < 1) {
		t.Errorf("heritability %v", h)
	}
}

// Chance trials of all shapes: what is said of entries is finite, what cannot be
// said is refused, and nothing breaks.
func TestAnyTrial(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 21))
	analysed := 0
	for range 20 {
		tr := Trials{Traits: []Trait{CommonTrait("yield", ""), CommonTrait("lodging", "")}, Checks: []string{"V0"}}
		entries, sites, years, reps := 1+r.IntN(9), 1+r.IntN(4), 1+r.IntN(3), 1+r.IntN(3)
		lost, flat := 0.5*r.Float64(), r.IntN(10) == 0
		for cell := range entries * sites * years * reps {
			if r.Float64() < lost {
				continue
			}
			rec := Record{Entry: strconv.Itoa(cell % entries), Site: "S" + strconv.Itoa(cell/entries%sites), Year: 2000 + cell/entries/sites%years,
				Rep: strconv.Itoa(cell / entries / sites / years), Row: strconv.Itoa(r.IntN(3)), Column: strconv.Itoa(r.IntN(4)), Plots: 1 + float64(r.IntN(2))}
			rec.Entry = "V" + rec.Entry
			rec.Value = []float64{5 + r.NormFloat64(), max(0, 100*r.Float64()-70)}
			if flat {
				rec.Value[0] = 5
			}
			tr.Records = append(tr.Records, rec)
		}
		var all []*Analysis
		for _, trait := range []string{"yield", "lodging"} {
			a, err := tr.Analyse(context.Background(), Question{Trait: trait, EnvironmentsRandom: r.IntN(2) == 0})
			if err != nil && !errors.Is(err, ErrNothing) {
				t.Fatal(err)
			}
			if err != nil && len(a.Remarks) == 0 {
				t.Error("refused without a reason")
			}
			for _, e := range a.Entries {
				if math.IsNaN(e.Effect.Value+e.Effect.SE+e.Raw) || e.Reliability < -1e-9 || e.Reliability > 1 {
					t.Errorf("%+v", e)
				}
			}
			if h := a.Heritability.Cullis; h < -1e-9 || h > 1 {
				t.Errorf("heritability %v", h)
			}
			for _, c := range a.Against("V0", 0.95) {
				if c.Beats < 0 || c.Beats > 1 || math.IsNaN(c.Beats) == c.Difference.Known() {
					t.Errorf("%+v", c)
				}
			}
			a.Outlook(1, 1)
			all = append(all, a)
			if err == nil {
				analysed++
			}
		}
		if _, err := tr.Rank(context.Background(), all, Customers(tr.Traits), "V0", RankOptions{Draws: 20}); err != nil && !errors.Is(err, ErrCheck) {
			t.Error(err)
		}
	}
	if analysed < 20 {
		t.Errorf("only %d of 40 analysed", analysed)
	}
}

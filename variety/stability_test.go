package variety

import (
	"math"
	"testing"
)

// Immer's ten barleys in twelve environments: arithmetic, so nine figures of the
// reference are asked for.
func TestStability(t *testing.T) {
	table := immerTwoWay(t).Table("yield")
	want := figures(t, "immer_stability.csv")
	all := table.Stabilities(Higher)
	if len(all) != 10 {
		t.Fatalf("%d entries", len(all))
	}
	for _, s := range all {
		w := want[s.Entry]
		for name, got := range map[string]float64{
			"mean": s.Mean, "fw_slope": s.Slope, "fw_se": s.SlopeSE, "fw_p_b1": s.SlopeP, "fw_ms_dev": s.Deviations, "env_var": s.Spread,
			"cv_pct": 100 * s.Variation, "wricke_W": s.Ecovalence, "shukla_var": s.Shukla, "linbinns_P": s.Superiority,
		} {
			closeTo(t, s.Entry+" "+name, got, w[name], 1e-8)
		}
	}
}

func TestBiplots(t *testing.T) {
	table := immerTwoWay(t).Table("yield")
	want := figures(t, "immer_stability.csv")
	ammi, gge := table.AMMI(), table.GGE()
	for i, entry := range table.Entries {
		w := want[entry]
		near(t, entry+" AMMI 1", ammi.EntryScores[i][0], w["ammi1"], 1e-6)
		near(t, entry+" AMMI 2", ammi.EntryScores[i][1], w["ammi2"], 1e-6)
		near(t, entry+" ASV", ammi.StabilityValue(i), w["asv"], 1e-6)
		near(t, entry+" GGE 1", gge.EntryScores[i][0], w["gge1"], 1e-6)
		near(t, entry+" GGE 2", gge.EntryScores[i][1], w["gge2"], 1e-6)
	}
	// R 4.2.2, svd.
	near(t, "share of AMMI 1", 100*ammi.Share[0], 29.7664028754, 1e-8)
	near(t, "share of AMMI 2", 100*ammi.Share[1], 20.7122587856, 1e-8)
	near(t, "share of GGE 1", 100*gge.Share[0], 45.5829464812, 1e-8)
	near(t, "share of GGE 2", 100*gge.Share[1], 14.0072512919, 1e-8)
	for k, freedom := range []float64{19, 17, 15, 13, 11, 9} {
		near(t, "Gollob", ammi.Freedom[k], freedom, 0)
	}
	// A product of scores is the interaction.
	rest, sum := table.interaction(), 0.0
	for k := range ammi.Singular {
		sum += ammi.EntryScores[3][k] * ammi.EnvironmentScores[5][k]
	}
	near(t, "a cell from its scores", sum, rest[3][5], 1e-9)
}

// Shukla 1972, table 4: totals over two years at six sites, per plot.
func TestShuklaPublished(t *testing.T) {
	tr := trials(t, rows(t, "fisher.csv"), Layout{})
	for i := range tr.Records {
		tr.Records[i].Environment = tr.Records[i].Site
	}
	table := tr.Table("yield")
	for i := range table.Cell {
		for j := range table.Cell[i] {
			table.Cell[i][j] *= 2 // the table holds means of the two years
		}
	}
	want := map[string]float64{"Manchuria": 25.87912, "Peatland": 75.68001, "Svansota": 19.59984, "Trebi": 225.52866, "Velvet": 22.73051}
	for _, s := range table.Stabilities(Higher) {
		near(t, s.Entry, s.Shukla/6, want[s.Entry], 5e-6)
	}
}

func TestTablesWithHoles(t *testing.T) {
	nan := math.NaN()
	table := Table{
		Entries: []string{"A", "B", "C", "D"}, Environments: []string{"E1", "E2", "E3", "E4"},
		Cell: [][]float64{{1, 2, 3, 4}, {2, 3, nan, 5}, {3, 4, nan, 6}, {nan, 9, nan, 8}},
	}
	if table.AMMI() != nil || table.GGE() != nil || table.Stabilities(Higher) != nil {
		t.Error("a table with holes has no biplot and no stability")
	}
	complete, entries, environments := table.Complete()
	if len(entries) != 1 || entries[0] != "D" || len(environments) != 1 || environments[0] != "E3" {
		t.Errorf("left out %v and %v, want the holed D and E3", entries, environments)
	}
	if len(complete.Stabilities(Higher)) != 3 {
		t.Errorf("%+v", complete)
	}
	for _, thin := range []Table{{}, {Entries: []string{"A"}, Environments: []string{"E"}, Cell: [][]float64{{1}}}} {
		if thin.AMMI() != nil || thin.GGE() != nil || thin.Stabilities(Lower) != nil {
			t.Error("a thin table has none either")
		}
		thin.Complete()
	}
	same := Table{Entries: []string{"A", "B", "C"}, Environments: []string{"1", "2", "3"}, Cell: [][]float64{{5, 5, 5}, {5, 5, 5}, {5, 5, 5}}}
	if same.AMMI() != nil {
		t.Error("no interaction has no axes")
	}
	for _, s := range same.Stabilities(Higher) {
		if s.Slope != 0 && !math.IsNaN(s.Slope) {
			t.Errorf("slope %v where no place differs", s.Slope)
		}
	}
}

func TestStress(t *testing.T) {
	all := figures(t, "stress.csv")
	var stressed, free float64
	for _, r := range all {
		stressed += r["y_stress"] / float64(len(all))
		free += r["y_nonstress"] / float64(len(all))
	}
	for name, r := range all {
		near(t, name+" SSI", StressSusceptibility(r["y_stress"], r["y_nonstress"], stressed, free), r["ssi"], 1e-9)
		near(t, name+" STI", StressTolerance(r["y_stress"], r["y_nonstress"], free), r["sti"], 1e-9)
		near(t, name+" GMP", GeometricYield(r["y_stress"], r["y_nonstress"]), r["gmp"], 1e-9)
	}
	for i, x := range []float64{StressSusceptibility(3, 0, 3, 4), StressSusceptibility(3, 4, 5, 4), StressTolerance(-1, 4, 4), GeometricYield(3, -1)} {
		if !math.IsNaN(x) {
			t.Errorf("case %d gives %v, want NaN", i, x)
		}
	}
}

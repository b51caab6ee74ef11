package variety

import (
	"context"
	"errors"
	"slices"
	"testing"
)

// Wedderburn's leaf blotch. R 4.2.2.
func TestLeafBlotch(t *testing.T) {
	tr := trials(t, rows(t, "wedderburn.csv"), Layout{})
	want := figures(t, "blotch.csv")
	for _, c := range []struct {
		ShareVariance
		name       string
		dispersion float64
	}{{Squared, "wedderburn", 0.98854641872}, {Binomial, "binomial", 0.088777766239}} {
		s, err := tr.Shares(context.Background(), "blotch", c.ShareVariance)
		if err != nil {
			t.Fatal(err)
		}
		// R stops when the deviance settles to 1e-8: four figures of its odds.
		near(t, c.name+" dispersion", s.Dispersion, c.dispersion, 1e-5)
		for i, name := range s.Entries {
			near(t, c.name+" "+name, s.Entry[i].Value, want["gen"+name][c.name], 1e-4)
			near(t, c.name+" "+name+" SE", s.Entry[i].SE, want["gen"+name][c.name+"_se"], 1e-4)
		}
		for i, name := range s.Environments[1:] {
			near(t, c.name+" "+name, s.Environment[i].Value, want["site"+name][c.name], 1e-4)
		}
		if s.Percent(0) >= s.Percent(9) || s.Percent(9) >= 100 {
			t.Errorf("G01 %v %%, G10 %v %%", s.Percent(0), s.Percent(9))
		}
	}
}

func TestSharesThatRunAway(t *testing.T) {
	tr := trials(t, [][]string{
		{"variety", "site", "rust [%]"}, {"A", "S1", "0"}, {"A", "S2", "0"}, {"A", "S3", "0"},
		{"B", "S1", "10"}, {"B", "S2", "20"}, {"B", "S3", "30"}, {"C", "S1", "5"}, {"C", "S2", "15"}, {"C", "S3", "35"},
	}, Layout{})
	if _, err := tr.Shares(context.Background(), "rust", Binomial); !errors.Is(err, ErrNotSettled) {
		t.Errorf("%v, want that the odds run away", err)
	}
	if _, err := tr.Shares(context.Background(), "mildew", Squared); !errors.Is(err, ErrNothing) {
		t.Errorf("%v, want nothing to fit", err)
	}
}

func TestLodgedPlacesOnly(t *testing.T) {
	tr := trials(t, [][]string{
		{"variety", "site", "lodging [%]", "yield"}, {"A", "S1", "0", "5"}, {"B", "S1", "0", "6"},
		{"A", "S2", "30", "4"}, {"B", "S2", "0", "6"},
	}, Layout{})
	out, remarks := tr.Lodged("lodging")
	if len(out.with(0)) != 2 || len(out.with(1)) != 4 || len(tr.with(0)) != 4 {
		t.Errorf("%d figures of lodging, %d of yield, %d before", len(out.with(0)), len(out.with(1)), len(tr.with(0)))
	}
	if !slices.Equal(codes(remarks), []string{"trial.lodging.none"}) || remarks[0].Environment != "S1" {
		t.Errorf("%+v", remarks)
	}
}

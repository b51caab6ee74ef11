package complaint

import (
	"context"
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"awn/lab"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %.10g, want %.10g within %g", what, got, want, tolerance)
	}
}

func read(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows[1:]
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

func only(t *testing.T, r lab.Results) Comparison {
	t.Helper()
	all, err := Compare(context.Background(), r)
	if err != nil || len(all) != 1 || all[0].Failed != nil {
		t.Fatalf("%v %+v", err, all)
	}
	return all[0]
}

// TestOneWay is the balanced one-way case whose components are known by hand.
func TestOneWay(t *testing.T) {
	r := lab.Results{Qualities: []lab.Quality{{Name: "yield"}}, Vessels: []string{"kiln"}}
	for i, row := range read(t, "dyestuff.csv") {
		r.Rows = append(r.Rows, lab.Result{Kind: lab.Piece, Sample: strconv.Itoa(i), Vessels: []string{row[0]}, Value: number(t, row[1])})
	}
	c := only(t, r)
	near(t, "kiln", c.Parts[0].Variance, 1764.05, 0.01) // lme4 stops at some 1e-6 of it
	near(t, "chance", c.Parts[1].Variance, 2451.25, 0.01)
	near(t, "share", c.Parts[0].Share, 1764.05/(1764.05+2451.25), 1e-5)
	// The mean of a batch against the others: sqrt(MSB/5 (1 + 1/5)), MSB = 56357.5/5 printed, freedom that of the residual.
	for _, l := range c.Levels {
		if l.Name == "F" {
			near(t, "F less the others", l.Difference.Value, 1470-(6*1527.5-1470)/5, 1e-6)
			near(t, "its error", l.Difference.SE, math.Sqrt(2451.25/5*1.2), 1e-4)
			near(t, "its freedom", l.Difference.Freedom, 24, 1e-6)
		}
	}
	if c.Cause != "kiln" {
		t.Errorf("the cause is %q", c.Cause)
	}
}

// TestCrossed is two terms crossed, by lme4.
func TestCrossed(t *testing.T) {
	r := lab.Results{Qualities: []lab.Quality{{Name: "diameter"}}, Vessels: []string{"kiln"}}
	for i, row := range read(t, "penicillin.csv") {
		r.Rows = append(r.Rows, lab.Result{Kind: lab.Piece, Sample: strconv.Itoa(i), Lot: row[1], Vessels: []string{row[2]}, Value: number(t, row[0])})
	}
	c := only(t, r)
	// By hand, for it is balanced: mean squares 4.6038647343, 89.8444444444 and
	// 0.3024154589 of anova() of base R 4. lme4 ends its search 6e-5 from there.
	for i, want := range []float64{(4.6038647343 - 0.3024154589) / 6, (89.8444444444 - 0.3024154589) / 24, 0.3024154589} {
		near(t, c.Parts[i].Term, c.Parts[i].Variance, want, 1e-6*want)
	}
	// Twice the fall of the log-likelihood without the samples, and half of chi-squared's tail.
	near(t, "no kiln", math.Log(c.Parts[1].P), math.Log(0.5*math.Erfc(math.Sqrt(306.6280120-165.4302945))), 1e-3)
	if c.Cause != "kiln" {
		t.Errorf("the cause is %q", c.Cause)
	}
	// fixef and vcov of lmer(diameter ~ 0 + sample + (1|plate)).
	for _, l := range c.Levels {
		if l.Term == "kiln" && l.Name == "A" {
			others := (21.9583333 + 24.9166667 + 22.8750000 + 22.9583333 + 19.9583333) / 5
			near(t, "A less the others", l.Difference.Value, 25.1666667-others, 1e-6)
			near(t, "its error", l.Difference.SE, math.Sqrt((0.0424718363-0.0298711936)*1.2), 1e-5)
		}
	}
}

// TestMingled keeps each lot to one kiln: neither can be told from the other, which
// must be said.
func TestMingled(t *testing.T) {
	r := lab.Results{Qualities: []lab.Quality{{Name: "colour"}}, Vessels: []string{"kiln", "steep"}}
	for i := range 12 {
		r.Rows = append(r.Rows, lab.Result{Kind: lab.Piece, Sample: strconv.Itoa(i), Lot: strconv.Itoa(i % 3), Vessels: []string{"K" + strconv.Itoa(i%3), "S"}, Value: float64(i*i%7) + float64(i%3)})
	}
	c := only(t, r)
	why := map[string]Left{}
	for _, l := range c.Left {
		why[l.Term] = l
	}
	if why["kiln"] != (Left{"kiln", Mingled, Barley}) || why["steep"].Why != OneLevel {
		t.Errorf("left out: %+v", c.Left)
	}
	codes := ""
	for _, x := range c.Remarks(r) {
		codes += x.Code + " "
	}
	for _, want := range []string{"complaint.cause.", "complaint.term.mingled", "complaint.term.one-level"} {
		if !strings.Contains(codes, want) {
			t.Errorf("%s is not among %s", want, codes)
		}
	}
	r.Rows = r.Rows[:6]
	all, err := Compare(context.Background(), r)
	if err != nil || len(all) != 1 || !all[0].Few || all[0].Remarks(r)[0].Code != "complaint.pieces.too-few" {
		t.Errorf("six figures: %v %+v", err, all)
	}
}

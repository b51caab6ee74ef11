package course_test

import (
	"math"
	"os"
	"testing"

	"awn/course"
	"awn/finding"
	"awn/internal/paper"
	"awn/programme"
)

// load reads a piece of the examples.
func load(t testing.TB, name string) *course.Piece {
	t.Helper()
	p, _, faults := paper.Load(os.DirFS("../examples"), name)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return &p
}

// run takes a piece through its course.
func run(t testing.TB, p *course.Piece) *course.Outcome {
	t.Helper()
	o, err := course.Run(p)
	if err != nil {
		t.Fatal(err)
	}
	return o
}

// told is the first finding of a code.
func told(o *course.Outcome, code string) (finding.Finding, bool) {
	for _, f := range o.Findings {
		if f.Code == code {
			return f, true
		}
	}
	return finding.Finding{}, false
}

// figure is a figure of a finding; NaN if it has no such one.
func figure(f finding.Finding, name string) float64 {
	for _, x := range f.Figures {
		if x.Name == name {
			return x.Value
		}
	}
	return math.NaN()
}

// stage is a stage of the outcome.
func stage(t testing.TB, o *course.Outcome, s course.Stage) *course.StageOutcome {
	t.Helper()
	for i := range o.Stages {
		if o.Stages[i].Stage == s {
			return &o.Stages[i]
		}
	}
	t.Fatalf("no %s was run", s)
	return nil
}

// at is a reading at an hour of the piece, on a straight line between its
// moments.
func at(o *course.Outcome, hour float64, of programme.Reading) float64 {
	c := &o.Curve
	for i := 1; i < len(c.TimeH); i++ {
		if c.TimeH[i] < hour-1e-9 {
			continue
		}
		share := (hour - c.TimeH[i-1]) / (c.TimeH[i] - c.TimeH[i-1])
		return c.At[i-1][of] + share*(c.At[i][of]-c.At[i-1][of])
	}
	return math.NaN()
}

// within fails unless a figure lies between two.
func within(t testing.TB, what string, got, low, high float64) {
	t.Helper()
	if !(got >= low && got <= high) {
		t.Errorf("%s is %.4g, and should be %.4g to %.4g", what, got, low, high)
	}
}

// near fails unless a figure lies within a tolerance of another.
func near(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s is %.5g, and should be %.5g within %.2g", what, got, want, tolerance)
	}
}

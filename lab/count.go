package lab

import (
	"fmt"
	"math"
)

// Count is one look at a germination test: how many kernels had germinated by
// then, those removed at earlier looks included, of how many laid out.
type Count struct {
	AtH        float64 // hours since wetting
	Germinated int     // running total
	Of         int     // kernels laid out
}

// Sums turns the bench sheet, on which each look counts the newly germinated
// kernels only, into running totals.
func Sums(fresh []Count) []Count {
	out := make([]Count, len(fresh))
	total := 0
	for i, c := range fresh {
		total += c.Germinated
		out[i] = Count{AtH: c.AtH, Germinated: total, Of: c.Of}
	}
	return out
}

// Problem names what is wrong with the counts of a test.
type Problem string

// The problems.
const (
	NoCounts    Problem = "none" // there are no counts
	NothingSown Problem = "nothing-laid-out"
	OfChanges   Problem = "of-changes"  // the looks disagree on how many were laid out
	HoursFall   Problem = "hours-fall"  // a look is not later than the one before it, or than wetting
	TotalFalls  Problem = "total-falls" // a running total goes down: fresh counts were entered
	TooMany     Problem = "too-many"    // more germinated than were laid out
)

// CountError says which look of a test cannot be.
type CountError struct {
	Look    int // index of the look
	Problem Problem
}

// Error names the look, from 1, and the problem.
func (e *CountError) Error() string {
	return fmt.Sprintf("germination count %d: %s", e.Look+1, e.Problem)
}

// CheckCounts returns a *CountError for counts that cannot be those of one
// test, and nil for those that can.
func CheckCounts(counts []Count) error {
	if len(counts) == 0 {
		return &CountError{Problem: NoCounts}
	}
	before := Count{}
	for i, c := range counts {
		switch {
		case c.Of <= 0:
			return &CountError{i, NothingSown}
		case i > 0 && c.Of != before.Of:
			return &CountError{i, OfChanges}
		case !(c.AtH > before.AtH) || math.IsInf(c.AtH, 1):
			return &CountError{i, HoursFall}
		case c.Germinated < before.Germinated:
			return &CountError{i, TotalFalls}
		case c.Germinated > c.Of:
			return &CountError{i, TooMany}
		}
		before = c
	}
	return nil
}

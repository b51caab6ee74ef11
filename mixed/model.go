package mixed

import (
	"fmt"
	"math"
)

// Term is one source of difference: for each observation the level, from 0,
// that it belongs to.
type Term struct {
	Name   string
	Level  []int
	Levels int
	Random bool
}

// Covariate is a fixed slope on a measured figure, one for each observation.
type Covariate struct {
	Name string
	X    []float64
}

// Model is what is to be explained and by what. A mean is always part of it.
type Model struct {
	Y          []float64
	Weight     []float64 // how many plots each observation is the mean of; nil if one each
	Terms      []Term
	Covariates []Covariate
}

// Problem names why a model cannot be fitted.
type Problem string

// The problems.
const (
	Empty     Problem = "empty"      // no observation
	Lengths   Problem = "lengths"    // a term, covariate or weight has not one entry for each observation
	NotFinite Problem = "not-finite" // an observation, covariate or weight is no number, or a weight not positive
	Outside   Problem = "level"      // a level outside 0 to Levels-1
	Twice     Problem = "name-twice" // two terms of one name, or one named Residual
	Constant  Problem = "constant"   // all observations are equal
	NoFreedom Problem = "no-freedom" // nothing left over to judge chance by: too few observations
	Saturated Problem = "saturated"  // the random terms explain every observation, to rounding: no chance is left
	Unknown   Problem = "unknown"    // a term that the model does not have, or not of that kind
	Mingled   Problem = "mingled"    // the variance of a random term cannot be told from another's, or from the fixed part
	Singular  Problem = "singular"   // the equations have no solution to working precision
)

// Error says what is wrong with a model, and with which of its terms.
type Error struct {
	Problem Problem
	Term    string
}

// Error names the problem and the term.
func (e *Error) Error() string {
	if e.Term == "" {
		return fmt.Sprintf("mixed model: %s", e.Problem)
	}
	return fmt.Sprintf("mixed model, %s: %s", e.Term, e.Problem)
}

// Residual names what no term explains.
const Residual = "residual"

// check returns what forbids fitting, or nil.
func (m Model) check() error {
	n := len(m.Y)
	if n == 0 {
		return &Error{Empty, ""}
	}
	if m.Weight != nil && len(m.Weight) != n {
		return &Error{Lengths, "weight"}
	}
	for i, y := range m.Y {
		if !finite(y) {
			return &Error{NotFinite, "observations"}
		}
		if m.Weight != nil && !(finite(m.Weight[i]) && m.Weight[i] > 0) {
			return &Error{NotFinite, "weight"}
		}
	}
	seen := map[string]bool{Residual: true}
	for _, t := range m.Terms {
		if err := t.check(n, seen); err != nil {
			return err
		}
	}
	for _, c := range m.Covariates {
		if err := c.check(n, seen); err != nil {
			return err
		}
	}
	return nil
}

func (t Term) check(n int, seen map[string]bool) error {
	if len(t.Level) != n {
		return &Error{Lengths, t.Name}
	}
	if seen[t.Name] {
		return &Error{Twice, t.Name}
	}
	seen[t.Name] = true
	for _, l := range t.Level {
		if l < 0 || l >= t.Levels {
			return &Error{Outside, t.Name}
		}
	}
	return nil
}

func (c Covariate) check(n int, seen map[string]bool) error {
	if len(c.X) != n {
		return &Error{Lengths, c.Name}
	}
	if seen[c.Name] {
		return &Error{Twice, c.Name}
	}
	seen[c.Name] = true
	for _, x := range c.X {
		if !finite(x) {
			return &Error{NotFinite, c.Name}
		}
	}
	return nil
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

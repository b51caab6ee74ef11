package malt

import (
	"fmt"
	"math"
)

// Specification is what a buyer asks of a malt.
type Specification struct {
	Name   string
	Buyer  string
	Limits []Limit
}

// Limit is one line of a specification. An end that is not set is NaN. Fractions
// run from 0 to 1.
type Limit struct {
	Parameter Parameter
	Min, Max  float64
	Basis     Basis
	Method    string // body and number, or empty
}

// AtLeast is a limit from below.
func AtLeast(p Parameter, least float64, basis Basis) Limit {
	return Limit{Parameter: p, Min: least, Max: math.NaN(), Basis: basis}
}

// AtMost is a limit from above.
func AtMost(p Parameter, most float64, basis Basis) Limit {
	return Limit{Parameter: p, Min: math.NaN(), Max: most, Basis: basis}
}

// Between is a limit on both sides.
func Between(p Parameter, least, most float64, basis Basis) Limit {
	return Limit{Parameter: p, Min: least, Max: most, Basis: basis}
}

// LimitProblem names what is wrong with a limit.
type LimitProblem string

// The problems.
const (
	LimitUnknown  LimitProblem = "unknown-parameter"
	LimitBasis    LimitProblem = "basis-missing" // none stated where one is needed, or one that it cannot have
	LimitOpen     LimitProblem = "empty"         // neither end is set
	LimitCrossed  LimitProblem = "crossed"       // the least is above the most
	LimitNegative LimitProblem = "negative"
)

// LimitError says which limit of a specification cannot be.
type LimitError struct {
	Index     int
	Parameter Parameter
	Problem   LimitProblem
}

// Error names the limit and the problem.
func (e *LimitError) Error() string {
	return fmt.Sprintf("limit %d (%s): %s", e.Index+1, e.Parameter, e.Problem)
}

// Check returns what is wrong with the limits, each once; nil if all can be.
func (s Specification) Check() []*LimitError {
	var faults []*LimitError
	for i, l := range s.Limits {
		if problem := l.problem(); problem != "" {
			faults = append(faults, &LimitError{i, l.Parameter, problem})
		}
	}
	return faults
}

func (l Limit) problem() LimitProblem {
	switch {
	case !l.Parameter.Known():
		return LimitUnknown
	case !l.Parameter.Takes(l.Basis):
		return LimitBasis
	case math.IsNaN(l.Min) && math.IsNaN(l.Max):
		return LimitOpen
	case l.Min > l.Max:
		return LimitCrossed
	case l.Min < 0 || l.Max < 0:
		return LimitNegative
	}
	return ""
}

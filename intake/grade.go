package intake

import (
	"math"
	"slices"

	"awn/finding"
	"awn/odds"
)

// Outcome is whether a reading meets a limit.
type Outcome int

// The outcomes.
const (
	Unsaid Outcome = iota // nobody looked
	Meets
	Misses
)

// Verdict is one limit against a load, in the limit's printed unit.
type Verdict struct {
	Limit   Limit
	Outcome Outcome
	Read    float64 // as read
	Rounded float64 // as it is compared
	Margin  float64 // room to the limit; negative: by how much it is missed
	Chance  float64 // chance that the true figure meets the limit; 0 or 1 where the reading has no band
	Banded  bool    // the reading has a band, so that the chance is one
	Refuses bool    // under a contract: the load is refused for it
}

// Grade is what a load is under a table.
type Grade struct {
	Table *Table
	Name  string // "" where it is withheld
	// Best and Worst are the grades that the load could still have. They are
	// the same, and equal to Name, where nothing is missing that matters.
	Best, Worst string
	Words       []string // special words added, such as smutty
	Missing     []Key    // factors that could not be applied and that matter
	Verdicts    []Verdict
	Deciding    []Verdict // what keeps the load from the next better grade
	Odds        []GradeOdds
	Findings    []finding.Finding
}

// GradeOdds is the chance that a load is truly of a grade. The factors are
// taken as independent, which makes the better grades seem less likely than
// they are where one sample decides several.
type GradeOdds struct {
	Name   string
	Chance float64
}

// step is one grade of the ladder that runs from a table's best rung down to
// the last grade of the class below it.
type step struct {
	name   string
	limits []Limit
}

func (t *Table) ladder() []step {
	var out []step
	for ; t != nil; t = t.Below {
		for i, r := range t.Rungs {
			out = append(out, step{r.Name, t.limits(i)})
		}
		if t.Below == nil {
			out = append(out, step{name: t.Last})
		}
	}
	return out
}

// bottom is the last table of the ladder.
func (t *Table) bottom() *Table {
	for t.Below != nil {
		t = t.Below
	}
	return t
}

// Judge holds a load against one limit.
func (l *Load) Judge(limit Limit) Verdict {
	v := Verdict{Limit: limit, Read: math.NaN(), Rounded: math.NaN(), Margin: math.NaN(), Chance: math.NaN()}
	value, ok := l.Value(limit.Key)
	if !ok {
		return v
	}
	v.Read = limit.In.printed(value.Mid)
	v.Rounded = HalfUp(v.Read, limit.Decimals)
	v.Margin = limit.room(v.Rounded)
	if r := l.Readings[limit.Factor]; r.Below && v.Margin < 0 {
		return v // the method does not see down to the limit
	}
	v.Banded = value.Banded() && value.Low < value.High
	v.Chance = limit.chance(value)
	v.Outcome = Misses
	if v.Margin >= 0 {
		v.Outcome = Meets
	}
	return v
}

// room is how far a figure lies inside the limit.
func (l Limit) room(x float64) float64 {
	room := l.At - x
	if l.Least {
		room = -room
	}
	if math.Abs(room) < roundSlack*math.Max(1, math.Abs(l.At)) {
		return 0
	}
	return room
}

// chance is the chance that the true figure, read without error and rounded as
// the limit is, meets it.
func (l Limit) chance(v odds.Value) float64 {
	half := 0.0
	if l.Decimals > unrounded {
		half = 0.5 * math.Pow(10, -float64(l.Decimals))
	}
	if !v.Banded() || v.Low == v.High {
		if l.room(HalfUp(l.In.printed(v.Mid), l.Decimals)) >= 0 {
			return 1
		}
		return 0
	}
	if l.Least {
		return 1 - v.ChanceBelow(l.In.inside(l.At-half))
	}
	return v.ChanceBelow(l.In.inside(l.At + half))
}

// Grade grades the load under a table. What could not be applied is named, and
// the grade withheld where it could change it.
func (t *Table) Grade(l *Load) Grade {
	g := Grade{Table: t}
	ladder := t.ladder()
	best, worst := -1, len(ladder)-1
	verdicts := make([][]Verdict, len(ladder))
	for i, s := range ladder {
		outcome := Meets
		for _, limit := range s.limits {
			v := l.Judge(limit)
			verdicts[i] = append(verdicts[i], v)
			switch {
			case v.Outcome == Misses:
				outcome = Misses
			case v.Outcome == Unsaid && outcome == Meets:
				outcome = Unsaid
			}
		}
		if outcome != Misses && best < 0 {
			best = i
		}
		if outcome == Meets {
			worst = i
			break
		}
	}
	if !t.Whole && best < len(ladder)-1 {
		worst = len(ladder) - 1
	}
	g.Best, g.Worst = ladder[best].name, ladder[worst].name
	if best == worst {
		g.Name = g.Best
	}
	g.Missing = missing(verdicts[best:min(worst+1, len(ladder))])
	g.Verdicts = verdicts[best]
	if best > 0 {
		g.Deciding = missed(verdicts[best-1])
	}
	if len(g.Missing) == 0 && t.Whole {
		g.Odds = gradeOdds(l, ladder)
	}
	if best >= len(ladder)-1-len(t.bottom().Rungs) {
		g.Words = l.words(t.bottom())
	}
	g.Findings = g.findings(l)
	return g
}

// missing lists the factors that nobody looked at, each once.
func missing(steps [][]Verdict) (keys []Key) {
	for _, vs := range steps {
		for _, v := range vs {
			if v.Outcome == Unsaid && !slices.Contains(keys, v.Limit.Key) {
				keys = append(keys, v.Limit.Key)
			}
		}
	}
	return keys
}

// missed are the verdicts on limits that are missed, each factor once.
func missed(vs []Verdict) (out []Verdict) {
	for _, v := range vs {
		same := func(o Verdict) bool { return o.Limit.Key == v.Limit.Key }
		if v.Outcome == Misses && !slices.ContainsFunc(out, same) {
			out = append(out, v)
		}
	}
	return out
}

// words are the special words that a load earns in the class below.
func (l *Load) words(t *Table) (words []string) {
	for _, s := range t.Special {
		if l.Judge(s.Limit).Outcome == Misses {
			words = append(words, s.Word)
		}
	}
	return words
}

// gradeOdds is the chance of each grade of a ladder.
func gradeOdds(l *Load, ladder []step) []GradeOdds {
	out := make([]GradeOdds, len(ladder))
	so := 0.0 // chance of this grade or a better one
	for i, s := range ladder {
		meets := 1.0
		for _, limit := range s.limits {
			meets *= l.Judge(limit).Chance
		}
		meets = max(so, meets)
		out[i] = GradeOdds{s.name, meets - so}
		so = meets
	}
	return out
}

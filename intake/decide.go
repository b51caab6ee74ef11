package intake

import (
	"math"
	"slices"

	"awn/finding"
)

// Decision is what to do with a load.
type Decision string

// The decisions, best first.
const (
	Accept         Decision = "accept"
	AcceptDiscount Decision = "accept-at-discount"
	Hold           Decision = "hold-for-test"
	Refuse         Decision = "reject"
)

// rank is how much a decision overrules the others.
var rank = map[Decision]int{Accept: 0, AcceptDiscount: 1, Hold: 2, Refuse: 3}

// Judgement is a load under a contract.
type Judgement struct {
	Decision   Decision
	Confidence float64 // chance that the true figures bear the decision out, the factors taken as independent
	Deciding   []Key   // the factors behind it, the most certain first
	Verdicts   []Verdict
	Missing    []Key
	Settlement Settlement
	Diagnosis  Diagnosis
	Findings   []finding.Finding
}

// Taken reports whether the load is taken, at a discount or not.
func (j Judgement) Taken() bool { return rank[j.Decision] <= rank[AcceptDiscount] }

// worse takes the graver decision.
func (j *Judgement) worse(d Decision, k Key) {
	switch {
	case rank[d] > rank[j.Decision]:
		j.Decision, j.Deciding = d, []Key{k}
	case d == j.Decision && d != Accept && !slices.Contains(j.Deciding, k):
		j.Deciding = append(j.Deciding, k)
	}
}

// Judge holds a load against the contract: decision, price and reasons.
func (c *Contract) Judge(l *Load) Judgement {
	j := Judgement{Decision: Accept, Confidence: 1, Diagnosis: Diagnose(l)}
	right := 1.0 // chance that every limit is truly met
	for _, t := range c.Terms {
		right *= j.term(c, l, t)
	}
	c.identity(&j, l)
	j.Settlement = c.settle(l)
	for _, line := range j.Settlement.Lines {
		switch {
		case line.Key == Key{}:
		case math.IsNaN(line.PriceT):
			j.worse(Hold, line.Key)
		case line.PriceT < 0:
			j.worse(AcceptDiscount, line.Key)
		}
	}
	j.Confidence = right
	if j.Decision == Refuse {
		j.Confidence = 1 - right
	}
	if j.Decision == Hold {
		j.Confidence = math.NaN()
	}
	j.Findings = append(j.Findings, j.Diagnosis.Findings...)
	j.Findings = append(j.Findings, j.Settlement.Findings...)
	return j
}

// term judges one factor and returns the chance that its limits are met.
func (j *Judgement) term(c *Contract, l *Load, t Term) float64 {
	chance := 1.0
	limits := t.limits()
	if len(limits) == 0 && t.Rule != nil && !t.value(l).Known() {
		j.unsaid(l, t, Limit{t.Column, math.NaN()})
	}
	for _, limit := range limits {
		v := t.judge(l, limit)
		j.Verdicts = append(j.Verdicts, v)
		j.near(v)
		switch {
		case v.Outcome == Unsaid:
			j.unsaid(l, t, limit)
			continue
		case v.Outcome == Misses && -v.Margin <= t.Tolerance+roundSlack:
			j.Findings = append(j.Findings, withinTolerance(v, t.Tolerance))
			continue // taken by the contract's own word
		case v.Outcome == Misses && (t.Call || j.Diagnosis.excuses(t.Factor)):
			j.worse(Hold, t.Key)
		case v.Outcome == Misses:
			j.worse(Refuse, t.Key)
			j.Verdicts[len(j.Verdicts)-1].Refuses = true
			j.Findings = append(j.Findings, limitMissed(v))
		case c.Wanted > 0 && v.Chance < c.Wanted:
			j.worse(Hold, t.Key)
		}
		chance *= v.Chance
	}
	return chance
}

// unsaid deals with a factor that nobody looked at.
func (j *Judgement) unsaid(l *Load, t Term, limit Limit) {
	if t.Optional {
		return
	}
	if slices.Contains(j.Missing, t.Key) {
		return // its other limit
	}
	j.Missing = append(j.Missing, t.Key)
	j.worse(Hold, t.Key)
	if !t.Factor.Sieved() {
		j.Findings = append(j.Findings, notRead(t.Key))
		return
	}
	j.Findings = append(j.Findings, OtherSieve(l, t.Key, limit))
}

// identity checks what goes with a load apart from its readings.
func (c *Contract) identity(j *Judgement, l *Load) {
	for _, f := range l.papers(c.Variety) {
		j.Findings = append(j.Findings, f.Finding)
		if f.decision != "" {
			j.worse(f.decision, Key{})
		}
	}
}

package report

import (
	"math"
	"strings"

	"awn/course"
	"awn/malt"
)

// inHundred writes a chance as so many in a hundred.
func (r Report) inHundred(chance float64) string {
	x := 100 * chance
	if x > 0 && x < 1 || x > 99 && x < 100 {
		return r.Units.Number(x, 1) // neither never nor always
	}
	return r.Units.Number(x, 0)
}

// oddsLine says how the draws went for the specification as a whole.
func (r Report) oddsLine() string {
	o, u := r.Odds, r.Units
	count := func(n int) string { return u.Number(float64(n), 0) }
	var said []string
	if len(o.Lines) > 0 {
		said = append(said, u.Say("odds.all", "count", count(len(o.Lines)), "odds", r.inHundred(o.All.Share())))
	}
	said = append(said, u.Say("odds.draws", "done", count(o.Done), "seed", u.Number(float64(o.Seed), 0)))
	if o.Done < o.Asked {
		said = append(said, u.Say("odds.stopped", "done", count(o.Done), "asked", count(o.Asked)))
	}
	if o.Failed > 0 {
		said = append(said, u.Say("odds.failed", "count", count(o.Failed), "reason", o.Faults[0].Err.Error()))
	}
	return strings.Join(said, " ")
}

// adviceLine says what to do with the piece, and the two risks.
func (r Report) adviceLine() string {
	o, u := r.Odds, r.Units
	a := o.Advice
	if len(o.Lines) == 0 || o.All.Of == 0 {
		return ""
	}
	var names []string
	for _, c := range a.Measured {
		names = append(names, u.Parameter(o.Lines[c.Line].Limit.Parameter))
	}
	said := []string{u.Say("advice."+string(a.Act), "names", u.List(names), "risk", r.inHundred(a.Risk), "prior", r.inHundred(a.Prior))}
	for _, b := range a.Blends {
		said = append(said, u.Say("advice.partner", "figure", u.Parameter(o.Lines[b.Line].Limit.Parameter), "limit", r.partner(b)))
	}
	if len(a.Measured) > 0 {
		said = append(said, r.risks())
	}
	return strings.Join(said, " ")
}

// risks are the two risks of a release after the measurements.
func (r Report) risks() string {
	a, u := r.Odds.Advice, r.Units
	after := r.inHundred(a.OutGivenReleased)
	if math.IsNaN(a.OutGivenReleased) {
		return u.Say("advice.nothing-goes")
	}
	most := 0.0
	for _, c := range a.Measured {
		most = max(most, c.AtLimit)
	}
	said := u.Say("advice.risks", "released", r.inHundred(a.Released), "after", after, "prior", r.inHundred(a.Prior), "limit", r.inHundred(most))
	if a.OutGivenReleased > a.Risk {
		said += " " + u.Say("advice.too-many", "after", after, "risk", r.inHundred(a.Risk))
	}
	return said
}

// partner is what the other half of a blend must have.
func (r Report) partner(b course.Blend) string {
	l := r.Odds.Lines[b.Line].Limit
	key := l.Parameter.Key(l.Basis)
	switch {
	case math.IsNaN(b.Most):
		return r.Units.Say("limit.least", "least", r.figure(key, b.Least))
	case math.IsNaN(b.Least):
		return r.Units.Say("limit.most", "most", r.figure(key, b.Most))
	}
	return r.Units.Say("limit.between", "least", r.figure(key, b.Least), "most", r.figure(key, b.Most))
}

// nextLines are what to measure next, the best first, below a line that says
// what the figures are.
func (r Report) nextLines() []string {
	u := r.Units
	var out []string
	for i, m := range r.Odds.Next {
		if i == 0 {
			out = append(out, u.Say("next.head", "now", r.inHundred(m.Now)))
		}
		out = append(out, u.Say("next.line", "name", r.measurable(m.Key), "hours", r.figure("h", m.Hours),
			"then", r.inHundred(m.Now-m.Fall), "error", r.inHundred(m.Deviation)))
	}
	return out
}

// measurable is the name of something to be measured.
func (r Report) measurable(key string) string {
	if _, ok := strings.CutPrefix(key, "malt."); !ok {
		return r.Units.Say("next." + key)
	}
	for _, l := range r.Odds.Lines {
		if "malt."+l.Limit.Parameter.Key(l.Limit.Basis) == key {
			return r.Units.Say("next.malt", "figure", r.Units.Parameter(l.Limit.Parameter))
		}
	}
	return key
}

const (
	mostDriven  = 3 // lines of a specification whose drivers the account tells
	mostDrivers = 3 // of each
	leastDriver = 0.05
)

// driverLines tell what drives the most doubtful lines of the specification.
func (r Report) driverLines() []string {
	var out []string
	for _, d := range r.doubtful() {
		if len(out) == mostDriven {
			break
		}
		if text := r.driversOf(d, mostDrivers); text != "" {
			out = append(out, r.Units.Parameter(r.Odds.Lines[d.Line].Limit.Parameter)+": "+text)
		}
	}
	return out
}

// doubtful are the drivers that may be shown, those of the lines that fail most
// often first.
func (r Report) doubtful() []course.Driver {
	var out []course.Driver
	for _, d := range r.Odds.Drivers {
		if !d.Good() {
			continue
		}
		at := len(out)
		for at > 0 && r.Odds.Lines[out[at-1].Line].In.Share() > r.Odds.Lines[d.Line].In.Share() {
			at--
		}
		out = append(out[:at], append([]course.Driver{d}, out[at:]...)...)
	}
	return out
}

// driversOf is the largest shares of a line, each with its error.
func (r Report) driversOf(d course.Driver, most int) string {
	u := r.Units
	var parts []string
	for _, s := range d.Shares[:min(most, len(d.Shares))] {
		if s.Share >= leastDriver {
			parts = append(parts, u.Say("driver", "input", u.Input(r.Odds.Inputs[s.Input].Key), "share", u.Number(100*s.Share, 0), "error", u.Number(math.Ceil(100*s.Deviation), 0)))
		}
	}
	return strings.Join(parts, "; ")
}

// oddsText writes the odds, the advice, the drivers and what to measure next.
func (r Report) oddsText(p *printer) {
	if r.Odds == nil {
		return
	}
	u := r.Units
	p.wrapped(pad(u.Say("group.odds"), groupText), r.oddsLine()+" "+u.Say("odds.uncalibrated"))
	if text := r.adviceLine(); text != "" {
		p.wrapped(pad(u.Say("group.advice"), groupText), text)
	}
	for _, part := range []struct {
		phrase string
		lines  []string
	}{{"group.drivers", r.driverLines()}, {"group.next", r.nextLines()}, {"group.totals", r.totalLines()}} {
		name := u.Say(part.phrase)
		for _, l := range part.lines {
			p.wrapped(pad(name, groupText), l)
			name = ""
		}
	}
	p.rule()
}

// totalLines are the total shares of the groups, of the most doubtful lines.
func (r Report) totalLines() []string {
	u := r.Units
	var out []string
	if len(r.Odds.Totals) == 0 {
		return nil
	}
	for _, i := range r.leastLikely(mostDriven) {
		var parts []string
		for _, t := range r.Odds.Totals {
			if t.Shares[i] >= leastDriver {
				parts = append(parts, u.Say("driver", "key", u.Say("group-of."+string(t.Group)), "share", u.Number(100*t.Shares[i], 0), "error", u.Number(math.Ceil(100*t.Deviation[i]), 0)))
			}
		}
		if len(parts) > 0 {
			out = append(out, u.Parameter(r.Odds.Lines[i].Limit.Parameter)+": "+strings.Join(parts, ", "))
		}
	}
	return out
}

// leastLikely are the lines that are met least often.
func (r Report) leastLikely(n int) []int {
	var out []int
	for i, l := range r.Odds.Lines {
		at := len(out)
		for at > 0 && r.Odds.Lines[out[at-1]].In.Held > l.In.Held {
			at--
		}
		out = append(out[:at], append([]int{i}, out[at:]...)...)
	}
	return out[:min(n, len(out))]
}

// oddsOf is the chance of a line, with its word where the figure itself fails.
func (r Report) oddsOf(i int) string {
	u, line := r.Units, r.Odds.Lines[i]
	word := r.Outcome.Judged[i].Word
	if line.In.Of == 0 {
		return u.Verdict(malt.CannotSay)
	}
	odds := u.Say("odds.line", "odds", r.inHundred(line.In.Share()))
	if word == malt.Fails {
		return u.Verdict(word) + ", " + odds
	}
	return odds
}

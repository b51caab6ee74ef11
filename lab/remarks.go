package lab

import (
	"cmp"
	"math"
	"slices"

	"awn/finding"
)

// sure is how sure the account must be to raise a thing, and grave the chance from
// which it is an alarm.
const (
	sure  = 0.95
	grave = 0.99
)

// about begins a remark.
func about(code string, severity finding.Severity, quality int, bench Bench, figures ...finding.Figure) Remark {
	return Remark{Finding: finding.New(code, severity, stage, figures...), Quality: quality, Bench: bench, Since: math.NaN(), From: math.NaN(), To: math.NaN()}
}

func figure(name string, x float64) finding.Figure { return finding.Figure{Name: name, Value: x} }

// weighed sets what the order of remarks goes by.
func (r Remark) weighed(chance, cost float64, act, source string) Remark {
	r.Chance, r.Cost, r.Act, r.Source = chance, cost, act, source
	return r
}

// remark says what is to be known and done, weightiest first.
func (a *Account) remark() {
	for i := range a.Charts {
		a.ofChart(&a.Charts[i])
	}
	for _, x := range a.Benches {
		a.ofBenches(x)
	}
	for _, x := range a.Repeats {
		a.ofRepeats(x)
	}
	for _, x := range a.Rings {
		a.ofRing(x)
	}
	for _, x := range a.Changes {
		a.ofChange(x)
	}
	slices.SortStableFunc(a.Remarks, func(x, y Remark) int {
		return cmp.Or(cmp.Compare(y.Severity, x.Severity), cmp.Compare(y.Weight(), x.Weight()))
	})
}

func (a *Account) say(r Remark) { a.Remarks = append(a.Remarks, r) }

func (a *Account) ofChart(c *Chart) {
	if c.Undated > 0 {
		a.say(about("lab.chart.undated", finding.Caution, c.Quality, c.Bench, figure("rows_n", float64(c.Undated))).weighed(1, 0.1, "act.lab.note-day", practice))
	}
	if c.Missing > 0 {
		a.say(about("lab.chart.missing", finding.Note, c.Quality, c.Bench, figure("rows_n", float64(c.Missing)), figure("of_n", float64(len(c.Points)))).weighed(1, 0.05, "", practice))
	}
	for i, s := range c.Segments {
		if i > 0 {
			r := about("lab.chart.new-sample", finding.Note, c.Quality, c.Bench)
			r.Sample, r.Since = named(s), c.Points[s.From].Day
			a.say(r.weighed(1, 0.05, "", practice))
		}
		a.ofSegment(c, s)
		a.ofBias(c, s)
	}
}

// named is a check sample with its batch.
func named(s Segment) string {
	if s.Batch != "" {
		return s.Sample + " " + s.Batch
	}
	return s.Sample
}

func (a *Account) ofSegment(c *Chart, s Segment) {
	readings := 0
	beyond := Remark{}
	for _, p := range c.Points[s.From : s.To+1] {
		if p.N > 0 {
			readings++
		}
		if slices.Contains(p.Broken, BeyondAction) {
			beyond.Since = p.Day
			beyond.Lines = append(beyond.Lines, p.Line)
		}
	}
	if s.Basis == NoLimits {
		r := about("lab.chart.too-few", finding.Caution, c.Quality, c.Bench, figure("readings_n", float64(readings)), figure("least_n", leastBase))
		r.Sample = named(s)
		a.say(r.weighed(1, 0.2, "act.lab.read-check", practice))
		return
	}
	if len(beyond.Lines) > 0 {
		r := about("lab.chart.beyond-action", finding.Alarm, c.Quality, c.Bench, figure("readings_n", float64(len(beyond.Lines))), figure("of_n", float64(readings)))
		r.Sample, r.Since, r.Lines = named(s), beyond.Since, beyond.Lines
		a.say(r.weighed(grave, 0.2, "act.lab.repeat-check", "Shewhart 1931"))
	}
	if s.Shift != nil {
		a.ofShift(c, s)
	}
	if s.Basis == House && s.Sigma > Deviation(s.R95) {
		r := about("lab.chart.wider-than-method", finding.Caution, c.Quality, c.Bench, figure("own", s.Sigma), figure("published", Deviation(s.R95)))
		a.say(r.weighed(0.8, 0.2, "act.lab.look-at-method", "ISO 5725-6"))
	}
}

// ofShift names a bench that drifts, since when and by how much.
func (a *Account) ofShift(c *Chart, s Segment) {
	f := s.Shift
	figures := []finding.Figure{figure("size", f.Size), figure("low", f.Low), figure("high", f.High), figure("sigmas_x", math.Abs(f.Size)/s.Sigma)}
	r := about("lab.instrument.shifted", finding.Alarm, c.Quality, c.Bench, figures...)
	if f.Gradual {
		r = about("lab.instrument.drifts", finding.Alarm, c.Quality, c.Bench, append(figures, figure("month", 30*f.PerDay))...)
	}
	r.Sample, r.Since, r.From, r.To = named(s), c.Points[f.At].Day, c.Points[f.First].Day, c.Points[f.Last].Day
	for _, p := range c.Points[f.First : f.Last+1] {
		if p.Event != "" {
			r.Event = p.Event
		}
	}
	if f.Low <= 0 && f.High >= 0 { // it came and went: an alarm was raised, and the newest readings are sound again
		r.Code, r.Severity = "lab.instrument.unsteady", finding.Caution
		r.Since = c.Points[s.Alarm].Day
	}
	a.say(r.weighed(grave, 0.5, "act.lab.stop-and-calibrate", "Page 1954"))
}

func (a *Account) ofBias(c *Chart, s Segment) {
	readings := 0
	for _, p := range c.Points[s.From : s.To+1] {
		if p.N > 0 {
			readings++
		}
	}
	low, high := s.BiasLimits(readings)
	if !(low > 0 || high < 0) {
		return
	}
	r := about("lab.bench.biased", finding.Caution, c.Quality, c.Bench, figure("size", s.Bias), figure("low", low), figure("high", high), figure("reference", s.Reference))
	r.Sample = named(s)
	a.say(r.weighed(sure, 0.3, "act.lab.calibrate", "ISO 5725-6"))
}

func (a *Account) ofBenches(x Against) {
	if x.Few {
		r := about("lab.pair.too-few", finding.Note, x.Quality, x.A, figure("samples_n", float64(len(x.Pairs))), figure("least_n", leastPairs))
		r.Other = x.B
		a.say(r.weighed(1, 0.05, "act.lab.exchange", practice))
		return
	}
	figures := []finding.Figure{figure("size", x.Difference), figure("low", x.Low), figure("high", x.High), figure("samples_n", float64(x.Agreement.Pairs)), figure("chance", x.Beyond), figure("allowed", x.Allowed)}
	code, severity, act := "lab.pair.agrees", finding.Note, ""
	switch {
	case x.Beyond > 0.5:
		code, severity, act = "lab.pair.beyond", finding.Alarm, "act.lab.third-laboratory"
	case x.Low > 0 || x.High < 0:
		code, severity, act = "lab.pair.differs", finding.Caution, "act.lab.calibrate"
	}
	r := about(code, severity, x.Quality, x.A, figures...)
	r.Other = x.B
	a.say(r.weighed(max(x.Differ, 0.5), 0.3, act, "ISO 5725-6"))
	if x.Line.SlopeLow > 1 || x.Line.SlopeHigh < 1 {
		r := about("lab.pair.slope", finding.Caution, x.Quality, x.A, figure("slope", x.Line.Slope), figure("low", x.Line.SlopeLow), figure("high", x.Line.SlopeHigh))
		r.Other = x.B
		a.say(r.weighed(sure, 0.25, "act.lab.calibrate-ends", "Linnet 1993"))
	}
}

func (a *Account) ofRepeats(x RepeatsOf) {
	if x.Worse >= sure {
		r := about("lab.repeat.worse", finding.Caution, x.Quality, x.Bench, figure("limit", x.Limit), figure("published", x.Published), figure("samples_n", float64(x.Samples)), figure("chance", x.Worse))
		a.say(r.weighed(x.Worse, 0.25, "act.lab.look-at-method", "ISO 5725-6"))
	}
}

// Scores of a ring test at which it warns and asks for action. Recalled: ISO 13528.
const (
	ringWarning = 2
	ringAction  = 3
)

func (a *Account) ofRing(x Ring) {
	z := math.Abs(x.Score)
	r := about("lab.ring.warning", finding.Caution, x.Quality, x.Bench, figure("score", x.Score), figure("assigned", x.Assigned), figure("found", x.X))
	switch {
	case math.IsNaN(z):
		r = about("lab.ring.no-value", finding.Note, x.Quality, x.Bench, figure("laboratories_n", float64(x.Of)), figure("least_n", leastRing))
	case z >= ringAction:
		r.Code, r.Severity = "lab.ring.action", finding.Alarm
	case z < ringWarning:
		return
	}
	r.Sample = x.Sample
	a.say(r.weighed(grave, 0.3, "act.lab.find-cause", "ISO 13528"))
}

func (a *Account) ofChange(x Change) {
	r := about("lab.instrument.changed", finding.Note, x.Quality, x.Before, figure("size", x.Step), figure("low", x.Low), figure("high", x.High))
	act := ""
	if x.Low > 0 || x.High < 0 {
		r.Severity, act = finding.Caution, "act.lab.calibrate"
	}
	r.Other, r.Sample, r.Since = x.After, x.Sample, x.Day
	a.say(r.weighed(0.9, 0.2, act, practice))
}

package lab

import (
	"cmp"
	"math"
	"slices"

	"awn/odds"
)

// Basis says where limits come from.
type Basis string

// The bases.
const (
	House     Basis = "house"     // the bench's own first readings
	Published Basis = "published" // how far laboratories may differ by the method
	NoLimits  Basis = "none"      // neither is to be had
)

// Chart is the readings of check samples on one bench in the order of time.
type Chart struct {
	Bench
	Quality  int
	Points   []Point
	Segments []Segment
	Missing  int // readings that were not made or not noted
	Undated  int // rows without a day, which have no place on it
}

// Point is what was read of a check sample on one day.
type Point struct {
	Day       float64
	Line      int
	Mean      float64 // NaN where the reading is missing
	Range     float64 // NaN of fewer than two readings
	N         int
	Segment   int
	Event     string
	Reference float64
	Z         float64 // deviations from the centre; NaN without limits
	Up, Down  float64 // cumulative sums
	Smooth    float64 // weighted mean, in deviations
	SmoothMax float64 // its limit
	Base      bool    // the limits rest on it
	Broken    []Rule
}

// Segment is a stretch of a chart with one check sample.
type Segment struct {
	Sample, Batch string
	From, To      int // points, To the last
	Basis         Basis
	Base          int // points that the limits rest on
	Centre, Sigma float64
	Freedom       float64 // of Sigma; endless if published
	RangeMean     float64 // of days with several readings
	RangeMost     float64
	RangeN        int
	R95, Repeat95 float64 // as published at the centre
	Reference     float64 // assigned value of the sample
	Bias          float64 // mean of its points less that
	BiasSE        float64
	Drifts        bool // a chart for drift has raised alarm, or a rule is broken
	Alarm         int  // the first point that raised it
	Shift         *Shift
}

// Options say how charts are made. The zero value is the usual way.
type Options struct {
	Base   int   // points that limits rest on; 20 if 0
	Limits Basis // Published asks for the method's own limits where they are known
}

// Points that limits rest on: the usual number, and the least that will do.
const (
	usualBase = 20
	leastBase = 8
)

// charts gathers the readings of check samples by bench and quality.
func (r Results) charts(o Options) []Chart {
	type key struct {
		bench   Bench
		quality int
	}
	rows := map[key][]Result{}
	var order []key
	for _, x := range r.Rows {
		if x.Kind != Check {
			continue
		}
		k := key{x.Bench, x.Quality}
		if rows[k] == nil {
			order = append(order, k)
		}
		rows[k] = append(rows[k], x)
	}
	var out []Chart
	for _, k := range order {
		c := newChart(k.bench, k.quality, rows[k])
		for i := range c.Segments {
			c.limits(r, o, i, rows[k][0])
			c.judge(i)
		}
		out = append(out, c)
	}
	return out
}

// newChart sets readings in the order of time, those of one sample on one day together.
func newChart(bench Bench, quality int, rows []Result) Chart {
	c := Chart{Bench: bench, Quality: quality}
	rows = slices.Clone(rows)
	for _, x := range rows {
		if math.IsNaN(x.Day) {
			c.Undated++
		}
	}
	rows = slices.DeleteFunc(rows, func(x Result) bool { return math.IsNaN(x.Day) })
	slices.SortStableFunc(rows, func(a, b Result) int { return cmp.Compare(a.Day, b.Day) })
	for i := 0; i < len(rows); {
		j := i + 1
		for j < len(rows) && rows[j].Day == rows[i].Day && rows[j].Sample == rows[i].Sample && rows[j].Batch == rows[i].Batch {
			j++
		}
		c.add(rows[i:j])
		i = j
	}
	return c
}

// add appends one day's readings of a sample.
func (c *Chart) add(rows []Result) {
	first := rows[0]
	p := Point{Day: first.Day, Line: first.Line, Mean: math.NaN(), Range: math.NaN(), Reference: math.NaN(), Z: math.NaN(), Smooth: math.NaN(), SmoothMax: math.NaN()}
	var values []float64
	for _, x := range rows {
		if !math.IsNaN(x.Value) {
			values = append(values, x.Value)
		}
		if !math.IsNaN(x.Reference) {
			p.Reference = x.Reference
		}
		if x.Event != "" {
			p.Event = x.Event
		}
	}
	if p.N = len(values); p.N == 0 {
		c.Missing++
	} else {
		p.Mean = plainMean(values)
	}
	if p.N > 1 {
		p.Range = slices.Max(values) - slices.Min(values)
	}
	at := slices.IndexFunc(c.Segments, func(s Segment) bool {
		return s.Sample == first.Sample && s.Batch == first.Batch && s.To == len(c.Points)-1
	})
	if at < 0 {
		at = len(c.Segments)
		c.Segments = append(c.Segments, Segment{Sample: first.Sample, Batch: first.Batch, From: len(c.Points), Reference: math.NaN(), Alarm: -1})
	}
	s := &c.Segments[at]
	s.To, p.Segment = len(c.Points), at
	if !math.IsNaN(p.Reference) {
		s.Reference = p.Reference
	}
	c.Points = append(c.Points, p)
}

// means are the readings of a segment, NaN where missing, and their days.
func (c *Chart) means(s Segment) (day, mean []float64) {
	for _, p := range c.Points[s.From : s.To+1] {
		day, mean = append(day, p.Day), append(mean, p.Mean)
	}
	return day, mean
}

// limits settles centre and deviation of a segment: from its own first readings if
// there are enough, else from the method; the deviation of an earlier segment serves
// too, for the bench is the same.
func (c *Chart) limits(r Results, o Options, at int, row Result) {
	s := &c.Segments[at]
	_, mean := c.means(*s)
	base := o.Base
	if base == 0 {
		base = usualBase
	}
	var own []float64
	for i, x := range mean {
		if !math.IsNaN(x) && len(own) < base {
			own = append(own, x)
			c.Points[s.From+i].Base = true
		}
	}
	s.Base, s.Centre, s.Sigma, s.Basis = len(own), plainMean(own), math.NaN(), NoLimits
	s.R95, s.Repeat95 = r.Published(row, s.Centre)
	switch {
	case o.Limits == Published && s.R95 > 0:
		s.Basis, s.Sigma, s.Freedom = Published, Deviation(s.R95), math.Inf(1)
	case len(own) >= leastBase:
		s.Basis, s.Sigma, s.Freedom = House, FromRange(MovingRange(own), 2), movingFreedom(len(own))
	case at > 0 && c.Segments[at-1].Sigma > 0 && len(own) >= leastSide:
		before := c.Segments[at-1]
		s.Basis, s.Sigma, s.Freedom = before.Basis, before.Sigma, before.Freedom
	case s.R95 > 0 && len(own) >= leastSide:
		s.Basis, s.Sigma, s.Freedom = Published, Deviation(s.R95), math.Inf(1)
	}
	if !(s.Sigma > 0) {
		s.Basis = NoLimits
	}
	c.ranges(s)
	c.bias(s)
}

// ranges settles the limit of the range within a day, from days with the usual number
// of readings.
func (c *Chart) ranges(s *Segment) {
	s.RangeMean, s.RangeMost = math.NaN(), math.NaN()
	days := map[int]int{}
	for _, p := range c.Points[s.From : s.To+1] {
		if p.N > 1 {
			days[p.N]++
			if days[p.N] > days[s.RangeN] || s.RangeN == 0 {
				s.RangeN = p.N
			}
		}
	}
	var x []float64
	for _, p := range c.Points[s.From : s.To+1] {
		if p.N == s.RangeN && p.N > 1 && p.Base {
			x = append(x, p.Range)
		}
	}
	if len(x) >= leastBase {
		s.RangeMean = plainMean(x)
		s.RangeMost = RangeLimit(s.RangeMean, s.RangeN)
	}
}

// bias holds the mean of the readings against the assigned value.
func (c *Chart) bias(s *Segment) {
	_, mean := c.means(*s)
	mean = slices.DeleteFunc(mean, math.IsNaN)
	s.Bias, s.BiasSE = plainMean(mean)-s.Reference, deviation(mean)/math.Sqrt(float64(len(mean)))
}

// BiasLimits is the interval of the bias of a segment, 95 of 100.
//
//	(mean - reference) ± t s/sqrt(n)
//
// Definition.
// Valid: three readings or more and an assigned value; NaN else.
func (s Segment) BiasLimits(readings int) (low, high float64) {
	if readings < leastSide {
		return math.NaN(), math.NaN()
	}
	half := odds.StudentQuantile(0.975, float64(readings-1)) * s.BiasSE
	return s.Bias - half, s.Bias + half
}

// judge runs the charts over a segment and looks for the change behind an alarm.
func (c *Chart) judge(at int) {
	s := &c.Segments[at]
	if s.Basis == NoLimits {
		return
	}
	day, mean := c.means(*s)
	z := make([]float64, len(mean))
	for i, x := range mean {
		z[i] = (x - s.Centre) / s.Sigma
	}
	sums, smooth, broken := NewCusum(z, Allowance), Weighted(z, 0, Weight), Broken(z)
	seen := 0
	for i := range z {
		p := &c.Points[s.From+i]
		if !math.IsNaN(z[i]) {
			seen++
		}
		p.Z, p.Up, p.Down, p.Smooth, p.Broken = z[i], sums.Up[i], sums.Down[i], smooth[i], broken[i]
		p.SmoothMax = WeightedLimit * WeightedDeviation(Weight, seen)
		alarm := p.Up > Decision || p.Down > Decision || math.Abs(p.Smooth) > p.SmoothMax
		if alarm && !s.Drifts {
			s.Drifts, s.Alarm = true, s.From+i
		}
	}
	if !s.Drifts {
		return
	}
	if shift, ok := FindShift(day, mean, s.Sigma, s.Freedom); ok {
		shift.At, shift.First, shift.Last = shift.At+s.From, shift.First+s.From, shift.Last+s.From
		s.Shift = &shift
	}
}

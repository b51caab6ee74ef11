package crop

import (
	"math"
	"slices"

	"awn/intake"
	"awn/odds"
	"awn/unit"
)

// Question is what is asked of a survey.
type Question struct {
	Options
	Buyers     []Buyer
	ElsewhereT float64 // what a tonne earns that a contract refuses; NaN where nobody has said
	Aims       []Aim
}

// Aim is how well a mean shall be known next time.
type Aim struct {
	Key  intake.Key
	Half float64 // the half of its 95 % interval
}

// AimOf is the aim for a quality by one of its names, its half in the unit of the
// column.
func (s *Survey) AimOf(name string, half float64) (Aim, bool) {
	f, known := formOf(unit.Spelled(name))
	for _, q := range s.Qualities {
		if q.Column == name || known && q.Factor == f.key.Factor {
			return Aim{q.Key, half * q.inside}, true
		}
	}
	return Aim{}, false
}

// Summary is what a survey says of the last season.
type Summary struct {
	Survey         *Survey // of the last season
	Season, Before int     // 0 where there is none
	Farms          int     // by their codes
	TonnesT        float64 // of strata with a sample
	UnseenT        float64
	Remarks        []Remark // on the data
	Lines          []Line
	Districts      []Group
	Varieties      []Group
	Strata         []Small
	Takings        []Taking
	Plans          []Sowing
	Findings       []Remark
}

// Line is one quality of the harvest.
type Line struct {
	Quality
	Mean         Estimate // of what lies below detection: see Trace
	Points       [3]Quantile
	Distribution Distribution
	Trace        *Trace // of a contaminant; nil for others
	Change       *Change
	Seasons      []Season
	Between      float64 // variance between strata about the mean of their variety; NaN where it cannot be told
}

// points are the shares whose figures are given.
var points = [3]float64{0.1, 0.5, 0.9}

// Season is a quality in one season.
type Season struct {
	Season int
	Mean   Estimate
	Low    float64 // of its interval
	High   float64
}

// Group is a district, or a variety.
type Group struct {
	Name             string
	Farms, Samples   int
	TonnesT, UnseenT float64
	Withheld         bool
	Lines            []GroupLine
}

// GroupLine is one quality of a group.
type GroupLine struct {
	Mean      Estimate
	Low, High float64
	Median    float64
	Trace     *Trace
}

// Small is a stratum, drawn towards others of its variety where its own samples
// are few.
type Small struct {
	Stratum
	Farms    int
	TonnesT  float64
	Withheld bool
	Lines    []Borrowed // by quality; NaN where it cannot be told
}

// Sowing is where farms are wanted next time for an aim.
type Sowing struct {
	Aim
	Quality Quality
	Now     float64 // the half of the interval as it is
	Plan    Plan
	Rest    bool // the frame says how many farms there are
}

// Summarise works out all that a survey says of its last season.
func (s *Survey) Summarise(q Question) *Summary {
	seasons := s.Seasons()
	sum := &Summary{}
	if len(seasons) > 0 {
		sum.Season = seasons[len(seasons)-1]
	}
	if len(seasons) > 1 {
		sum.Before = seasons[len(seasons)-2]
	}
	now := s.Of(sum.Season)
	sum.Survey, sum.Remarks = now, now.Inspect()
	sum.Farms = now.growers(func(Stratum) bool { return true })
	sum.TonnesT, sum.UnseenT = now.Tonnes(func(Stratum) bool { return true })
	if len(now.Samples) == 0 {
		return sum
	}
	d := now.Design(q.Options)
	for i := range now.Qualities {
		sum.Lines = append(sum.Lines, s.line(now, d, i, sum, q.Options))
	}
	for _, name := range now.Districts() {
		sum.Districts = append(sum.Districts, now.group(d, name, func(st Stratum) bool { return st.District == name }))
	}
	for _, name := range now.Varieties() {
		sum.Varieties = append(sum.Varieties, now.group(d, name, func(st Stratum) bool { return st.Variety == name }))
	}
	now.borrowAll(d, sum)
	for _, b := range q.Buyers {
		sum.Takings = append(sum.Takings, now.Take(d, b, q.ElsewhereT))
	}
	for _, a := range q.Aims {
		if i := now.Quality(a.Key); i >= 0 {
			sum.Plans = append(sum.Plans, now.sow(d, i, a))
		}
	}
	sum.Findings = sum.findings()
	return sum
}

// line is one quality of the last season, with its way through the others.
func (s *Survey) line(now *Survey, d *Design, i int, sum *Summary, o Options) Line {
	y, all := now.Column(i), now.All()
	l := Line{Quality: now.Qualities[i], Mean: d.Mean(y, all), Distribution: d.Distribution(y, all), Between: math.NaN()}
	for k, share := range points {
		l.Points[k] = l.Distribution.Quantile(share, confidence)
	}
	l.Trace = now.trace(d, i, all)
	for _, season := range s.Seasons() {
		of := s.only(season)
		e := of.estimate(i, o, nil)
		point := Season{Season: season, Mean: e}
		point.Low, point.High = e.Interval(confidence)
		if t := of.trace(of.Design(o), i, of.All()); t != nil {
			point.Mean = t.Mean
			point.Low, point.High = t.Mean.LogInterval(confidence)
		}
		l.Seasons = append(l.Seasons, point)
	}
	if sum.Before != 0 && l.Trace == nil {
		c := s.Change(i, sum.Season, sum.Before, o, nil)
		l.Change = &c
	}
	return l
}

// trace is the fit of a contaminant; nil for what is none.
func (s *Survey) trace(d *Design, i int, in Domain) *Trace {
	if !s.Qualities[i].Below() {
		return nil
	}
	readings := make([]Reading, len(s.Samples))
	for k, x := range s.Samples {
		readings[k] = x.Readings[i]
	}
	t := d.Trace(readings, in)
	return &t
}

// group is a part of the harvest with its means; withheld with few farms.
func (s *Survey) group(d *Design, name string, keep func(Stratum) bool) Group {
	in := s.domain(func(x Sample) bool { return keep(x.stratum()) })
	g := Group{Name: name, Farms: s.growers(keep)}
	g.Samples, _, _ = d.freedom(in)
	g.TonnesT, g.UnseenT = s.Tonnes(keep)
	if g.Withheld = g.Farms < FewestFarms; g.Withheld {
		return g
	}
	for i := range s.Qualities {
		y := s.Column(i)
		l := GroupLine{Mean: d.Mean(y, in), Median: d.Distribution(y, in).At(0.5), Trace: s.trace(d, i, in)}
		l.Low, l.High = l.Mean.Interval(confidence)
		g.Lines = append(g.Lines, l)
	}
	return g
}

// fewestOfVariety is how many strata a variety needs, on average, for the model
// to give each variety a mean of its own.
//
// Assumed: common practice, no source.
const fewestOfVariety = 3

// borrowAll draws every stratum towards its like, quality by quality.
func (s *Survey) borrowAll(d *Design, sum *Summary) {
	for _, f := range s.Frames {
		keep := func(st Stratum) bool { return st == f.Stratum }
		if f.Tonnes > 0 {
			sum.Strata = append(sum.Strata, Small{Stratum: f.Stratum, Farms: s.growers(keep), TonnesT: f.Tonnes})
		}
	}
	withhold(sum.Strata)
	for q := range s.Qualities {
		strata, pooled := s.PlanStrata(d, s.Column(q))
		areas, err := Borrow(s.areas(strata, pooled))
		for i := range sum.Strata {
			b := Borrowed{Value: math.NaN(), MSE: math.NaN()}
			if err == nil && sum.Lines[q].Trace == nil {
				b = areas.Area[i]
			}
			sum.Strata[i].Lines = append(sum.Strata[i].Lines, b)
		}
		if err == nil {
			sum.Lines[q].Between = areas.Between
		}
	}
}

// areas lays the strata out for the model: a mean for each variety where there
// are strata enough to tell them, and else one for all. The variance of a stratum
// is the pooled one over its farms, for its own from two or three is worth little.
func (s *Survey) areas(strata []PlanStratum, pooled float64) []Area {
	varieties := s.Varieties()
	own := len(strata) >= fewestOfVariety*len(varieties)
	out := make([]Area, len(strata))
	for i, p := range strata {
		out[i] = Area{Direct: p.Mean, Variance: pooled / float64(max(p.Now, 1)), X: []float64{1}}
		if p.Now == 0 || !(pooled > 0) {
			out[i].Direct = math.NaN()
		}
		if own {
			x := make([]float64, len(varieties))
			x[0] = 1
			if at := slices.Index(varieties, p.Variety); at > 0 {
				x[at] = 1
			}
			out[i].X = x
		}
	}
	return out
}

// sow plans the next survey for an aim.
func (s *Survey) sow(d *Design, i int, a Aim) Sowing {
	y := s.Column(i)
	out := Sowing{Aim: a, Quality: s.Qualities[i]}
	low, high := d.Mean(y, s.All()).Interval(confidence)
	out.Now = (high - low) / 2
	strata, pooled := s.PlanStrata(d, y)
	out.Rest = !slices.ContainsFunc(strata, func(p PlanStratum) bool { return !(p.Frame > 0) })
	if pooled > 0 {
		out.Plan = Allocate(strata, a.Half/odds.NormalQuantile((1+confidence)/2), out.Rest)
	}
	return out
}

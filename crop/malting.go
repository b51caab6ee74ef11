package crop

import (
	"cmp"
	"context"
	"math"
	"slices"
	"sync"
	"sync/atomic"

	"awn/course"
	"awn/finding"
	"awn/intake"
	"awn/malt"
	"awn/odds"
	"awn/programme"
)

// MaltQuestion is what is asked of the malt that a harvest makes.
type MaltQuestion struct {
	Piece   course.Piece // house, programme and specification; its lot is not used
	Others  []malt.Specification
	Lots    int
	Seed    uint64
	Workers int
	Told    func(done, of int) // is told how far it is, never at once; may be nil
}

// quick is how coarsely beds are cut for a survey: figures of malt move by far
// less than between lots.
var quick = course.Grid{GerminateLayers: 4, KilnLayers: 12}

// Malting is what a harvest makes, by season, the last one first.
type Malting struct {
	Seasons   []MaltSeason
	Programme string
	Pilots    int // malts that were made of the last season and measured
	Findings  []Remark
}

// MaltSeason is the malt of one season's lots under the standard programme.
type MaltSeason struct {
	Season       int
	Lots, Failed int
	Figures      []MaltFigure
	Met          []Met
	Steps        Steps
	Said         []Said
	Sensitive    float64 // mean share that germinates in 4 mL but not in 8 mL; NaN where nobody looked

	kept int // lots that could be computed
}

// MaltFigure is a figure of malt over the lots.
type MaltFigure struct {
	malt.Parameter
	Basis          malt.Basis
	Mean, P10, P90 float64
	Pilot          float64 // mean of measured pilot malts; NaN where there is none
}

// Met is a specification with how many of the lots meet it, line by line.
type Met struct {
	Specification malt.Specification
	All           float64 // share of the lots that meet every line that can be said
	Lines         []float64
}

// Steps is how the lots went through the house, means over them.
type Steps struct {
	SteepOut  float64 // moisture drained, wet basis
	Chit      float64 // at the end of the steep
	Acrospire float64 // at the end of germination
	GrowthD   float64 // days of germination
}

// Said is something that the course said of lots.
type Said struct {
	finding.Finding
	Share float64 // of the lots
}

// Malt draws lots from the harvest, the tonnes deciding, and takes each through
// the standard programme: those of the last season, and of the one before with
// the same seed. Of what a buyer's contract takes if there are any, or else of
// all. If the context ends it gives nothing but the reason.
func (s *Survey) Malt(ctx context.Context, buyers []Buyer, q MaltQuestion) (*Malting, error) {
	seasons := s.Seasons()
	slices.Reverse(seasons)
	seasons = seasons[:min(len(seasons), 2)]
	out := &Malting{Programme: q.Piece.Programme.Name}
	var tasks []course.Piece
	for _, season := range seasons {
		of := s.only(season)
		lots := of.chosen(q.Lots, q.Seed, of.takenBy(buyers))
		for _, i := range lots {
			p := q.Piece
			p.Lot, p.Grid, p.Level = of.lot(i), quick, true
			tasks = append(tasks, p)
		}
		out.Seasons = append(out.Seasons, MaltSeason{Season: season, Lots: len(lots), Sensitive: of.sensitive()})
	}
	runs, err := runAll(ctx, tasks, q)
	if err != nil {
		return nil, err
	}
	specs := append([]malt.Specification{q.Piece.Specification}, q.Others...)
	specs = slices.DeleteFunc(specs, func(s malt.Specification) bool { return len(s.Limits) == 0 })
	from := 0
	for i := range out.Seasons {
		n := out.Seasons[i].Lots
		out.Seasons[i].gather(runs[from:from+n], specs)
		from += n
	}
	out.Findings = out.findings()
	return out, nil
}

// takenBy says which samples some contract would take; all where there is none.
func (s *Survey) takenBy(buyers []Buyer) func(i int) bool {
	var all []*judged
	for _, b := range buyers {
		all = append(all, s.judge(b.Contract))
	}
	some := slices.ContainsFunc(all, func(j *judged) bool { return slices.ContainsFunc(j.fate, func(f fate) bool { return f != refused }) })
	return func(i int) bool {
		return !some || slices.ContainsFunc(all, func(j *judged) bool { return j.fate[i] != refused })
	}
}

// sensitive is the mean water sensitivity; NaN where both tests were not made.
func (s *Survey) sensitive() float64 {
	a, b := s.Quality(intake.Of(intake.Energy)), s.Quality(intake.Of(intake.Energy8))
	if a < 0 || b < 0 {
		return math.NaN()
	}
	four, eight := s.Column(a), s.Column(b)
	for i := range four {
		four[i] = max(0, four[i]-eight[i])
	}
	return s.Design(Options{}).Mean(four, s.All()).Value
}

// runAll runs the pieces; one that cannot be computed stays nil.
func runAll(ctx context.Context, tasks []course.Piece, q MaltQuestion) ([]*course.Outcome, error) {
	out := make([]*course.Outcome, len(tasks))
	var next atomic.Int64
	var telling sync.Mutex
	var all sync.WaitGroup
	done := 0
	for range max(1, q.Workers) {
		all.Go(func() {
			for ctx.Err() == nil {
				i := int(next.Add(1)) - 1
				if i >= len(tasks) {
					return
				}
				if o, err := course.Run(&tasks[i]); err == nil {
					out[i] = o
				}
				telling.Lock()
				if done++; q.Told != nil {
					q.Told(done, len(tasks))
				}
				telling.Unlock()
			}
		})
	}
	all.Wait()
	return out, ctx.Err()
}

// gather makes figures of the runs of a season.
func (m *MaltSeason) gather(runs []*course.Outcome, specs []malt.Specification) {
	kept := slices.DeleteFunc(slices.Clone(runs), func(o *course.Outcome) bool { return o == nil })
	m.Failed = len(runs) - len(kept)
	m.kept = len(kept)
	if len(kept) == 0 {
		return
	}
	for _, p := range malt.Parameters() {
		f := MaltFigure{Parameter: p, Basis: p.Bases()[0], Pilot: math.NaN()}
		if r, ok := kept[0].Malt[p]; ok {
			f.Basis = r.Basis
		}
		var x []float64
		for _, o := range kept {
			if v, reason := o.Malt.On(p, f.Basis); reason == malt.Given {
				x = append(x, v.Value.Mid)
				f.Mean += v.Value.Mid
			}
		}
		if len(x) == 0 {
			continue
		}
		f.Mean /= float64(len(x))
		slices.Sort(x)
		f.P10, f.P90 = odds.Quantile(x, points[0]), odds.Quantile(x, points[2])
		m.Figures = append(m.Figures, f)
	}
	for _, spec := range specs {
		m.Met = append(m.Met, metBy(spec, kept))
	}
	m.steps(kept)
	m.said(kept)
}

// metBy is how many of the runs meet a specification.
func metBy(spec malt.Specification, runs []*course.Outcome) Met {
	out := Met{Specification: spec, Lines: make([]float64, len(spec.Limits))}
	said := make([]int, len(spec.Limits))
	for _, o := range runs {
		whole := true
		for i, v := range malt.Judge(spec, o.Malt) {
			switch v.Word {
			case malt.Passes:
				out.Lines[i]++
				said[i]++
			case malt.Fails:
				whole = false
				said[i]++
			}
		}
		if whole {
			out.All += 1 / float64(len(runs))
		}
	}
	for i := range out.Lines {
		out.Lines[i] /= float64(said[i]) // NaN where it cannot be said
	}
	return out
}

// steps are the means of what the house sees.
func (m *MaltSeason) steps(runs []*course.Outcome) {
	n := float64(len(runs))
	m.Steps = Steps{SteepOut: math.NaN(), Chit: math.NaN(), Acrospire: math.NaN(), GrowthD: math.NaN()}
	at := func(stage course.Stage, of func(*course.StageOutcome) float64) float64 {
		sum := 0.0
		for _, o := range runs {
			i := slices.IndexFunc(o.Stages, func(s course.StageOutcome) bool { return s.Stage == stage })
			if i < 0 {
				return math.NaN()
			}
			sum += of(&o.Stages[i]) / n
		}
		return sum
	}
	end := func(r programme.Reading) func(*course.StageOutcome) float64 {
		return func(s *course.StageOutcome) float64 { return s.End[r] }
	}
	m.Steps.SteepOut = at(course.Steep, end(programme.Drained))
	m.Steps.Chit = at(course.Steep, end(programme.Chit))
	m.Steps.Acrospire = at(course.Germinate, end(programme.Acrospire))
	m.Steps.GrowthD = at(course.Germinate, func(s *course.StageOutcome) float64 { return (s.ToH - s.FromH) / 24 })
}

// said is what the course said of the lots, the most frequent first. What it had
// to assume is the survey's doing and not the harvest's.
func (m *MaltSeason) said(runs []*course.Outcome) {
	at := map[string]int{}
	for _, o := range runs {
		seen := map[string]bool{}
		for _, f := range o.Findings {
			if f.Stage == "lot" || f.Act == "" || seen[f.Code] {
				continue
			}
			seen[f.Code] = true
			i, ok := at[f.Code]
			if !ok {
				i = len(m.Said)
				at[f.Code], m.Said = i, append(m.Said, Said{Finding: f})
			}
			m.Said[i].Share += 1 / float64(len(runs))
		}
	}
	slices.SortStableFunc(m.Said, func(a, b Said) int { return cmp.Compare(b.Share*b.Cost, a.Share*a.Cost) })
}

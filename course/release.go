package course

import (
	"math"
	"slices"

	"awn/malt"
	"awn/odds"
)

// Act is what is advised about a piece.
type Act string

// The acts.
const (
	ReleaseIt   Act = "release"   // as it is
	HoldIt      Act = "hold"      // and measure
	BlendIt     Act = "blend"     // with a malt that makes good what it lacks
	DowngradeIt Act = "downgrade" // sell it under another specification
)

// UsualRisk is the risk of a wrong release that is taken unless somebody says
// otherwise.
//
// Assumed: common practice, no source.
const UsualRisk = 0.05

// Release is the advice about a piece, with its two risks.
type Release struct {
	Risk  float64
	Act   Act
	Prior float64 // chance that the malt is out of specification, as far as is known now

	// Measured are the lines to measure before it is released, the most doubtful
	// first; none if it can go as it is.
	Measured []Check
	// OutGivenReleased is the chance that the malt is out of specification,
	// given that those measurements let it go; Released is the chance of that.
	OutGivenReleased float64
	Released         float64

	Blends []Blend // where blending is advised
}

// Check is one line that is measured, with the guard that keeps the risk.
type Check struct {
	Line      int
	Deviation float64 // of one result from the truth, in the unit of the limit
	Published bool    // from a published precision
	Guard     float64 // how far within the limit the result must stand
	// AtLimit is the chance that the malt goes although its true figure lies
	// half of R95 beyond the limit: R95 is how far two laboratories may differ.
	AtLimit float64
}

// Blend is what a malt must have that is mixed with this one, half and half, so
// that the blend meets a line with the risk taken. Figures are taken to mix by
// mass.
type Blend struct {
	Line        int
	Least, Most float64 // NaN where there is no such end
}

// guard is how far within its limit the middle of a line must lie for the risk
// to be kept: its own band, on the side of the limit. NaN where nothing is
// known.
func (e *Ensemble) guard(line int, risk float64) float64 {
	low, high := e.edges(line, risk)
	l := e.Lines[line]
	guard := nan
	if !math.IsNaN(l.Limit.Min) {
		guard = l.P50 - low
	}
	if !math.IsNaN(l.Limit.Max) && !(guard > high-l.P50) {
		guard = high - l.P50
	}
	return guard
}

// edges are the figures that a line falls below or above with the risk.
func (e *Ensemble) edges(line int, risk float64) (low, high float64) {
	values := known(e.column(func(s *sample) float64 { return s.limits[line] }))
	slices.Sort(values)
	return odds.Quantile(values, risk), odds.Quantile(values, 1-risk)
}

// advise says what to do with the piece: release it if the chance that it is out
// of specification is within the risk; else measure the most doubtful lines,
// as few as bring that chance within the risk; else, where that would let few go,
// blend what fails, if it is no more than two lines and not its moisture; else
// sell it as something less.
func (e *Ensemble) advise(risk float64) Release {
	r := Release{Risk: risk, Act: ReleaseIt, Prior: 1 - e.All.Share(), Released: 1}
	r.OutGivenReleased = r.Prior
	if len(e.Lines) == 0 || len(e.drawn) == 0 || r.Prior <= risk {
		return r
	}
	r.Act = HoldIt
	e.check(&r)
	var failing []int
	for i, line := range e.Lines {
		if line.In.Share() < evens {
			failing = append(failing, i)
		}
	}
	if r.Released >= evens || len(failing) == 0 {
		return r
	}
	if len(failing) == 1 && e.Lines[failing[0]].Limit.Parameter == malt.Moisture {
		return r // the kiln mends it, a blend hides it
	}
	if len(failing) > mostBlended {
		r.Act = DowngradeIt
		return r
	}
	var blends []Blend
	for _, i := range failing {
		b := e.blend(i, risk)
		if b.Least > b.Most {
			return r // too little is known of this malt to name its partner
		}
		blends = append(blends, b)
	}
	r.Act, r.Blends = BlendIt, blends
	return r
}

const (
	evens       = 0.5
	mostBlended = 2
)

// check adds lines to measure, the most doubtful first, until what they let go
// is in specification but for the risk; and then widens their guards.
func (e *Ensemble) check(r *Release) {
	var doubtful []int
	for i, line := range e.Lines {
		if _, ok := e.ofMalt(i); ok && line.Unsaid == 0 && line.In.Held < line.In.Of {
			doubtful = append(doubtful, i)
		}
	}
	slices.SortStableFunc(doubtful, func(a, b int) int { return e.Lines[a].In.Held - e.Lines[b].In.Held })
	var goes [][]float64 // by check and draw
	for _, i := range doubtful {
		c := e.checkOf(i, r.Risk)
		r.Measured, goes = append(r.Measured, c), append(goes, e.goes(&c))
		if r.Released, r.OutGivenReleased = e.released(goes); r.OutGivenReleased <= r.Risk {
			return
		}
	}
	e.widen(r, goes)
}

// widen widens guards, each time the one that leaves fewest of what goes out of
// specification, until that is within the risk. Where that would hold more than
// half of what went before, the guards stay as they were: wider ones would hold
// good malt, and what helps is a better measurement.
func (e *Ensemble) widen(r *Release, goes [][]float64) {
	wide, least := *r, r.Released/2
	wide.Measured = slices.Clone(r.Measured)
	for wide.OutGivenReleased > r.Risk {
		best, bestGoes := -1, []float64(nil)
		for i, c := range wide.Measured {
			c.Guard += guardStep * c.Deviation
			narrow := goes[i]
			goes[i] = e.goes(&c)
			if released, out := e.released(goes); out < wide.OutGivenReleased && released >= least {
				best, bestGoes, wide.Released, wide.OutGivenReleased = i, goes[i], released, out
			}
			goes[i] = narrow
		}
		if best < 0 {
			return
		}
		c := &wide.Measured[best]
		c.Guard += guardStep * c.Deviation
		c.AtLimit = goesAtLimit(c)
		goes[best] = bestGoes
	}
	*r = wide
}

// guardStep is the step in which guards are widened, of a deviation. Each step
// lets less go, so that there is an end to them.
const guardStep = 0.25

// checkOf is the measurement of a line with the guard at which a malt that lies
// half of R95 beyond the limit goes with no more than the risk.
func (e *Ensemble) checkOf(line int, risk float64) Check {
	m, _ := e.ofMalt(line)
	l := e.Lines[line].Limit
	at := l.Max
	if math.IsNaN(at) {
		at = l.Min
	}
	c := Check{Line: line, Deviation: m.error(at), Published: !math.IsNaN(e.Outcome.Judged[line].Guard)}
	c.Guard = max(0, -odds.NormalQuantile(risk)*c.Deviation-beyond(c.Deviation))
	c.AtLimit = goesAtLimit(&c)
	return c
}

// beyond is half of R95 of a method: half of how far two laboratories may
// differ, 19 times out of 20.
func beyond(deviation float64) float64 {
	return odds.NormalQuantile(0.975) * math.Sqrt2 * deviation / 2
}

// goesAtLimit is the chance that a result lies within the guarded limit although
// the truth lies half of R95 beyond the limit.
func goesAtLimit(c *Check) float64 {
	return odds.NormalChance(-(beyond(c.Deviation) + c.Guard) / c.Deviation)
}

// goes is the chance of each draw to be let go by a measurement.
func (e *Ensemble) goes(c *Check) []float64 {
	out := make([]float64, len(e.drawn))
	for i := range e.drawn {
		out[i] = within(e.Lines[c.Line].Limit, c, e.drawn[i].limits[c.Line])
	}
	return out
}

// released counts what the measurements let go, and what of that is out of
// specification. It rests on the chance of each draw to be let go, so that no
// error needs to be drawn.
func (e *Ensemble) released(goes [][]float64) (released, out float64) {
	let, bad := 0.0, 0.0
	for i := range e.drawn {
		chance := 1.0
		for _, g := range goes {
			chance *= g[i]
		}
		let += chance
		if !e.drawn[i].meets {
			bad += chance
		}
	}
	if let == 0 {
		return 0, nan
	}
	return let / float64(e.Done), bad / let
}

// within is the chance that a result of a true figure x lies within the guarded
// ends of a limit.
func within(l malt.Limit, c *Check, x float64) float64 {
	chance := 1.0
	if !math.IsNaN(l.Max) {
		chance = odds.NormalChance((l.Max - c.Guard - x) / c.Deviation)
	}
	if !math.IsNaN(l.Min) {
		chance -= odds.NormalChance((l.Min + c.Guard - x) / c.Deviation)
	}
	return max(0, chance)
}

// blend is what the other half must have.
func (e *Ensemble) blend(line int, risk float64) Blend {
	l := e.Lines[line].Limit
	low, high := e.edges(line, risk)
	return Blend{Line: line, Least: 2*l.Min - low, Most: 2*l.Max - high}
}

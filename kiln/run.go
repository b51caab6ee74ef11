package kiln

import (
	"fmt"

	"awn/air"
	"awn/barley"
	"awn/bed"
	"awn/kernel"
	"awn/plant"
)

// Setup is all that a kilning needs beyond the grain and the programme.
type Setup struct {
	Constants *Constants
	Barley    *barley.Constants
	Bed       *bed.Constants
	Kernel    *kernel.Constants // nil: grain without life

	Kiln       plant.Kiln
	CastT      float64 // barley as cast in the steep, t: airflow per tonne counts it
	ChitCH     float64 // the lot's median thermal time to chit, °C·h; unused without Kernel
	Vigour     float64 // what the corns have left of their pace of life, above 0 to 1; 0 takes all of it
	PressurePa float64
	Outside    Outside

	StripC     float64 // below which malt may be stripped
	StripWorst float64 // moisture (wet basis) that no layer may exceed then

	Supply *Supply // for an upper deck: the air it gets
	Above  *Trace  // for a lower deck: the air off the upper one, which is what returns
	Series float64 // beds of such depth that the fan blows through one after the other; 0 means 1

	Columns []barley.Column // nil: those of the grain
	Mix     bool            // the transfer into this vessel mixed the grain

	Layers int     // of each column; 0 takes 60
	StepS  float64 // longest time step, s; 0 takes the usual one
}

const (
	usualLayers = 60
	mostSetC    = 110.0 // beyond it malt is roasted, which is not computed
)

// UsualStepS is the longest step unless the setup says otherwise, s.
const UsualStepS = 300.0

// check refuses what cannot be computed.
func (s *Setup) check(g *barley.Grain) error {
	k := &s.Kiln
	for _, v := range []struct {
		name  string
		is    float64
		least float64
		most  float64
	}{
		{"floor area (m²)", k.AreaM2, 1e-3, 1e5}, {"barley as cast (t)", s.CastT, 1e-6, 1e5},
		{"air pressure (Pa)", s.PressurePa, 5e4, 1.2e5}, {"layers", float64(s.Layers), 1, 1000},
		{"dry matter (kg)", g.TotalDryKg(), 1e-3, 1e8}, {"burner efficiency", k.Burner.Efficiency, 0.1, 1.2},
		{"heat recovery", k.HeatRecovery, 0, 1}, {"leakage", k.LeakShare, 0, 0.9},
		{"most recirculation", k.MostRecirc, 0, 0.95}, {"outside air (°C)", s.Outside.MeanC, -35, 55},
		{"outside humidity", s.Outside.RH, 0, 1}, {"daily swing (K)", s.Outside.SwingK, 0, 20},
		{"longest step (s)", s.StepS, 1, 1800}, {"return lag (s)", s.Constants.LagS, 5, 3600},
	} {
		if !(v.is >= v.least && v.is <= v.most) {
			return fmt.Errorf("kiln: %s is %g, and must be %g to %g", v.name, v.is, v.least, v.most)
		}
	}
	return nil
}

// Run is one kilning under way. A Run is not safe for use by several
// goroutines; clones are independent of each other.
type Run struct {
	setup *Setup // shared between clones, as all that follows until moment
	law   law
	clock *kernel.Clock
	perH  [cureItems]float64 // rates of cure at their reference states
	green []barley.Heat
	shape *barley.Grain // classes, columns and layers

	moment

	store   []float64 // behind the slices of the columns
	columns []column
	spots   []bed.Spot
	share   []float64 // flow of each column over the mean
	watches []watch   // one for each column, and the last for the whole
	offs    []stream  // air off each column at the start of the last step
	ends    []stream  // and at its end
	trace   *Trace    // keeps the air off the bed, if it is there
}

// moment is the part of a run that is copied by assignment.
type moment struct {
	hour             float64
	from, to         settings
	rampFrom, rampTo float64 // hours
	heaterOff        bool
	fanOff           bool

	back     stream  // return air, behind by the lag
	backTurn drift   // what the first stage of a step made of its rates
	view     view    // the air at the hour
	uncuredS float64 // since when curing has not been counted, s
	stepS    float64 // that the last one allows, s
	reachedC float64 // air-on at the end of the last step
	draught  draught
	held     held
	respired float64 // g/(kg h)
	burn     kernel.Burn
	tally    tally
	noted    noted
}

// view is the air of one moment.
type view struct {
	on, off   stream
	mixC      float64 // between mixing and heater
	heaterJKg float64
	flow      float64 // kg/(m² s) through the fan
}

// Start puts the grain on the kiln. It copies what it needs of g and allocates
// all that the run will use.
func Start(setup Setup, g *barley.Grain) (*Run, error) {
	s := &setup
	if s.Layers == 0 {
		s.Layers = usualLayers
	}
	if s.StepS == 0 {
		s.StepS = UsualStepS
	}
	if s.Series == 0 {
		s.Series = 1
	}
	if s.Columns == nil {
		s.Columns = g.Columns
	}
	if err := s.check(g); err != nil {
		return nil, err
	}
	green := barley.NewGrain(append([]barley.Class(nil), g.Classes...), append([]barley.Column(nil), s.Columns...), s.Layers)
	if err := barley.Remap(green, g, s.Mix); err != nil {
		return nil, fmt.Errorf("kiln: %w", err)
	}
	r := &Run{setup: s, green: green.Heat, shape: green}
	r.law = law{rate: s.Constants.Rate, film: s.Constants.Film, equilibrium: s.Barley.MaltEMC, pressurePa: s.PressurePa,
		mostPa: air.VapourShareCap * s.PressurePa}
	if s.Kernel != nil {
		r.clock = kernel.NewClock(s.Kernel, green.Classes, green.OffsetDB, s.ChitCH)
	}
	for i, e := range s.Constants.Enzymes() {
		r.perH[i] = e.PerH
	}
	r.perH[4], r.perH[5] = s.Constants.SMMLoss(smmC), s.Constants.Colour
	r.carve()
	r.load(green)
	r.back = s.Outside.at(0, s.PressurePa)
	r.view = view{on: r.back, off: r.back, mixC: r.back.tempC}
	r.reachedC, r.stepS = r.back.tempC, s.StepS
	if s.Above != nil {
		r.back, _ = s.Above.at(0)
	}
	r.noted, r.rampTo = newNoted(), -1
	for i := range r.watches {
		r.watches[i] = newWatch()
	}
	if r.survey() != nil {
		return nil, fmt.Errorf("kiln: the grain holds a moisture or temperature that is not a number or beyond %g to %g °C", leastC, mostC)
	}
	return r, nil
}

// fault is an error with stage and time.
func (r *Run) fault(format string, figures ...any) error {
	return fmt.Errorf("kiln at %.2f h: "+format, append([]any{r.hour}, figures...)...)
}

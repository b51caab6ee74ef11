package kiln

import (
	"fmt"
	"math"

	"awn/barley"
	"awn/finding"
	"awn/programme"
)

// Decks is one piece under way over a kiln of two decks, or over two linked
// kilns: it withers over the air that comes off the piece before it, and then
// cures under the piece behind it. What those two do is that of this piece
// itself, one cycle earlier and later.
type Decks struct {
	setup  *Setup
	supply Supply // of the upper deck, from the piece before
	above  *Trace // off the upper deck, from the piece behind

	upper, lower *Run          // lower is nil until the piece is dropped
	dropped      *barley.Grain // as the last piece of the search came to the lower deck
	most         int           // runs of the search
	hour, cycleH float64
	begun, steps int
	settled      Settled

	endMean, endWorst float64 // of the piece before, as it was stripped
}

// Settled is how the periodic state of two decks was found.
type Settled struct {
	Runs    int     // of the piece over both decks
	Coarse  int     // runs of a coarse bed before these, each a sixteenth of one
	Mean    float64 // by how much this piece ends wetter or drier than the one before, wet basis
	Worst   float64 // and its wettest layer
	Named   bool    // the piece on the lower deck was given instead
	CycleH  float64 // on each deck
	DropWB  float64 // mean moisture when it was dropped
	DropTop float64 // wettest layer then
}

// LowerPiece is a piece that is known to lie on the lower deck.
type LowerPiece struct {
	MoistureWB float64
	TempC      float64
}

// repeats is how closely the end moisture must repeat, wet basis, and mostRuns
// how often that is tried.
const (
	repeats  = 0.0002
	mostRuns = 20
)

// What lies on the lower deck before the first run: any malt half dried.
const (
	firstWB = 0.15
	firstC  = 55.0
)

// StartDecks puts a piece on the upper deck. steps are those of the air under
// the lower deck over one cycle, which all must end by their time; the piece
// goes through them twice, first above and then below. With lower nil the decks
// are solved to the state that repeats itself.
func StartDecks(setup Setup, steps []programme.KilnStep, lower *LowerPiece, g *barley.Grain) (*Decks, error) {
	d := &Decks{setup: &setup, most: mostRuns, steps: len(steps)}
	for _, s := range steps {
		if s.Until.Reading != programme.None {
			return nil, fmt.Errorf("kiln: on two decks every step ends by its time, and %q waits for a reading", s.Name)
		}
		d.cycleH += s.Until.LatestH
	}
	setup.Outside.SwingK = 0 // or no day would repeat the last
	dropped, err := d.before(steps, lower, g)
	if err != nil {
		return nil, err
	}
	if err := d.settle(steps, dropped, lower != nil, g); err != nil {
		return nil, err
	}
	d.upper, err = d.onUpper(g)
	return d, err
}

// coarseLayers and mostCoarse are how the state is looked for before the bed is
// cut finely: a run over so few layers takes a sixteenth of the time.
const (
	coarseLayers = 15
	mostCoarse   = 60
)

// before is the piece that lies below when this one comes above: the one that is
// named, or that of a coarse bed that has settled.
func (d *Decks) before(steps []programme.KilnStep, lower *LowerPiece, g *barley.Grain) (*barley.Grain, error) {
	if lower != nil {
		return d.asLower(g, *lower)
	}
	setup := *d.setup
	setup.Layers = coarseLayers
	coarse := &Decks{setup: &setup, most: mostCoarse}
	dropped, err := coarse.asLower(g, LowerPiece{firstWB, firstC})
	if err != nil {
		return nil, err
	}
	if err := coarse.settle(steps, dropped, false, g); err != nil {
		return nil, err
	}
	d.settled.Coarse = coarse.settled.Runs
	kiln, err := Start(*d.setup, g)
	if err != nil {
		return nil, err
	}
	fine := kiln.Shape()
	return fine, barley.Remap(fine, coarse.dropped, false)
}

// asLower is the grain of a piece as it lies on the lower deck, evenly at one
// moisture.
func (d *Decks) asLower(g *barley.Grain, p LowerPiece) (*barley.Grain, error) {
	if !(p.MoistureWB > 0 && p.MoistureWB < 1) || math.IsNaN(p.TempC) {
		return nil, fmt.Errorf("kiln: no piece lies on the lower deck at a moisture of %g and %g °C", p.MoistureWB, p.TempC)
	}
	kiln, err := Start(*d.setup, g)
	if err != nil {
		return nil, err
	}
	out := kiln.Shape()
	kiln.Grain(out)
	for cell := range out.Cells() {
		out.WaterKg[cell] = out.CellDryKg(cell) * p.MoistureWB / (1 - p.MoistureWB)
		out.TempC[cell] = p.TempC
	}
	return out, nil
}

// settle runs the piece over both decks until it is dropped as the piece before
// it was.
func (d *Decks) settle(steps []programme.KilnStep, dropped *barley.Grain, named bool, g *barley.Grain) error {
	s := &d.settled
	s.Named, s.CycleH = named, d.cycleH
	d.dropped = dropped
	var quick quickener
	for s.Runs < d.most {
		low, err := d.onLower(dropped)
		if err != nil {
			return err
		}
		if d.supply.Lower, err = low.through(steps); err != nil {
			return err
		}
		s.Runs++
		d.endMean, d.endWorst = low.moistures()
		up, err := d.onUpper(g)
		if err != nil {
			return err
		}
		if d.above, err = up.through(steps); err != nil {
			return err
		}
		next := up.Shape()
		up.Grain(next)
		if named || quick.settled(dropped, next) {
			return nil
		}
		quick.step(dropped, next)
		dropped = next
		d.dropped = next
	}
	return nil
}

// onUpper puts grain on the upper deck, over the air of the piece before.
func (d *Decks) onUpper(g *barley.Grain) (*Run, error) {
	s := *d.setup
	k := &s.Kiln
	d.supply.Between, d.supply.TempC = k.Decks.BetweenShare, k.Decks.BetweenC
	k.Fan.ShutOffPa, k.Fan.Efficiency, k.HeatRecovery, k.LeakShare, k.LossWK, k.MostRecirc = 0, 0, 0, 0, 0, 0
	if math.IsNaN(d.supply.TempC) {
		d.supply.TempC = math.Inf(-1) // as it is outside
	}
	supply := d.supply
	s.Supply = &supply
	return Start(s, g)
}

// onLower puts grain that was dropped on the lower deck, under the piece behind.
// The fan blows through both.
func (d *Decks) onLower(dropped *barley.Grain) (*Run, error) {
	s := *d.setup
	s.Columns, s.Mix = dropped.Columns, s.Kiln.Decks.DropMixes
	s.Above, s.Series = d.above, 2
	return Start(s, dropped)
}

// through takes a run through all steps and returns the air off its bed.
func (r *Run) through(steps []programme.KilnStep) (*Trace, error) {
	r.trace = &Trace{}
	for _, s := range steps {
		if err := r.Begin(s); err != nil {
			return nil, err
		}
		if err := r.To(r.hour + s.Until.LatestH); err != nil {
			return nil, err
		}
	}
	r.trace.keep(r.hour, r.view.off, r.view.flow*(1-r.setup.Kiln.LeakShare))
	return r.trace, nil
}

// moistures are the mean of the bed and its wettest layer, wet basis.
func (r *Run) moistures() (mean, worst float64) {
	var v programme.Values
	r.readGrain(&v)
	return v[programme.Moisture], v[programme.WorstLayer]
}

// Begin sets what the programme asks for from now on: for each step once above
// and once below, with a step of any kind between them while the piece is
// dropped, if that takes time.
func (d *Decks) Begin(step programme.KilnStep) error {
	d.begun++
	switch {
	case d.begun <= d.steps:
		return d.upper.Begin(step)
	case d.dropH() > 0 && d.begun == d.steps+1:
		return nil
	}
	if err := d.dropNow(); err != nil {
		return err
	}
	return d.lower.Begin(step)
}

func (d *Decks) dropH() float64 { return d.setup.Kiln.Decks.DropH }

// dropNow puts the piece on the lower deck.
func (d *Decks) dropNow() error {
	if d.lower != nil {
		return nil
	}
	g := d.upper.Shape()
	d.upper.Grain(g)
	d.settled.DropWB, d.settled.DropTop = d.upper.moistures()
	var err error
	d.lower, err = d.onLower(g)
	return err
}

// To advances the piece to an hour since it came on the upper deck. While it is
// dropped no air moves through it, and what life there is in it is neglected.
func (d *Decks) To(hour float64) error {
	if err := d.upper.To(max(d.upper.hour, min(hour, d.cycleH))); err != nil {
		return err
	}
	if d.lower != nil {
		if err := d.lower.To(max(d.lower.hour, hour-d.cycleH-d.dropH())); err != nil {
			return err
		}
	}
	d.hour = hour
	return nil
}

// now is the run that the piece is in.
func (d *Decks) now() *Run {
	if d.lower != nil {
		return d.lower
	}
	return d.upper
}

// Read sets v to the readings of the moment. The break is that of the upper deck.
func (d *Decks) Read(v *programme.Values) {
	d.now().Read(v)
	v[programme.Break] = 0
	if d.upper.broken() {
		v[programme.Break] = 1
	}
}

// Grain sets dst to the grain as it is now; Shape is an empty one for it.
func (d *Decks) Grain(dst *barley.Grain) { d.now().Grain(dst) }

// Bed sets the moistures, wet basis, and temperatures of the layers of a column.
func (d *Decks) Bed(column int, moistureWB, tempC []float64) { d.now().Bed(column, moistureWB, tempC) }

// Shape returns an empty grain of the run's shape, for Grain to fill.
func (d *Decks) Shape() *barley.Grain { return d.upper.Shape() }

// Break is that of the air off the upper deck.
func (d *Decks) Break(column int) Break { return d.upper.Break(column) }

// AirShare is the air per floor of a column over that of the whole bed.
//
// Definition.
func (d *Decks) AirShare(column int) float64 { return d.now().AirShare(column) }

// Settled says how the two decks were solved; of a piece that has been over both,
// how well it repeats the one before.
func (d *Decks) Settled() Settled {
	s := d.settled
	if d.lower != nil && !s.Named {
		mean, worst := d.lower.moistures()
		s.Mean, s.Worst = math.Abs(mean-d.endMean), math.Abs(worst-d.endWorst)
	}
	return s
}

// Lines is the balance of the grain over both decks.
func (d *Decks) Lines(dst []barley.Line) []barley.Line {
	from := len(dst)
	dst = d.upper.Lines(dst)
	if d.lower == nil {
		return dst
	}
	for i, l := range d.lower.Lines(nil) {
		dst[from+i].Amount += l.Amount
	}
	return dst
}

// Account is what one piece takes of the kiln. Each cycle one piece leaves it, so
// that is what the kiln takes in a cycle: the heat and the fan below, what is let
// in between, and the water of both beds.
func (d *Decks) Account() Account {
	a := d.upper.Account()
	if d.lower == nil {
		return a
	}
	b := d.lower.Account()
	return Account{
		HeatJ: a.HeatJ + b.HeatJ, FuelLHVJ: a.FuelLHVJ + b.FuelLHVJ, FuelHHVJ: a.FuelHHVJ + b.FuelHHVJ, FanJ: a.FanJ + b.FanJ,
		RecoveredJ: a.RecoveredJ + b.RecoveredJ, WallJ: a.WallJ + b.WallJ, EvaporatedKg: a.EvaporatedKg + b.EvaporatedKg,
		FuelWaterKg: a.FuelWaterKg + b.FuelWaterKg, RespiredKg: a.RespiredKg + b.RespiredKg,
	}
}

// Clone returns a piece that goes on by itself from here.
func (d *Decks) Clone() *Decks {
	c := *d
	c.upper = d.upper.Clone()
	if d.lower != nil {
		c.lower = d.lower.Clone()
	}
	return &c
}

// Reset sets d, a clone of from or its original, to the state of from.
func (d *Decks) Reset(from *Decks) {
	upper, lower := d.upper, d.lower
	*d = *from
	d.upper = upper
	d.upper.Reset(from.upper)
	switch {
	case from.lower == nil:
		d.lower = nil
	case lower == nil:
		d.lower = from.lower.Clone()
	default:
		d.lower = lower
		d.lower.Reset(from.lower)
	}
}

// Findings appends what the piece so far has to say: the lower deck of stripping
// and of the plant, the upper one of its break and of the drop.
func (d *Decks) Findings(dst []finding.Finding) []finding.Finding {
	if d.lower != nil {
		dst = d.lower.stripping(dst)
		dst = d.lower.air(dst)
		dst = d.lower.stops(dst)
	}
	if !d.upper.broken() {
		f := finding.New("kiln.decks.dropped-wet", finding.Caution, "kiln",
			finding.Figure{Name: "moisture_wb", Value: d.settled.DropWB}, finding.Figure{Name: "worst_layer_wb", Value: d.settled.DropTop},
			finding.Figure{Name: "cycle_h", Value: d.cycleH})
		f.AtH, f.Act, f.Source, f.Chance, f.Cost = d.cycleH, "act.kiln.longer-cycle", practice, 0.6, 0.05
		dst = append(dst, f)
	}
	if s := d.Settled(); s.Mean > repeats || s.Worst > repeats {
		f := finding.New("kiln.decks.unsettled", finding.Caution, "kiln",
			finding.Figure{Name: "moved_wb", Value: max(s.Mean, s.Worst)}, finding.Figure{Name: "runs_n", Value: float64(s.Runs)})
		f.Act, f.Source, f.Chance, f.Cost = "act.kiln.name-lower-piece", practice, 0.5, 0.03
		dst = append(dst, f)
	}
	return dst
}

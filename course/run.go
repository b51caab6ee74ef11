package course

import (
	"cmp"
	"errors"
	"fmt"

	"awn/barley"
	"awn/finding"
	"awn/germinate"
	"awn/kiln"
	"awn/plant"
	"awn/programme"
	"awn/steep"
)

// How far apart the looks at a running stage are. A condition that comes and
// goes between two looks is not seen. Each is a whole number of the stage's own
// steps, so that looking cuts none short.
const (
	steepLookH     = 0.5
	germinateLookH = 0.5
	kilnLookH      = 1.0 / 6
)

// The layers into which a bed is cut unless the piece has its own Grid.
const (
	germinateLayers = 20
	kilnLayers      = 60
)

// stepS is the longest time step for a stage that usually takes usualS.
func (g Grid) stepS(usualS float64) float64 {
	if g.StepShare == 0 {
		return usualS
	}
	return usualS * g.StepShare
}

// runner is a piece on its way: what is being run, and what has come out so far.
type runner struct {
	piece *Piece
	c     *constants
	lot   barley.Lot
	out   *Outcome

	grain     *barley.Grain // as the last stage handed it over
	atH       float64       // hours since the piece began
	respired  float64       // dry matter, in steep and germination, kg
	leached   float64       // dry matter, kg
	steeped   steep.Effluent
	grown     germinate.Utilities
	vigour    float64   // left of the pace of life when growth ends; 0 if that is not known
	grownAir  []float64 // of each column of the bed over their mean
	kilned    kiln.Account
	castDryKg float64
}

// Run computes a piece through its whole course, or from its Begin on. An
// error names the stage, the time and the quantity that cannot be computed.
func Run(p *Piece) (*Outcome, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	c, err := p.firstConstants()
	if err != nil {
		return nil, err
	}
	r := &runner{piece: c.house.actual(p), c: c, out: &Outcome{Piece: p, Made: MadeAir{RestC: nan, OutsideC: nan, RoomDioxide: nan}}}
	r.lot, r.out.Findings = c.known(p.Lot)
	r.out.Lot = r.lot
	if err := r.clean(); err != nil {
		return nil, err
	}
	if err := r.begin(); err != nil {
		return nil, err
	}
	for _, stage := range []struct {
		name Stage
		run  func() error
	}{{Steep, r.steep}, {Germinate, r.germinate}, {Kiln, r.kiln}} {
		if p.Begin != nil && stage.name < p.Begin.Stage {
			continue
		}
		if err := r.enter(stage.name); err != nil {
			return nil, err
		}
		if err := stage.run(); err != nil {
			return nil, err
		}
	}
	r.out.Findings = additions(r.out.Findings, p.Programme.Additions)
	r.out.Findings = residues(r.out.Findings, p.Programme.Additions)
	if err := r.finish(); err != nil {
		return nil, err
	}
	return r.out, nil
}

// enter sets the constants to those that hold in a stage: additions may have
// changed them.
func (r *runner) enter(stage Stage) error {
	if len(r.piece.Programme.Additions) == 0 {
		return nil
	}
	values, err := r.piece.parametersAt(stage)
	if err != nil {
		return err
	}
	r.c, err = newConstants(values)
	return err
}

// check refuses a piece that names what is not there.
func (p *Piece) check() error {
	for _, v := range []struct {
		name       string
		index, has int
		from       Stage
	}{
		{"steep", p.Steep, len(p.House.Steeps), Steep},
		{"germination vessel", p.Germinator, len(p.House.Germinators), Germinate},
		{"kiln", p.Kiln, len(p.House.Kilns), Kiln},
	} {
		needed := p.Begin == nil || v.from >= p.Begin.Stage
		if needed && (v.index < 0 || v.index >= v.has) {
			return fmt.Errorf("the house has no %s number %d: it has %d", v.name, v.index+1, v.has)
		}
	}
	if !(p.CastKg > 0) {
		return errors.New("a piece needs barley as cast above 0 kg")
	}
	if p.Lot.Grain != "" && len(p.Lot.Factor) == 0 {
		return fmt.Errorf("the lot is %s, and the model is one of barley: it runs only with factors of the house's own", p.Lot.Grain)
	}
	if err := p.checkAdditions(); err != nil {
		return err
	}
	if g := p.Grid; !(g.StepShare >= 0 && g.StepShare <= 1) || g.GerminateLayers < 0 || g.KilnLayers < 0 {
		return fmt.Errorf("a grid of %d and %d layers with %g of the usual steps cannot be", g.GerminateLayers, g.KilnLayers, g.StepShare)
	}
	return nil
}

// castT is the barley as cast, t: airflow per tonne counts it.
func (r *runner) castT() float64 { return r.piece.CastKg / 1000 }

// begin makes the grain with which the first stage starts.
func (r *runner) begin() error {
	var err error
	if b := r.piece.Begin; b != nil {
		var notes []finding.Finding
		r.grain, notes, err = b.grain(&r.lot, &r.c.kernel)
		r.out.Findings = append(r.out.Findings, notes...)
	} else {
		r.grain, err = barley.Cast(&r.lot, barley.UsualQuantiles, level, r.piece.CastKg, r.storeC())
	}
	if err == nil {
		r.castDryKg = r.grain.TotalDryKg()
	}
	return err
}

// The temperatures between which barley lies in store, °C.
//
// Assumed: common practice, no source.
const (
	coldStoreC = 5.0
	warmStoreC = 20.0
)

// storeC is the temperature of the barley as it is cast: that of the month, as
// far as a store follows it.
func (r *runner) storeC() float64 {
	outside, _ := r.piece.outsideMean(0)
	return min(max(outside, coldStoreC), warmStoreC)
}

// steep takes the piece through its steep.
func (r *runner) steep() error {
	p, vessel := r.piece, r.piece.House.Steeps[r.piece.Steep]
	airC, airRH := p.outsideMean(r.atH)
	run, err := steep.StartBed(steep.Setup{
		Constants: &r.c.steep, Kernel: &r.c.kernel, Barley: &r.c.barley, Vessel: vessel, CastT: r.castT(),
		ChitCH: r.lot.ChitThermalTimeCH.Mid, Uptake: r.lot.Uptake.Mid, WaterSensitivity: r.lot.WaterSensitivity.Mid,
		PressurePa: pressurePa(&p.House), AirC: airC, AirRH: airRH, WaterC: p.waterC(r.atH),
		StepS: p.Grid.stepS(steep.UsualStepS),
	}, p.columns(vessel.Columns), r.grain)
	if err != nil {
		return err
	}
	steps := r.waterReached(p.Programme.Steep, vessel)
	if vessel.TransferH > 0 {
		steps = append(steps[:len(steps):len(steps)], castOut(vessel, p.Programme.Cast))
	}
	ledger := waterLedger{run: run}
	if err := follow(r, Steep, run, steepLookH, steps, ledger.begin, steepStep); err != nil {
		return err
	}
	r.respired, r.leached = run.LossKg()
	r.steeped = run.Effluent()
	r.water(steps, ledger.close(), r.out.Stages[len(r.out.Stages)-1].Steps)
	r.rests(p.Programme.Steep, r.out.Stages[len(r.out.Stages)-1].Steps)
	return nil
}

// castOut is the emptying of the vessel.
func castOut(v plant.Steep, how programme.Cast) programme.SteepStep {
	return programme.SteepStep{
		Kind: programme.Transfer, Wet: how.Wet, SuctionM3HT: how.SuctionM3HT, Until: programme.Until{LatestH: v.TransferH}, WaterC: nan, AirC: nan,
	}
}

// germinate takes the piece through its germination.
func (r *runner) germinate() error {
	p, vessel := r.piece, r.piece.House.Germinators[r.piece.Germinator]
	meanC, rh := p.outsideMean(r.atH)
	columns, mix := r.onto(vessel.Columns, p.Programme.SteepTransferMixes)
	run, err := germinate.Start(germinate.Setup{
		Constants: &r.c.germinate, Kernel: &r.c.kernel, Bed: &r.c.bed, Isotherm: barley.BarleyIsotherm(r.c.barley),
		Vessel: vessel, CastT: r.castT(), ChitCH: r.lot.ChitThermalTimeCH.Mid, PressurePa: pressurePa(&p.House),
		Outside: germinate.Outside{MeanC: meanC, RH: rh, SwingK: p.House.Weather.SwingK, WarmestAt: p.warmestAtH(r.atH)},
		WaterC:  p.waterC(r.atH), Layers: cmp.Or(p.Grid.GerminateLayers, layersOf(columns, germinateLayers)), Columns: columns, Mix: mix,
		StepS: p.Grid.stepS(germinate.UsualStepS), WetCast: p.Programme.Cast.Wet && len(r.out.Stages) > 0,
	}, r.grain)
	if err != nil {
		return err
	}
	if err := follow(r, Germinate, run, germinateLookH, p.Programme.Germinate, r.beginGrowth(run, vessel, r.atH), germinateStep); err != nil {
		return err
	}
	r.stopped(run, r.atH)
	r.vigour = 1 - run.VigourLost()
	r.respired += run.RespiredKg()
	r.grown = run.Utilities()
	r.madeForGrowth()
	for column := range r.grain.Columns {
		r.grownAir = append(r.grownAir, run.AirShare(column))
	}
	return nil
}

// kiln takes the piece over the kiln.
func (r *runner) kiln() error {
	p, vessel := r.piece, r.piece.House.Kilns[r.piece.Kiln]
	meanC, rh := p.outsideMean(r.atH)
	columns, mix := r.onto(vessel.Columns, p.toKilnMixes())
	setup := kiln.Setup{
		Constants: &r.c.kiln, Barley: &r.c.barley, Bed: &r.c.bed, Kernel: &r.c.kernel,
		Kiln: vessel, CastT: r.castT(), ChitCH: r.lot.ChitThermalTimeCH.Mid, Vigour: r.vigour, PressurePa: pressurePa(&p.House),
		Outside: kiln.Outside{MeanC: meanC, RH: rh, SwingK: p.House.Weather.SwingK, WarmestAt: p.warmestAtH(r.atH)},
		StripC:  p.Programme.StripC, StripWorst: p.Programme.StripWorst, Columns: columns, Mix: mix,
		Layers: cmp.Or(p.Grid.KilnLayers, layersOf(columns, kilnLayers)), StepS: p.Grid.stepS(kiln.UsualStepS),
	}
	if vessel.Decks != nil {
		return r.decks(setup)
	}
	run, err := kiln.Start(setup, r.grain)
	if err != nil {
		return err
	}
	if err := follow(r, Kiln, run, kilnLookH, p.Programme.Kiln, run.Begin, kilnStep); err != nil {
		return err
	}
	return r.kilnedIn(run)
}

// kilning is a run over one deck or two.
type kilning interface {
	Account() kiln.Account
	Break(column int) kiln.Break
	AirShare(column int) float64
}

// kilnedIn enters what came of the kiln.
func (r *runner) kilnedIn(run kilning) error {
	r.kilned = run.Account()
	r.out.Kilned = kilnedOf(run.Break(-1), r.grain, r.c.own.GreenEBC)
	if err := r.rest(); err != nil {
		return err
	}
	r.spots(run)
	return nil
}

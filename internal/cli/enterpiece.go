package cli

import (
	"context"
	"fmt"

	"awn/course"
	"awn/internal/house"
	"awn/internal/malthouse"
	"awn/internal/report"
	"awn/ledger"
	"awn/unit"
)

type startCommand struct {
	entering
	weighing
	From   []string `required:"" sep:"none" placeholder:"“PLACE MASS”" help:"What it is made of, as in “B7 60 t”; may be given several times."`
	Piece  string   `placeholder:"CODE" help:"The house's own code; the next of the year without it."`
	Vessel string   `placeholder:"NAME" help:"Where it is steeped."`
	Plan   string   `placeholder:"PIECE.yaml" help:"The piece as “awn malt” reads it. What it is expected to give is kept and held against what came."`
	Note   string   `placeholder:"TEXT" help:"Anything else."`
}

// Help shows how a piece is started.
func (c *startCommand) Help() string {
	return `  awn start --from "B7 60 t" --vessel "steep 2"
  awn start --from "B7 40 t" --from "B8 20 t" --plan house/piece.yaml

Casts a piece of barley from silos. Its moisture is that of the silo by the book
unless it is given.`
}

// Run casts a piece.
func (c *startCommand) Run(j *job) error {
	from, err := c.draws(c.From, ledger.Silo)
	if err != nil {
		return err
	}
	plan, err := c.plan(j)
	if err != nil {
		return err
	}
	in := &ledger.Casting{Piece: code(c.Piece), Vessel: c.Vessel, From: from, Note: c.Note}
	return c.enter(j, func(ctx context.Context, d *desk, e malthouse.Entry) (malthouse.Done, error) {
		return d.Start(ctx, d.actor, e, in, plan)
	})
}

// plan works out what a piece is expected to give.
func (c *startCommand) plan(j *job) (*malthouse.Plan, error) {
	if c.Plan == "" {
		return nil, nil
	}
	piece, inputs, err := load(j, c.Plan)
	if err != nil {
		return nil, err
	}
	o, err := course.Run(&piece)
	if err != nil {
		return nil, &refusal{err}
	}
	y := o.Yield
	p := &malthouse.Plan{
		CastKg: piece.CastKg, MaltKg: y.Malt.Kg(), CulmsKg: y.Culms.Kg(), ScreeningsKg: y.Screens.Kg(),
		RespiredDM: y.Respired + y.RespiredKiln + y.DustShare, LeachedDM: y.Leached, Model: house.Model,
	}
	if kg := y.Malt.Kg(); kg > 0 {
		p.MoistureWB = 1 - y.Malt.DryKg/kg
	}
	if len(inputs) > 0 {
		p.PieceSHA256 = inputs[0].SHA256
	}
	return p, nil
}

type actCommand struct {
	Piece string `arg:"" placeholder:"PIECE" help:"Code of the piece."`
	Act   string `arg:"" placeholder:"ACT" help:"immerse, drain, couch, turn, spray, kiln or strip."`
	entering
	Water  string `placeholder:"AMOUNT" help:"Water put on or let off: 70 m3, or a mass."`
	Temp   string `placeholder:"FIGURE" help:"Temperature of the water."`
	Vessel string `placeholder:"NAME" help:"Where it goes."`
	Note   string `placeholder:"TEXT" help:"Anything else."`
}

// Help shows what can be done to a piece.
func (c *actCommand) Help() string {
	return `  awn act P26-0001 immerse --water "70 m3" --temp "14 °C"
  awn act P26-0001 drain --water "40 m3"
  awn act P26-0001 couch --vessel "box 3"
  awn act P26-0001 turn
  awn act P26-0001 kiln
  awn act P26-0001 strip --at 06:30`
}

// Run records what was done to a piece.
func (c *actCommand) Run(j *job) error {
	in := malthouse.Deed{Piece: bare(c.Piece), Act: malthouse.Act(c.Act), Vessel: c.Vessel, Note: c.Note}
	var err error
	if in.Water, err = water("--water", c.Water); err != nil {
		return err
	}
	if c.Temp != "" {
		q, err := unit.Temperature.Parse(c.Temp)
		if err != nil {
			return badFlag("--temp", err)
		}
		in.TempC = &q.Value
	}
	return c.enter(j, func(ctx context.Context, d *desk, e malthouse.Entry) (malthouse.Done, error) {
		return d.Act(ctx, d.actor, e, in)
	})
}

type bookCommand struct {
	Piece string `arg:"" placeholder:"PIECE" help:"Code of the piece."`
	entering
	weighing
	Malt       []string `required:"" sep:"none" placeholder:"“PLACE MASS”" help:"Malt and where it lies, as in “M1 49.8 t”; may be given several times."`
	Lot        []string `placeholder:"CODE" help:"The house's own code of each lot; the next of the year without it."`
	Culms      string   `placeholder:"“PLACE MASS”" help:"Culms and where they lie, as in “FEED 1.9 t”."`
	Screenings string   `placeholder:"“PLACE MASS”" help:"Screenings and where they lie."`
	Dust       string   `placeholder:"“PLACE MASS”" help:"Dust that is kept, and where."`
	Note       string   `placeholder:"TEXT" help:"Anything else."`
}

// Help shows how malt is booked.
func (c *bookCommand) Help() string {
	return `  awn book P26-0001 --malt "M1 49.8 t" --moisture "4.2 % wb" \
      --culms "FEED 1.9 t 6 % wb" --screenings "FEED 0.4 t"

Ends a piece: malt, culms and screenings as they were weighed, each with its own
moisture behind it or that of --moisture. What the corn breathed away and the
water that left are worked out; what is then missing or too much is unexplained,
and said with its odds. What came is held against what was expected.`
}

// Run books the malt of a piece.
func (c *bookCommand) Run(j *job) error {
	in, err := c.dressing()
	if err != nil {
		return err
	}
	var booked malthouse.Booked
	var d *desk
	err = c.enter(j, func(ctx context.Context, at *desk, e malthouse.Entry) (done malthouse.Done, err error) {
		d = at
		done, booked, err = d.Book(ctx, d.actor, e, in)
		return done, err
	})
	if err != nil || c.JSON {
		return err
	}
	return report.BookedText(j.out, booked, d.units)
}

// dressing is what the flags say came of a piece.
func (c *bookCommand) dressing() (*ledger.Dressing, error) {
	in := &ledger.Dressing{Piece: bare(c.Piece), Note: c.Note}
	malt, err := c.draws(c.Malt, ledger.MaltStore)
	if err != nil {
		return nil, err
	}
	for i, m := range malt {
		out := ledger.Malted{To: m.Place, Amount: m.Amount}
		if i < len(c.Lot) {
			out.Lot = code(c.Lot[i])
		}
		in.Malt = append(in.Malt, out)
	}
	for _, b := range []struct {
		what ledger.What
		text string
	}{{ledger.Culms, c.Culms}, {ledger.Screenings, c.Screenings}, {ledger.DustOff, c.Dust}} {
		if b.text == "" {
			continue
		}
		some, err := c.draws([]string{b.text}, ledger.ByProduct)
		if err != nil {
			return nil, err
		}
		in.Beside = append(in.Beside, ledger.Beside{What: b.what, To: some[0].Place, Amount: some[0].Amount})
	}
	return in, nil
}

type readCommand struct {
	Thing   string   `arg:"" placeholder:"WHAT" help:"What was read: a piece, a silo."`
	Results []string `arg:"" placeholder:"“NAME VALUE”" help:"Readings, as in “moisture 42.9 % wb” “chit 93 %”."`
	entering
	Note string `placeholder:"TEXT" help:"Anything else."`
}

// Help shows what can be read by hand.
func (c *readCommand) Help() string {
	return `  awn read P26-0001 "moisture 42.9 % wb" "chit 93 %"
  awn read silo:B7 "temperature 14 °C"

Enters what somebody on the floor measured by hand.`
}

// Run records readings by hand.
func (c *readCommand) Run(j *job) error {
	found, err := figures(c.Results, "")
	if err != nil {
		return err
	}
	return c.enter(j, func(ctx context.Context, d *desk, e malthouse.Entry) (malthouse.Done, error) {
		of, err := malthouse.Find(ctx, d.Store.Read(d.Code), c.Thing, ledger.Piece, ledger.Silo, ledger.MaltStore, ledger.ByProduct)
		if err != nil {
			return malthouse.Done{}, err
		}
		return d.Read(ctx, d.actor, e, &ledger.Analysis{Of: of, Results: found, Note: c.Note})
	})
}

type analyseCommand struct {
	Thing   string   `arg:"" placeholder:"WHAT" help:"What was analysed: a delivery, a lot of malt, a shipment, a silo."`
	Results []string `arg:"" placeholder:"“NAME VALUE”" help:"Results, as in “don 1.6 mg/kg” “extract_fine 81.1 % dm”; “ndma < 1 ug/kg” is below what the method can see."`
	entering
	Method string `placeholder:"NAME" help:"Method, body and number, as in EBC 4.5.1. Results of several methods are several entries."`
	Lab    string `default:"house" placeholder:"NAME" help:"The laboratory."`
	Sample string `placeholder:"CODE" help:"The sample that is kept."`
	Note   string `placeholder:"TEXT" help:"Anything else."`
}

// Help shows how results are entered.
func (c *analyseCommand) Help() string {
	return `  awn analyse L26-0417 "don 1.6 mg/kg" --method "strip test" --lab house
  awn analyse M26-0001 "moisture 4.2 % wb" --method "EBC 4.2"
  awn analyse S26-0001 "friability 91 %" --method "EBC 4.15" --lab "Tern Rock"

Each result says its unit and basis. A certificate names the method of each.`
}

// Run records results.
func (c *analyseCommand) Run(j *job) error {
	found, err := figures(c.Results, c.Method)
	if err != nil {
		return err
	}
	return c.enter(j, func(ctx context.Context, d *desk, e malthouse.Entry) (malthouse.Done, error) {
		of, err := malthouse.Find(ctx, d.Store.Read(d.Code), c.Thing)
		if err != nil {
			return malthouse.Done{}, err
		}
		return d.Analyse(ctx, d.actor, e, &ledger.Analysis{Of: of, Sample: code(c.Sample), Lab: c.Lab, Results: found, Note: c.Note})
	})
}

// things that may be held and released.
var leaving = []string{ledger.LotKind, ledger.DeliveryKind, ledger.Shipment, ledger.Silo, ledger.MaltStore, ledger.ByProduct}

type releaseCommand struct {
	Thing string `arg:"" placeholder:"WHAT" help:"A lot of malt, a delivery, a place."`
	entering
	Reason string `required:"" placeholder:"TEXT" help:"Why it may go."`
}

// Help shows how something is released.
func (c *releaseCommand) Help() string {
	return `  awn release M26-0001 --reason "meets the specification"

A release rests on the analyses of the thing: if one is struck later, the
release is listed as shaken. awn does not release malt; somebody does.`
}

// Run releases something.
func (c *releaseCommand) Run(j *job) error {
	return c.enter(j, func(ctx context.Context, d *desk, e malthouse.Entry) (malthouse.Done, error) {
		of, err := malthouse.Find(ctx, d.Store.Read(d.Code), c.Thing, leaving...)
		if err != nil {
			return malthouse.Done{}, err
		}
		return d.Release(ctx, d.actor, e, &ledger.Release{Of: of, Reason: c.Reason})
	})
}

type holdCommand struct {
	Thing string `arg:"" placeholder:"WHAT" help:"A lot of malt, a delivery, a place."`
	entering
	Reason string `required:"" placeholder:"TEXT" help:"Why it stays."`
}

// Help shows how something is held.
func (c *holdCommand) Help() string { return `  awn hold M26-0001 --reason "second sample out"` }

// Run holds something.
func (c *holdCommand) Run(j *job) error {
	return c.enter(j, func(ctx context.Context, d *desk, e malthouse.Entry) (malthouse.Done, error) {
		of, err := malthouse.Find(ctx, d.Store.Read(d.Code), c.Thing, leaving...)
		if err != nil {
			return malthouse.Done{}, err
		}
		return d.Hold(ctx, d.actor, e, &ledger.Hold{Of: of, Reason: c.Reason})
	})
}

type decideCommand struct {
	Thing string `arg:"" placeholder:"WHAT" help:"What it is about: silo:B7."`
	entering
	Drawn    string `enum:"mixed,in-layers,none" default:"none" placeholder:"HOW" help:"How a place gives what it holds: mixed, or in-layers (first in, first out)."`
	Decision string `placeholder:"TEXT" help:"What was decided, if it is something else."`
	Reason   string `placeholder:"TEXT" help:"Why."`
	Accepts  string `placeholder:"UUID" help:"A fact that is stood by, although what it rests on was struck."`
}

// Help shows what can be decided.
func (c *decideCommand) Help() string {
	return `  awn decide silo:B7 --drawn in-layers
  awn decide M26-0001 --decision "kept for winter beer" --reason "colour"`
}

// Run records a decision.
func (c *decideCommand) Run(j *job) error {
	in := &ledger.Decision{Decision: c.Decision, Reason: c.Reason, Accepts: ledger.FactID(c.Accepts)}
	if c.Drawn != "none" {
		in.Drawn = ledger.Drawn(c.Drawn)
		if in.Decision == "" {
			in.Decision = "drawn " + c.Drawn
		}
	}
	if in.Decision == "" {
		return &lineError{"say what was decided: --decision or --drawn."}
	}
	return c.enter(j, func(ctx context.Context, d *desk, e malthouse.Entry) (malthouse.Done, error) {
		of := ledger.Ref(place(c.Thing, ledger.Silo))
		if in.Drawn == "" {
			found, err := malthouse.Find(ctx, d.Store.Read(d.Code), c.Thing)
			if err != nil {
				return malthouse.Done{}, err
			}
			of = found
		}
		in.Of = of
		return d.Decide(ctx, d.actor, e, in)
	})
}

type strikeCommand struct {
	Fact string `arg:"" placeholder:"UUID" help:"Id of the entry that is wrong, as it was printed, or its number in the record."`
	entering
	Reason string `required:"" placeholder:"TEXT" help:"What is wrong with it."`
}

// Help shows how an entry is struck.
func (c *strikeCommand) Help() string {
	return `  awn strike 14 --reason "scale read in lb"

Declares an entry wrong: what it moved goes back, both stay readable, and what
rests on it is named. Enter what is right anew.`
}

// Run strikes an entry.
func (c *strikeCommand) Run(j *job) error {
	return c.enter(j, func(ctx context.Context, d *desk, e malthouse.Entry) (malthouse.Done, error) {
		id := c.Fact
		var seq int64
		if _, err := fmt.Sscanf(c.Fact, "%d", &seq); err == nil && fmt.Sprint(seq) == c.Fact {
			for f, err := range d.Store.Read(d.Code).Facts(ctx, ledger.Query{From: seq, To: seq}) {
				if err != nil {
					return malthouse.Done{}, err
				}
				id = f.ID
			}
		}
		return d.Strike(ctx, d.actor, e, &ledger.Strike{Fact: ledger.FactID(id), Reason: c.Reason})
	})
}

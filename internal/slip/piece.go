package slip

import (
	"context"

	"awn/internal/malthouse"
	"awn/ledger"
)

// Start is a piece that was cast from silos.
type Start struct {
	Weighing
	From   []string `required:"" sep:"none" placeholder:"“PLACE MASS”" help:"What it is made of, as in “B7 60 t”; may be given several times."`
	Piece  string   `placeholder:"CODE" help:"The house's own code; the next of the year without it."`
	Vessel string   `placeholder:"NAME" help:"Where it is steeped."`
	Plan   string   `placeholder:"PLAN" help:"The plan it follows, held against what comes of it: one that the house keeps, by its name; on the command line also a piece as “awn malt” reads it, PIECE.yaml."`
	Does   string   `placeholder:"UUID" help:"The intention that it carries out. Its plan and its vessel are those of the piece, unless others are given."`
	Note   string   `placeholder:"TEXT" help:"Anything else."`

	Expected *malthouse.Plan `kong:"-"` // what it should give; nil takes the plan that is named, or none
}

// Use is to start.
func (*Start) Use() malthouse.Use { return malthouse.UseStart }

// Enter casts the piece.
func (s *Start) Enter(ctx context.Context, h *malthouse.House, a malthouse.Actor, e malthouse.Entry) (malthouse.Done, error) {
	var r reader
	in := &ledger.Casting{
		Piece: Code(s.Piece), Vessel: s.Vessel, From: r.draws("from", s.From, ledger.Silo, s.Weighing), Note: s.Note, Does: ledger.FactID(s.Does),
	}
	if err := r.faults.orNil(); err != nil {
		return malthouse.Done{}, err
	}
	if err := s.follow(ctx, h, a, in); err != nil {
		return malthouse.Done{}, err
	}
	return h.Start(ctx, a, e, in, s.Expected)
}

// follow finds the plan that the piece follows: that of its name, else that of
// the intention it carries out.
func (s *Start) follow(ctx context.Context, h *malthouse.House, a malthouse.Actor, in *ledger.Casting) (err error) {
	var meant *ledger.Intention
	if in.Does != "" {
		if meant, err = h.Intention(ctx, a, in.Does); err != nil {
			return err
		}
		if in.Vessel == "" {
			in.Vessel = meant.Vessel
		}
	}
	switch {
	case s.Expected != nil:
	case s.Plan != "":
		s.Expected, err = h.PlanKept(ctx, a, s.Plan)
	case meant != nil:
		s.Expected, err = h.PlanAt(ctx, a, meant.Plan)
	}
	return err
}

// Act is what was done to a piece.
type Act struct {
	Piece  string `arg:"" placeholder:"PIECE" help:"Code of the piece."`
	Act    string `arg:"" words:"immerse,drain,couch,turn,spray,kiln,strip" placeholder:"ACT" help:"immerse, drain, couch, turn, spray, kiln or strip."`
	Water  string `placeholder:"AMOUNT" help:"Water put on or let off: 70 m3, or a mass."`
	Temp   string `placeholder:"FIGURE" help:"Temperature of the water."`
	Vessel string `placeholder:"NAME" help:"Where it goes."`
	Note   string `placeholder:"TEXT" help:"Anything else."`
}

// Use is to act.
func (*Act) Use() malthouse.Use { return malthouse.UseAct }

// Enter records the act.
func (s *Act) Enter(ctx context.Context, h *malthouse.House, a malthouse.Actor, e malthouse.Entry) (malthouse.Done, error) {
	var r reader
	in := malthouse.Deed{
		Piece: Bare(s.Piece), Act: malthouse.Act(s.Act), Water: r.water("water", s.Water), TempC: r.temp("temp", s.Temp), Vessel: s.Vessel, Note: s.Note,
	}
	if err := r.faults.orNil(); err != nil {
		return malthouse.Done{}, err
	}
	return h.Act(ctx, a, e, in)
}

// Book ends a piece with what came of it.
type Book struct {
	Piece string `arg:"" placeholder:"PIECE" help:"Code of the piece."`
	Weighing
	Malt       []string `required:"" sep:"none" placeholder:"“PLACE MASS”" help:"Malt and where it lies, as in “M1 49.8 t”; may be given several times."`
	Lot        []string `placeholder:"CODE" help:"The house's own code of each lot; the next of the year without it."`
	Culms      string   `placeholder:"“PLACE MASS”" help:"Culms and where they lie, as in “FEED 1.9 t”."`
	Screenings string   `placeholder:"“PLACE MASS”" help:"Screenings and where they lie."`
	Dust       string   `placeholder:"“PLACE MASS”" help:"Dust that is kept, and where."`
	Note       string   `placeholder:"TEXT" help:"Anything else."`

	Came malthouse.Booked `kong:"-"` // after Enter: what came beside what was expected
}

// Use is to book.
func (*Book) Use() malthouse.Use { return malthouse.UseBook }

// Enter books the piece.
func (s *Book) Enter(ctx context.Context, h *malthouse.House, a malthouse.Actor, e malthouse.Entry) (done malthouse.Done, err error) {
	var r reader
	in := &ledger.Dressing{Piece: Bare(s.Piece), Note: s.Note}
	for i, m := range r.draws("malt", s.Malt, ledger.MaltStore, s.Weighing) {
		out := ledger.Malted{To: m.Place, Amount: m.Amount}
		if i < len(s.Lot) {
			out.Lot = Code(s.Lot[i])
		}
		in.Malt = append(in.Malt, out)
	}
	for _, b := range []struct {
		what        ledger.What
		field, text string
	}{{ledger.Culms, "culms", s.Culms}, {ledger.Screenings, "screenings", s.Screenings}, {ledger.DustOff, "dust", s.Dust}} {
		if b.text == "" {
			continue
		}
		for _, d := range r.draws(b.field, []string{b.text}, ledger.ByProduct, s.Weighing) {
			in.Beside = append(in.Beside, ledger.Beside{What: b.what, To: d.Place, Amount: d.Amount})
		}
	}
	if err := r.faults.orNil(); err != nil {
		return malthouse.Done{}, err
	}
	done, s.Came, err = h.Book(ctx, a, e, in)
	return done, err
}

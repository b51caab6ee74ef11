package slip

import (
	"context"

	"awn/internal/malthouse"
	"awn/ledger"
)

// Intend is a piece that is to be cast.
type Intend struct {
	Begin    string `required:"" placeholder:"WHEN" help:"When it is to be cast, as in 2026-12-01 06:00."`
	Plan     string `placeholder:"PLAN" help:"The plan it follows: one that the house keeps, by its name; on the command line also a piece as “awn malt” reads it, PIECE.yaml."`
	Vessel   string `placeholder:"NAME" help:"Where it is steeped; that of the plan without it."`
	Box      string `placeholder:"NAME" help:"Where it germinates; that of the plan without it."`
	Kiln     string `placeholder:"NAME" help:"Where it is kilned; that of the plan without it."`
	Order    string `placeholder:"TEXT" help:"The order or the contract that it is for."`
	Due      string `placeholder:"WHEN" help:"When that is to be ready, as in 2026-12-24."`
	Replaces string `placeholder:"UUID" help:"The intention that this one takes the place of."`
	Note     string `placeholder:"TEXT" help:"Anything else."`

	Expected *malthouse.Plan `kong:"-"` // what it should give; nil takes the plan that is kept
}

// Use is to intend.
func (*Intend) Use() malthouse.Use { return malthouse.UseIntend }

// Enter enters the intention.
func (s *Intend) Enter(ctx context.Context, h *malthouse.House, a malthouse.Actor, e malthouse.Entry) (malthouse.Done, error) {
	var faults Faults
	moment := func(field, text string) ledger.Time {
		if text == "" {
			return 0
		}
		t, err := Moment(text, h.Clock().In(h.Zone))
		if err != nil {
			faults.add(field, "slip.time.form", text, "2026-12-01 06:00")
		}
		return ledger.Time(t.UnixMilli())
	}
	in := &ledger.Intention{
		Begin: moment("begin", s.Begin), Vessel: s.Vessel, Box: s.Box, Kiln: s.Kiln, Name: s.Plan,
		Order: s.Order, Due: moment("due", s.Due), Replaces: ledger.FactID(s.Replaces), Note: s.Note,
	}
	if err := faults.orNil(); err != nil {
		return malthouse.Done{}, err
	}
	return h.Intend(ctx, a, e, in, s.Expected)
}

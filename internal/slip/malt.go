package slip

import (
	"context"

	"awn/internal/malthouse"
	"awn/ledger"
)

// Blend is one lot made of several.
type Blend struct {
	Weighing
	From []string `required:"" sep:"none" placeholder:"“PLACE MASS”" help:"A part, as in “M1 20 t”; at least two."`
	To   string   `required:"" placeholder:"PLACE" help:"Where the blend lies: M3."`
	Lot  string   `placeholder:"CODE" help:"The house's own code of the blend; the next of the year without it."`
	Note string   `placeholder:"TEXT" help:"Anything else."`
}

// Use is to blend.
func (*Blend) Use() malthouse.Use { return malthouse.UseBlend }

// Enter makes the blend.
func (s *Blend) Enter(ctx context.Context, h *malthouse.House, a malthouse.Actor, e malthouse.Entry) (malthouse.Done, error) {
	var r reader
	in := &ledger.Blending{Lot: Code(s.Lot), To: Place(s.To, ledger.MaltStore), From: r.draws("from", s.From, ledger.MaltStore, s.Weighing), Note: s.Note}
	if err := r.faults.orNil(); err != nil {
		return malthouse.Done{}, err
	}
	return h.Blend(ctx, a, e, in)
}

// Ship is a load that went out.
type Ship struct {
	Receiver string `arg:"" placeholder:"RECEIVER" help:"Who gets it."`
	Weighing
	From     []string `required:"" sep:"none" placeholder:"“PLACE MASS”" help:"What is loaded, as in “M1 27 t”; may be given several times."`
	Shipment string   `placeholder:"CODE" help:"The house's own code; the next of the year without it."`
	Vehicle  string   `placeholder:"NAME" help:"Number plate or name."`
	Seal     string   `placeholder:"NUMBER" help:"Seal of the load."`
	Against  string   `name:"although-held" placeholder:"TEXT" help:"Why malt on hold goes all the same; for a manager."`
	Note     string   `placeholder:"TEXT" help:"Anything else."`
}

// Use is to ship.
func (*Ship) Use() malthouse.Use { return malthouse.UseShip }

// Enter sends the load out.
func (s *Ship) Enter(ctx context.Context, h *malthouse.House, a malthouse.Actor, e malthouse.Entry) (malthouse.Done, error) {
	var r reader
	in := &ledger.Shipping{
		Shipment: Code(s.Shipment), Receiver: s.Receiver, From: r.draws("from", s.From, ledger.MaltStore, s.Weighing),
		Vehicle: s.Vehicle, Seal: s.Seal, Note: s.Note,
	}
	if err := r.faults.orNil(); err != nil {
		return malthouse.Done{}, err
	}
	return h.Ship(ctx, a, e, in, s.Against)
}

// Return is a load that came back.
type Return struct {
	Shipment string `arg:"" placeholder:"SHIPMENT" help:"Code of the load."`
	Mass     string `arg:"" placeholder:"MASS" help:"What comes back."`
	Weighing
	To     string `required:"" placeholder:"PLACE" help:"Where it goes: M9."`
	Reason string `required:"" placeholder:"TEXT" help:"Why."`
}

// Use is to take back.
func (*Return) Use() malthouse.Use { return malthouse.UseReturn }

// Enter takes the load back.
func (s *Return) Enter(ctx context.Context, h *malthouse.House, a malthouse.Actor, e malthouse.Entry) (malthouse.Done, error) {
	var r reader
	in := &ledger.Return{Shipment: Bare(s.Shipment), To: Place(s.To, ledger.MaltStore), Amount: r.amount("mass", s.Mass, s.Weighing), Reason: s.Reason}
	if err := r.faults.orNil(); err != nil {
		return malthouse.Done{}, err
	}
	return h.Return(ctx, a, e, in)
}

// things that may be held and released.
var leaving = []string{ledger.LotKind, ledger.DeliveryKind, ledger.Shipment, ledger.Silo, ledger.MaltStore, ledger.ByProduct}

// Release lets something go out.
type Release struct {
	Thing  string `arg:"" placeholder:"WHAT" help:"A lot of malt, a delivery, a place."`
	Reason string `required:"" placeholder:"TEXT" help:"Why it may go."`
}

// Use is to release.
func (*Release) Use() malthouse.Use { return malthouse.UseRelease }

// Enter releases it.
func (s *Release) Enter(ctx context.Context, h *malthouse.House, a malthouse.Actor, e malthouse.Entry) (malthouse.Done, error) {
	of, err := find(ctx, h, s.Thing, leaving...)
	if err != nil {
		return malthouse.Done{}, err
	}
	return h.Release(ctx, a, e, &ledger.Release{Of: of, Reason: s.Reason})
}

// Hold keeps something in.
type Hold struct {
	Thing  string `arg:"" placeholder:"WHAT" help:"A lot of malt, a delivery, a place."`
	Reason string `required:"" placeholder:"TEXT" help:"Why it stays."`
}

// Use is to hold.
func (*Hold) Use() malthouse.Use { return malthouse.UseHold }

// Enter holds it.
func (s *Hold) Enter(ctx context.Context, h *malthouse.House, a malthouse.Actor, e malthouse.Entry) (malthouse.Done, error) {
	of, err := find(ctx, h, s.Thing, leaving...)
	if err != nil {
		return malthouse.Done{}, err
	}
	return h.Hold(ctx, a, e, &ledger.Hold{Of: of, Reason: s.Reason})
}

package cli

import (
	"context"

	"awn/internal/malthouse"
	"awn/ledger"
)

type blendCommand struct {
	entering
	weighing
	From []string `required:"" sep:"none" placeholder:"“PLACE MASS”" help:"A part, as in “M1 20 t”; at least two."`
	To   string   `required:"" placeholder:"PLACE" help:"Where the blend lies: M3."`
	Lot  string   `placeholder:"CODE" help:"The house's own code of the blend; the next of the year without it."`
	Note string   `placeholder:"TEXT" help:"Anything else."`
}

// Help shows how lots are blended.
func (c *blendCommand) Help() string {
	return `  awn blend --from "M1 20 t" --from "M2 10 t" --to M3`
}

// Run makes one lot of several.
func (c *blendCommand) Run(j *job) error {
	from, err := c.draws(c.From, ledger.MaltStore)
	if err != nil {
		return err
	}
	in := &ledger.Blending{Lot: code(c.Lot), To: place(c.To, ledger.MaltStore), From: from, Note: c.Note}
	return c.enter(j, func(ctx context.Context, d *desk, e malthouse.Entry) (malthouse.Done, error) {
		return d.Blend(ctx, d.actor, e, in)
	})
}

type shipCommand struct {
	Receiver string `arg:"" placeholder:"RECEIVER" help:"Who gets it."`
	entering
	weighing
	From     []string `required:"" sep:"none" placeholder:"“PLACE MASS”" help:"What is loaded, as in “M1 27 t”; may be given several times."`
	Shipment string   `placeholder:"CODE" help:"The house's own code; the next of the year without it."`
	Vehicle  string   `placeholder:"NAME" help:"Number plate or name."`
	Seal     string   `placeholder:"NUMBER" help:"Seal of the load."`
	Against  string   `name:"although-held" placeholder:"TEXT" help:"Why malt on hold goes all the same; for a manager."`
	Note     string   `placeholder:"TEXT" help:"Anything else."`
}

// Help shows how a load goes out.
func (c *shipCommand) Help() string {
	return `  awn ship "Tern Rock Brewery" --from "M1 27 t" --vehicle "WN 2231" --seal 88410

Malt on hold stays in. Malt that nobody has released goes, and that is said.`
}

// Run sends a load out.
func (c *shipCommand) Run(j *job) error {
	from, err := c.draws(c.From, ledger.MaltStore)
	if err != nil {
		return err
	}
	in := &ledger.Shipping{Shipment: code(c.Shipment), Receiver: c.Receiver, From: from, Vehicle: c.Vehicle, Seal: c.Seal, Note: c.Note}
	return c.enter(j, func(ctx context.Context, d *desk, e malthouse.Entry) (malthouse.Done, error) {
		return d.Ship(ctx, d.actor, e, in, c.Against)
	})
}

type returnCommand struct {
	Shipment string `arg:"" placeholder:"SHIPMENT" help:"Code of the load."`
	Mass     string `arg:"" placeholder:"MASS" help:"What comes back."`
	entering
	weighing
	To     string `required:"" placeholder:"PLACE" help:"Where it goes: M9."`
	Reason string `required:"" placeholder:"TEXT" help:"Why."`
}

// Help shows how a load comes back.
func (c *returnCommand) Help() string {
	return `  awn return S26-0001 "27 t" --to M9 --reason "wet hatch"`
}

// Run takes a load back.
func (c *returnCommand) Run(j *job) error {
	a, err := c.amount("MASS", c.Mass)
	if err != nil {
		return err
	}
	in := &ledger.Return{Shipment: bare(c.Shipment), To: place(c.To, ledger.MaltStore), Amount: a, Reason: c.Reason}
	return c.enter(j, func(ctx context.Context, d *desk, e malthouse.Entry) (malthouse.Done, error) {
		return d.Return(ctx, d.actor, e, in)
	})
}

type personCommand struct {
	Who string `arg:"" placeholder:"WHO" help:"What they are called at the keyboard, or a short name of a buyer."`
	entering
	Role    string `placeholder:"ROLE" help:"floor, laboratory, intake, planning, sales, manager or auditor (reads only); none for a buyer."`
	Name    string `placeholder:"NAME" help:"Whole name."`
	Contact string `placeholder:"TEXT" help:"How to reach them: a recall asks for it."`
}

// Help shows how people are made known.
func (c *personCommand) Help() string {
	return `  awn person anna --role laboratory --name "Anna Reed"
  awn person ternrock --name "Tern Rock Brewery" --contact "+44 0000 1"

Roles are on record; names and contacts are kept beside it, and can be removed.`
}

// Run makes somebody known.
func (c *personCommand) Run(j *job) error {
	p := malthouse.Person{ID: c.Who, Name: c.Name, Role: malthouse.Role(c.Role), Contact: c.Contact}
	return c.enter(j, func(ctx context.Context, d *desk, e malthouse.Entry) (malthouse.Done, error) {
		return d.Admit(ctx, d.actor, e, p)
	})
}

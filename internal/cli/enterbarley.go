package cli

import (
	"context"

	"awn/intake"
	"awn/internal/malthouse"
	"awn/internal/paper"
	"awn/ledger"
)

type receiveCommand struct {
	Load string `arg:"" optional:"" placeholder:"LOAD.yaml" help:"A load, as “awn grade” reads it; what was found of it is recorded too."`
	entering
	weighing
	Net     string `placeholder:"MASS" help:"Net weight, as in 28.1 t."`
	Gross   string `placeholder:"MASS" help:"The vehicle full, in place of the net weight."`
	Tare    string `placeholder:"MASS" help:"And empty."`
	Silo    string `placeholder:"SILO" required:"" help:"Where it goes: B7."`
	Lot     string `placeholder:"CODE" help:"The house's own code; the next of the year without it."`
	Grower  string `placeholder:"NAME" help:"Who grew it."`
	Grown   string `placeholder:"WHERE" help:"Field and place."`
	Variety string `placeholder:"NAME" help:"Variety."`
	Crop    int64  `placeholder:"YEAR" help:"Year of harvest."`
	Ticket  string `placeholder:"NUMBER" help:"Number of the weighbridge ticket."`
	Vehicle string `placeholder:"NAME" help:"Number plate or name."`
	Note    string `placeholder:"TEXT" help:"Anything else."`
}

// Help shows how a load is received.
func (c *receiveCommand) Help() string {
	return `  awn receive --net "28.1 t" --moisture "13.2 % wb" --silo B7
  awn receive --gross "44.6 t" --tare "16.5 t" --moisture "13 % wb" --silo B7
  awn receive load.yaml --silo 3

Enters a load of barley. A load document gives weight, moisture, variety and
what was found; flags go before it.`
}

// Run receives a load.
func (c *receiveCommand) Run(j *job) error {
	in, found, err := c.receipt(j)
	if err != nil {
		return err
	}
	return c.enter(j, func(ctx context.Context, d *desk, e malthouse.Entry) (malthouse.Done, error) {
		return d.Receive(ctx, d.actor, e, in, found...)
	})
}

// receipt is the load that flags and document give.
func (c *receiveCommand) receipt(j *job) (*ledger.Receipt, []ledger.Figure, error) {
	in := &ledger.Receipt{
		Lot: code(c.Lot), To: place(c.Silo, ledger.Silo), Grower: c.Grower, Grown: c.Grown, Variety: c.Variety,
		Crop: c.Crop, Ticket: c.Ticket, Vehicle: c.Vehicle, Note: c.Note,
	}
	var found []ledger.Figure
	if c.Load != "" {
		d, _, err := loadDocument(j, c.Load, "", paper.LoadTicket)
		if err != nil {
			return nil, nil, err
		}
		if found, err = c.fromLoad(in, &d.Load); err != nil {
			return nil, nil, err
		}
	}
	switch {
	case c.Gross != "" && c.Tare != "":
		gross, err := grams("--gross", c.Gross)
		if err != nil {
			return nil, nil, err
		}
		tare, err := grams("--tare", c.Tare)
		if err != nil {
			return nil, nil, err
		}
		if tare > gross {
			return nil, nil, &lineError{"--tare: the empty vehicle weighs more than the full one."}
		}
		in.GrossKg, in.TareKg = &gross, &tare
		if c.Net == "" {
			c.Net = string(must(gross-tare)) + " kg"
		}
	case c.Gross != "" || c.Tare != "":
		return nil, nil, &lineError{"--gross and --tare go together."}
	}
	if c.Net == "" {
		return nil, nil, &lineError{"the weight is missing: give --net, or --gross and --tare, or a load document."}
	}
	a, err := c.amount("--net", c.Net)
	in.Amount = a
	return in, found, err
}

// must writes a mass in kg; a whole number of grams always can be.
func must(g ledger.Grams) []byte {
	text, _ := g.MarshalJSON()
	return text
}

// fromLoad fills in what a load document says, where no flag says otherwise.
func (c *receiveCommand) fromLoad(in *ledger.Receipt, l *intake.Load) ([]ledger.Figure, error) {
	if in.Lot == "" {
		in.Lot = ledger.Code(l.Code)
	}
	if in.Variety == "" {
		in.Variety = l.Variety
	}
	if c.Net == "" && c.Gross == "" && l.NetKg > 0 {
		c.Net = decimal(l.NetKg) + " kg"
	}
	var found []ledger.Figure
	for _, k := range []struct {
		factor   intake.Factor
		quantity ledger.Quantity
		over     float64
	}{
		{intake.Moisture, "moisture_wb", 1}, {intake.Protein, "protein_dm", 1}, {intake.TestWeight, "test_weight_kg_hl", 1},
		{intake.FallingNumber, "falling_number_s", 1}, {intake.DON, "don_mg_kg_asis", 1e6},
	} {
		r, ok := l.Readings[k.factor]
		if !ok || !r.Value.Known() {
			continue
		}
		found = append(found, ledger.Figure{Quantity: k.quantity, Value: tidy(r.Value.Mid * k.over)})
		if k.factor == intake.Moisture && c.Moisture == "" {
			c.Moisture = decimal(100*tidy(r.Value.Mid)) + " % wb"
		}
	}
	return found, nil
}

type moveCommand struct {
	From string `arg:"" placeholder:"FROM" help:"Where it lies: B7, malt:M1."`
	To   string `arg:"" placeholder:"TO" help:"Where it goes."`
	Mass string `arg:"" placeholder:"MASS" help:"How much, as in “12 t”."`
	entering
	weighing
	Note string `placeholder:"TEXT" help:"Anything else."`
}

// Help shows how grain is moved.
func (c *moveCommand) Help() string {
	return `  awn move B7 B8 "12 t"
  awn move malt:M1 malt:M2 "9.2 t" --estimated

A code without its kind is the place of that code that the record knows, or a
new silo; new malt stores are written malt:CODE, those of by-products
byproduct:CODE.`
}

// Run moves grain.
func (c *moveCommand) Run(j *job) error {
	a, err := c.amount("MASS", c.Mass)
	if err != nil {
		return err
	}
	return c.enter(j, func(ctx context.Context, d *desk, e malthouse.Entry) (malthouse.Done, error) {
		from, err := d.placed(ctx, c.From, ledger.Silo)
		if err != nil {
			return malthouse.Done{}, err
		}
		to, err := d.placed(ctx, c.To, from.Kind())
		if err != nil {
			return malthouse.Done{}, err
		}
		return d.Move(ctx, d.actor, e, &ledger.Move{From: from, To: to, Amount: a, Note: c.Note})
	})
}

type countCommand struct {
	Place string `arg:"" placeholder:"PLACE" help:"What was counted: B7, malt:M1."`
	Mass  string `arg:"" placeholder:"MASS" help:"What is there, as in “12 t”."`
	entering
	weighing
	Reason  string `required:"" placeholder:"TEXT" help:"Why it was counted."`
	Against string `enum:"unexplained,adjustment,dust" default:"unexplained" placeholder:"WHICH" help:"Where the difference goes: unexplained, adjustment (the cause is known) or dust."`
	Lot     string `placeholder:"CODE" help:"What opening stock is called, so that it can be traced."`
}

// Help shows how stock is counted and opened.
func (c *countCommand) Help() string {
	return `  awn count B7 "0 t" --reason "emptied and swept"
  awn count malt:M1 "12 t" --moisture "5 % wb" --against adjustment \
      --lot M25-0390 --reason "opening stock"

Sets the book of a place to what is there. What the book cannot explain is
said with its odds, and is an alarm from 1 % of what went through.`
}

// Run counts a place.
func (c *countCommand) Run(j *job) error {
	a, err := c.amount("MASS", c.Mass)
	if err != nil {
		return err
	}
	return c.enter(j, func(ctx context.Context, d *desk, e malthouse.Entry) (malthouse.Done, error) {
		at, err := d.placed(ctx, c.Place, ledger.Silo)
		if err != nil {
			return malthouse.Done{}, err
		}
		return d.Count(ctx, d.actor, e, malthouse.Count{Place: at, Counted: a, Against: ledger.Against(c.Against), Lot: code(c.Lot), Reason: c.Reason})
	})
}

package cli

import (
	"context"
	"io"
	"time"

	"awn/internal/house"
	"awn/internal/malthouse"
	"awn/internal/report"
	"awn/internal/slip"
	"awn/internal/table"
	"awn/ledger"
)

// record is how answers are written for the reader.
func (d *desk) record() report.RecordText {
	v := house.ReadVersion()
	return report.RecordText{Units: d.units, Stamp: "awn " + v.Release}
}

type stockCommand struct {
	recorded
}

// Help says what stock is.
func (c *stockCommand) Help() string {
	return `  awn stock
  awn stock --json

What the house holds and where, by the book, each malt store by its lots; places
that are overdrawn; what is unexplained, with its odds; what rests on an entry
that was struck.`
}

// Run says what the house holds.
func (c *stockCommand) Run(j *job) error {
	return c.ask(j, func(ctx context.Context, d *desk) error {
		s, err := d.Stock(ctx, d.actor)
		if err != nil {
			return err
		}
		if c.JSON {
			return report.StockJSON(j.out, s, house.ReadVersion())
		}
		return d.record().Stock(j.out, s)
	})
}

type pieceCommand struct {
	Piece string `arg:"" placeholder:"PIECE" help:"Code of the piece."`
	recorded
}

// Help says what is told of a piece.
func (c *pieceCommand) Help() string {
	return `  awn piece P26-0001

All that the record says of a piece: what was done, by whom and when, readings,
what came of it beside what was expected, where its barley grew and where its
malt is.`
}

// Run tells a piece.
func (c *pieceCommand) Run(j *job) error {
	return c.ask(j, func(ctx context.Context, d *desk) error {
		p, err := d.Piece(ctx, d.actor, slip.Bare(c.Piece))
		if err != nil {
			return err
		}
		if c.JSON {
			return report.PieceJSON(j.out, p, house.ReadVersion())
		}
		if err := d.record().Piece(j.out, p); err != nil {
			return err
		}
		t, err := d.Trace(ctx, d.actor, ledger.In(ledger.Piece, p.Piece).Ref(), ledger.AsEntered)
		if err != nil {
			return err
		}
		return d.record().Trace(j.out, t, false)
	})
}

type traceCommand struct {
	Thing string `arg:"" placeholder:"WHAT" help:"A delivery, a lot of malt, a piece, a shipment, a silo."`
	recorded
	Recall     bool `help:"Say whom to call, about how many kilograms."`
	AsHappened bool `help:"In the order in which things happened, in place of that in which they were entered."`
}

// Help says what a trace is.
func (c *traceCommand) Help() string {
	return `  awn trace S26-0001               where it came from
  awn trace L26-0417 --recall      who holds some of it

Both ways, each share with the least and the most that it can be: silos mix, or
give first what came first, as “awn decide” says of each. A recall looks at both
orders, as entered and with --as-happened.`
}

// Run traces a thing.
func (c *traceCommand) Run(j *job) error {
	return c.ask(j, func(ctx context.Context, d *desk) error {
		of, err := malthouse.Find(ctx, d.Store.Read(d.Code), c.Thing)
		if err != nil {
			return err
		}
		order := ledger.AsEntered
		if c.AsHappened {
			order = ledger.AsHappened
		}
		t, err := d.Trace(ctx, d.actor, of, order)
		if err != nil {
			return err
		}
		if c.JSON {
			return report.TraceJSON(j.out, t, house.ReadVersion())
		}
		return d.record().Trace(j.out, t, c.Recall)
	})
}

type balanceCommand struct {
	recorded
	From string `required:"" placeholder:"DAY" help:"First day, 2026-11-01."`
	To   string `required:"" placeholder:"DAY" help:"Last day."`
	CSV  bool   `help:"Write rows in kg."`
	XLSX string `name:"xlsx" placeholder:"FILE" help:"Write a workbook."`
}

// Help says what a balance is.
func (c *balanceCommand) Help() string {
	return `  awn balance --from 2026-11-01 --to 2026-11-30
  awn balance --from 2026-01-01 --to 2026-12-31 --xlsx year.xlsx

Barley in, malt out, culms, losses by cause, water, change of stock and what is
unexplained, in dry matter and water, closing to the gram.`
}

// Run adds up a period.
func (c *balanceCommand) Run(j *job) error {
	return c.ask(j, func(ctx context.Context, d *desk) error {
		from, err := day("--from", c.From, d.Zone)
		if err != nil {
			return err
		}
		to, err := day("--to", c.To, d.Zone)
		if err != nil {
			return err
		}
		b, err := d.Balance(ctx, d.actor, from, to.AddDate(0, 0, 1))
		if err != nil {
			return err
		}
		return c.write(j, d, b)
	})
}

func (c *balanceCommand) write(j *job, d *desk, b malthouse.Balance) error {
	page := report.BalancePage(b)
	if err := writeFile(j, c.XLSX, "workbook", func(w io.Writer) error { return table.WriteXLSX(w, page) }); err != nil {
		return err
	}
	switch {
	case c.JSON:
		return report.BalanceJSON(j.out, b, house.ReadVersion())
	case c.CSV:
		return table.WriteCSV(j.out, page)
	}
	return d.record().Balance(j.out, b)
}

// day reads a day by the calendar of the house.
func day(flag, text string, zone *time.Location) (time.Time, error) {
	t, err := time.ParseInLocation(time.DateOnly, text, zone)
	if err != nil {
		return t, &lineError{flag + ": “" + text + "” is not a day; write 2026-11-25."}
	}
	return t, nil
}

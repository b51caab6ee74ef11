package cli

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"awn/course"
	"awn/examples"
	"awn/internal/expect"
	"awn/internal/house"
	"awn/internal/malthouse"
	"awn/internal/report"
	"awn/internal/slip"
	"awn/ledger"
)

// sheets makes documents of the record.
func (d *desk) sheets() report.Sheets {
	return report.Sheets{House: d.Row.Name, Zone: d.Zone, Units: d.units, Version: house.ReadVersion(), At: d.Clock()}
}

// write writes a document as text, and as sheets if that was asked for.
func (p printing) write(j *job, l report.Leaf, what string) error {
	if err := writeFile(j, p.PDF, what, func(w io.Writer) error { return l.PDF(w, p.paper()) }); err != nil {
		return err
	}
	return l.Text(j.out)
}

type dueCommand struct {
	recorded
	printing
	For    string `placeholder:"ROLE" help:"Only what is for this role."`
	Within int    `default:"1" placeholder:"DAYS" help:"How many days ahead."`
}

// Help says what comes due, and how it is settled.
func (c *dueCommand) Help() string {
	return `  awn due
  awn due --for laboratory --within 7
  awn config due.silo-temperature 7     every 7 days; 0 is never
  awn decide silo:B7 --decision "due silo-temperature" --reason "probe is out"

What comes due by itself, worked out from the record: it is settled by the entry
that does it, or by a decision with a reason. Usual intervals are common
practice.`
}

// Run says what comes due.
func (c *dueCommand) Run(j *job) error {
	return c.ask(j, func(ctx context.Context, d *desk) error {
		all, err := d.Due(ctx, d.actor, time.Duration(c.Within)*24*time.Hour)
		if err != nil {
			return err
		}
		var mine []malthouse.Reminder
		for _, r := range all {
			if c.For == "" || string(r.For) == c.For {
				mine = append(mine, r)
			}
		}
		if c.JSON {
			return report.DueJSON(j.out, mine, house.ReadVersion())
		}
		return c.write(j, d.sheets().Due(mine), "list")
	})
}

type closeCommand struct {
	Day string `arg:"" optional:"" placeholder:"DAY" help:"The day, 2026-11-24; today without it."`
	entering
	printing
}

// Help says what a close is.
func (c *closeCommand) Help() string {
	return `  awn close
  awn close 2026-11-24 --pdf close.pdf

Closes a day: what the house holds, what is out of line, what is under way and
late, and the end of the record. Readings are sealed, and those older than “awn
config readings.keep DAYS” rolled up. Keep the page: a record that was restored
and went on has another end, and “awn verify --head” tells.`
}

// Run closes a day.
func (c *closeCommand) Run(j *job) error {
	return c.use(j, func(ctx context.Context, d *desk, e malthouse.Entry) (malthouse.Done, error) {
		date := d.Clock().In(d.Zone)
		if c.Day != "" {
			var err error
			if date, err = day("DAY", c.Day, d.Zone); err != nil {
				return malthouse.Done{}, err
			}
		}
		if _, rolled, err := d.Rest(ctx, d.actor); err != nil {
			return malthouse.Done{}, err
		} else if rolled > 0 {
			j.note("awn: old readings were rolled up: %d.", rolled)
		}
		closed, err := d.Day(ctx, d.actor, date)
		if err != nil {
			return malthouse.Done{}, err
		}
		l := d.sheets().Day(closed)
		var page strings.Builder
		if err := l.Text(&page); err != nil {
			return malthouse.Done{}, err
		}
		done, err := d.CloseDay(ctx, d.actor, e, closed.Date, []byte(page.String()))
		if err != nil || c.JSON {
			return done, err
		}
		return done, c.write(j, l, "page")
	})
}

type handoverCommand struct {
	entering
	printing
	Hours int    `default:"8" placeholder:"HOURS" help:"How long the shift was."`
	Note  string `placeholder:"TEXT" help:"What the next shift must know."`
	Give  bool   `xor:"sign" help:"Sign it, as whoever leaves."`
	Take  bool   `xor:"sign" help:"Sign the one that waits, as somebody of the next shift."`
}

// Help says how a shift is handed over.
func (c *handoverCommand) Help() string {
	return `  awn handover --pdf handover.pdf
  awn handover --give --note "fan of box 2 rattles" --as osk
  awn handover --take --as bran

One page: what is under way and what it asks for next, what is held or out of
line, what comes due, what was done. Two people sign it.`
}

// Run writes a handover, and signs it.
func (c *handoverCommand) Run(j *job) error {
	if c.Take {
		return c.use(j, func(ctx context.Context, d *desk, e malthouse.Entry) (malthouse.Done, error) {
			return d.TakeShift(ctx, d.actor, e)
		})
	}
	if !c.Give {
		return c.ask(j, func(ctx context.Context, d *desk) error {
			l, err := c.leaf(ctx, d)
			if err != nil {
				return err
			}
			return c.write(j, l, "page")
		})
	}
	return c.use(j, func(ctx context.Context, d *desk, e malthouse.Entry) (malthouse.Done, error) {
		l, err := c.leaf(ctx, d)
		if err != nil {
			return malthouse.Done{}, err
		}
		var page strings.Builder
		if err := l.Text(&page); err != nil {
			return malthouse.Done{}, err
		}
		done, err := d.GiveShift(ctx, d.actor, e, c.Note, []byte(page.String()))
		if err != nil || c.JSON {
			return done, err
		}
		return done, c.write(j, l, "page")
	})
}

// leaf gathers the page.
func (c *handoverCommand) leaf(ctx context.Context, d *desk) (report.Leaf, error) {
	x, err := d.Shift(ctx, d.actor, d.Clock().Add(-time.Duration(c.Hours)*time.Hour))
	if err != nil {
		return report.Leaf{}, err
	}
	if c.Note != "" {
		x.Notes = []string{c.Note}
	}
	ahead, err := d.ahead(ctx, x.Pieces)
	return d.sheets().Shift(x, ahead), err
}

type assuranceCommand struct {
	Piece string `arg:"" optional:"" placeholder:"PIECE" help:"Code of the piece."`
	recorded
	printing
	Points string `placeholder:"FILE.yaml" help:"Control points, in place of those that the house keeps."`
	Keep   bool   `help:"Keep them as those of the house."`
	From   string `placeholder:"DAY" help:"Pieces cast from this day, in place of one."`
	To     string `placeholder:"DAY" help:"And until this day."`
}

// Help says what is assured.
func (c *assuranceCommand) Help() string {
	return `  awn assurance P26-0001 --points control-points.yaml --keep
  awn assurance P26-0002
  awn assurance --from 2026-01-01 --to 2026-03-31 --pdf quarter.pdf

Sets what was measured beside the limits of each control point, for the barley
behind a piece, the piece, its malt and its loads: what was not measured, what
was beyond its limit, and what was decided. It clears nothing: limits and
decisions are the house's own, under the law of the place.`
}

// Run writes the account of control points.
func (c *assuranceCommand) Run(j *job) error {
	return c.ask(j, func(ctx context.Context, d *desk) error {
		plan, points, err := c.points(ctx, d)
		if err != nil {
			return err
		}
		codes := []ledger.Code{slip.Bare(c.Piece)}
		if c.Piece == "" {
			if codes, err = c.span(ctx, d); err != nil {
				return err
			}
		}
		var all []malthouse.Assurance
		for _, code := range codes {
			a, err := d.Assure(ctx, d.actor, code, points)
			if err != nil {
				return err
			}
			all = append(all, a)
		}
		if c.JSON {
			return report.AssuranceJSON(j.out, all, house.ReadVersion())
		}
		return c.write(j, d.sheets().Assurance(plan, all), "account")
	})
}

// span is the pieces of a stretch of days.
func (c *assuranceCommand) span(ctx context.Context, d *desk) ([]ledger.Code, error) {
	if c.From == "" || c.To == "" {
		return nil, &lineError{"name a piece, or the days with --from and --to."}
	}
	from, err := day("--from", c.From, d.Zone)
	if err != nil {
		return nil, err
	}
	to, err := day("--to", c.To, d.Zone)
	if err != nil {
		return nil, err
	}
	return d.PiecesOf(ctx, d.actor, from, to.AddDate(0, 0, 1))
}

// points are the control points of a file, or those that the house keeps. The
// file is kept as the house's own if that was asked for.
func (c *assuranceCommand) points(ctx context.Context, d *desk) (plan string, points []malthouse.ControlPoint, err error) {
	if c.Points == "" {
		plan, points, found, err := slip.HousePoints(ctx, d.House, d.actor)
		if err == nil && !found {
			err = &refusal{fmt.Errorf("this house keeps no control points: give them with --points, and --keep to keep them; %s is an example to start from (awn init)", examples.FirstPoints)}
		}
		return plan, points, err
	}
	if err := readable(c.Points); err != nil {
		return "", nil, err
	}
	text, err := os.ReadFile(c.Points)
	if err != nil {
		return "", nil, err
	}
	if plan, points, err = slip.Points(c.Points, text); err != nil || !c.Keep {
		return plan, points, err
	}
	_, err = d.House.Keep(ctx, d.actor, malthouse.Entry{}, malthouse.ControlPoints, filepath.Base(c.Points), text)
	return plan, points, err
}

type complaintCommand struct {
	Lot    string   `arg:"" placeholder:"LOT" help:"The lot of malt."`
	Claims []string `arg:"" placeholder:"“NAME VALUE”" help:"What is said of it, as in “moisture 6.1 % wb”."`
	recorded
	printing
}

// Help says what evidence there is.
func (c *complaintCommand) Help() string {
	return `  awn complaint M26-0001 "moisture 6.1 % wb" "extract_fine 79.8 % dm"

What the record holds on it: what was found here and whether the bench was
steady then, how often two laboratories differ by as much, the sample that was
kept, who else has some of the lot, and what else came out of the same vessels.`
}

// Run gathers the evidence.
func (c *complaintCommand) Run(j *job) error {
	claims, err := slip.Figures("“NAME VALUE”", c.Claims, "")
	if err != nil {
		return &lineError{err.Error()}
	}
	return c.ask(j, func(ctx context.Context, d *desk) error {
		found, err := d.Complain(ctx, d.actor, slip.Bare(c.Lot), claims)
		if err != nil {
			return err
		}
		if c.JSON {
			return report.ComplaintJSON(j.out, found, house.ReadVersion())
		}
		return c.write(j, d.sheets().Complaint(found), "sheet")
	})
}

// ahead is what the programmes of pieces ask for. It follows the middle of each
// plan, for which one draw is enough.
func (d *desk) ahead(ctx context.Context, pieces []malthouse.PieceLine) ([]expect.Coming, error) {
	var all []expect.Forecast
	for _, p := range pieces {
		v, err := d.Piece(ctx, d.actor, p.Code)
		if err != nil {
			return nil, err
		}
		plan, err := d.Plan(ctx, d.actor, p.Code)
		if err != nil {
			return nil, err
		}
		piece, found, err := expect.Piece(ctx, d.House, plan)
		if err != nil {
			return nil, err
		}
		if !found {
			continue
		}
		drawn, err := expect.Draw(ctx, piece, 1, 1, nil)
		if err != nil {
			return nil, err
		}
		all = append(all, expect.Anew(v, drawn, d.Clock().In(d.Zone), (*course.Ensemble).Given))
	}
	return expect.Ahead(report.MostAhead, all...), nil
}

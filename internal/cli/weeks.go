package cli

import (
	"context"
	"runtime"
	"time"

	"awn/course"
	"awn/internal/expect"
	"awn/internal/house"
	"awn/internal/malthouse"
	"awn/internal/report"
)

type weeksCommand struct {
	recorded
	From  string `placeholder:"DAY" help:"First day; the Monday of last week without it."`
	Weeks int    `default:"6" placeholder:"N" help:"How many weeks."`
	Draws int    `default:"0" placeholder:"N" help:"Draw each plan so often, for odds; by the plans alone without it."`
}

// Help shows how the weeks are asked for.
func (c *weeksCommand) Help() string {
	return `  awn weeks
  awn weeks --from 2026-12-01 --weeks 8 --draws 200

Every piece on its way through the vessels: what was done, what is under way and
what is intended (“awn intend”). Says when each order is ready beside when it is
due, names every vessel that is booked twice, and the next steep that is free.`
}

// Run tells the weeks.
func (c *weeksCommand) Run(j *job) error {
	if c.Weeks < 1 {
		return &lineError{"--weeks is a number from 1 on."}
	}
	return c.ask(j, func(ctx context.Context, d *desk) error {
		now := d.Clock().In(d.Zone)
		from := time.Date(now.Year(), now.Month(), now.Day()-7-(int(now.Weekday())+6)%7, 0, 0, 0, 0, d.Zone)
		if c.From != "" {
			var err error
			if from, err = day("--from", c.From, d.Zone); err != nil {
				return err
			}
		}
		weeks, err := expect.Through(ctx, d.House, d.actor, from, from.AddDate(0, 0, 7*c.Weeks), c.drawn(d), (*course.Ensemble).Given)
		if err != nil {
			return err
		}
		account := report.WeeksAccount{Weeks: weeks, Units: d.units}
		if c.JSON {
			return account.JSON(j.out, house.ReadVersion())
		}
		return account.Text(j.out)
	})
}

// drawn draws each plan once.
func (c *weeksCommand) drawn(d *desk) expect.Drawn {
	made := map[string]*course.Ensemble{}
	return func(ctx context.Context, p *malthouse.Plan) (*course.Ensemble, error) {
		key := ""
		for _, in := range p.Inputs {
			key += in.SHA256
		}
		if made[key] != nil || c.Draws == 0 || key == "" {
			return made[key], nil
		}
		piece, found, err := expect.Piece(ctx, d.House, p)
		if err != nil || !found {
			return nil, err
		}
		made[key], err = expect.Draw(ctx, piece, c.Draws, runtime.GOMAXPROCS(0), nil)
		return made[key], err
	}
}

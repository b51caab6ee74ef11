package malthouse

import (
	"context"
	"encoding/hex"
	"fmt"
	"time"

	"awn/ledger"
)

// Closing is a day as it was closed.
type Closing struct {
	Day    string // 2026-11-25
	Stock  Stock  // what the house held when it was closed, with the end of the record before
	Pieces []Held // pieces that are under way
	Holds  []ledger.Ref
	Before []int64 // entries that closed the same day before
	Seals  int     // of readings, put on record
	Rolled int64   // readings that were rolled up
	Fact   ledger.Fact
}

// dayClosed begins the decision that closes a day.
const dayClosed = "day closed "

// Close closes a day: seals the readings, rolls up old ones, and enters the end
// of the record with what the house holds. A day may be closed again; the
// record then says so. The end, printed and kept elsewhere, shows a record that
// was restored and went on another way.
func (h *House) Close(ctx context.Context, a Actor, day time.Time) (c Closing, err error) {
	if err := a.Permit(UseClose); err != nil {
		return c, err
	}
	c.Day = day.In(h.Zone).Format(time.DateOnly)
	if day.After(h.Clock()) {
		return c, refuse("use.day.future", c.Day)
	}
	if err := h.Sensors.Close(ctx); err != nil {
		return c, err
	}
	if c.Seals, err = h.seal(ctx, a); err != nil {
		return c, err
	}
	if c.Rolled, err = h.rollUp(ctx); err != nil {
		return c, err
	}
	body := &ledger.Decision{Decision: dayClosed + c.Day}
	done, err := h.enter(ctx, a, UseClose, Entry{}, body, steps{
		complete: func(ctx context.Context, d *desk) error {
			if err := d.gather(ctx, &c); err != nil {
				return err
			}
			head := c.Stock.Head
			body.Reason = fmt.Sprintf("head %d:%s", head.Seq, hex.EncodeToString(head.Hash[:]))
			return nil
		},
	})
	c.Fact = done.Fact
	return c, err
}

// gather is what stands on the page, read under the lock, so that the end of
// the record and the stock are of one moment.
func (d *desk) gather(ctx context.Context, c *Closing) (err error) {
	if c.Stock, err = d.house.stock(ctx, d); err != nil {
		return err
	}
	all, facts, err := bodies[*ledger.Decision](ctx, d, "", ledger.Decided)
	if err != nil {
		return err
	}
	for i, b := range all {
		if b.Decision == dayClosed+c.Day {
			c.Before = append(c.Before, facts[i].Seq)
		}
	}
	for _, p := range c.Stock.Places {
		if p.Account.Kind() == ledger.Piece {
			c.Pieces = append(c.Pieces, p)
		}
	}
	for _, kind := range kindOrder {
		things, err := d.Subjects(ctx, kind)
		if err != nil {
			return err
		}
		for _, s := range things {
			if s.Leave == ledger.OnHold {
				c.Holds = append(c.Holds, s.Ref)
			}
		}
	}
	return nil
}

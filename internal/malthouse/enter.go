package malthouse

import (
	"context"
	"crypto/sha256"
	"errors"
	"io"
	"time"

	"awn/ledger"
)

// desk is a use at work: the record under its lock, and what was entered with
// the same id before, if it was.
type desk struct {
	ledger.Writer
	house *House
	actor Actor
	id    string
	at    time.Time
	was   ledger.Body // of the fact with this id, nil if there is none
	notes []Said
}

// enter takes a use: checks the right, lets complete finish the body under the
// lock, appends it, and lets after append what goes with it.
func (h *House) enter(ctx context.Context, a Actor, u Use, e Entry, body ledger.Body, steps steps) (done Done, err error) {
	if err := a.Permit(u); err != nil {
		return Done{}, err
	}
	id, err := h.id(e.ID)
	if err != nil {
		return Done{}, err
	}
	err = h.Store.Write(ctx, h.Code, func(w ledger.Writer) error {
		d := &desk{Writer: w, house: h, actor: a, id: id, at: e.At}
		if err := d.look(ctx); err != nil {
			return err
		}
		if steps.complete != nil {
			if err := steps.complete(ctx, d); err != nil {
				return err
			}
		}
		f, err := d.append(ctx, id, body)
		if err != nil {
			return err
		}
		done = Done{Fact: f, Again: d.was != nil}
		if steps.after != nil {
			if err := steps.after(ctx, d, f); err != nil {
				return err
			}
		}
		done.Notes = d.notes
		return nil
	})
	if err != nil {
		return Done{}, err
	}
	if steps.said != nil {
		done.Said = steps.said()
	}
	return done, nil
}

// steps are what one use does beside appending its fact.
type steps struct {
	complete func(context.Context, *desk) error
	after    func(context.Context, *desk, ledger.Fact) error
	said     func() Said
}

// look finds what was entered with the same id before.
func (d *desk) look(ctx context.Context) error {
	there, found, err := d.Fact(ctx, d.id)
	if err != nil || !found {
		if d.at.IsZero() {
			d.at = d.house.Clock()
		}
		return err
	}
	if d.at.IsZero() {
		d.at = time.UnixMilli(there.At)
	}
	d.was, err = ledger.Decode(there.Kind, there.Schema, there.Body)
	return err
}

// append puts a body into its envelope and appends it.
func (d *desk) append(ctx context.Context, id string, body ledger.Body) (ledger.Fact, error) {
	kind, schema, text := ledger.NewBody(body)
	_, offset := d.at.In(d.house.Zone).Zone()
	facts, err := d.Append(ctx, ledger.Draft{
		ID: id, Kind: kind, Schema: schema, At: d.at.UnixMilli(), OffsetMin: offset / 60,
		Entered: d.house.Clock().UnixMilli(), Who: d.actor.ID, Body: text,
	})
	if err != nil {
		return ledger.Fact{}, err
	}
	return facts[0], nil
}

// note adds something to mind.
func (d *desk) note(s Said) { d.notes = append(d.notes, s) }

// month is the period of the accounts that the use falls in.
func (d *desk) month() ledger.Month { return ledger.Month(d.at.In(d.house.Zone).Format("2006-01")) }

// before is the body entered with the same id before, if it is of that kind.
func before[B ledger.Body](d *desk) (b B, found bool) {
	b, found = d.was.(B)
	return b, found
}

// id is the given id, or a new one.
func (h *House) id(given string) (string, error) {
	if given != "" {
		return given, nil
	}
	var r [10]byte
	if _, err := io.ReadFull(h.Random, r[:]); err != nil {
		return "", err
	}
	return ledger.ID(h.Clock().UnixMilli(), r), nil
}

// followID is the id of a fact that goes with another: the same each time the
// other is entered.
func followID(id string, which string) string {
	sum := sha256.Sum256([]byte(id + " " + which))
	return id[:14] + ledger.ID(0, [10]byte(sum[:10]))[14:]
}

// IsRefused reports whether an error refuses an entry: the record stands as it
// was, and another entry may be made.
func IsRefused(err error) bool {
	var faults ledger.Faults
	var r *Refusal
	return errors.As(err, &faults) || errors.As(err, &r)
}

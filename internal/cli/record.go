package cli

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/user"
	"strings"

	"awn/internal/malthouse"
	"awn/internal/office"
	"awn/internal/report"
	"awn/internal/slip"
	"awn/internal/words"
)

// usualRecord is the record of the folder one works in.
const usualRecord = "awn.db"

// recorded are the flags of every command that has to do with the record.
type recorded struct {
	DB   string `name:"db" env:"AWN_DB" placeholder:"WHERE" help:"The record: a file, or postgres://user@host/database. Without it, awn.db in this folder."`
	As   string `env:"AWN_AS" placeholder:"WHO" help:"Who you are; your login without it."`
	JSON bool   `help:"Write JSON."`
	telling
}

// entering are the flags of every command that enters something.
type entering struct {
	recorded
	At string `placeholder:"TIME" help:"When it happened, by the clock of the house: 2026-11-25 14:30, or 14:30 for today. Now without it."`
	ID string `name:"id" placeholder:"UUID" help:"Id of the entry, made where it was typed. The same id twice changes nothing."`
}

// open opens the record. One that is only asked must be there.
func (r recorded) open(j *job, create bool) (*desk, error) {
	address := r.DB
	if address == "" {
		address = usualRecord
		j.note("awn: the record is %s in this folder.", usualRecord)
	}
	if _, err := os.Stat(strings.TrimPrefix(address, "sqlite:")); create && errors.Is(err, os.ErrNotExist) && !strings.Contains(address, "://") {
		j.note("awn: there was no record at %s; it is made now. “awn config” names the house.", address)
	}
	o, err := office.Open(j.ctx, address, create)
	if err != nil {
		return nil, err
	}
	d := &desk{Office: o, units: r.reader()}
	if d.actor, err = d.welcome(j, r.As); err != nil {
		return nil, errors.Join(err, o.DB.Close())
	}
	return d, nil
}

// welcome finds out who enters.
func (d *desk) welcome(j *job, as string) (malthouse.Actor, error) {
	if as == "" {
		if u, err := user.Current(); err == nil {
			as = u.Username
		}
	}
	a, first, err := d.Welcome(j.ctx, as)
	if err == nil && first {
		j.note("awn: %s is the first in this record, and its manager.", as)
	}
	return a, err
}

// desk is a house with its record open, and who sits at it.
type desk struct {
	*office.Office
	actor malthouse.Actor
	units words.Units
}

// entry is the envelope that the flags give.
func (e entering) entry(d *desk) (malthouse.Entry, error) {
	out := malthouse.Entry{ID: e.ID}
	if e.At == "" {
		return out, nil
	}
	var err error
	if out.At, err = slip.Moment(e.At, d.Clock().In(d.Zone)); err != nil {
		return out, &lineError{"--" + err.Error() + "."}
	}
	return out, nil
}

// enter opens the record, has a slip entered and says what was recorded.
func (e entering) enter(j *job, s slip.Slip) error {
	return e.use(j, func(ctx context.Context, d *desk, entry malthouse.Entry) (malthouse.Done, error) {
		done, err := s.Enter(ctx, d.House, d.actor, entry)
		return done, unread(s, err)
	})
}

// unread names what cannot be read of a slip by its flags and words.
func unread(s slip.Slip, err error) error {
	var faults slip.Faults
	if !errors.As(err, &faults) {
		return err
	}
	var lines []string
	for _, f := range faults {
		lines = append(lines, typedAs(s, f.Field)+": "+f.Says)
	}
	return &lineError{strings.Join(lines, "\nawn: ")}
}

// typedAs is a field as it stands on the command line.
func typedAs(s slip.Slip, name string) string {
	for _, f := range slip.Fields(s) {
		if f.Name == name && f.Arg {
			return f.Hint
		}
	}
	return "--" + name
}

// use opens the record, takes a use and says what was recorded.
func (e entering) use(j *job, use func(context.Context, *desk, malthouse.Entry) (malthouse.Done, error)) (err error) {
	d, err := e.open(j, true)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, d.DB.Close()) }()
	entry, err := e.entry(d)
	if err != nil {
		return err
	}
	done, err := use(j.ctx, d, entry)
	if malthouse.IsRefused(err) {
		return fmt.Errorf("%w\nawn: nothing was entered", err)
	}
	if err != nil {
		return err
	}
	return e.told(j, d, done)
}

// told says what was recorded.
func (e entering) told(j *job, d *desk, done malthouse.Done) error {
	if e.JSON {
		return report.WriteJSON(j.out, report.EntryJSON(done, d.units.Plain()))
	}
	_, err := fmt.Fprint(j.out, report.EntryText(done, d.units))
	return err
}

// ask opens a record that is there and asks it.
func (r recorded) ask(j *job, question func(context.Context, *desk) error) (err error) {
	d, err := r.open(j, false)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, d.DB.Close()) }()
	return question(j.ctx, d)
}

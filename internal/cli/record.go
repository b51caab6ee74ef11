package cli

import (
	"context"
	"crypto/ed25519"
	"crypto/rand"
	"errors"
	"fmt"
	"os"
	"os/user"
	"path/filepath"
	"strings"
	"time"

	"awn/internal/house"
	"awn/internal/malthouse"
	"awn/internal/report"
	"awn/internal/sqlstore"
	"awn/internal/words"
)

// RecordRefused is how a command ends whose entry the record refuses.
const RecordRefused = 4

// usualRecord is the record of the folder one works in.
const usualRecord = "awn.db"

// recorded are the flags of every command that has to do with the record.
type recorded struct {
	DB    string `name:"db" env:"AWN_DB" placeholder:"WHERE" help:"The record: a file, or postgres://user@host/database. Without it, awn.db in this folder."`
	As    string `env:"AWN_AS" placeholder:"WHO" help:"Who you are; your login without it."`
	JSON  bool   `help:"Write JSON."`
	Units string `enum:"metric,us" default:"metric" env:"AWN_UNITS" placeholder:"WHICH" help:"Units: metric or us."`
}

// entering are the flags of every command that enters something.
type entering struct {
	recorded
	At string `placeholder:"TIME" help:"When it happened, by the clock of the house: 2026-11-25 14:30, or 14:30 for today. Now without it."`
	ID string `name:"id" placeholder:"UUID" help:"Id of the entry, made where it was typed. The same id twice changes nothing."`
}

// open opens the record. One that is only asked must be there.
func (r recorded) open(j *job, make bool) (*desk, error) {
	address := r.DB
	if address == "" {
		address = usualRecord
		j.note("awn: the record is %s in this folder.", usualRecord)
	}
	open := sqlstore.OpenExisting
	if make {
		open = sqlstore.Open
		if _, err := os.Stat(address); errors.Is(err, os.ErrNotExist) && !strings.Contains(address, "://") {
			j.note("awn: there was no record at %s; it is made now. “awn config” names the house.", address)
		}
	}
	db, err := open(j.ctx, address)
	if err != nil {
		return nil, err
	}
	d, err := newDesk(j.ctx, db)
	if err != nil {
		return nil, errors.Join(err, db.Close())
	}
	d.address = address
	d.units = unitsOf(r.Units)
	if d.actor, err = d.welcome(j, r.As); err != nil {
		return nil, errors.Join(err, db.Close())
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

// desk is a house with its record open.
type desk struct {
	*malthouse.House
	db      *sqlstore.DB
	house   sqlstore.House
	address string
	actor   malthouse.Actor
	units   words.Units
}

// usualHouse is what a record holds before anybody names its house.
const usualHouse = "house"

func newDesk(ctx context.Context, db *sqlstore.DB) (*desk, error) {
	houses, err := db.Houses(ctx)
	if err != nil {
		return nil, err
	}
	h := sqlstore.House{ID: 1, Code: usualHouse, Name: usualHouse, Zone: "Local"}
	if len(houses) > 0 {
		h = houses[0]
	} else if err := db.PutHouse(ctx, h); err != nil {
		return nil, err
	}
	zone, err := time.LoadLocation(h.Zone)
	if err != nil {
		return nil, &refusal{fmt.Errorf("the time zone of the house: %w", err)}
	}
	d := &desk{db: db, house: h}
	d.House = &malthouse.House{
		Code: h.Code, Zone: zone, Store: db, Desk: cabinet{db, h.ID}, Clock: time.Now, Random: rand.Reader, Key: d.key,
	}
	return d, nil
}

// key is the key that the house signs with. It lies beside a file, or where
// AWN_KEY says, and never in the record.
func (d *desk) key() (ed25519.PrivateKey, error) {
	name := os.Getenv("AWN_KEY")
	if name == "" {
		if strings.Contains(d.address, "://") {
			return nil, &refusal{errors.New("AWN_KEY must name the file of the key, for the record is on a server")}
		}
		name = filepath.Join(filepath.Dir(d.address), strings.TrimSuffix(filepath.Base(d.address), filepath.Ext(d.address))+".key")
	}
	key, _, err := house.Key(name)
	return key, err
}

// entry is the envelope that the flags give.
func (e entering) entry(d *desk) (malthouse.Entry, error) {
	out := malthouse.Entry{ID: e.ID}
	if e.At == "" {
		return out, nil
	}
	at, err := moment(e.At, d.Clock().In(d.Zone))
	out.At = at
	return out, err
}

// moment reads a time by the clock of the house.
func moment(text string, now time.Time) (time.Time, error) {
	for _, layout := range []string{"2006-01-02 15:04", "2006-01-02T15:04", "2006-01-02 15:04:05", "2006-01-02"} {
		if t, err := time.ParseInLocation(layout, text, now.Location()); err == nil {
			return t, nil
		}
	}
	if t, err := time.Parse(time.RFC3339, text); err == nil {
		return t, nil
	}
	if t, err := time.ParseInLocation("15:04", text, now.Location()); err == nil {
		return time.Date(now.Year(), now.Month(), now.Day(), t.Hour(), t.Minute(), 0, 0, now.Location()), nil
	}
	return time.Time{}, &lineError{fmt.Sprintf("“%s” is not a time; write 2026-11-25 14:30, or 14:30 for today.", text)}
}

// enter opens the record, takes a use and says what was recorded.
func (e entering) enter(j *job, use func(context.Context, *desk, malthouse.Entry) (malthouse.Done, error)) (err error) {
	d, err := e.open(j, true)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, d.db.Close()) }()
	entry, err := e.entry(d)
	if err != nil {
		return err
	}
	done, err := use(j.ctx, d, entry)
	if err != nil {
		return err
	}
	return e.told(j, d, done)
}

// told says what was recorded.
func (e entering) told(j *job, d *desk, done malthouse.Done) error {
	if e.JSON {
		notes := []string{}
		for _, n := range done.Notes {
			notes = append(notes, report.Say(n, d.units))
		}
		out := pairs{}.with("awn", "entry/1").with("seq", done.Fact.Seq).with("id", done.Fact.ID).with("kind", done.Fact.Kind).
			with("again", done.Again).with("said", report.Say(done.Said, d.units)).with("notes", notes)
		return writeJSON(j.out, out)
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
	defer func() { err = errors.Join(err, d.db.Close()) }()
	return question(j.ctx, d)
}

package cli

import (
	"crypto/ed25519"
	"errors"
	"io"
	"io/fs"

	"awn/certificate"
	"awn/internal/house"
	"awn/internal/report"
)

type closeCommand struct {
	Day string `arg:"" optional:"" placeholder:"DAY" help:"The day, as in 2026-11-25; today without it."`
	recorded
	printing
}

// Help says what closing a day is.
func (c *closeCommand) Help() string {
	return `  awn close
  awn close 2026-11-25 --pdf day.pdf

Enters that a day is closed, and writes one page: the end of the record, stock,
what is unexplained, places that are overdrawn, pieces under way, what is on
hold. Keep the page elsewhere: “awn verify --head NUMBER:HASH” with the end on
it says no if the record was put back from a backup and went on another way.
Readings are sealed, and old ones rolled up (“awn config readings.keep DAYS”).`
}

// Run closes a day.
func (c *closeCommand) Run(j *job) (err error) {
	d, err := c.open(j, false)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, d.DB.Close()) }()
	of := d.Clock()
	if c.Day != "" {
		if of, err = day("DAY", c.Day, d.Zone); err != nil {
			return err
		}
	}
	closing, err := d.Close(j.ctx, d.actor, of)
	if err != nil {
		return err
	}
	if err := c.print(j, "page of the day", func(w io.Writer, as report.Print) error { return d.record().ClosingPDF(w, closing, as) }); err != nil {
		return err
	}
	if c.JSON {
		return report.ClosingJSON(j.out, closing, house.ReadVersion())
	}
	return d.record().Closing(j.out, closing)
}

type keyCommand struct {
	recorded
	New    bool   `help:"Make a new key and sign with it from now on."`
	Reason string `placeholder:"TEXT" help:"Why."`
}

// Help says what the key is for.
func (c *keyCommand) Help() string {
	return `  awn key
  awn key --new --reason "the machine was stolen"

Without a flag, shows the fingerprint of the key in the file and those that the
record knows. A new key is entered in the record and makes no certificate worse:
each carries the key that signed it, and “awn verify FILE --key FINGERPRINT”
holds it against the one that you expect. The old key is kept beside the new,
under another name. If somebody else may have it, delete it, make that known,
and give certificates anew that were signed since.`
}

// Run shows the keys, or takes a new one into use.
func (c *keyCommand) Run(j *job) (err error) {
	d, err := c.open(j, c.New)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, d.DB.Close()) }()
	if c.New {
		done, retired, err := d.NewKey(j.ctx, d.actor, c.Reason)
		if err != nil {
			return err
		}
		if retired != "" {
			j.note("awn: the old key is in %s.", retired)
		}
		return entering{recorded: c.recorded}.told(j, d, done)
	}
	keys, err := d.Keys(j.ctx, d.actor)
	if err != nil {
		return err
	}
	now, err := c.now(d)
	if err != nil {
		return err
	}
	if c.JSON {
		return report.KeysJSON(j.out, keys, now)
	}
	return d.record().Keys(j.out, keys, now, d.Zone)
}

// now is the fingerprint of the key in the file, "" if there is none yet.
func (c *keyCommand) now(d *desk) (string, error) {
	name, err := d.KeyFile()
	if err != nil {
		return "", err
	}
	key, err := house.ReadKey(name)
	if errors.Is(err, fs.ErrNotExist) {
		return "", nil
	}
	if err != nil {
		return "", err
	}
	return certificate.Fingerprint(key.Public().(ed25519.PublicKey)), nil
}

package cli

import (
	"crypto/ed25519"
	"errors"
	"io/fs"

	"awn/certificate"
	"awn/internal/house"
	"awn/internal/report"
)

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

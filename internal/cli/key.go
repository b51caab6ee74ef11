package cli

import (
	"context"
	"crypto/ed25519"
	"fmt"
	"time"

	"awn/certificate"
	"awn/internal/house"
	"awn/internal/malthouse"
)

// utcNow is the day that times without one belong to.
func utcNow() time.Time { return time.Now().UTC() }

type keyCommand struct {
	entering
	New    bool   `help:"Make a new key and sign with it from now on. The old one is kept beside it."`
	Reason string `placeholder:"TEXT" help:"Why."`
}

// Help says what a change of keys means.
func (c *keyCommand) Help() string {
	return `  awn key                            the fingerprint to make known
  awn key --new --reason "yearly"

The key that certificates are signed with lies beside the record, or where
AWN_KEY says, and is in no backup. A new one is an entry of the record; what the
old one signed stays good under the fingerprint that it names.`
}

// Run shows the key, or changes it.
func (c *keyCommand) Run(j *job) error {
	if !c.New {
		return c.ask(j, c.show(j))
	}
	return c.use(j, func(ctx context.Context, d *desk, e malthouse.Entry) (malthouse.Done, error) {
		if err := d.actor.Permit(malthouse.UseKey); err != nil {
			return malthouse.Done{}, err
		}
		name, err := d.KeyFile()
		if err != nil {
			return malthouse.Done{}, err
		}
		key, undo, err := house.ReplaceKey(name, d.Clock())
		if err != nil {
			return malthouse.Done{}, err
		}
		done, err := d.ChangeKey(ctx, d.actor, e, fingerprint(key), c.Reason)
		if err != nil {
			return done, undo(err)
		}
		return done, nil
	})
}

// fingerprint is that of the public half of a key.
func fingerprint(key ed25519.PrivateKey) string {
	return certificate.Fingerprint(ed25519.PublicKey(key[ed25519.SeedSize:]))
}

// show prints the fingerprint in use and those before it.
func (c *keyCommand) show(j *job) func(context.Context, *desk) error {
	return func(ctx context.Context, d *desk) error {
		key, err := d.Key()
		if err != nil {
			return err
		}
		fmt.Fprintf(j.out, "%s\n", fingerprint(key))
		all, err := d.Keys(ctx, d.actor)
		for _, k := range all {
			fmt.Fprintf(j.out, "%s  %s  %s\n", k.Since.Format(time.DateOnly), k.Fingerprint, k.Reason)
		}
		return err
	}
}

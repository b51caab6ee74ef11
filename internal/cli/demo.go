package cli

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"awn/internal/malthouse"
	"awn/internal/malthouse/year"
	"awn/internal/office"
)

type demoCommand struct {
	Dir  string `arg:"" placeholder:"DIR" help:"A folder to write to; it is made."`
	Seed uint64 `default:"1" placeholder:"N" help:"Another seed makes another year."`
	From string `placeholder:"DAY" help:"First day of the year; so that it ends now without it."`
}

// Help says what the demo is.
func (c *demoCommand) Help() string {
	return `  awn demo hallow
  awn stock --db hallow/awn.db --as runa
  awn trace L25-0023 --recall --db hallow/awn.db --as runa

Writes the record of a made-up year of a made-up malthouse: sixty loads, forty
pieces, six brewers, two blends, a load taken back and kilned again, and one
load of barley worth a recall. Play with it; nothing in it is real.`
}

// endsAt is the hour of its last day at which the year ends.
const endsAt = 6

// demoFile is the record in the folder.
const demoFile = usualRecord

// Run writes the record.
func (c *demoCommand) Run(j *job) (err error) {
	start := time.Now().UTC().Add(-year.Days*24*time.Hour - endsAt*time.Hour)
	if c.From != "" {
		if start, err = day("--from", c.From, time.UTC); err != nil {
			return err
		}
	}
	name := filepath.Join(c.Dir, demoFile)
	if _, err := os.Stat(name); err == nil {
		return &refusal{fmt.Errorf("%s is there already; name another folder", name)}
	}
	if err := os.MkdirAll(c.Dir, 0o777); err != nil {
		return err
	}
	o, err := office.Open(j.ctx, name, true)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, o.DB.Close()) }()
	for key, value := range map[string]string{
		malthouse.SettingName: "Hallow Sound", malthouse.SettingAddress: "Hallow, Wennemark (made up)",
		malthouse.SettingZone: "UTC", malthouse.SettingOrigin: "region",
	} {
		if err := o.Set(j.ctx, key, value); err != nil {
			return err
		}
	}
	if err := year.Make(j.ctx, o.House, c.Seed, start); err != nil {
		return err
	}
	fmt.Fprintln(j.out, name)
	j.note("awn: a year of Hallow Sound, made up. Next: awn stock --db %s --as runa", name)
	return nil
}

package cli

import (
	"crypto/rand"
	"errors"
	"fmt"
	"log/slog"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"time"

	"awn/internal/account"
	"awn/internal/house"
	"awn/internal/malthouse"
	"awn/internal/malthouse/year"
	"awn/internal/office"
	"awn/internal/web"
)

type demoCommand struct {
	Dir  string `arg:"" optional:"" placeholder:"DIR" help:"A folder to write the record to, and no more; it is made. Without it the house is opened in the browser, and gone when it ends."`
	Seed uint64 `default:"1" placeholder:"N" help:"Another seed makes another year."`
	From string `placeholder:"DAY" help:"First day of the year; so that it ends now without it."`
	Port int    `default:"0" placeholder:"N" help:"Port of this machine to open it at; any free one without it."`
	Open bool   `help:"Open the browser as well."`
}

// Help says what the demo is.
func (c *demoCommand) Help() string {
	return `  awn demo                               opens the house in the browser
  awn demo hallow                        writes its record
  awn stock --db hallow/awn.db --as runa
  awn trace L25-0023 --recall --db hallow/awn.db --as runa

A made-up year of a made-up malthouse: sixty loads, forty pieces, six brewers,
two blends, a load taken back and kilned again, and one load of barley worth a
recall. Play with it; nothing in it is real.`
}

// endsAt is the hour of its last day at which the year ends.
const endsAt = 6

// demoFile is the record in the folder.
const demoFile = usualRecord

// demoManager is the manager of the made-up house.
const demoManager = "runa"

// Run writes the record, or opens the house.
func (c *demoCommand) Run(j *job) (err error) {
	if c.Dir != "" {
		name := filepath.Join(c.Dir, demoFile)
		if _, err := os.Stat(name); err == nil {
			return &refusal{fmt.Errorf("%s is there already; name another folder", name)}
		}
		o, err := c.furnish(j, c.Dir)
		if err != nil {
			return err
		}
		fmt.Fprintln(j.out, name)
		j.note("awn: a year of Hallow Sound, made up. Next: awn stock --db %s --as %s", name, demoManager)
		return o.DB.Close()
	}
	dir, err := os.MkdirTemp("", "awn-demo-")
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(dir)) }()
	j.note("awn: making up a year of Hallow Sound ...")
	o, err := c.furnish(j, dir)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, o.DB.Close()) }()
	at := listening{Listen: fmt.Sprintf("127.0.0.1:%d", c.Port)}
	site := web.Site{Version: house.ReadVersion(), Log: slog.New(slog.NewTextHandler(j.err, nil))}
	password, accounts := rand.Text()[:12], account.Of(o.House, o.DB)
	if err := accounts.Password(j.ctx, demoManager, password); err != nil {
		return err
	}
	return at.house(j, site, o, func(accounts *account.Accounts, base string) error {
		code, err := accounts.Entry(j.ctx, demoManager)
		if err != nil {
			return err
		}
		come := base + "/come-in?code=" + code
		fmt.Fprintf(j.out, "Come in as its manager, once, within the hour:\n%s\nLater sign in as %s with %s. Nothing here is real, and all of it goes when you end it.\n", come, demoManager, password)
		if c.Open {
			return browse(come)
		}
		return nil
	})
}

// furnish makes the record of the made-up year in a folder.
func (c *demoCommand) furnish(j *job, dir string) (o *office.Office, err error) {
	start := time.Now().UTC().Add(-year.Days*24*time.Hour - endsAt*time.Hour)
	if c.From != "" {
		if start, err = day("--from", c.From, time.UTC); err != nil {
			return nil, err
		}
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return nil, err
	}
	if o, err = office.Open(j.ctx, filepath.Join(dir, demoFile), true); err != nil {
		return nil, err
	}
	for key, value := range map[string]string{
		malthouse.SettingName: "Hallow Sound", malthouse.SettingAddress: "Hallow, Wennemark (made up)",
		malthouse.SettingZone: "UTC", malthouse.SettingOrigin: "region",
	} {
		if err := o.Set(j.ctx, key, value); err != nil {
			return nil, errors.Join(err, o.DB.Close())
		}
	}
	if err := year.Make(j.ctx, o.House, c.Seed, start); err != nil {
		return nil, errors.Join(err, o.DB.Close())
	}
	if err := year.Sense(j.ctx, o.House, c.Seed, start); err != nil {
		return nil, errors.Join(err, o.DB.Close())
	}
	return o, nil
}

// browse opens an address in the browser of this machine.
func browse(address string) error {
	switch runtime.GOOS {
	case "windows":
		return exec.Command("rundll32", "url.dll,FileProtocolHandler", address).Start()
	case "darwin":
		return exec.Command("open", address).Start()
	}
	return exec.Command("xdg-open", address).Start()
}

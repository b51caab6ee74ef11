package cli

import (
	"errors"
	"fmt"
	"log/slog"

	"awn/internal/account"
	"awn/internal/house"
	"awn/internal/office"
	"awn/internal/web"
)

type serveCommand struct {
	DB string `name:"db" env:"AWN_DB" placeholder:"WHERE" help:"The record of a house: a file, or postgres://user@host/database. Without it the pages compute and keep nothing."`
	listening
}

// Help says what is served.
func (c *serveCommand) Help() string {
	return `  awn serve                           sums, silos, programmes; keeps nothing
  awn serve --db house.db             a house at work; made if it is not there
  awn serve --db house.db --listen 0.0.0.0:8416 --tls-own
                                      for phones on the house's own network

Without a record, on this machine alone:

  Intake          a load at the gate: its slip reckoned as you type
  Silos           how long a silo keeps
  Piece           a programme step by step, and what it comes to
  Varieties       a trial, as “awn rank” tells it
  Crop            a harvest, as “awn survey” tells it
  Ready reckoner  the small sums of the trade

With one: Floor, Intake, Silos, Pieces, Malt store, Trace, Balance and Settings,
for those who have an account. A code to make the first is printed. Programs ask
at /api/v1 with a token from Settings; the page “For programs” says how.

Others can reach it only once there is an account, and only over https: by your
own certificate, behind a proxy that has one, or by --tls-own, which makes an
authority for the house once and keeps its key beside the record. The page
/trust then says how a phone is made to trust it.`
}

// Run serves until it is stopped.
func (c *serveCommand) Run(j *job) (err error) {
	site := web.Site{Version: house.ReadVersion(), Log: slog.New(slog.NewTextHandler(j.err, nil))}
	if err := c.check(c.DB != ""); err != nil {
		return err
	}
	if c.DB == "" {
		pages, err := web.New(site)
		if err != nil {
			return err
		}
		return c.serve(j, site.Log, pages, nil, nil)
	}
	o, err := office.Open(j.ctx, c.DB, true)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, o.DB.Close()) }()
	return c.house(j, site, o, nil)
}

// house serves a house with its accounts. It asks for the first where there is
// none, and lets nobody else near until then.
func (c *listening) house(j *job, site web.Site, o *office.Office, welcome func(accounts *account.Accounts, base string) error) error {
	site.Accounts, site.Proxied = account.Of(o.House, o.DB), c.BehindProxy
	none, err := site.Accounts.None(j.ctx)
	if err != nil {
		return err
	}
	if none && !c.alone() {
		return &lineError{"--listen " + c.Listen + " would let others in, and nobody here has an account yet: open the house at 127.0.0.1 first and make one."}
	}
	own, err := c.authority(o)
	if err != nil {
		return err
	}
	if own != nil {
		site.Authority = own.PEM()
	}
	pages, err := standingPages(site, o)
	if err != nil {
		return err
	}
	return c.serve(j, site.Log, pages, own, func(base string) error {
		if none {
			fmt.Fprintf(j.out, "Nobody has an account yet. Open %s/first and type this code: %s\n", base, site.Accounts.FirstCode())
		}
		if welcome != nil {
			return welcome(site.Accounts, base)
		}
		return nil
	})
}

package cli

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"net/netip"
	"time"

	"awn/internal/house"
	"awn/internal/web"
)

type serveCommand struct {
	DB     string `name:"db" env:"AWN_DB" placeholder:"WHERE" help:"The record of a house: a file, or postgres://user@host/database. Without it the pages keep nothing."`
	As     string `env:"AWN_AS" placeholder:"WHO" help:"Who you are; your login without it."`
	Listen string `default:"127.0.0.1:8416" placeholder:"ADDRESS" help:"Where to listen. Only this machine can reach it so long as nobody has an account."`
}

// Help says what is served.
func (c *serveCommand) Help() string {
	return `  awn serve
  awn serve --listen 127.0.0.1:0      at any free port

The pages of awn in the browser, on this machine:

  Intake          a load at the gate: its slip reckoned as you type
  Silos           how long a silo keeps
  Piece           a programme step by step, and what it comes to
  Varieties       a trial, as “awn rank” tells it
  Ready reckoner  the small sums of the trade

Each begins with the example and gives back what you made of it as documents,
sheets, CSV and JSON. They compute and keep nothing. Programs ask at /api/v1;
the page “For programs” says how.`
}

// How long a slow browser is waited for.
const (
	headWait  = 10 * time.Second
	bodyWait  = time.Minute
	closeWait = 5 * time.Second
)

// Run serves until it is stopped.
func (c *serveCommand) Run(j *job) (err error) {
	if err := c.check(); err != nil {
		return err
	}
	log := slog.New(slog.NewTextHandler(j.err, nil))
	site := web.Site{Version: house.ReadVersion(), Log: log}
	if c.DB != "" {
		d, err := recorded{DB: c.DB, As: c.As}.open(j, true)
		if err != nil {
			return err
		}
		defer func() { err = errors.Join(err, d.DB.Close()) }()
		site.House, site.Doors = d.House, web.Alone(d.actor)
	}
	pages, err := web.New(site)
	if err != nil {
		return err
	}
	l, err := net.Listen("tcp", c.Listen)
	if err != nil {
		return fmt.Errorf("cannot listen at %s: %w", c.Listen, err)
	}
	fmt.Fprintf(j.out, "awn is at http://%s; Ctrl-C ends it.\n", l.Addr())
	server := &http.Server{Handler: pages, ReadHeaderTimeout: headWait, ReadTimeout: bodyWait, ErrorLog: slog.NewLogLogger(log.Handler(), slog.LevelWarn)}
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(l) }()
	select {
	case err := <-ended:
		return err
	case <-j.ctx.Done():
	}
	ctx, cancel := context.WithTimeout(context.WithoutCancel(j.ctx), closeWait)
	defer cancel()
	err = server.Shutdown(ctx)
	if serving := <-ended; !errors.Is(serving, http.ErrServerClosed) {
		err = errors.Join(err, serving)
	}
	return err
}

// check refuses an address that others can reach.
func (c *serveCommand) check() error {
	host, _, err := net.SplitHostPort(c.Listen)
	if err != nil {
		return &lineError{fmt.Sprintf("--listen %s is no address: write it as 127.0.0.1:8416.", c.Listen)}
	}
	if a, err := netip.ParseAddr(host); host == "localhost" || err == nil && a.IsLoopback() {
		return nil
	}
	return &lineError{fmt.Sprintf("--listen %s would let others in, and nobody here has an account yet: listen at 127.0.0.1.", c.Listen)}
}

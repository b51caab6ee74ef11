package cli

import (
	"context"
	"crypto/tls"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"net/netip"
	"sync"
	"sync/atomic"
	"time"

	"awn/internal/authority"
	"awn/internal/office"
	"awn/internal/web"
)

// listening are the flags of every command that serves pages.
type listening struct {
	Listen      string   `default:"127.0.0.1:8416" placeholder:"ADDRESS" help:"Where to listen. Beyond this machine only with accounts, and only over https."`
	TLSCert     string   `name:"tls-cert" type:"existingfile" placeholder:"FILE" help:"Certificate in PEM, with those that vouch for it."`
	TLSKey      string   `name:"tls-key" type:"existingfile" placeholder:"FILE" help:"And its key."`
	TLSOwn      bool     `name:"tls-own" help:"Vouch for the house itself: an authority is made once, and its key kept beside the record."`
	TLSName     []string `name:"tls-name" placeholder:"NAME" help:"With --tls-own: a further name or address under which the house is found."`
	BehindProxy bool     `name:"behind-proxy" help:"A proxy stands before it that speaks https and writes X-Forwarded-For and X-Forwarded-Proto anew: believe them."`
}

// How long a slow browser is waited for.
const (
	headWait  = 10 * time.Second
	bodyWait  = time.Minute
	idleWait  = 2 * time.Minute
	closeWait = 5 * time.Second
)

// alone reports whether only this machine can reach it.
func (c *listening) alone() bool {
	host, _, err := net.SplitHostPort(c.Listen)
	a, bad := netip.ParseAddr(host)
	return err == nil && (host == "localhost" || bad == nil && a.IsLoopback())
}

// check refuses flags that do not go together, and an address that others can
// reach without a record or in the open.
func (c *listening) check(record bool) error {
	host, _, err := net.SplitHostPort(c.Listen)
	ways := 0
	for _, on := range []bool{c.TLSCert != "", c.TLSOwn, c.BehindProxy} {
		if on {
			ways++
		}
	}
	switch {
	case err != nil:
		return &lineError{fmt.Sprintf("--listen %s is no address: write it as 127.0.0.1:8416.", c.Listen)}
	case (c.TLSCert == "") != (c.TLSKey == ""):
		return &lineError{"--tls-cert and --tls-key go together."}
	case ways > 1:
		return &lineError{"--tls-cert, --tls-own and --behind-proxy are three ways of the same: take one."}
	case len(c.TLSName) > 0 && !c.TLSOwn:
		return &lineError{"--tls-name goes with --tls-own."}
	case c.TLSOwn && !record:
		return &lineError{"--tls-own keeps its key beside a record: give --db."}
	case c.alone():
		return nil
	case !record:
		return &lineError{fmt.Sprintf("--listen %s would let others in, and without a record nobody has an account: listen at 127.0.0.1, or give --db.", c.Listen)}
	case ways == 0:
		return &lineError{fmt.Sprintf("--listen %s would send passwords over %s in the open: give --tls-own, --tls-cert with --tls-key, or --behind-proxy.", c.Listen, host)}
	}
	return nil
}

// authority is the house's own, if it vouches for itself.
func (c *listening) authority(o *office.Office) (*authority.Authority, error) {
	if !c.TLSOwn {
		return nil, nil
	}
	file, err := o.Beside("authority", "AWN_AUTHORITY")
	if err != nil {
		return nil, err
	}
	host, _, err := net.SplitHostPort(c.Listen)
	if err != nil {
		return nil, err
	}
	names, err := authority.Names(host, c.TLSName)
	if err != nil {
		return nil, err
	}
	own, _, err := authority.Open(file, o.Row.Name, names, time.Now)
	if err != nil {
		return nil, fmt.Errorf("%w. To make another authority, which every phone must then trust anew, take %s away", err, file)
	}
	return own, nil
}

// secure is how the connection is kept secret; nil if it is not.
func (c *listening) secure(own *authority.Authority) (*tls.Config, error) {
	switch {
	case own != nil:
		return own.TLS(), nil
	case c.TLSCert != "":
		pair, err := tls.LoadX509KeyPair(c.TLSCert, c.TLSKey)
		return &tls.Config{MinVersion: tls.VersionTLS12, Certificates: []tls.Certificate{pair}}, err
	}
	return nil, nil
}

// pages answer requests, and at the end let go whoever listens for news.
type pages interface {
	http.Handler
	Close()
}

// serve serves until it is stopped. Welcome is told where, once it listens.
func (c *listening) serve(j *job, log *slog.Logger, pages pages, own *authority.Authority, welcome func(base string) error) error {
	secure, err := c.secure(own)
	if err != nil {
		return err
	}
	l, err := net.Listen("tcp", c.Listen)
	if err != nil {
		return fmt.Errorf("cannot listen at %s: %w", c.Listen, err)
	}
	base := "http://" + c.reached(l)
	if secure != nil {
		base, l = "https://"+c.reached(l), tls.NewListener(l, secure)
	}
	fmt.Fprintf(j.out, "awn is at %s; Ctrl-C ends it.\n", base)
	if own != nil {
		j.note("awn: phones are told how to trust it at %s/trust. Fingerprint of the house's authority:\n%s", base, authority.Fingerprint(own.PEM()))
	}
	if welcome != nil {
		if err := welcome(base); err != nil {
			return errors.Join(err, l.Close())
		}
	}
	server := &http.Server{
		Handler: pages, ReadHeaderTimeout: headWait, ReadTimeout: bodyWait, IdleTimeout: idleWait, ErrorLog: slog.NewLogLogger(log.Handler(), slog.LevelWarn),
	}
	server.RegisterOnShutdown(pages.Close)
	return until(j.ctx, server, l)
}

// reached is the address under which a browser reaches what listens.
func (c *listening) reached(l net.Listener) string {
	host, port, err := net.SplitHostPort(l.Addr().String())
	if a, bad := netip.ParseAddr(host); err == nil && bad == nil && a.IsUnspecified() {
		if names, err := authority.Names("", c.TLSName); err == nil {
			return net.JoinHostPort(names[0], port)
		}
	}
	return l.Addr().String()
}

// until serves until the context ends, and lets what is under way come to its
// end.
func until(ctx context.Context, server *http.Server, l net.Listener) error {
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(l) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	last, cancel := context.WithTimeout(context.WithoutCancel(ctx), closeWait)
	defer cancel()
	err := server.Shutdown(last)
	if serving := <-ended; !errors.Is(serving, http.ErrServerClosed) {
		err = errors.Join(err, serving)
	}
	return err
}

// standing are the pages of a house as it is set up now.
type standing struct {
	mutex sync.Mutex
	now   atomic.Pointer[web.Server]
}

// ServeHTTP answers by the pages of now.
func (s *standing) ServeHTTP(w http.ResponseWriter, r *http.Request) { s.now.Load().ServeHTTP(w, r) }

// Close lets whoever listens for news go.
func (s *standing) Close() { s.now.Load().Close() }

// standingPages makes the pages of a house, and makes them anew each time it
// is set up differently.
func standingPages(site web.Site, o *office.Office) (*standing, error) {
	s := &standing{}
	site.Again = func(ctx context.Context) error {
		s.mutex.Lock()
		defer s.mutex.Unlock()
		if err := o.Reread(ctx); err != nil {
			return err
		}
		site.House = o.House
		next, err := web.New(site)
		if err != nil {
			return err
		}
		if before := s.now.Swap(next); before != nil {
			before.Close()
		}
		return next.Foresee(ctx)
	}
	return s, site.Again(context.Background())
}

package web

import (
	"cmp"
	"context"
	"net"
	"net/http"
	"net/netip"
	"net/url"
	"strings"

	"awn/internal/account"
	"awn/internal/malthouse"
)

// signed are the doors of a house with accounts: a browser shows a session, a
// program its token, and that to /api/v1 alone.
type signed struct {
	*account.Accounts
	proxied bool
}

// Who shows a session or a token that holds.
func (d signed) Who(r *http.Request) (malthouse.Actor, bool, error) {
	if token, found := strings.CutPrefix(r.Header.Get("Authorization"), "Bearer "); found && forPrograms(r) {
		return d.Program(r.Context(), token)
	}
	c, err := r.Cookie(d.cookie(r))
	if err != nil {
		return malthouse.Actor{}, false, nil
	}
	return d.Session(r.Context(), c.Value)
}

func forPrograms(r *http.Request) bool { return strings.HasPrefix(r.URL.Path, apiAt+"/") }

// secret reports whether nobody between can read what is sent.
func (d signed) secret(r *http.Request) bool {
	return r.TLS != nil || d.proxied && r.Header.Get("X-Forwarded-Proto") == "https"
}

// cookie is the name under which the browser keeps the session. Over https it
// is one that no other host can set.
func (d signed) cookie(r *http.Request) string {
	if d.secret(r) {
		return "__Host-awn-session"
	}
	return "awn-session"
}

// begin hands the browser a new session, or with none takes the old away. The
// one that it had ends: nobody who knows an earlier one has the new.
func (d signed) begin(w http.ResponseWriter, r *http.Request, session string) error {
	if c, err := r.Cookie(d.cookie(r)); err == nil {
		if err := d.SignOut(r.Context(), c.Value); err != nil {
			return err
		}
	}
	c := &http.Cookie{Name: d.cookie(r), Value: session, Path: "/", HttpOnly: true, Secure: d.secret(r), SameSite: http.SameSiteLaxMode, MaxAge: -1}
	if session != "" {
		c.MaxAge = account.SessionSeconds
	}
	http.SetCookie(w, c)
	return nil
}

// address is where a request comes from. Behind a proxy it is what the proxy
// wrote last.
func (d signed) address(r *http.Request) string {
	from := r.RemoteAddr
	if host, _, err := net.SplitHostPort(from); err == nil {
		from = host
	}
	if all := r.Header.Values("X-Forwarded-For"); d.proxied && len(all) > 0 {
		hops := strings.Split(all[len(all)-1], ",")
		from = strings.TrimSpace(hops[len(hops)-1])
	}
	a, err := netip.ParseAddr(from)
	if err != nil {
		return from
	}
	if a = a.Unmap(); a.Is4() {
		return a.String()
	}
	network, _ := a.WithZone("").Prefix(subscriber) // the number of bits is right
	return network.String()
}

// subscriber is how many bits of an address of version 6 a subscriber is given:
// whoever has one has them all.
const subscriber = 64

// visitor is the key under which a request knows who asks.
type visitor struct{}

// asker is who asks, if that is known.
func asker(r *http.Request) (malthouse.Actor, bool) {
	a, found := r.Context().Value(visitor{}).(malthouse.Actor)
	return a, found
}

// unlocked are the pages that are shown to somebody who has not signed in:
// what leads in, and what pages are dressed with. Everything else is not.
var unlocked = map[string]bool{
	"GET /static/": true, "GET /static/report.css": true, "GET " + readerAt: true, "POST " + readerAt: true,
	"GET " + firstAt: true, "POST " + firstAt: true, "GET " + signInAt: true, "POST " + signInAt: true,
	"GET " + joinAt: true, "POST " + joinAt: true, "GET " + comeInAt: true, "POST " + comeInAt: true,
	"GET " + publicAt: true, "GET " + workerAt: true, "GET " + shellAt: true, "GET " + trustAt: true, "GET " + authorityAt: true,
}

// guard finds out who asks, once, and turns away whoever has not signed in.
func (s *Server) guard(w http.ResponseWriter, r *http.Request) {
	if s.Doors == nil {
		s.mux.ServeHTTP(w, r)
		return
	}
	_, pattern := s.mux.Handler(r)
	a, found, err := s.Doors.Who(r)
	switch {
	case err != nil:
		s.set(w, r, s.failed(r, err))
	case found:
		r = r.WithContext(context.WithValue(r.Context(), visitor{}, a))
		if r, err = s.know(r, a); err != nil {
			s.set(w, r, s.failed(r, err))
			return
		}
		s.mux.ServeHTTP(w, r)
	case unlocked[pattern]:
		s.mux.ServeHTTP(w, r)
	case forPrograms(r) || byScript(r):
		w.Header().Set("WWW-Authenticate", "Bearer")
		s.problem(w, r, refuse(http.StatusUnauthorized, "web.sign-in.missing", ""))
	default:
		back := "/"
		if r.Method == http.MethodGet {
			back = r.URL.RequestURI()
		}
		http.Redirect(w, r, signInAt+"?back="+url.QueryEscape(back), http.StatusSeeOther)
	}
}

// whoOf is who is signed in, as a page says it.
func whoOf(r *http.Request) string {
	a, _ := asker(r)
	return cmp.Or(a.Name, a.ID)
}

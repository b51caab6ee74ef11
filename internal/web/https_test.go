package web

import (
	"bytes"
	"crypto/tls"
	"crypto/x509"
	"io"
	"net"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"awn/internal/account"
	"awn/internal/authority"
)

// overHTTPS serves a house by an authority of its own, to a browser that trusts
// that authority and no other.
func overHTTPS(t *testing.T, p *peopled) (base string, browser *http.Client) {
	t.Helper()
	own, _, err := authority.Open(filepath.Join(t.TempDir(), "house.authority"), "Hallow Sound", []string{"127.0.0.1"}, time.Now)
	if err != nil {
		t.Fatal(err)
	}
	p.Authority = own.PEM()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	server := &http.Server{Handler: p}
	go func() { _ = server.Serve(tls.NewListener(l, own.TLS())) }()
	t.Cleanup(func() { server.Close() })
	roots := x509.NewCertPool()
	roots.AppendCertsFromPEM(own.PEM())
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	transport := &http.Transport{TLSClientConfig: &tls.Config{RootCAs: roots}}
	t.Cleanup(transport.CloseIdleConnections)
	return "https://" + l.Addr().String(), &http.Client{Jar: jar, Transport: transport}
}

// TestFirstDayOverHTTPS goes from a record that knows nobody to a load in a
// silo: the first account, the house, its documents, the load, signing out.
func TestFirstDayOverHTTPS(t *testing.T) {
	p := empty(t)
	base, browser := overHTTPS(t, p)
	read := func(r *http.Response, err error) (int, string, string) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		defer r.Body.Close()
		body, err := io.ReadAll(r.Body)
		if err != nil {
			t.Fatal(err)
		}
		return r.StatusCode, r.Request.URL.Path, string(body)
	}
	see := func(path string) (int, string, string) { t.Helper(); return read(browser.Get(base + path)) }
	hand := func(path string, form url.Values) (int, string, string) {
		t.Helper()
		return read(browser.PostForm(base+path, form))
	}
	if _, at, _ := see("/stock"); at != firstAt {
		t.Fatalf("a house without accounts leads to %s", at)
	}
	code, _, page := see(trustAt)
	if code != 200 || !strings.Contains(page, authority.Fingerprint(p.Authority)) {
		t.Errorf("%s: %d", trustAt, code)
	}
	if _, _, got := see(authorityAt); !bytes.Equal([]byte(got), p.Authority) || strings.Contains(got, "PRIVATE") {
		t.Error("what is taken away is not the certificate")
	}
	first := url.Values{"code": {"AAAA-AAAA-AAAA-AAAA"}, "who": {"runa"}, "name": {"Runa Thorne"}, "password": {phrase}}
	if code, _, _ := hand(firstAt, first); code != 422 {
		t.Errorf("a wrong code: %d", code)
	}
	first.Set("code", p.Accounts.FirstCode())
	code, at, page := hand(firstAt, first)
	if code != 200 || at != settingsAt || strings.Count(page, "/settings/documents/") != 4 {
		t.Fatalf("the first account: %d, %s", code, at)
	}
	here, err := url.Parse(base)
	if err != nil {
		t.Fatal(err)
	}
	if cookies := browser.Jar.Cookies(here); len(cookies) != 1 || cookies[0].Name != "__Host-awn-session" {
		t.Errorf("cookies: %v", cookies)
	}
	_, _, page = see(houseAt)
	set := formOf(t, page)
	set.Set("house.name", "Hallow Sound")
	set.Set("house.zone", "Europe/Nowhere")
	if code, _, page := hand(houseAt, set); code != 422 || !strings.Contains(page, "such as Europe/London") {
		t.Errorf("a zone that is none: %d", code)
	}
	set.Set("house.zone", "Europe/London")
	if code, at, _ := hand(houseAt, set); code != 200 || at != settingsAt {
		t.Errorf("the house: %d, %s", code, at)
	}
	for _, kind := range []string{"plant", "silo", "programme", "control-points"} {
		_, _, page := see(keptAt + "/" + kind)
		form := formOf(t, page)
		broken := url.Values{"id": {form.Get("id")}, "text": {strings.Replace(form.Get("text"), "awn: ", "own: ", 1)}}
		if code, _, page := hand(keptAt+"/"+kind, broken); code != 422 || !strings.Contains(page, `class="fault"`) {
			t.Errorf("%s that is none: %d", kind, code)
		}
		code, at, page := hand(keptAt+"/"+kind, form)
		if code != 200 || at != settingsAt || !strings.Contains(page, "of the house is") || strings.Contains(page, keptAt+"/"+kind+`"`) {
			t.Errorf("%s: %d, %s", kind, code, at)
		}
	}
	_, _, page = see(slipsAt + "receive?back=/deliveries")
	load := formOf(t, page)
	load.Set("net", "28.1 t")
	load.Set("moisture", "13.2 % wb")
	load.Set("silo", "B7")
	if code, at, page := hand(slipsAt+"receive", load); code != 200 || at != "/deliveries" || !strings.Contains(page, "silo B7") {
		t.Errorf("a load: %d, %s", code, at)
	}
	r, err := browser.Post(base+signOutAt, "", nil)
	if _, at, _ := read(r, err); at != signInAt {
		t.Errorf("signed out leads to %s", at)
	}
	if _, at, _ := see("/stock"); at != signInAt {
		t.Errorf("after signing out: %s", at)
	}
}

// Behind a proxy the proxy's word counts for where a request comes from; without
// one, anybody could write it.
func TestProxyIsBelievedWhereThereIsOne(t *testing.T) {
	r, err := http.NewRequest("GET", "/", nil)
	if err != nil {
		t.Fatal(err)
	}
	r.RemoteAddr = "10.0.0.2:4711"
	r.Header.Add("X-Forwarded-For", "198.51.100.9, 192.0.2.44")
	r.Header.Set("X-Forwarded-Proto", "https")
	for proxied, want := range map[bool]string{true: "192.0.2.44", false: "10.0.0.2"} {
		d := signed{(*account.Accounts)(nil), proxied}
		if got := d.address(r); got != want || d.secret(r) != proxied {
			t.Errorf("proxied %v: %s, secret %v", proxied, got, d.secret(r))
		}
	}
	r.RemoteAddr = "[2001:db8:1:2:3:4:5:6]:4711"
	if got := (signed{}).address(r); got != "2001:db8:1:2::/64" {
		t.Errorf("one subscriber is many: %s", got)
	}
}

package cli

import (
	"bufio"
	"context"
	"crypto/tls"
	"crypto/x509"
	"io"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// running starts a command that serves, and gives what it prints up to a line
// that matches.
func running(t *testing.T, until string, args ...string) []string {
	t.Helper()
	ctx, stop := context.WithCancel(t.Context())
	r, w := io.Pipe()
	ended := make(chan int, 1)
	go func() {
		ended <- Main(ctx, args, Streams{In: strings.NewReader(""), Out: w, Err: w})
		w.Close()
	}()
	lines := bufio.NewScanner(r)
	end := regexp.MustCompile(until)
	for lines.Scan() {
		if m := end.FindStringSubmatch(lines.Text()); m != nil {
			go func() { _, _ = io.Copy(io.Discard, r) }()
			t.Cleanup(func() {
				stop()
				if status := <-ended; status != Answered {
					t.Errorf("%v ended with %d", args, status)
				}
			})
			return m
		}
	}
	stop()
	t.Fatalf("%v ended with %d before it said %s", args, <-ended, until)
	return nil
}

// A house that vouches for itself is opened with the code that it printed.
func TestServeOverItsOwnAuthority(t *testing.T) {
	db := filepath.Join(t.TempDir(), "house.db")
	said := running(t, `Open (https://\S+)/first and type this code: (\S+)`, "serve", "--db", db, "--listen", "127.0.0.1:0", "--tls-own")
	file, err := os.ReadFile(strings.TrimSuffix(db, ".db") + ".authority")
	if err != nil {
		t.Fatal(err)
	}
	roots := x509.NewCertPool()
	roots.AppendCertsFromPEM(file)
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	browser := &http.Client{Jar: jar, Transport: &http.Transport{TLSClientConfig: &tls.Config{RootCAs: roots}}}
	r, err := browser.PostForm(said[1]+"/first", url.Values{"code": {said[2]}, "who": {"runa"}, "password": {"four words in a row"}})
	if err != nil {
		t.Fatal(err)
	}
	r.Body.Close()
	if r.StatusCode != 200 || r.Request.URL.Path != "/settings" {
		t.Errorf("%d, %s", r.StatusCode, r.Request.URL)
	}
	browser.CloseIdleConnections()
}

// The made-up house is opened by the address that it printed.
func TestDemoOpensTheHouse(t *testing.T) {
	said := running(t, `^(http://\S+)/come-in\?code=(\S+)`, "demo", "-q")
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	browser := &http.Client{Jar: jar, Transport: &http.Transport{}}
	r, err := browser.PostForm(said[1]+"/come-in", url.Values{"code": {said[2]}})
	if err != nil {
		t.Fatal(err)
	}
	page, err := io.ReadAll(r.Body)
	r.Body.Close()
	if err != nil || r.StatusCode != 200 || r.Request.URL.Path != "/floor" || !strings.Contains(string(page), "Runa Thorne") {
		t.Errorf("%d, %s, %v", r.StatusCode, r.Request.URL, err)
	}
	browser.CloseIdleConnections()
}

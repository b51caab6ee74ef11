package web

import (
	"context"
	"crypto/sha256"
	"crypto/tls"
	"encoding/base64"
	"fmt"
	"net"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"

	"awn/internal/authority"
	"awn/internal/malthouse"
	"awn/ledger"
)

// wire is the network between a phone and a house, which can go.
type wire struct {
	h      http.Handler
	tls    *tls.Config // nil: in the open
	addr   string
	server *http.Server
	loses  atomic.Bool // the house takes a slip, and its answer never comes
}

// ServeHTTP has the house answer, unless the answer is lost.
func (n *wire) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	if !n.loses.Load() || !strings.HasPrefix(r.URL.Path, scriptAt+slipsAt) {
		n.h.ServeHTTP(w, r)
		return
	}
	n.h.ServeHTTP(httptest.NewRecorder(), r)
	panic(http.ErrAbortHandler) // closes the connection without a word
}

// on lets the house be reached at the address that it had.
func (n *wire) on(t *testing.T) {
	t.Helper()
	l, err := net.Listen("tcp", n.addr)
	if err != nil {
		t.Fatal(err)
	}
	n.addr = l.Addr().String()
	if n.tls != nil {
		l = tls.NewListener(l, n.tls)
	}
	n.server = &http.Server{Handler: n}
	go func(s *http.Server) { _ = s.Serve(l) }(n.server)
}

// off cuts every line to the house.
func (n *wire) off() { n.server.Close() }

// telephone is a phone in the house with somebody who works there.
type telephone struct {
	*peopled
	*wire
	ctx  context.Context
	base string
}

// phoned signs somebody in on a phone 360 px wide, once the phone has what it
// needs without the network.
func phoned(t *testing.T, n *wire, scheme string, options ...chromedp.ExecAllocatorOption) *telephone {
	t.Helper()
	p := staffed(t)
	p.withPassword(t, "manager") // else signing out leads to the first account
	p.House.Clock = time.Now
	n.h, n.addr = p, "127.0.0.1:0"
	n.on(t)
	t.Cleanup(n.off)
	f := &telephone{p, n, browser(t, options...), scheme + "://" + n.addr}
	do(t, f.ctx, chromedp.EmulateViewport(360, 740, chromedp.EmulateMobile, chromedp.EmulateTouch))
	f.comeIn(t, "floor")
	soon(t, f.ctx, `(async () => (await navigator.serviceWorker.getRegistration())?.active?.state === "activated" && Boolean(await caches.match("/shell")))()`)
	return f
}

// comeIn comes in as somebody and goes to the floor.
func (f *telephone) comeIn(t *testing.T, who string) {
	t.Helper()
	code, err := f.Accounts.Entry(t.Context(), who)
	if err != nil {
		t.Fatal(err)
	}
	do(t, f.ctx, chromedp.Navigate(f.base+comeInAt+"?code="+code))
	f.settled(t)
	ask[bool](t, f.ctx, `document.querySelector("form.sheet").requestSubmit() ?? true`)
	soon(t, f.ctx, `location.pathname === "/floor" && document.readyState === "complete"`)
	f.settled(t)
	do(t, f.ctx, chromedp.Navigate(f.base+"/floor"))
	f.settled(t)
}

// settled waits until the page knows what waits on the phone. A browser that is
// led on while it opens its store for the first time may never open it.
func (f *telephone) settled(t *testing.T) {
	t.Helper()
	soon(t, f.ctx, `document.getElementById("waiting")?.dataset.ready !== undefined`)
}

// reads hands in a temperature by the form at hand.
func (f *telephone) reads(t *testing.T, typed string) {
	t.Helper()
	soon(t, f.ctx, `document.getElementById("waiting")?.dataset.ready !== undefined && document.querySelector("form.quick").ariaBusy !== "true"`)
	ask[bool](t, f.ctx, fmt.Sprintf(`{const f = document.querySelector("form.quick"); f.elements["results:temperature °C"].value = %q; if (f.elements.thing.type !== "hidden") f.elements.thing.value = "P26-0001"; f.requestSubmit(); true}`, typed))
}

// waits wants the line to say what waits.
func (f *telephone) waits(t *testing.T, says string) {
	t.Helper()
	soon(t, f.ctx, fmt.Sprintf(`document.querySelector("#waiting p")?.textContent === %q`, says))
}

// again has the phone notice the network, as it does by itself.
func (f *telephone) again(t *testing.T) {
	t.Helper()
	ask[bool](t, f.ctx, `dispatchEvent(new Event("online"))`)
}

// readings are those of the piece by hand that the record has.
func (f *telephone) readings(t *testing.T) (out []ledger.Fact) {
	t.Helper()
	for fact, err := range f.House.Store.Read(f.House.Code).Facts(t.Context(), ledger.Query{Kind: ledger.Analysed}) {
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, fact)
	}
	return out
}

// TestReadingTakesThreeTouches: a touch on the field, the figure, a touch on the
// button. Keys of the figure are not counted, nor is the one that ends it.
func TestReadingTakesThreeTouches(t *testing.T) {
	f := phoned(t, &wire{}, "http")
	touches := 0
	touch := func(js string) {
		at := ask[[]float64](t, f.ctx, `{const e = `+js+`; e.scrollIntoView({block: "center"}); const b = e.getBoundingClientRect(); [b.x + b.width / 2, b.y + b.height / 2]}`)
		do(t, f.ctx, chromedp.TapXY(at[0], at[1]))
		touches++
	}
	touch(`document.querySelector("form.quick").elements["results:temperature °C"]`)
	do(t, f.ctx, chromedp.KeyEvent("16.2"))
	touch(`document.querySelector("form.quick .acts button")`)
	soon(t, f.ctx, `location.search.startsWith("?entered=") && document.querySelector("#waiting").hidden`)
	if got := f.readings(t); len(got) != 1 || touches > 3 || !strings.Contains(string(got[0].Body), `16.2`) {
		t.Errorf("%d readings after %d touches", len(got), touches)
	}
	if said := ask[string](t, f.ctx, `document.querySelector("#outcome").textContent`); !strings.Contains(said, "P26-0001") || !strings.Contains(said, "entry ") {
		t.Errorf("the page says %q", said)
	}
	for _, path := range []string{"/floor", "/shell", "/enter/read", "/pieces/P26-0001"} {
		do(t, f.ctx, chromedp.Navigate(f.base+path))
		ask[bool](t, f.ctx, "document.querySelectorAll('details').forEach((d) => d.open = true) ?? true")
		small := ask[[]string](t, f.ctx, `[...document.querySelectorAll("main button, main input:not([type=hidden]), main select, main summary, nav a, .acts a")].filter((e) => {
			const b = (e.type === "checkbox" ? e.closest("label") : e).getBoundingClientRect(); return b.width && (b.height < 43.9 || b.width < 43.9)}).map((e) => e.outerHTML.slice(0, 90) + " " + e.getBoundingClientRect().width + "×" + e.getBoundingClientRect().height)`)
		for _, s := range small {
			t.Errorf("%s: too small to touch: %s", path, s)
		}
		if over := ask[int](t, f.ctx, "document.documentElement.scrollWidth - innerWidth"); over > 0 {
			t.Errorf("%s is %d px too wide", path, over)
		}
	}
}

// TestSlipsWaitForTheNetwork: what is handed in without the network waits on the
// phone, is counted on every page, outlives a reload, and reaches the house once.
func TestSlipsWaitForTheNetwork(t *testing.T) {
	f := phoned(t, &wire{}, "http")
	f.off()
	f.offline(t, true)
	for i, says := range []string{"1 entry waits on this phone.", "2 entries wait on this phone."} {
		f.reads(t, fmt.Sprintf("16.%d", i+1))
		f.waits(t, says)
	}
	made := time.Now()
	do(t, f.ctx, chromedp.Reload())
	soon(t, f.ctx, `document.querySelector("h1")?.textContent === "No network"`)
	f.waits(t, "2 entries wait on this phone.")
	if page := ask[string](t, f.ctx, "document.documentElement.outerHTML"); strings.Contains(page, "P26-0001 ") || strings.Contains(page, hearsay) {
		t.Error("the page without the network has something of the record in it")
	}
	soon(t, f.ctx, `document.getElementById("whose").textContent === "Entries made here are N floor's."`)
	f.reads(t, "16.3")
	f.waits(t, "3 entries wait on this phone.")
	if got := f.readings(t); len(got) != 0 {
		t.Fatalf("%d readings without a network", len(got))
	}
	f.wire.on(t)
	f.offline(t, false)
	f.waits(t, "")
	got := f.readings(t)
	if len(got) != 3 {
		t.Fatalf("%d readings of 3", len(got))
	}
	for i, fact := range got {
		if !strings.Contains(string(fact.Body), fmt.Sprintf("16.%d", i+1)) || fact.Who != "floor" {
			t.Errorf("reading %d: %s by %s", i, fact.Body, fact.Who)
		}
		if off := time.UnixMilli(fact.At).Sub(made); i < 2 && off > 0 || off < -time.Minute || fact.Entered < fact.At {
			t.Errorf("reading %d stands at %v", i, time.UnixMilli(fact.At))
		}
	}
	for _, path := range []string{"/stock", "/reckoner", settingsAt} {
		do(t, f.ctx, chromedp.Navigate(f.base+path))
		f.waits(t, "")
	}
	if got := f.readings(t); len(got) != 3 {
		t.Errorf("%d readings later", len(got))
	}
}

// offline tells the browser what the network is.
func (f *telephone) offline(t *testing.T, is bool) {
	t.Helper()
	do(t, f.ctx, chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := chromedp.Call(ctx, network.OverrideNetworkState, network.OverrideNetworkStateParams{Offline: is, DownloadThroughput: -1, UploadThroughput: -1})
		return err
	}))
}

// TestLostAnswerIsNoSecondEntry: the house took the slip, and the phone never
// heard it; what it sends again is the same entry.
func TestLostAnswerIsNoSecondEntry(t *testing.T) {
	f := phoned(t, &wire{}, "http")
	f.loses.Store(true)
	f.reads(t, "16.2")
	f.waits(t, "1 entry waits on this phone.")
	soon(t, f.ctx, `document.querySelector("#waiting .news").textContent !== ""`)
	if got := f.readings(t); len(got) != 1 {
		t.Fatalf("%d readings in the house", len(got))
	}
	f.again(t) // lost once more
	f.waits(t, "1 entry waits on this phone.")
	f.loses.Store(false)
	f.again(t)
	f.waits(t, "")
	if got := f.readings(t); len(got) != 1 {
		t.Errorf("%d readings of one", len(got))
	}
}

// TestSlipsWaitForTheirPerson: without a session a slip is kept; somebody else
// neither sends nor reads it; it is sent when its own person comes back. It
// outlives signing out, and the page without the network does not.
func TestSlipsWaitForTheirPerson(t *testing.T) {
	f := phoned(t, &wire{}, "http")
	do(t, f.ctx, chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := chromedp.Call(ctx, network.ClearBrowserCookies, cdp.Empty{})
		return err
	}))
	f.reads(t, "16.2")
	f.waits(t, "1 entry waits on this phone.")
	soon(t, f.ctx, `document.querySelector("#waiting .why")?.textContent.startsWith("Kept: sign in to send.") === true`)
	f.comeIn(t, "laboratory")
	f.waits(t, "1 entry of N floor waits on this phone.")
	f.again(t)
	do(t, f.ctx, chromedp.Sleep(300*time.Millisecond))
	if page := ask[string](t, f.ctx, `document.getElementById("waiting").textContent`); strings.Contains(page, "16.2") {
		t.Errorf("somebody else reads %q", page)
	}
	if got := f.readings(t); len(got) != 0 {
		t.Fatal("somebody else has sent it")
	}
	ask[bool](t, f.ctx, `document.querySelector("form.who").requestSubmit() ?? true`)
	soon(t, f.ctx, `location.pathname === "/sign-in"`)
	soon(t, f.ctx, `(async () => (await caches.keys()).length === 0)()`)
	f.waits(t, "1 entry of N floor waits on this phone.")
	f.comeIn(t, "floor")
	f.waits(t, "")
	if got := f.readings(t); len(got) != 1 || got[0].Who != "floor" {
		t.Errorf("%d readings", len(got))
	}
}

// TestRefusedSlipIsCorrected: it stays with its reason, comes back filled, and
// goes when the corrected one is handed in, or when it is discarded.
func TestRefusedSlipIsCorrected(t *testing.T) {
	f := phoned(t, &wire{}, "http")
	f.off()
	f.reads(t, "16.2 kg")
	f.waits(t, "1 entry waits on this phone.")
	f.wire.on(t)
	f.again(t)
	soon(t, f.ctx, `document.querySelector("#waiting li.refused .why")?.textContent.includes("kg") === true`)
	do(t, f.ctx, chromedp.Navigate(f.base+"/stock"))
	f.waits(t, "1 entry waits on this phone.")
	refused := ask[string](t, f.ctx, `document.querySelector("#waiting li.refused a").href`)
	ask[bool](t, f.ctx, `window.confirm = () => false, document.querySelector("#waiting li.refused button").click() ?? true`)
	do(t, f.ctx, chromedp.Navigate(refused))
	soon(t, f.ctx, `document.querySelector("form[data-slip=read]").elements.results[0].value === "temperature 16.2 kg"`)
	soon(t, f.ctx, `document.querySelector("form[data-slip=read] .says-fault")?.textContent.includes("kg") === true`)
	if at := ask[string](t, f.ctx, `document.querySelector("form[data-slip=read]").elements.at.value`); len(at) != len("2026-11-25 14:30:05+01:00") {
		t.Errorf("the time that it was made comes back as %q", at)
	}
	ask[bool](t, f.ctx, `{const f = document.querySelector("form[data-slip=read]"); f.elements.results[0].value = "temperature 16.2 °C"; f.requestSubmit(); true}`)
	soon(t, f.ctx, `location.pathname === "/floor"`)
	f.waits(t, "")
	got := f.readings(t)
	if len(got) != 1 || strings.HasSuffix(refused, got[0].ID) {
		t.Errorf("%d readings; the corrected one has an id of its own", len(got))
	}
	f.off()
	f.reads(t, "18 kg")
	f.waits(t, "1 entry waits on this phone.")
	ask[bool](t, f.ctx, `window.confirm = () => true, document.querySelector("#waiting li button").click() ?? true`)
	f.waits(t, "")
}

// pinned is the house by its own authority, and the mark of its key by which a
// browser is told to trust it.
func pinned(t *testing.T) (*tls.Config, string) {
	t.Helper()
	own, _, err := authority.Open(filepath.Join(t.TempDir(), "house.authority"), "Hallow Sound", []string{"127.0.0.1"}, time.Now)
	if err != nil {
		t.Fatal(err)
	}
	config := own.TLS()
	c, err := config.GetCertificate(nil)
	if err != nil {
		t.Fatal(err)
	}
	sum := sha256.Sum256(c.Leaf.RawSubjectPublicKeyInfo)
	return config, base64.StdEncoding.EncodeToString(sum[:])
}

// TestPhoneOverHTTPS goes the way of a phone with the house's own authority,
// whose key the browser is told to trust.
func TestPhoneOverHTTPS(t *testing.T) {
	own, pin := pinned(t)
	f := phoned(t, &wire{tls: own}, "https", chromedp.Flag("ignore-certificate-errors-spki-list", pin))
	f.off()
	f.reads(t, "16.2")
	f.waits(t, "1 entry waits on this phone.")
	f.wire.on(t)
	f.waits(t, "") // by itself, after a pause
	if got := f.readings(t); len(got) != 1 || got[0].Who != string(malthouse.Floor) {
		t.Errorf("%d readings", len(got))
	}
}

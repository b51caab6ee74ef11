package web

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"awn/internal/malthouse"
	"awn/internal/tools/need"
)

// raced is that the race detector looks on.
var raced bool

// browser opens a real browser; the test is skipped aloud without one.
func browser(t *testing.T, more ...chromedp.ExecAllocatorOption) context.Context {
	t.Helper()
	if raced {
		t.Skip("not run: the race detector sees what the house does in the tests without a browser; this one runs without it")
	}
	path := need.Program(t, "chromium")
	ctx, stop := chromedp.NewContext(t.Context(), chromedp.WithAllocatorOptions(append([]chromedp.ExecAllocatorOption{
		chromedp.ExecPath(path), chromedp.UserDataDir(t.TempDir()), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true)}, more...)...))
	t.Cleanup(stop)
	const hangs = 5 * time.Minute // a browser that never answers is an error, not a wait
	ctx, end := context.WithTimeout(ctx, hangs)
	t.Cleanup(end)
	return ctx
}

// onLoopback serves pages until the test ends. Pages that still listen to the record
// then are cut off.
func onLoopback(t *testing.T, h http.Handler) *httptest.Server {
	t.Helper()
	server := httptest.NewServer(h)
	t.Cleanup(func() {
		server.CloseClientConnections()
		server.Close()
	})
	return server
}

// inks sets the colours that the reader prefers.
func inks(scheme string) chromedp.Action[chromedp.Void] {
	return chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
			Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}},
		})
		return err
	})
}

// ask evaluates in the page.
func ask[T any](t *testing.T, ctx context.Context, js string) T {
	t.Helper()
	got, err := chromedp.Run(ctx, chromedp.Evaluate[T](js, chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatalf("%s: %v", js, err)
	}
	return got
}

func do(t *testing.T, ctx context.Context, steps ...chromedp.Action[chromedp.Void]) {
	t.Helper()
	if err := chromedp.Do(ctx, steps...); err != nil {
		t.Fatal(err)
	}
}

// every is the address of a page of each kind.
var every = []string{"/", "/intake", "/silos", "/piece", "/varieties", "/crop", "/reckoner", "/reckoner/emc", "/reckoner/emc?ask=malt+20+%C2%B0G", "/formulas", "/api", "/nowhere"}

// axeHelp runs axe-core and gives each violation with the first node that has it.
const axeHelp = `(async () => (await axe.run(document, {resultTypes: ["violations"], %s})).violations.map((v) => v.id + ": " + v.nodes.length + " × " + v.nodes[0].html.slice(0, 160) + " " + (v.nodes[0].any[0]?.message ?? "")))()`

// TestPagesAreAccessible runs axe-core (Deque, testdata/axe) on every page, at
// phone and desk width, in light and dark, and looks for a page wider than the
// window and for complaints in the console.
func TestPagesAreAccessible(t *testing.T) {
	axe, err := os.ReadFile("testdata/axe/axe.min.js")
	if err != nil {
		t.Fatal(err)
	}
	ctx := browser(t)
	server := onLoopback(t, served(t))
	examine(t, ctx, string(axe), server.URL, every)
}

// examine looks at pages at phone and desk width, in light and dark.
func examine(t *testing.T, ctx context.Context, axe, base string, paths []string) {
	t.Helper()
	console := complaints(t, ctx)
	for _, path := range paths {
		for _, width := range []int64{390, 1280} {
			do(t, ctx, chromedp.EmulateViewport(width, 900), chromedp.Navigate(base+path))
			if over := ask[int](t, ctx, "document.documentElement.scrollWidth - innerWidth"); over > 0 {
				t.Errorf("%s at %d px is %d px too wide", path, width, over)
			}
			for scheme, only := range map[string]string{"light": "", "dark": `runOnly: ["color-contrast"]`} { // in the dark nothing but colours is different
				do(t, ctx, inks(scheme))
				ask[bool](t, ctx, "document.querySelectorAll('details').forEach((d) => d.open = true) ?? true")
				ask[bool](t, ctx, axe+";true")
				got, err := chromedp.Run(ctx, chromedp.Evaluate[[]string](fmt.Sprintf(axeHelp, only), chromedp.EvalAwaitPromise))
				if err != nil {
					t.Fatal(err)
				}
				for _, v := range got {
					t.Errorf("%s at %d px, %s: %s", path, width, scheme, v)
				}
			}
		}
	}
	for _, m := range console() {
		if !strings.Contains(m, "404") { // of the page that is not there
			t.Errorf("console: %s", m)
		}
	}
}

// complaints gathers what the console complains of.
func complaints(t *testing.T, ctx context.Context) func() []string {
	t.Helper()
	listening, stop := context.WithCancel(ctx)
	messages := chromedp.Console(listening)
	var all []string
	done := make(chan struct{})
	go func() {
		defer close(done)
		for m, err := range messages {
			if err != nil {
				return
			}
			if m.IsException() || m.Type == "error" || m.Type == "warning" {
				all = append(all, m.String())
			}
		}
	}()
	return func() []string {
		stop()
		<-done
		return all
	}
}

// soon waits until something holds in the page, which may be led on meanwhile.
func soon(t *testing.T, ctx context.Context, js string) {
	t.Helper()
	var last error
	for range 600 {
		holds, err := chromedp.Run(ctx, chromedp.Evaluate[bool](js, chromedp.EvalAwaitPromise))
		if err == nil && holds {
			return
		}
		last = err
		do(t, ctx, chromedp.Sleep(50*time.Millisecond))
	}
	t.Fatalf("never: %s %v", js, last)
}

// TestPieceIsDesigned walks through a change in a browser: what comes of it is
// drawn anew, hems follow by themselves, a fault stands at its field, rows move
// and come back, and two programmes are compared.
func TestPieceIsDesigned(t *testing.T) {
	ctx := browser(t)
	server := onLoopback(t, served(t))
	do(t, ctx, chromedp.EmulateViewport(1280, 900), chromedp.Navigate(server.URL+"/piece"))
	was := ask[string](t, ctx, `document.querySelector("#outcome .makes").textContent`)
	type_ := func(name, value string) {
		ask[bool](t, ctx, fmt.Sprintf(`{const f = document.querySelector("form[data-live]").elements[%q]; f.value = %q; f.dispatchEvent(new Event("input", {bubbles: true})); true}`, name, value))
	}
	const kiln = "programme-pale.yaml:kiln[2].air_on"
	type_(kiln, "95 °C")
	soon(t, ctx, fmt.Sprintf(`document.querySelector("#outcome .makes").textContent !== %q`, was))
	soon(t, ctx, `document.querySelector("#outcome .band.hem, #outcome .hump") !== null`)
	type_(kiln, "95")
	soon(t, ctx, fmt.Sprintf(`document.querySelector("form[data-live]").elements[%q].getAttribute("aria-invalid") === "true"`, kiln))
	if got := ask[string](t, ctx, `document.querySelector("#outcome .fault .source").textContent`); got != "unit.missing" {
		t.Errorf("the fault is called %q", got)
	}
	type_(kiln, "90 °C")
	soon(t, ctx, `document.querySelector("#outcome .verdict") !== null`)
	press := func(value string) {
		ask[bool](t, ctx, fmt.Sprintf(`document.querySelector('button[value="%s"]').click() ?? true`, value))
	}
	press("keep")
	soon(t, ctx, `document.querySelectorAll("input[name=kept]").length === 1`)
	press("remove programme-pale.yaml:steep[3]")
	soon(t, ctx, `document.querySelectorAll('button[value^="remove programme-pale.yaml:steep"]').length === 5`)
	press("compare 0")
	soon(t, ctx, `[...document.querySelectorAll("#outcome td")].some((c) => c.textContent.startsWith("programme.steep"))`)
}

// TestKeyboardWalk goes from the address bar by the Tab key alone: to the link
// that skips, and on to the first field.
func TestKeyboardWalk(t *testing.T) {
	ctx := browser(t)
	server := onLoopback(t, served(t))
	do(t, ctx, chromedp.EmulateViewport(390, 900), chromedp.Navigate(server.URL+"/intake"), chromedp.KeyEvent("\t"))
	if got := ask[string](t, ctx, "document.activeElement.className"); got != "skip" {
		t.Errorf("the first stop is %q", got)
	}
	if got := ask[float64](t, ctx, "document.activeElement.getBoundingClientRect().width"); got < 40 {
		t.Errorf("the link that skips is %g px wide when it has the focus", got)
	}
	do(t, ctx, chromedp.KeyEvent("\r"), chromedp.KeyEvent("\t"))
	if got := ask[string](t, ctx, "document.activeElement.value"); got != "compute" {
		t.Errorf("behind the skip comes %q", got)
	}
	do(t, ctx, chromedp.KeyEvent("\t"))
	if got := ask[string](t, ctx, "document.activeElement.name"); got != "load.yaml:code" {
		t.Errorf("the first field is %q", got)
	}
}

// TestRoomsAreAccessible comes in by a code, as somebody would who opens the
// house, and examines its pages and those by which people come in.
func TestRoomsAreAccessible(t *testing.T) {
	axe, err := os.ReadFile("testdata/axe/axe.min.js")
	if err != nil {
		t.Fatal(err)
	}
	p := staffed(t)
	p.withPassword(t, "manager")
	ctx := browser(t)
	server := onLoopback(t, p)
	do(t, ctx, chromedp.Navigate(server.URL+signInAt)) // the browser belongs to whoever asks first, and must outlive each look
	examine(t, ctx, string(axe), server.URL, []string{signInAt, comeInAt, trustAt})
	code, err := p.Accounts.Entry(t.Context(), "manager")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := p.Accounts.Issue(t.Context(), malthouse.Actor{ID: "manager", Role: malthouse.Manager}, "weighbridge", "enter", 30); err != nil {
		t.Fatal(err)
	}
	do(t, ctx, chromedp.Navigate(server.URL+comeInAt+"?code="+code), chromedp.KeyEvent("\t"), chromedp.KeyEvent("\t"), chromedp.KeyEvent("\t"), chromedp.KeyEvent("\r"))
	soon(t, ctx, `location.pathname === "/floor"`)
	examine(t, ctx, string(axe), server.URL, []string{
		"/floor", "/deliveries", "/stock", "/pieces", "/pieces/P26-0001", weeksAt, pieceAt, "/enter/intend", "/malt", "/trace", "/balance", "/things/silo:B7", "/enter/receive",
		"/due", "/handover", "/complaint", "/certify?shipment=S26-0001", "/pieces/P26-0001/assurance", settingsAt, houseAt, peopleAt, peopleAt + "/guest/remove", tokensAt, passwordAt, keptAt, keptAt + "/plant", "/api",
	})
}

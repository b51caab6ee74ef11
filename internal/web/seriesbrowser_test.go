package web

import (
	"os"
	"slices"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// part of a series by the address of its page, in ms.
const shownPart = `(() => { const q = new URL(location.href).searchParams; return [+q.get("from"), +q.get("to")]; })()`

// TestSeriesByKeyboard walks along fifty thousand readings with the keys, in a
// browser, counts the frames while it does, and examines the page.
func TestSeriesByKeyboard(t *testing.T) {
	axe, err := os.ReadFile("testdata/axe/axe.min.js")
	if err != nil {
		t.Fatal(err)
	}
	p := staffed(t)
	all := p.sensed(t, 50_000)
	ctx := browser(t)
	server := onLoopback(t, p)
	code, err := p.Accounts.Entry(t.Context(), "manager")
	if err != nil {
		t.Fatal(err)
	}
	do(t, ctx, chromedp.EmulateViewport(1280, 900), chromedp.Navigate(server.URL+comeInAt+"?code="+code), chromedp.KeyEvent("\t"), chromedp.KeyEvent("\t"), chromedp.KeyEvent("\t"), chromedp.KeyEvent("\r"))
	soon(t, ctx, `location.pathname === "/floor"`)
	do(t, ctx, chromedp.Navigate(server.URL+"/series/B7-2M"))
	soon(t, ctx, `document.querySelector("[data-series]")?.dataset.live === "2"`)
	ask[bool](t, ctx, `document.querySelector("svg.seen").focus() ?? document.activeElement.matches("svg.seen")`)
	settle := func(key string, want func(from, to float64) bool) (from, to float64) {
		t.Helper()
		was := ask[[]float64](t, ctx, shownPart)
		if key != "" {
			do(t, ctx, chromedp.KeyEvent(key))
		}
		for range 100 {
			now := ask[[]float64](t, ctx, shownPart)
			if now[1] > 0 && (key == "" || !slices.Equal(now, was)) && want(now[0], now[1]) {
				return now[0], now[1]
			}
			do(t, ctx, chromedp.Sleep(50*time.Millisecond))
		}
		t.Fatalf("%q: still from %v", key, ask[[]float64](t, ctx, shownPart))
		return 0, 0
	}
	first, last := float64(all[0].AtMS), float64(all[len(all)-1].AtMS)
	settle("", func(from, to float64) bool { return from <= first && to >= last })
	from, to := settle("+", func(from, to float64) bool { return to-from < 0.51*(last-first) })
	from, to = settle("+", func(a, b float64) bool { return b-a < 0.51*(to-from) })
	span := to - from
	later, _ := settle(kb.ArrowRight, func(a, b float64) bool { return a > from+0.09*span && a < from+0.11*span })
	settle(kb.ArrowLeft, func(a, _ float64) bool { return a < later-0.09*span })
	settle("-", func(a, b float64) bool { return b-a > 1.9*span })
	whole, _ := settle(kb.Home, func(a, b float64) bool { return a <= first && b >= last })
	if said := ask[string](t, ctx, `document.getElementById("said").textContent`); said == "" || whole > first {
		t.Error("nobody is told what is seen")
	}
	ask[bool](t, ctx, `document.querySelector('[data-go="closer"]').click() ?? true`)
	settle("", func(a, b float64) bool { return b-a < 0.51*(last-first) })
	frames, err := chromedp.Run(ctx, chromedp.Evaluate[[]float64](panning, chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatal(err)
	}
	slices.Sort(frames)
	median, late := frames[len(frames)/2], frames[len(frames)*95/100]
	t.Logf("%d frames while panning: median %.1f ms, 95 in 100 under %.1f ms", len(frames), median, late)
	if median > 50 {
		t.Errorf("the median frame takes %.1f ms", median)
	}
	examine(t, ctx, string(axe), server.URL, []string{"/series", "/series/B7-2M", "/crop?of=own", "/trace?of=P26-0001"})
	do(t, ctx, chromedp.Navigate("about:blank")) // a page of a house listens until it is left
}

// panning holds an arrow key for three seconds and gives the times between
// frames, in ms.
const panning = `new Promise((done) => {
	const svg = document.querySelector("svg.seen"), times = [];
	let before = performance.now(), n = 0;
	const key = setInterval(() => svg.dispatchEvent(new KeyboardEvent("keydown", {key: n++ % 40 < 20 ? "ArrowRight" : "ArrowLeft", bubbles: true})), 33);
	const frame = (now) => { times.push(now - before); before = now; times.length < 180 ? requestAnimationFrame(frame) : (clearInterval(key), done(times.slice(1))); };
	requestAnimationFrame(frame);
})`

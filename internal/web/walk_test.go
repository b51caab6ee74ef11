package web

import (
	"context"
	"fmt"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"awn/internal/malthouse/year"
)

// walk is somebody at work in the made-up house, in a real browser.
type walk struct {
	*peopled
	t    *testing.T
	ctx  context.Context
	base string
	axe  string
}

// walking opens the made-up house as its year ends, to its manager, in a
// browser of some width.
func walking(t *testing.T, width int64) *walk {
	t.Helper()
	axe, err := os.ReadFile("testdata/axe/axe.min.js")
	if err != nil {
		t.Fatal(err)
	}
	w := &walk{peopled: empty(t), t: t, ctx: browser(t), axe: string(axe)}
	if err := year.Make(t.Context(), w.House, 1, w.clock().Add(-(year.Days*24+6)*time.Hour)); err != nil {
		t.Fatal(err)
	}
	server := onLoopback(t, w)
	w.base = server.URL
	w.withPassword(t, "runa")
	code, err := w.Accounts.Entry(t.Context(), "runa")
	if err != nil {
		t.Fatal(err)
	}
	do(t, w.ctx, chromedp.EmulateViewport(width, 900), chromedp.Navigate(w.base+comeInAt+"?code="+code))
	ask[bool](t, w.ctx, `document.querySelector("main form button").click() ?? true`)
	w.arrives("/floor")
	return w
}

// at goes to a page.
func (w *walk) at(path string) { w.t.Helper(); do(w.t, w.ctx, chromedp.Navigate(w.base+path)) }

// arrives waits until a page is there whole.
func (w *walk) arrives(path string) {
	w.t.Helper()
	soon(w.t, w.ctx, fmt.Sprintf(`location.pathname === %q && document.readyState === "complete"`, path))
}

// fills types into the slip of the page that begins with what is known, hands
// it in and waits for what the next page says of it. It returns that sentence.
func (w *walk) fills(name, known, then string, typed map[string]string) string {
	w.t.Helper()
	const find = `[...document.querySelectorAll('form[data-slip=%q]')].find((f) => [...f.elements].some((e) => e.type === "hidden" && e.value === %q) || %[2]q === "")`
	form := fmt.Sprintf(find, name, known)
	soon(w.t, w.ctx, form+" !== undefined")
	id := ask[string](w.t, w.ctx, form+`.elements.id.value`)
	for field, value := range typed {
		ask[bool](w.t, w.ctx, fmt.Sprintf(`{const e = %s.elements[%q]; const f = e.length && e.tagName !== "SELECT" ? e[0] : e;
			for (let d = f.closest("details"); d; d = d.parentElement.closest("details")) d.open = true;
			f.focus(); f.value = %q; f.dispatchEvent(new Event("input", {bubbles: true})); true}`, form, field, value))
	}
	w.looksRight(name)
	if lacks := ask[string](w.t, w.ctx, `[...`+form+`.elements].filter((e) => !e.checkValidity()).map((e) => e.name).join()`); lacks != "" {
		w.t.Fatalf("%s wants %s", name, lacks)
	}
	ask[bool](w.t, w.ctx, form+`.querySelector(".acts button").click() ?? true`)
	there := fmt.Sprintf(`location.search.includes("entered=" + %q)`, id)
	soon(w.t, w.ctx, there+` || location.pathname.startsWith("/enter/") && document.readyState === "complete" || document.querySelector("#waiting .refused") !== null`)
	if !ask[bool](w.t, w.ctx, there) {
		w.t.Fatalf("%s is not entered: %s", name, w.text())
	}
	w.arrives(then)
	return ask[string](w.t, w.ctx, fmt.Sprintf(`[...document.querySelectorAll("main p")].find((p) => p.textContent.includes(%q)).textContent`, id))
}

// looksRight examines the page as it stands.
func (w *walk) looksRight(what string) {
	w.t.Helper()
	if over := ask[int](w.t, w.ctx, "document.documentElement.scrollWidth - innerWidth"); over > 0 {
		w.t.Errorf("%s: the page is %d px too wide", what, over)
	}
	ask[bool](w.t, w.ctx, w.axe+";true")
	got, err := chromedp.Run(w.ctx, chromedp.Evaluate[[]string](fmt.Sprintf(axeHelp, ""), chromedp.EvalAwaitPromise))
	if err != nil {
		w.t.Fatal(err)
	}
	for _, v := range got {
		w.t.Errorf("%s: %s", what, v)
	}
}

// says wants a sentence of the page to hold something.
func (w *walk) says(want string) {
	w.t.Helper()
	soon(w.t, w.ctx, fmt.Sprintf(`document.querySelector("main").textContent.includes(%q)`, want))
}

// TestDaysWork walks through the commonest acts of a house, as people come to
// them, on a phone and on a desk: each page is free of axe-core's complaints
// and no wider than the window, and the console stays silent.
func TestDaysWork(t *testing.T) {
	for _, width := range []int64{360, 1280} {
		t.Run(fmt.Sprint(width), func(t *testing.T) {
			w := walking(t, width)
			silent := complaints(t, w.ctx)
			w.daysWork()
			for _, m := range silent() {
				t.Errorf("console: %s", m)
			}
		})
	}
}

var codeOf = regexp.MustCompile(`\b[PMSCL]26-\d{4}\b`)

func (w *walk) daysWork() {
	t := w.t
	w.at("/deliveries") // a truck
	if said := w.fills("receive", "", "/deliveries", map[string]string{"net": "29 t", "moisture": "12.6 % wb", "silo": "B11", "grower": "Ness Farm"}); !strings.Contains(said, "silo B11") {
		t.Errorf("a load: %s", said)
	}
	w.wait(time.Minute)

	w.at("/pieces") // a piece
	started := w.fills("start", "", "/pieces", map[string]string{"from": "B11 29 t", "vessel": "steep 3"})
	if codeOf.FindString(started) == "" {
		t.Fatalf("a piece: %s", started)
	}

	w.at("/floor")
	growing := codeOf.FindString(ask[string](t, w.ctx, `[...document.querySelectorAll("h2")].find((h) => h.textContent.includes("germinating")).textContent`))
	late := fmt.Sprintf(`[...document.querySelectorAll("#outcome tr")].some((r) => /%s.*Turn.*late/s.test(r.textContent))`, growing)
	for i := 0; !ask[bool](t, w.ctx, late); i++ { // the clock goes on until a turn is late
		if i > 20 {
			t.Fatalf("no turn is ever late: %s", w.text())
		}
		w.wait(time.Hour)
		w.at("/floor")
	}
	w.says(" late; it was due ")
	w.fills("act", growing, "/floor", map[string]string{"act": "turn"})
	if ask[bool](t, w.ctx, late) {
		t.Error("the bed was turned, and the floor says that it was not")
	}

	w.wait(50 * time.Hour) // to the kiln
	w.at("/pieces/" + growing)
	w.fills("act", growing, thingAt("piece:"+growing), map[string]string{"act": "kiln", "vessel": "kiln 1"})
	w.says("Heating") // begins with the break
	w.wait(11 * time.Hour)
	w.at("/floor")
	w.fills("read", "piece:"+growing, "/floor", map[string]string{"results": "moisture 11 % wb"})
	w.at("/pieces/" + growing)
	w.says("break")
	w.wait(22 * time.Hour)
	w.at("/floor")
	w.fills("act", growing, "/floor", map[string]string{"act": "strip"})
	w.wait(time.Hour)
	w.at("/pieces/" + growing)
	booked := w.fills("book", growing, thingAt("piece:"+growing), map[string]string{"malt": "M7 48 t", "moisture": "4.3 % wb", "culms": "FEED 1.9 t"})
	lot := regexp.MustCompile(`\bM26-\d{4}\b`).FindString(booked + w.text())
	w.at("/things/lot:" + lot)
	w.fills("analyse", "lot:"+lot, "/things/lot:"+lot, map[string]string{"results": "extract_fine 81.2 % dm", "method": "EBC 4.5.1"})
	w.fills("release", "lot:"+lot, "/things/lot:"+lot, map[string]string{"reason": "meets it"})

	w.at("/malt") // off it goes
	shipped := w.fills("ship", "", "/malt", map[string]string{"receiver": "Tern Rock Brewery", "from": "M7 26 t"})
	shipment := regexp.MustCompile(`\bS26-\d{4}\b`).FindString(shipped)
	w.at(certifyAt + "?shipment=" + shipment)
	w.looksRight("certify")
	ask[bool](t, w.ctx, `document.querySelector('form[action^="/certify"] button, main form button').click() ?? true`)
	soon(t, w.ctx, `location.pathname.startsWith("/certificates/")`)
	w.says("81.2")
	w.looksRight("the certificate")

	w.at("/trace")
	ask[bool](t, w.ctx, fmt.Sprintf(`{const f = document.querySelector("form.ask"); f.elements.of.value = %q; f.requestSubmit(); true}`, shipment))
	soon(t, w.ctx, `location.search.includes("of=")`)
	w.says("100.0")
	w.looksRight("the trace")
}

// text is what the page says.
func (w *walk) text() string {
	return ask[string](w.t, w.ctx, `document.querySelector("main").textContent`)
}

package web

import (
	"fmt"
	"os"
	"testing"

	"github.com/chromedp/chromedp"

	"awn/internal/malthouse"
)

// TestSpanishIsAccessible chooses Spanish on a page with several forms, in which
// something was typed that must not be lost, and examines the pages in it: the
// words are longer, and nothing may grow wider than the window. Colours are
// those of every other test.
func TestSpanishIsAccessible(t *testing.T) {
	axe, err := os.ReadFile("testdata/axe/axe.min.js")
	if err != nil {
		t.Fatal(err)
	}
	p := staffed(t)
	public := p.certified(t)
	server := onLoopback(t, p)
	ctx := browser(t)
	code, err := p.Accounts.Entry(t.Context(), "manager")
	if err != nil {
		t.Fatal(err)
	}
	do(t, ctx, chromedp.Navigate(server.URL+comeInAt+"?code="+code))
	ask[bool](t, ctx, `document.querySelector("main form").submit() ?? true`)
	soon(t, ctx, `location.pathname === "/floor" && document.readyState === "complete"`)
	ask[bool](t, ctx, `{const f = document.querySelector('main input[name="note"]'); f.value = "wet hands"; f.dispatchEvent(new Event("input", {bubbles: true})); true}`)
	ask[bool](t, ctx, `{const f = document.querySelector("form.reader"); f.elements["reader-tongue"].value = "es"; f.requestSubmit(); true}`)
	soon(t, ctx, `document.documentElement?.lang === "es" && document.readyState === "complete"`)
	soon(t, ctx, `[...document.querySelectorAll('main input[name="note"]')].some((f) => f.value === "wet hands")`)
	chosen, err := p.Accounts.Chosen(t.Context(), malthouse.Actor{ID: "manager"})
	if err != nil || chosen == "" {
		t.Errorf("kept with the account: %q, %v", chosen, err)
	}
	for _, path := range []string{
		"/floor", "/deliveries", "/pieces", "/pieces/P26-0009", "/malt", "/stock", "/certificates/C26-0001", public, readerAt, "/piece", "/intake", "/enter/receive",
	} {
		do(t, ctx, chromedp.EmulateViewport(1280, 900), chromedp.Navigate(server.URL+path))
		wide := ask[int](t, ctx, "document.documentElement.scrollWidth - innerWidth")
		do(t, ctx, chromedp.EmulateViewport(390, 900))
		ask[bool](t, ctx, "document.querySelectorAll('details').forEach((d) => d.open = true) ?? true")
		if over := max(wide, ask[int](t, ctx, "document.documentElement.scrollWidth - innerWidth")); over > 0 {
			t.Errorf("%s is %d px too wide", path, over)
		}
		ask[bool](t, ctx, string(axe)+";true")
		got, err := chromedp.Run(ctx, chromedp.Evaluate[[]string](fmt.Sprintf(axeHelp, ""), chromedp.EvalAwaitPromise))
		if err != nil {
			t.Fatal(err)
		}
		for _, v := range got {
			t.Errorf("%s: %s", path, v)
		}
	}
}

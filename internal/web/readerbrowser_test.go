package web

import (
	"net/http/httptest"
	"os"
	"testing"

	"github.com/chromedp/chromedp"

	"awn/internal/malthouse"
)

// TestSpanishIsAccessible chooses Spanish on a page with several forms, in which
// something was typed that must not be lost, and examines the pages in it: the
// words are longer, and nothing may grow wider than a phone.
func TestSpanishIsAccessible(t *testing.T) {
	axe, err := os.ReadFile("testdata/axe/axe.min.js")
	if err != nil {
		t.Fatal(err)
	}
	p := staffed(t)
	public := p.certified(t)
	server := httptest.NewServer(p)
	defer server.Close()
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
	soon(t, ctx, `document.documentElement.lang === "es" && document.readyState === "complete"`)
	soon(t, ctx, `[...document.querySelectorAll('main input[name="note"]')].some((f) => f.value === "wet hands")`)
	chosen, err := p.Accounts.Chosen(t.Context(), malthouse.Actor{ID: "manager"})
	if err != nil || chosen == "" {
		t.Errorf("kept with the account: %q, %v", chosen, err)
	}
	examine(t, ctx, string(axe), server.URL, []string{
		"/floor", "/deliveries", "/pieces", "/pieces/P26-0001", "/malt", "/stock", "/things/lot:M26-0009", "/certificates/C26-0001", public, readerAt, "/piece", "/intake", "/enter/receive", "/enter/act", "/due",
	})
}

package web

import (
	"context"
	"encoding/json"
	"errors"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"awn/internal/malthouse"
	"awn/internal/slip"
	"awn/ledger"
)

// byScript sends a slip as the script of a page does.
func (p *peopled) byScript(t *testing.T, role malthouse.Role, path string, form url.Values, heads map[string]string) (int, string) {
	t.Helper()
	r := httptest.NewRequest("POST", scriptAt+path, strings.NewReader(form.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	r.AddCookie(&http.Cookie{Name: "awn-session", Value: p.standing(t, role)})
	for name, value := range heads {
		r.Header.Set(name, value)
	}
	w := httptest.NewRecorder()
	p.ServeHTTP(w, r)
	return w.Code, w.Body.String()
}

// A slip that is looked at says what the command line says of it, and is not
// entered, whatever it is.
func TestLookingEntersNothing(t *testing.T) {
	p := staffed(t)
	head := func() ledger.Head {
		h, err := p.House.Store.Read(p.House.Code).Head(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		return h
	}
	before := head()
	good := map[string]url.Values{
		"receive": {"net": {"20 t"}, "moisture": {"12 % wb"}, "silo": {"B9"}}, "move": {"from": {"B7"}, "to": {"B8"}, "mass": {"1 t"}},
		"count": {"place": {"B7"}, "mass": {"19 t"}, "reason": {"sounded"}}, "start": {"from": {"B7 5 t"}},
		"act": {"piece": {"P26-0001"}, "act": {"immerse"}}, "read": {"thing": {"P26-0001"}, quickPrefix + "temperature °C": {"16.2"}},
		"book":    {"piece": {"P26-0001"}, "malt": {"M1 0.8 t"}, "moisture": {"4.2 % wb"}},
		"analyse": {"thing": {"L26-0001"}, "results": {"moisture 13 % wb"}}, "release": {"thing": {"L26-0001"}, "reason": {"meets it"}},
		"hold": {"thing": {"L26-0001"}, "reason": {"look again"}}, "decide": {"thing": {"B7"}, "decision": {"keep it"}},
		"person": {"who": {"newcomer"}, "role": {"floor"}},
	}
	for name, form := range good {
		if code, body := p.byScript(t, malthouse.Manager, lookAt+name, form, nil); code != http.StatusOK || body != "{}" {
			t.Errorf("%s: %d %s", name, code, body)
		}
	}
	if after := head(); after != before {
		t.Errorf("the record has grown from %d to %d", before.Seq, after.Seq)
	}
	if _, err := p.House.Desk.Person(t.Context(), "newcomer"); err == nil {
		t.Error("somebody was made known")
	}
	_, err := (&slip.Read{Thing: "P26-0001", Results: []string{"temperature 16.2 kg", "mositure 42 % wb"}}).Enter(t.Context(), p.House, malthouse.Actor{}, malthouse.Entry{})
	var faults slip.Faults
	if !errors.As(err, &faults) {
		t.Fatal(err)
	}
	code, body := p.byScript(t, malthouse.Floor, lookAt+"read", url.Values{"thing": {"P26-0001"}, quickPrefix + "temperature °C": {"16.2 kg"}, "results": {"mositure 42 % wb"}}, nil)
	var said problem
	if err := json.Unmarshal([]byte(body), &said); err != nil || code != http.StatusUnprocessableEntity || len(said.Faults) != len(faults) {
		t.Fatalf("%d %s", code, body)
	}
	for _, f := range faults {
		if !strings.Contains(body, strings.Trim(strconv.Quote(f.Says), `"`)) {
			t.Errorf("nothing is said like %q in %s", f.Says, body)
		}
	}
	if code, _ := p.byScript(t, malthouse.Auditor, lookAt+"read", good["read"], nil); code != http.StatusForbidden {
		t.Errorf("an auditor: %d", code)
	}
}

// A slip is taken under its own person's session alone, once, and a clock that is
// off is said; what was stated stays.
func TestSlipsOfAPhone(t *testing.T) {
	p := staffed(t)
	form := url.Values{"id": {newID(p.clock())}, "thing": {"P26-0001"}, quickPrefix + "temperature °F": {"61"}, "at": {"2026-11-02 07:50:00+00:00"}}
	clock := func(off time.Duration) map[string]string {
		return map[string]string{madeBy: "floor", clockOf: strconv.FormatInt(p.clock().Add(off).UnixMilli(), 10)}
	}
	if code, body := p.byScript(t, malthouse.Laboratory, slipsAt+"read", form, clock(0)); code != http.StatusForbidden || !strings.Contains(body, "web.slip.other") {
		t.Errorf("somebody else: %d %s", code, body)
	}
	for i, off := range []time.Duration{0, 119 * time.Second, 5 * time.Minute, -5 * time.Minute} {
		code, body := p.byScript(t, malthouse.Floor, slipsAt+"read", form, clock(off))
		var got handed
		if err := json.Unmarshal([]byte(body), &got); err != nil || code != http.StatusOK || got.ID != form.Get("id") || got.Again != (i > 0) {
			t.Errorf("%v: %d %s", off, code, body)
		}
		if said := strings.Contains(body, "5 min ahead") || strings.Contains(body, "5 min behind"); said != (i > 1) {
			t.Errorf("%v off: %s", off, body)
		}
	}
	fact, found, err := p.House.Store.Read(p.House.Code).Fact(t.Context(), form.Get("id"))
	if err != nil || !found || fact.At != time.Date(2026, 11, 2, 7, 50, 0, 0, time.UTC).UnixMilli() {
		t.Errorf("%+v, %v", fact, err)
	}
	form.Set(quickPrefix+"temperature °F", "62")
	if code, _ := p.byScript(t, malthouse.Floor, slipsAt+"read", form, clock(0)); code != http.StatusConflict {
		t.Errorf("another reading under the same id: %d", code)
	}
}

// TestTypingIsNotLost: somebody types while others enter. The page says so within
// a second and leaves what is typed; one on which nobody types is set anew. What
// is typed is read by the house, and what is wrong stands by its field.
func TestTypingIsNotLost(t *testing.T) {
	f := phoned(t, &wire{}, "http")
	others := func() {
		t.Helper()
		floor := malthouse.Actor{ID: "floor", Role: malthouse.Floor}
		if _, err := (&slip.Start{From: []string{"B7 1 t"}}).Enter(context.WithoutCancel(t.Context()), f.House, floor, malthouse.Entry{}); err != nil {
			t.Fatal(err)
		}
	}
	do(t, f.ctx, chromedp.Sleep(2*ringEvery)) // until the end of before is known
	begun := time.Now()
	others()
	soon(t, f.ctx, `document.querySelectorAll("form.quick").length === 2`)
	if took := time.Since(begun); took > 2*time.Second { // a second, and what a loaded machine adds
		t.Errorf("the page is set anew after %v", took)
	}
	ask[bool](t, f.ctx, `{const e = document.querySelector("form.quick").elements["results:temperature °C"]; e.focus(); e.value = "16.2 kg"; e.dispatchEvent(new Event("input", {bubbles: true})); true}`)
	soon(t, f.ctx, `document.querySelector("form.quick .says-fault")?.textContent.includes("kg") === true`)
	others()
	soon(t, f.ctx, `document.getElementById("said").textContent.startsWith("Somebody has entered something.")`)
	if got := ask[string](t, f.ctx, `document.querySelector("form.quick").elements["results:temperature °C"].value`); got != "16.2 kg" {
		t.Errorf("what was typed is %q", got)
	}
	ask[bool](t, f.ctx, `{const e = document.querySelector("form.quick").elements["results:temperature °C"]; e.value = "16.2"; e.dispatchEvent(new Event("input", {bubbles: true})); true}`)
	soon(t, f.ctx, `document.querySelector("form.quick .says-fault") === null`)
}

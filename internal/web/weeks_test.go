package web

import (
	"html"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"
)

var tags = regexp.MustCompile(`<[^>]*>`)

// plainText is what a reader reads of a page.
func plainText(body string) string {
	return strings.Join(strings.Fields(html.UnescapeString(tags.ReplaceAllString(body, " "))), " ")
}

// TestAProgrammeIsSetToAPiece keeps what was designed in the house, starts a
// piece from it, and opens the programme that the piece follows; by rights.
func TestAProgrammeIsSetToAPiece(t *testing.T) {
	p := staffed(t)
	planner := p.standing(t, "planning")
	page := p.try("GET", "/piece?lot=silo:B7", planner, nil)
	body := page.Body.String()
	if page.Code != 200 || !strings.Contains(body, `formaction="/plans"`) || !strings.Contains(body, "silo:B7") {
		t.Fatalf("%d, and the page offers nothing of the house", page.Code)
	}
	form := formOf(t, body)
	if got := form.Get("lot-easy.yaml:moisture"); got != "13.0 % wb" || form.Get("lot-easy.yaml:protein") != "" {
		t.Errorf("the lot of the silo: moisture %q, protein %q", got, form.Get("lot-easy.yaml:protein"))
	}
	if floor := p.try("GET", "/piece", p.standing(t, "floor"), nil); strings.Contains(floor.Body.String(), `formaction="/plans"`) {
		t.Error("the floor may keep a plan")
	}
	form.Set("programme-pale.yaml:steep[0].immersion.for", "7")
	if w := p.try("POST", plansAt, planner, form); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "unit.missing") {
		t.Errorf("a programme at fault: %d", w.Code)
	}
	form.Set("programme-pale.yaml:steep[0].immersion.for", "6.5 h")
	form.Set("plan-name", "Pale, shorter")
	form.Set("do", "start")
	w := p.try("POST", plansAt, planner, form)
	to := w.Header().Get("Location")
	if w.Code != http.StatusSeeOther || !strings.HasPrefix(to, "/enter/start?") {
		t.Fatalf("%d to %q", w.Code, to)
	}
	slip := p.try("GET", to, planner, nil).Body.String()
	if !strings.Contains(slip, `<option value="Pale, shorter" selected>`) {
		t.Error("the slip does not name the plan")
	}
	start := formOf(t, slip)
	start.Set("from", "B7 2 t")
	start.Set("piece", "P26-0009")
	if w := p.try("POST", slipsAt+"start", planner, start); w.Code != http.StatusSeeOther {
		t.Fatalf("started: %d %s", w.Code, plainText(w.Body.String()))
	}
	told := p.try("GET", "/pieces/P26-0009", planner, nil).Body.String()
	if !strings.Contains(told, "/piece?with=piece%3AP26-0009") || !strings.Contains(told, "It follows programme Pale two-row") {
		t.Error("the piece does not say what it follows")
	}
	again := formOf(t, p.try("GET", "/piece?with=piece:P26-0009", planner, nil).Body.String())
	if again.Get("programme-pale.yaml:steep[0].immersion.for") != "6.5 h" || again.Get("lot-easy.yaml:moisture") != "13.0 % wb" {
		t.Errorf("the programme of the piece comes back as %q with %q", again.Get("programme-pale.yaml:steep[0].immersion.for"), again.Get("lot-easy.yaml:moisture"))
	}
	if list := html.UnescapeString(p.try("GET", "/pieces", planner, nil).Body.String()); !strings.Contains(list, "/piece?with=plan%3APale%2C+shorter") || !strings.Contains(list, `<option value="Pale, shorter">`) {
		t.Error("the pieces do not offer the plan")
	}
}

// TestADoubleBookingIsNamed intends two pieces in one steep at overlapping times
// and one after the other has left, and moves the second out of the way.
func TestADoubleBookingIsNamed(t *testing.T) {
	p := staffed(t)
	planner := p.standing(t, "planning")
	form := formOf(t, p.try("GET", "/piece", planner, nil).Body.String())
	form.Set("plan-name", "pale")
	if w := p.try("POST", plansAt, planner, form); w.Code != http.StatusSeeOther {
		t.Fatal(w.Code)
	}
	intend := func(more url.Values) string {
		t.Helper()
		in := url.Values{"plan": {"pale"}, "back": {weeksAt}, "order": {"Tern Rock 31"}, "due": {"2026-12-24"}}
		for k, v := range more {
			in[k] = v
		}
		w := p.try("POST", slipsAt+"intend", planner, in)
		if w.Code != http.StatusSeeOther {
			t.Fatalf("%d %s", w.Code, plainText(w.Body.String()))
		}
		to, _ := url.Parse(w.Header().Get("Location"))
		return to.Query().Get(entered)
	}
	intend(url.Values{"begin": {"2026-11-03 06:00"}, "vessel": {"steep 1"}, "box": {"box 1"}, "kiln": {"kiln 1"}})
	second := intend(url.Values{"begin": {"2026-11-04 06:00"}, "vessel": {"steep 1"}, "box": {"box 2"}, "kiln": {"kiln 2"}})
	page := p.try("GET", weeksAt, planner, nil).Body.String()
	for i := 0; !strings.Contains(page, "Uncalibrated"); i++ { // until the plan is drawn
		if i > 20 {
			t.Fatal("the plan is never drawn")
		}
		page = p.try("GET", weeksAt, planner, nil).Body.String()
	}
	text := plainText(page)
	for _, want := range []string{
		"Steep 1 is booked twice: the piece of Tue 3 Nov 2026, 06:00 for Tern Rock 31 is there until Thu 5 Nov 2026, 00:", "comes Wed 4 Nov 2026, 06:00.",
		"Tern Rock 31 is ready", "it is due Thu 24 Dec",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not said in %s", want, text[:min(len(text), 900)])
		}
	}
	move := regexp.MustCompile(`href="(/enter/intend\?[^"]*` + second + `[^"]*)"`).FindStringSubmatch(page)
	if move == nil {
		t.Fatal("the second cannot be moved")
	}
	again := formOf(t, p.try("GET", html.UnescapeString(move[1]), planner, nil).Body.String())
	again.Set("begin", "2026-11-06 06:00")
	if w := p.try("POST", slipsAt+"intend", planner, again); w.Code != http.StatusSeeOther {
		t.Fatalf("moved: %d %s", w.Code, plainText(w.Body.String()))
	}
	if text := plainText(p.try("GET", weeksAt, planner, nil).Body.String()); !strings.Contains(text, "No vessel is booked twice.") {
		t.Errorf("moved, and still: %s", text[:min(len(text), 900)])
	}
	csv := p.try("GET", weeksAt+"/table.csv?table=1&from=2026-11-02&weeks=4", planner, nil)
	if csv.Code != 200 || !strings.Contains(csv.Body.String(), "steep 1") || !strings.HasPrefix(csv.Body.String(), "piece,order,vessel,from,to") {
		t.Errorf("%d %s", csv.Code, csv.Body)
	}
	if w := p.try("GET", weeksAt+"?weeks=900", planner, nil); w.Code != http.StatusUnprocessableEntity {
		t.Errorf("900 weeks: %d", w.Code)
	}
	if api := p.try("GET", apiAt+weeksAt, planner, nil); api.Code != 200 || !strings.Contains(api.Body.String(), `"weeks/1"`) || !strings.Contains(api.Body.String(), `"box 2"`) {
		t.Errorf("%d %s", api.Code, api.Body)
	}
}

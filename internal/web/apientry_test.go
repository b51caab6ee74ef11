package web

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"
	"time"

	"awn/internal/malthouse"
)

// TestTheSameEntryTwiceEntersOnce sends what a program sends that does not know
// whether it was heard.
func TestTheSameEntryTwiceEntersOnce(t *testing.T) {
	p := staffed(t)
	body := func(id, net string) string {
		return `{"id":"` + id + `","net":"` + net + `","moisture":"12 % wb","silo":"B9","grower":"Upper Farm"}`
	}
	id := newID(p.clock())
	type entry struct {
		Seq   int64
		ID    string
		Again bool
	}
	of := func(w *httptest.ResponseRecorder) (e entry) {
		t.Helper()
		if err := json.Unmarshal(w.Body.Bytes(), &e); err != nil {
			t.Fatal(err)
		}
		return e
	}
	first := of(p.enteredAs(t, "receive", body(id, "20 t")))
	p.loads(t, 1)
	p.wait(90 * time.Minute)
	again := of(p.enteredAs(t, "receive", body(id, "20 t")))
	if first.Again || !again.Again || again.Seq != first.Seq || again.ID != id {
		t.Errorf("%+v, then %+v", first, again)
	}
	w := p.programAs(t, malthouse.Intake, "POST", apiAt+slipsAt+"receive", body(id, "21 t"))
	var wrong problem
	if err := json.Unmarshal(w.Body.Bytes(), &wrong); err != nil || w.Code != http.StatusConflict || wrong.Type != "urn:awn:fault:record.id.other" {
		t.Errorf("another load with the same id: %d %s", w.Code, w.Body)
	}
	all, err := p.House.Deliveries(t.Context(), malthouse.Actor{Role: malthouse.Auditor})
	if err != nil || len(all) != 3 {
		t.Errorf("%d loads, %v", len(all), err)
	}
}

// TestEveryErrorIsAProblem wants application/problem+json with a code of ours:
// RFC 9457.
func TestEveryErrorIsAProblem(t *testing.T) {
	p := staffed(t)
	s := schema(t, described(t), "problem")
	large := strings.Repeat("x", mostBytes+1)
	for _, c := range []struct {
		method, path, kind, body string
		status                   int
		code                     string
	}{
		{"GET", "/nowhere", "", "", 404, "web.page.missing"},
		{"GET", "/pieces/P26-4711", "", "", 404, "use.thing.unknown"},
		{"GET", "/entries/emm", "", "", 404, ""},
		{"DELETE", "/stock", "", "", 405, "web.method.unknown"},
		{"GET", "/enter/receive", "", "", 405, "web.method.unknown"},
		{"POST", "/enter/receive", kindJSON, `{"note":"` + large + `"}`, 413, "web.form.large"},
		{"POST", "/piece", kindYAML, large, 413, "web.form.large"},
		{"PUT", "/documents/plant", kindYAML, large, 413, "web.form.large"},
		{"POST", "/enter/receive", "text/csv", "a,b", 415, "web.kind.unknown"},
		{"POST", "/load", "application/x-www-form-urlencoded", "a=b", 415, "web.kind.unknown"},
		{"POST", "/enter/receive", kindJSON, "{", 400, "web.form.unreadable"},
		{"POST", "/enter/receive", kindJSON, "{}", 422, ""},
		{"POST", "/piece", kindJSON, "{}", 422, ""},
	} {
		w := p.programAs(t, malthouse.Manager, c.method, apiAt+c.path, c.body, "Content-Type", c.kind)
		name := fmt.Sprint(c.method, " ", c.path, " ", c.kind)
		if w.Header().Get("Content-Type") != kindProblem || w.Header().Get("Cache-Control") != "no-store" {
			t.Errorf("%s: %v", name, w.Header())
		}
		valid(t, name, s, w, c.status)
		var got problem
		if err := json.Unmarshal(w.Body.Bytes(), &got); err != nil || got.Status != c.status || !strings.HasPrefix(got.Type, "urn:awn:fault:"+c.code) {
			t.Errorf("%s: %v %+v", name, err, got)
		}
		if allow := w.Header().Get("Allow"); (c.status == 405) != (allow != "") || slices.Contains(strings.Split(allow, ", "), c.method) {
			t.Errorf("%s: Allow is %q", name, allow)
		}
	}
	r := httptest.NewRequest("GET", apiAt+"/stock", nil)
	w := httptest.NewRecorder()
	p.ServeHTTP(w, r)
	valid(t, "nobody", s, w, http.StatusUnauthorized)
	denied := p.programAs(t, malthouse.Auditor, "POST", apiAt+slipsAt+"receive", "{}")
	valid(t, "an auditor", s, denied, http.StatusForbidden)
}

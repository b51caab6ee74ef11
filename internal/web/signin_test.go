package web

import (
	"context"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"awn/internal/account"
	"awn/internal/malthouse"
)

// signIn signs in by the page, from an address.
func (p *peopled) signInAs(who, password, from, before string) *httptest.ResponseRecorder {
	r := httptest.NewRequest("POST", signInAt, strings.NewReader(url.Values{"who": {who}, "password": {password}, "back": {"/stock"}}.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	r.RemoteAddr = from + ":4711"
	if before != "" {
		r.AddCookie(&http.Cookie{Name: "awn-session", Value: before})
	}
	w := httptest.NewRecorder()
	p.ServeHTTP(w, r)
	return w
}

const phrase = "four words in a row"

func (p *peopled) withPassword(t *testing.T, who string) {
	t.Helper()
	if err := p.Accounts.Password(t.Context(), who, phrase); err != nil {
		t.Fatal(err)
	}
}

func sessionOf(w *httptest.ResponseRecorder) string {
	for _, c := range w.Result().Cookies() {
		if c.Name == "awn-session" {
			return c.Value
		}
	}
	return ""
}

func TestGuessingIsLimited(t *testing.T) {
	p := staffed(t)
	p.withPassword(t, "floor")
	wrong := p.signInAs("floor", "something else", "192.0.2.1", "")
	unknown := p.signInAs("nobody", "something else", "192.0.2.9", "")
	if wrong.Code != 422 || unknown.Code != 422 || !strings.Contains(wrong.Body.String(), account.Sentences["account.sign-in.wrong"]) {
		t.Errorf("%d, %d", wrong.Code, unknown.Code)
	}
	names := strings.NewReplacer("floor", "", "nobody", "")
	if names.Replace(wrong.Body.String()) != names.Replace(unknown.Body.String()) {
		t.Error("the page tells who has an account")
	}
	for range 4 {
		p.signInAs("floor", "something else", "192.0.2.1", "")
	}
	if w := p.signInAs("floor", phrase, "192.0.2.1", ""); w.Code != 422 || !strings.Contains(w.Body.String(), "quarter of an hour") {
		t.Errorf("the sixth try: %d", w.Code)
	}
	if w := p.signInAs("floor", phrase, "192.0.2.2", ""); w.Code != 303 || w.Header().Get("Location") != "/stock" {
		t.Errorf("from elsewhere: %d", w.Code)
	}
	p.wait(16 * time.Minute)
	if w := p.signInAs("floor", phrase, "192.0.2.1", ""); w.Code != 303 {
		t.Errorf("after a while: %d", w.Code)
	}
	for i := range 25 { // names tried one after the other from one place
		w := p.signInAs("name"+string(rune('a'+i)), "x", "192.0.2.7", "")
		if often := strings.Contains(w.Body.String(), "quarter of an hour"); often != (i >= 20) {
			t.Errorf("name %d from one address: %v", i, often)
		}
	}
}

func TestSessionsAreNewAndEnd(t *testing.T) {
	p := staffed(t)
	p.withPassword(t, "floor")
	in := func(session string) bool { return p.try("GET", "/stock", session, nil).Code == 200 }
	const planted = "a session that somebody planted"
	w := p.signInAs("floor", phrase, "192.0.2.1", planted)
	first := sessionOf(w)
	if first == "" || first == planted || in(planted) || !in(first) {
		t.Fatal("a planted session is taken, or none is given")
	}
	c := w.Result().Cookies()[0]
	if !c.HttpOnly || c.SameSite != http.SameSiteLaxMode || c.Path != "/" || c.Domain != "" {
		t.Errorf("the cookie: %+v", c)
	}
	second := sessionOf(p.signInAs("floor", phrase, "192.0.2.1", first))
	if in(first) || !in(second) {
		t.Error("the session of before signing in goes on")
	}
	p.try("POST", signOutAt, second, nil)
	if in(second) {
		t.Error("the session goes on after signing out")
	}
	third := p.session(t, "floor")
	p.wait(4 * 24 * time.Hour)
	if in(third) {
		t.Error("a session that nobody used for four days goes on")
	}
	fourth := p.session(t, "floor")
	for range 29 {
		p.wait(24 * time.Hour)
		if !in(fourth) {
			t.Fatal("a session in daily use ends early")
		}
	}
	p.wait(25 * time.Hour)
	if in(fourth) {
		t.Error("a session goes on for ever")
	}
}

func TestPeopleComeAndGo(t *testing.T) {
	p := staffed(t)
	ctx, boss := t.Context(), p.session(t, "manager")
	floor := p.session(t, "floor")
	manager := malthouse.Actor{ID: "manager", Role: malthouse.Manager}
	token, err := p.Accounts.Issue(ctx, malthouse.Actor{ID: "floor", Role: malthouse.Floor}, "scale", "enter", 30)
	if err != nil {
		t.Fatal(err)
	}
	holds := func(token string) bool {
		_, found, err := p.Accounts.Program(ctx, token)
		return found && err == nil
	}
	in := func(session string) bool { return p.try("GET", "/stock", session, nil).Code == 200 }
	if _, err := p.House.Admit(ctx, manager, malthouse.Entry{}, malthouse.Person{ID: "floor", Name: "F", Role: malthouse.Auditor}); err != nil {
		t.Fatal(err)
	}
	if in(floor) || !holds(token) {
		t.Error("another role: the session goes on, or the token does not")
	}
	w := p.try("POST", peopleAt+"/floor/link", boss, nil)
	link := regexp.MustCompile(`link=([\w-]+)`).FindStringSubmatch(w.Body.String())
	if w.Code != 200 || link == nil {
		t.Fatalf("no link: %d", w.Code)
	}
	if w := p.try("GET", joinAt+"?link="+link[1], "", nil); w.Code != 200 {
		t.Errorf("the page of the link: %d", w.Code)
	}
	if w := p.try("POST", joinAt, "", url.Values{"link": {link[1]}, "password": {"short"}}); w.Code != 422 {
		t.Errorf("a short password: %d", w.Code)
	}
	w = p.try("POST", joinAt, "", url.Values{"link": {link[1]}, "password": {phrase}})
	floor = sessionOf(w)
	if w.Code != 303 || !in(floor) {
		t.Errorf("joined: %d", w.Code)
	}
	if w := p.try("POST", joinAt, "", url.Values{"link": {link[1]}, "password": {phrase + "!"}}); w.Code != 403 {
		t.Errorf("the link once more: %d", w.Code)
	}
	if w := p.try("POST", passwordAt, floor, url.Values{"old": {"wrong"}, "password": {phrase + "!"}}); w.Code != 422 {
		t.Errorf("changed without the password so far: %d", w.Code)
	}
	other := p.session(t, "laboratory")
	if w := p.try("POST", tokensAt+"/"+tokenID(t, p, "floor")+"/end", other, nil); w.Code != 404 || !holds(token) {
		t.Errorf("somebody else's token: %d", w.Code)
	}
	if w := p.try("POST", peopleAt+"/floor/remove", boss, nil); w.Code != 303 || in(floor) || holds(token) {
		t.Errorf("removed: %d", w.Code)
	}
	if w := p.try("POST", peopleAt+"/manager/remove", boss, nil); w.Code != 422 || !in(boss) {
		t.Errorf("the last manager: %d", w.Code)
	}
	if w := p.signInAs("floor", phrase, "192.0.2.1", ""); w.Code != 422 {
		t.Errorf("somebody removed signs in: %d", w.Code)
	}
}

func tokenID(t *testing.T, p *peopled, who string) string {
	t.Helper()
	all, err := p.Accounts.Tokens(t.Context(), malthouse.Actor{ID: who, Role: malthouse.Manager})
	if err != nil || len(all) == 0 {
		t.Fatal(err, len(all))
	}
	return all[0].ID
}

func TestDoorsAreNarrow(t *testing.T) {
	p := staffed(t)
	p.withPassword(t, "floor")
	for _, back := range []string{"//elsewhere.example", "https://elsewhere.example/", `/\elsewhere.example`, "javascript:alert(1)"} {
		w := p.try("POST", signInAt, "", url.Values{"who": {"floor"}, "password": {phrase}, "back": {back}})
		if to := w.Header().Get("Location"); w.Code != 303 || to != "/" {
			t.Errorf("back to %s leads to %q", back, to)
		}
	}
	for _, path := range []string{signInAt, slipsAt + "receive", apiAt + slipsAt + "receive", houseAt} {
		for head, value := range map[string]string{"Sec-Fetch-Site": "cross-site", "Origin": "https://elsewhere.example"} {
			r := httptest.NewRequest("POST", path, strings.NewReader("a=b"))
			r.Header.Set(head, value)
			r.AddCookie(&http.Cookie{Name: "awn-session", Value: p.session(t, "manager")})
			w := httptest.NewRecorder()
			if p.ServeHTTP(w, r); w.Code != 403 {
				t.Errorf("%s from another site (%s): %d", path, head, w.Code)
			}
		}
	}
	large := url.Values{"who": {strings.Repeat("x", mostBytes+1)}}
	boss := p.session(t, "manager")
	for _, path := range []string{signInAt, slipsAt + "receive", keptAt + "/plant", houseAt} {
		if w := p.try("POST", path, boss, large); w.Code != 413 {
			t.Errorf("%s takes more than is bounded: %d", path, w.Code)
		}
	}
	boss = p.session(t, "manager")
	for _, path := range []string{"/stock", settingsAt, signInAt} {
		w := p.try("GET", path, boss, nil)
		if strings.Contains(w.Body.String(), "style=") || strings.Contains(w.Body.String(), "<script>") || w.Header().Get("Cache-Control") != "no-store" {
			t.Errorf("%s would be blocked by the policy, or is kept by the browser", path)
		}
	}
}

// One entry, by a program, twice: it is entered once.
func TestProgramsEnter(t *testing.T) {
	p := staffed(t)
	token, err := p.Accounts.Issue(t.Context(), malthouse.Actor{ID: "intake", Role: malthouse.Intake}, "weighbridge", "enter", 1)
	if err != nil {
		t.Fatal(err)
	}
	send := func(token, body string) *httptest.ResponseRecorder {
		r := httptest.NewRequest("POST", apiAt+slipsAt+"receive", strings.NewReader(body))
		r.Header.Set("Authorization", "Bearer "+token)
		w := httptest.NewRecorder()
		p.ServeHTTP(w, r)
		return w
	}
	id := newID(p.clock())
	load := `{"id": "` + id + `", "net": "28.1 t", "moisture": "13.2 % wb", "silo": "B8", "crop": 2026}`
	for _, again := range []string{`"again": false`, `"again": true`} {
		w := send(token, load)
		if w.Code != 200 || !strings.Contains(w.Body.String(), again) || !strings.Contains(w.Body.String(), id) {
			t.Errorf("%d: %s", w.Code, w.Body)
		}
	}
	w := send(token, `{"net": "28.1", "crop": "last"}`)
	if w.Code != 422 || !strings.Contains(w.Body.String(), `"path": "silo"`) || !strings.Contains(w.Body.String(), `"path": "crop"`) {
		t.Errorf("all that is wrong: %d %s", w.Code, w.Body)
	}
	p.wait(25 * time.Hour)
	if w := send(token, load); w.Code != 401 || w.Header().Get("WWW-Authenticate") != "Bearer" {
		t.Errorf("a token that has ended: %d", w.Code)
	}
	if n, err := p.House.Deliveries(context.WithoutCancel(t.Context()), malthouse.Actor{Role: malthouse.Auditor}); err != nil || len(n) != 2 {
		t.Errorf("%d deliveries: %v", len(n), err)
	}
}

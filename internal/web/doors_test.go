package web

import (
	"context"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"awn/internal/account"
	"awn/internal/house"
	"awn/internal/malthouse"
	"awn/internal/office"
	"awn/ledger"
)

// peopled is a house with somebody in each role, called as the role, and a load
// of barley that only those who may look may hear of.
type peopled struct {
	*Server
	office   *office.Office
	sessions map[malthouse.Role]string

	mutex sync.Mutex
	now   time.Time
}

const hearsay = "Nobody's Field" // stands in the record, and must not be heard outside

func (p *peopled) clock() time.Time {
	p.mutex.Lock()
	defer p.mutex.Unlock()
	return p.now
}

func (p *peopled) wait(d time.Duration) {
	p.mutex.Lock()
	defer p.mutex.Unlock()
	p.now = p.now.Add(d)
}

// empty is a house that knows nobody.
func empty(t *testing.T) *peopled {
	t.Helper()
	o, err := office.Open(t.Context(), filepath.Join(t.TempDir(), "house.db"), true)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { o.DB.Close() })
	p := &peopled{office: o, now: time.Date(2026, 11, 2, 8, 0, 0, 0, time.UTC)}
	o.House.Clock, o.House.Zone = p.clock, time.UTC
	p.Server, err = New(Site{
		Version: house.ReadVersion(), Log: slog.New(slog.NewTextHandler(io.Discard, nil)), House: o.House, Accounts: account.Of(o.House, o.DB), Authority: []byte("none"),
	})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func staffed(t *testing.T) *peopled {
	t.Helper()
	p := empty(t)
	ctx, h := t.Context(), p.House
	boss, _, err := h.Welcome(ctx, "manager")
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range append(malthouse.Roles(), "") {
		who := malthouse.Person{ID: string(r), Name: "N " + string(r), Role: r}
		if r == "" {
			who = malthouse.Person{ID: "guest", Name: "A buyer"}
		}
		if _, err := h.Admit(ctx, boss, malthouse.Entry{}, who); err != nil {
			t.Fatal(err)
		}
	}
	wb := ledger.Fraction(0.13)
	load := &ledger.Receipt{Lot: "L26-0001", To: "silo:B7", Grown: hearsay, Grower: hearsay, Amount: ledger.Amount{FreshKg: 20_000_000, Standing: ledger.Weighed, MoistureWB: &wb}}
	if _, err := h.Receive(ctx, boss, malthouse.Entry{}, load); err != nil {
		t.Fatal(err)
	}
	cast := &ledger.Casting{Piece: "P26-0001", From: []ledger.Draw{{Place: "silo:B7", Amount: ledger.Amount{FreshKg: 1_000_000, Standing: ledger.Weighed}}}}
	if _, err := h.Start(ctx, boss, malthouse.Entry{}, cast, nil); err != nil {
		t.Fatal(err)
	}
	return p
}

// session lets somebody in.
func (p *peopled) session(t *testing.T, who string) string {
	t.Helper()
	code, err := p.Accounts.Entry(t.Context(), who)
	if err != nil {
		t.Fatal(err)
	}
	session, err := p.Accounts.Enter(t.Context(), code)
	if err != nil {
		t.Fatal(err)
	}
	return session
}

// standing is a session of a role: the same one, so long as it holds.
func (p *peopled) standing(t *testing.T, role malthouse.Role) string {
	t.Helper()
	if _, found, err := p.Accounts.Session(t.Context(), p.sessions[role]); err != nil || !found {
		if p.sessions == nil {
			p.sessions = map[malthouse.Role]string{}
		}
		p.sessions[role] = p.session(t, string(role))
	}
	return p.sessions[role]
}

// try asks as a browser with a session, or as nobody.
func (p *peopled) try(method, path, session string, form url.Values) *httptest.ResponseRecorder {
	r := httptest.NewRequest(method, path, strings.NewReader(form.Encode()))
	if path == "/live" { // which goes on until the reader goes
		ctx, leave := context.WithTimeout(r.Context(), 50*time.Millisecond)
		defer leave()
		r = r.WithContext(ctx)
	}
	if method == "POST" {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	if session != "" {
		r.AddCookie(&http.Cookie{Name: "awn-session", Value: session})
	}
	w := httptest.NewRecorder()
	p.ServeHTTP(w, r)
	return w
}

// turnedAway reports whether an answer is only the way to the door.
func turnedAway(w *httptest.ResponseRecorder) bool {
	to, _ := url.Parse(w.Header().Get("Location"))
	return w.Code == http.StatusUnauthorized || w.Code == http.StatusSeeOther && to.Path == signInAt && to.Query().Get("back") != ""
}

// mayEnter says who may hand in which slip, once more by hand: a letter for each
// of floor, laboratory, intake, planning, sales, auditor; a manager may all.
var mayEnter = map[string]string{
	"receive": "..i...", "move": "f.ip..", "count": "f.ip..", "start": "f..p..", "act": "f.....", "read": "fli...", "book": "f.....",
	"analyse": ".li...", "release": ".l....", "hold": "flips.", "blend": "f..p..", "ship": "f...s.", "return": "..i.s.",
	"decide": ".l.p..", "strike": ".lip..", "person": "......",
}

const everybody = "flipsa"

var letters = map[malthouse.Role]string{"floor": "f", "laboratory": "l", "intake": "i", "planning": "p", "sales": "s", "auditor": "a"}

// who says who may come to an address; found is false of one that nobody
// thought of.
func who(pattern string) (may string, open, found bool) {
	method, path, _ := strings.Cut(pattern, " ")
	switch _, name, slip := strings.Cut(path, slipsAt); {
	case path == "":
		return everybody, false, pattern == "/" || pattern == apiAt+"/" // what is not there
	case slices.Contains([]string{"/static/", "/static/report.css", "/reader", firstAt, signInAt, joinAt, comeInAt, trustAt, authorityAt, publicAt}, path):
		return everybody, true, true
	case slip:
		may, found = mayEnter[name]
		return may, false, found
	case strings.HasPrefix(path, houseAt) || strings.HasPrefix(path, peopleAt):
		return "......", false, true
	case path == certifyAt || path == "/certificates/{number}/public":
		return ".l..s.", false, true
	case strings.HasPrefix(path, "/handover/"):
		return "fli...", false, true
	case strings.HasPrefix(path, keptAt+"/"):
		return ".l.p..", false, true
	case method == "GET":
		return everybody, false, true
	case slices.Contains([]string{"/sign-out", tokensAt, tokensAt + "/{token}/end", passwordAt}, path):
		return everybody, false, true // each of their own
	case regexp.MustCompile(`^(/api/v1)?/(piece|load|silo|silos|intake|varieties)(/\{file\})?$`).MatchString(path):
		return everybody, false, true // what only computes
	}
	return "", false, false
}

var places = strings.NewReplacer("{$}", "", "{code}", "P26-0001", "{thing}", "silo:B7", "{entry}", "emc", "{kind}", "plant", "{who}", "guest", "{token}", "none", "{number}", "C26-0001", "{word}", "none", "{file}", "none")

// TestEveryRouteWithEveryRole tries every address there is as nobody, in every
// role and by tokens, and looks who is let in.
func TestEveryRouteWithEveryRole(t *testing.T) {
	p := staffed(t)
	tokens := map[string]string{}
	for _, scope := range account.Scopes() {
		token, err := p.Accounts.Issue(t.Context(), malthouse.Actor{ID: "manager", Role: malthouse.Manager}, "walk", scope, 1)
		if err != nil {
			t.Fatal(err)
		}
		tokens[scope] = token
	}
	if len(p.mux.patterns) < 80 {
		t.Fatalf("only %d addresses", len(p.mux.patterns))
	}
	for _, pattern := range p.mux.patterns {
		may, open, found := who(pattern)
		if !found {
			t.Errorf("%s: nobody said who may", pattern)
			continue
		}
		method, path, ok := strings.Cut(pattern, " ")
		if !ok {
			method, path = "GET", pattern+"nowhere"
		}
		path = places.Replace(path)
		w := p.try(method, path, "", nil)
		if strings.Contains(w.Body.String(), hearsay) || turnedAway(w) == open {
			t.Errorf("%s as nobody: %d", pattern, w.Code)
		}
		if w := p.try(method, path, "no session", nil); strings.Contains(w.Body.String(), hearsay) || turnedAway(w) == open {
			t.Errorf("%s with a made-up session: %d", pattern, w.Code)
		}
		for _, role := range malthouse.Roles() {
			if pattern == "POST "+peopleAt+"/{who}/remove" && role == malthouse.Manager {
				continue // the guest is needed yet; see TestPeopleComeAndGo
			}
			let := role == malthouse.Manager || strings.Contains(may, letters[role])
			w := p.try(method, path, p.standing(t, role), nil)
			if let == (w.Code == http.StatusForbidden && !open) || w.Code >= 500 || turnedAway(w) {
				t.Errorf("%s as %s: %d", pattern, role, w.Code)
			}
			if !let && strings.Contains(w.Body.String(), hearsay) {
				t.Errorf("%s tells %s", pattern, role)
			}
		}
		for scope, token := range tokens {
			r := httptest.NewRequest(method, path, nil)
			r.Header.Set("Authorization", "Bearer "+token)
			w := httptest.NewRecorder()
			p.ServeHTTP(w, r)
			if !strings.HasPrefix(path, apiAt+"/") {
				if turnedAway(w) == open {
					t.Errorf("%s by a token: %d", pattern, w.Code)
				}
				continue
			}
			_, name, slip := strings.Cut(path, slipsAt)
			decides := slices.Contains([]string{"release", "hold", "blend", "ship", "return", "decide", "strike", "person"}, name)
			let := !slip || scope == "all" || scope == "enter" && !decides
			if let == (w.Code == http.StatusForbidden) || turnedAway(w) || w.Code >= 500 {
				t.Errorf("%s by a token to %s: %d", pattern, scope, w.Code)
			}
		}
	}
}

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
	if a, b := strings.ReplaceAll(wrong.Body.String(), "floor", ""), strings.ReplaceAll(unknown.Body.String(), "nobody", ""); a != b {
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
	for _, path := range []string{signInAt, slipsAt + "receive", apiAt + slipsAt + "receive", keptAt + "/plant", houseAt} {
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

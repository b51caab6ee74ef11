package web

import (
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"sync"
	"testing"
	"time"

	"awn/internal/malthouse"
	"awn/internal/words"
	"awn/ledger"
)

// looker is a browser: with what it keeps, and in the languages that
// it asks for.
type looker struct {
	session, cookie, languages string
}

func (p *peopled) as(a looker, method, path string, form url.Values) *httptest.ResponseRecorder {
	r := httptest.NewRequest(method, path, strings.NewReader(form.Encode()))
	if method == "POST" {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	if a.session != "" {
		r.AddCookie(&http.Cookie{Name: "awn-session", Value: a.session})
	}
	if a.cookie != "" {
		r.AddCookie(&http.Cookie{Name: readerCookie, Value: a.cookie})
	}
	r.Header.Set("Accept-Language", a.languages)
	w := httptest.NewRecorder()
	p.ServeHTTP(w, r)
	return w
}

func inSpanish(w *httptest.ResponseRecorder) bool {
	return strings.Contains(w.Body.String(), `<html lang="es">`)
}

// The browser's language comes first, then what was chosen in it, then what was
// chosen with the account; the address comes before all of them.
func TestTongueIsChosen(t *testing.T) {
	p := staffed(t)
	for languages, spanish := range map[string]bool{
		"": false, "es": true, "es-MX,es;q=0.9,en;q=0.8": true, "en-GB,en;q=0.9,es;q=0.8": false, "fr, es;q=0.5, en;q=0.4": true, "de,*;q=0.5": false, "es;q=0": false,
	} {
		if got := inSpanish(p.as(looker{languages: languages}, "GET", comeInAt, nil)); got != spanish {
			t.Errorf("%q is answered in Spanish: %t", languages, got)
		}
	}
	w := p.as(looker{}, "POST", readerAt, url.Values{"reader-tongue": {"es"}, "reader-preset": {"us"}, "back": {signInAt}})
	kept := w.Result().Cookies()
	if w.Code != http.StatusSeeOther || w.Header().Get("Location") != signInAt || len(kept) != 1 || !kept[0].HttpOnly {
		t.Fatalf("%d %v", w.Code, w.Header())
	}
	if !inSpanish(p.as(looker{cookie: kept[0].Value, languages: "en"}, "GET", comeInAt, nil)) {
		t.Error("the browser forgets what was chosen")
	}
	if inSpanish(p.as(looker{cookie: kept[0].Value}, "GET", comeInAt+"?tongue=en", nil)) {
		t.Error("the address does not choose")
	}
	at := p.standing(t, malthouse.Intake)
	p.as(looker{session: at}, "POST", readerAt, url.Values{"reader-tongue": {"es"}, "reader-mass": {"bushels"}})
	other := p.session(t, "intake") // on another machine, whose browser keeps nothing and asks for English
	w = p.as(looker{session: other, languages: "en"}, "GET", "/deliveries", nil)
	if !inSpanish(w) || !strings.Contains(w.Body.String(), "919\u00a0bu") { // 20 t of barley, at 48 lb of 0.453 592 37 kg: 918.6
		t.Errorf("the choice does not follow the account: %s", w.Body)
	}
	if inSpanish(p.as(looker{session: p.standing(t, malthouse.Floor)}, "GET", "/floor", nil)) {
		t.Error("somebody else has the choice")
	}
	w = p.as(looker{}, "POST", readerAt, url.Values{"reader-zone": {"Europe/Nowhere"}, "reader-tongue": {"es"}})
	if w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), `value="Europe/Nowhere"`) || len(w.Result().Cookies()) > 0 {
		t.Errorf("a zone that is none: %d", w.Code)
	}
}

// Language and units change without losing what was typed, and nothing is
// entered by it.
func TestChoosingKeepsTheForm(t *testing.T) {
	h := served(t)
	form := formOf(t, get(t, h, "/piece").Body.String())
	form.Set("piece.yaml:cast", "54 t")
	form.Set("do", asReader)
	form.Set("reader-preset", "us")
	form.Set("reader-tongue", "es")
	w := post(h, "/piece", form)
	if body := w.Body.String(); !strings.Contains(body, `value="54 t"`) || !strings.Contains(body, "°F") || !inSpanish(w) || !strings.Contains(w.Header().Get("Set-Cookie"), "fahrenheit") {
		t.Errorf("%d, %v", w.Code, w.Header())
	}
	p := staffed(t)
	typed := url.Values{"id": {newID(p.clock())}, "back": {"/floor"}, "net": {"28.1 t"}, "silo": {"B1"}, "at": {"07:10"}, "do": {asReader}, "reader-tongue": {"es"}}
	w = p.as(looker{session: p.standing(t, malthouse.Intake)}, "POST", slipsAt+"receive", typed)
	for _, want := range []string{`value="28.1 t"`, `value="07:10"`, `value="` + typed.Get("id") + `"`, "peso neto"} {
		if w.Code != 200 || !strings.Contains(w.Body.String(), want) {
			t.Errorf("%d, without %s", w.Code, want)
		}
	}
	if strings.Contains(p.as(looker{session: p.standing(t, malthouse.Intake)}, "GET", "/stock", nil).Body.String(), "silo:B1") {
		t.Error("it was entered")
	}
}

// A reader who has a decimal comma types one; what may be two numbers is not
// taken, and a number without its unit never is, whatever units are chosen.
func TestNumbersAreReadAsTyped(t *testing.T) {
	p := staffed(t)
	spanish := looker{session: p.standing(t, malthouse.Intake), cookie: "tongue=es"}
	english := looker{session: spanish.session, cookie: "tongue=en&mass=pounds"}
	for _, c := range []struct {
		who  looker
		net  string
		kg   ledger.Grams
		code string
	}{
		{spanish, "28,1 t", 28_100_000, ""}, {spanish, "28.1 t", 28_100_000, ""}, {spanish, "0,125 t", 125_000, ""}, {spanish, "1 200 kg", 0, "12"},
		{spanish, "1,234 t", 0, "1234, 1,2340"}, {spanish, "1.234 t", 0, "1234, 1,2340"}, {spanish, "28,1", 0, "unidad"},
		{english, "28.1 t", 28_100_000, ""}, {english, "62000 lb", 28_122_727, ""}, {english, "28100", 0, "unit"}, {english, "28,1 t", 0, "two ways"},
	} {
		id := newID(p.clock())
		w := p.as(c.who, "POST", slipsAt+"receive", url.Values{"id": {id}, "net": {c.net}, "moisture": {"13,2 % wb"}, "silo": {"B7"}, "back": {"/stock"}})
		if c.who == english {
			w = p.as(c.who, "POST", slipsAt+"receive", url.Values{"id": {id}, "net": {c.net}, "moisture": {"13.2 % wb"}, "silo": {"B7"}, "back": {"/stock"}})
		}
		p.wait(time.Minute)
		if c.code != "" {
			if w.Code != http.StatusUnprocessableEntity || !strings.Contains(faultsIn(w.Body.String()), c.code) {
				t.Errorf("%q: %d %s", c.net, w.Code, faultsIn(w.Body.String()))
			}
			continue
		}
		if w.Code != http.StatusSeeOther {
			t.Errorf("%q: %d %s", c.net, w.Code, faultsIn(w.Body.String()))
			continue
		}
		got, err := p.House.Deliveries(t.Context(), malthouse.Actor{Role: malthouse.Manager})
		if err != nil || got[0].Fact.ID != id || got[0].Body.Amount.FreshKg != c.kg || *got[0].Body.Amount.MoistureWB != 0.132 {
			t.Errorf("%q is read as %v, %v", c.net, got[0].Body.Amount, err)
		}
	}
}

// A time is read by the clock in which the reader sees times, and shown so to
// everybody: 14:30 in Madrid is 13:30 in a house on UTC, in November.
func TestTimesAreReadAsShown(t *testing.T) {
	p := staffed(t)
	p.wait(12 * time.Hour) // it is 20:00, the 2nd of November
	there := looker{session: p.standing(t, malthouse.Intake), cookie: "zone=Europe/Madrid&dates=day-first&tongue=es"}
	here := looker{session: there.session, cookie: "dates=iso"}
	for _, at := range []string{"14:30", "2/11/2026 14:30", "02/11/2026 14:30", "2026-11-02 14:30"} {
		w := p.as(there, "POST", slipsAt+"receive", url.Values{"id": {newID(p.clock())}, "net": {"20 t"}, "moisture": {"13 % wb"}, "silo": {"B7"}, "at": {at}, "back": {"/deliveries"}})
		if at == "2/11/2026 14:30" { // days have two digits in this form
			if w.Code != http.StatusUnprocessableEntity || !strings.Contains(faultsIn(w.Body.String()), "no es una hora") {
				t.Errorf("%s: %d %s", at, w.Code, faultsIn(w.Body.String()))
			}
			continue
		}
		if w.Code != http.StatusSeeOther {
			t.Fatalf("%s: %d %s", at, w.Code, faultsIn(w.Body.String()))
		}
		got, err := p.House.Deliveries(t.Context(), malthouse.Actor{Role: malthouse.Manager})
		if err != nil || !time.UnixMilli(got[0].Fact.At).Equal(time.Date(2026, 11, 2, 13, 30, 0, 0, time.UTC)) || got[0].Fact.OffsetMin != 0 {
			t.Errorf("%s is read as %v, %v", at, got[0].Fact, err)
		}
	}
	if body := p.as(there, "GET", "/deliveries", nil).Body.String(); !strings.Contains(body, "02/11/2026 14:30 &#43;01:00") || !strings.Contains(body, "Europe/Madrid") {
		t.Error("who typed 14:30 in Madrid does not see it")
	}
	if body := p.as(here, "GET", "/deliveries", nil).Body.String(); !strings.Contains(body, "2026-11-02 13:30<") {
		t.Error("the house does not see 13:30")
	}
	if body := p.as(there, "GET", "/deliveries?csv=deliveries", nil).Body.String(); !strings.Contains(body, "Mon 2 Nov 2026, 13:30") || !strings.Contains(body, "grower") {
		t.Errorf("the file for programs changes with the reader: %s", body)
	}
}

// TestPagesAreWholeInSpanish looks at Floor, Piece, Intake, the forms and the
// pages by which people come in, and fails on a text that Spanish lacks.
func TestPagesAreWholeInSpanish(t *testing.T) {
	p := staffed(t)
	public := p.certified(t)
	var mutex sync.Mutex
	at := ""
	defer words.Watch(func(_ words.Tongue, what string) {
		mutex.Lock()
		defer mutex.Unlock()
		t.Errorf("%s lacks the %s", at, what)
	})()
	who := looker{session: p.standing(t, malthouse.Manager), cookie: "tongue=es"}
	paths := []string{
		"/", "/floor", "/deliveries", "/stock", "/pieces", "/pieces/P26-0001", "/pieces/P26-0009", "/malt", "/trace", "/trace?of=M26-0009", "/balance", "/things/silo:B7",
		"/things/lot:M26-0009", "/due", "/handover", "/complaint", "/certify?shipment=S26-0009", "/certificates/C26-0001", public, public + "?print=pdf", "/pieces/P26-0001/assurance",
		"/piece", "/intake", "/silos", readerAt, joinAt, comeInAt, "/nowhere", "/pieces/P26-7777", "/reckoner",
	}
	for name := range slips {
		paths = append(paths, slipsAt+name)
	}
	for _, path := range paths {
		mutex.Lock()
		at = path
		mutex.Unlock()
		w := p.as(who, "GET", path, nil)
		if w.Code >= 500 {
			t.Errorf("%s: %d", path, w.Code)
		}
		if html := strings.HasPrefix(w.Header().Get("Content-Type"), "text/html"); html && w.Code != http.StatusSeeOther && !inSpanish(w) {
			t.Errorf("%s is not in Spanish", path)
		}
	}
	at = "drawn piece"
	form := formOf(t, p.as(who, "GET", "/piece", nil).Body.String())
	form.Set("do", "draw")
	if w := p.as(who, "POST", "/piece", form); !strings.Contains(w.Body.String(), "de 100") {
		t.Errorf("the drawn piece: %d", w.Code)
	}
	at = "faults"
	form.Set("piece.yaml:cast", "54")
	if w := p.as(who, "POST", "/piece", form); !strings.Contains(w.Body.String(), "no tiene unidad") {
		t.Errorf("a fault of a document: %s", faultsIn(w.Body.String()))
	}
	for typed, want := range map[string]string{"B7 20 t": "rellenarlo", "": "rellenarlo"} {
		if w := p.as(who, "POST", slipsAt+"ship", url.Values{"from": {typed}}); !strings.Contains(w.Body.String(), want) {
			t.Errorf("a fault of a slip: %s", faultsIn(w.Body.String()))
		}
	}
}

// A buyer reads the certificate in Spanish, with a decimal comma; the signed
// file is the same whoever asks.
func TestCertificateInSpanish(t *testing.T) {
	p := staffed(t)
	public := p.certified(t)
	w := p.as(looker{}, "GET", public+"?tongue=es", nil)
	for _, want := range []string{"Certificado de análisis", "81,1\u00a0%\u00a0dm", "Nada en él ha cambiado", "print=pdf&amp;tongue=es"} {
		if !strings.Contains(w.Body.String(), want) {
			t.Errorf("without %q", want)
		}
	}
	if pdf := p.as(looker{}, "GET", public+"?print=pdf&tongue=es", nil); !strings.Contains(pdf.Body.String(), "/Lang (es)") && !strings.Contains(pdf.Body.String(), "/Lang(es)") {
		t.Error("the sheet does not say that it is in Spanish")
	}
	a, b := p.as(looker{}, "GET", public+"?print=json", nil), p.as(looker{}, "GET", public+"?print=json&tongue=es", nil)
	if a.Body.String() != b.Body.String() || a.Body.Len() == 0 {
		t.Error("the signed file is another in Spanish")
	}
}

// certified goes from a load to a certificate, and gives the address at which
// anybody reads it.
func (p *peopled) certified(t *testing.T) string {
	t.Helper()
	p.enters(t, malthouse.Intake, "receive", url.Values{"net": {"60 t"}, "moisture": {"12 % wb"}, "silo": {"B9"}, "grower": {"Upper Farm"}})
	p.enters(t, malthouse.Floor, "start", url.Values{"from": {"B9 60 t", ""}, "piece": {"P26-0009"}, "vessel": {"steep 1"}})
	for _, act := range []string{"immerse", "drain", "couch", "turn", "kiln", "strip"} {
		p.enters(t, malthouse.Floor, "act", url.Values{"piece": {"P26-0009"}, "act": {act}})
	}
	p.enters(t, malthouse.Floor, "book", url.Values{"piece": {"P26-0009"}, "malt": {"M7 49 t"}, "moisture": {"4.2 % wb"}, "culms": {"FEED 2 t"}, "lot": {"M26-0009"}})
	p.enters(t, malthouse.Laboratory, "analyse", url.Values{"thing": {"lot:M26-0009"}, "results": {"moisture 4.2 % wb", "extract_fine 81.1 % dm"}, "method": {"EBC 4.2"}})
	p.enters(t, malthouse.Laboratory, "release", url.Values{"thing": {"lot:M26-0009"}, "reason": {"meets it"}})
	p.enters(t, malthouse.Sales, "ship", url.Values{"receiver": {"Tern Rock Brewery"}, "from": {"M7 27 t"}, "shipment": {"S26-0009"}})
	if w := p.try("POST", certifyAt, p.standing(t, malthouse.Sales), url.Values{"shipment": {"S26-0009"}, "product": {"Pale malt"}}); w.Code != http.StatusSeeOther {
		t.Fatalf("certify: %d %s", w.Code, faultsIn(w.Body.String()))
	}
	if _, err := p.House.Publish(t.Context(), malthouse.Actor{ID: "manager", Role: malthouse.Manager}, malthouse.Entry{}, "C26-0001"); err != nil {
		t.Fatal(err)
	}
	word, found, err := p.House.PublicWord(t.Context(), "C26-0001")
	if err != nil || !found {
		t.Fatal(found, err)
	}
	return "/c/" + word
}

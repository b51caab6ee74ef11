package web

import (
	"bufio"
	"encoding/json"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"awn/certificate"
	"awn/internal/malthouse"
	"awn/internal/slip"
)

// enters hands a slip in as a browser does, and wants it entered.
func (p *peopled) enters(t *testing.T, role malthouse.Role, name string, form url.Values) {
	t.Helper()
	form.Set("id", newID(p.clock()))
	form.Set("back", "/stock")
	w := p.try("POST", slipsAt+name, p.standing(t, role), form)
	if w.Code != http.StatusSeeOther || !strings.Contains(w.Header().Get("Location"), entered+"=") {
		t.Fatalf("%s: %d %s", name, w.Code, faultsIn(w.Body.String()))
	}
	if page := p.try("GET", w.Header().Get("Location"), p.standing(t, role), nil); !strings.Contains(page.Body.String(), "entry ") {
		t.Errorf("%s: the next page does not say what was entered", name)
	}
	p.wait(time.Minute)
}

var faultText = regexp.MustCompile(`class="fault"[^>]*>(.*?)</p>`)

func faultsIn(page string) string { return strings.Join(faultText.FindAllString(page, -1), "\n") }

// TestFromTheTruckToTheCertificate goes the whole way by pages alone, each step
// by somebody with the right to it and without script: a load, a piece, its
// malt, a load sent, a certificate that anybody with its address can read and
// check, and the way back.
func TestFromTheTruckToTheCertificate(t *testing.T) {
	p := staffed(t)
	p.enters(t, malthouse.Intake, "receive", url.Values{"net": {"60 t"}, "moisture": {"12 % wb"}, "silo": {"B9"}, "grower": {"Upper Farm"}})
	p.enters(t, malthouse.Floor, "start", url.Values{"from": {"B9 60 t", ""}, "piece": {"P26-0009"}, "vessel": {"steep 1"}})
	for _, act := range []string{"immerse", "drain", "couch", "turn", "kiln", "strip"} {
		p.enters(t, malthouse.Floor, "act", url.Values{"piece": {"P26-0009"}, "act": {act}})
	}
	p.enters(t, malthouse.Floor, "read", url.Values{"thing": {"P26-0009"}, "results": {"moisture 4.4 % wb"}})
	p.enters(t, malthouse.Floor, "book", url.Values{"piece": {"P26-0009"}, "malt": {"M7 49 t"}, "moisture": {"4.2 % wb"}, "culms": {"FEED 2 t"}, "lot": {"M26-0009"}})
	p.enters(t, malthouse.Laboratory, "analyse", url.Values{"thing": {"lot:M26-0009"}, "results": {"moisture 4.2 % wb", "extract_fine 81.1 % dm"}, "method": {"EBC 4.2"}})
	p.enters(t, malthouse.Laboratory, "release", url.Values{"thing": {"lot:M26-0009"}, "reason": {"meets it"}})
	p.enters(t, malthouse.Sales, "ship", url.Values{"receiver": {"Tern Rock Brewery"}, "from": {"M7 27 t"}, "shipment": {"S26-0009"}})

	w := p.try("POST", certifyAt, p.standing(t, malthouse.Sales), url.Values{"shipment": {"S26-0009"}, "product": {"Pale malt"}})
	if w.Code != http.StatusSeeOther {
		t.Fatalf("certify: %d %s", w.Code, faultsIn(w.Body.String()))
	}
	at, _, _ := strings.Cut(w.Header().Get("Location"), "?")
	if w := p.try("POST", at+"/public", p.standing(t, malthouse.Sales), nil); w.Code != http.StatusSeeOther {
		t.Fatalf("public: %d", w.Code)
	}
	page := p.try("GET", at, p.standing(t, malthouse.Auditor), nil).Body.String()
	public := regexp.MustCompile(`href="(/c/[A-Z0-9]+)"`).FindStringSubmatch(page)
	if public == nil {
		t.Fatal("no address for the buyer")
	}
	shown := p.try("GET", public[1], "", nil) // by nobody
	if shown.Code != 200 || !strings.Contains(shown.Body.String(), "81.1") || !strings.Contains(shown.Body.String(), "Nothing in it has been changed") || strings.Contains(shown.Body.String(), "Upper Farm") {
		t.Errorf("the buyer sees %d: %s", shown.Code, shown.Body)
	}
	if pdf := p.try("GET", public[1]+"?print=pdf", "", nil); !strings.HasPrefix(pdf.Body.String(), "%PDF-") {
		t.Error("it is not printed")
	}
	file := p.try("GET", public[1]+"?print=json", "", nil)
	if c, _, err := certificate.Verify(file.Body.Bytes()); err != nil || c.Shipment != "S26-0009" {
		t.Errorf("the signed file: %v", err)
	}
	if w := p.try("GET", public[1][:len(public[1])-1], "", nil); w.Code != http.StatusNotFound {
		t.Errorf("a word that is not one: %d", w.Code)
	}
	back := p.try("GET", "/trace?of=S26-0009", p.standing(t, malthouse.Auditor), nil).Body.String()
	if !strings.Contains(back, "Upper Farm") || !strings.Contains(back, "100.0") {
		t.Error("the trace does not lead to the field")
	}
	if csv := p.try("GET", "/trace?of=S26-0009&csv=behind", p.standing(t, malthouse.Auditor), nil); !strings.Contains(csv.Header().Get("Content-Type"), "csv") || !strings.Contains(csv.Body.String(), "Upper Farm") {
		t.Error("no table of it")
	}
}

// A slip that is at fault comes back as it was typed, each fault at its field,
// and says what the command line says.
func TestASlipAtFaultComesBackFilled(t *testing.T) {
	p := staffed(t)
	form := url.Values{"id": {newID(p.clock())}, "net": {"40 hL"}, "silo": {"B7"}, "moisture": {"12 kg"}, "grower": {"Upper Farm"}}
	w := p.try("POST", slipsAt+"receive", p.standing(t, malthouse.Intake), form)
	if w.Code != http.StatusUnprocessableEntity {
		t.Fatalf("%d", w.Code)
	}
	_, err := (&slip.Receive{Net: "40 hL", Silo: "B7", Weighing: slip.Weighing{Moisture: "12 kg"}}).Enter(t.Context(), p.House, malthouse.Actor{}, malthouse.Entry{})
	page := strings.ReplaceAll(w.Body.String(), "&#39;", "'")
	for _, f := range err.(slip.Faults) {
		if !strings.Contains(page, f.Says) {
			t.Errorf("%s: the page does not say %q", f.Field, f.Says)
		}
	}
	for _, typed := range []string{`value="40 hL"`, `value="12 kg"`, `value="Upper Farm"`, form.Get("id")} {
		if !strings.Contains(page, typed) {
			t.Errorf("%s is lost", typed)
		}
	}
	form.Set("net", "40 t")
	form.Set("moisture", "12 % wb")
	for range 2 { // the same slip twice is one entry
		if w := p.try("POST", slipsAt+"receive", p.standing(t, malthouse.Intake), form); w.Code != http.StatusSeeOther {
			t.Fatalf("%d %s", w.Code, faultsIn(w.Body.String()))
		}
	}
	all, err := p.House.Deliveries(t.Context(), malthouse.Actor{Role: malthouse.Auditor})
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, d := range all {
		if d.Body.Grower == "Upper Farm" {
			n++
		}
	}
	if n != 1 {
		t.Errorf("%d loads of one slip", n)
	}
}

// Whoever looks at a page hears of an entry that was made elsewhere.
func TestEntriesOfOthersAreHeard(t *testing.T) {
	p := staffed(t)
	server := onLoopback(t, p)
	r, err := http.NewRequestWithContext(t.Context(), "GET", server.URL+"/live", nil)
	if err != nil {
		t.Fatal(err)
	}
	r.AddCookie(&http.Cookie{Name: "awn-session", Value: p.standing(t, malthouse.Floor)})
	answer, err := server.Client().Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	lines := bufio.NewScanner(answer.Body)
	heard := make(chan string)
	go func() {
		for lines.Scan() {
			if data, found := strings.CutPrefix(lines.Text(), "data: "); found {
				heard <- data
			}
		}
		close(heard)
	}()
	time.Sleep(2 * ringEvery) // until the end of before is known
	p.enters(t, malthouse.Intake, "receive", url.Values{"net": {"20 t"}, "moisture": {"12 % wb"}, "silo": {"B9"}})
	head, err := p.House.Store.Read(p.House.Code).Head(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	var seq int64
	if err := json.Unmarshal([]byte(<-heard), &seq); err != nil || seq != head.Seq {
		t.Errorf("heard %d of %d, %v", seq, head.Seq, err)
	}
	p.Close()
	for range heard { // until the stream ends
	}
}

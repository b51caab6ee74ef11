package web

import (
	"bytes"
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"awn/internal/malthouse"
)

// programAs asks as a program of somebody in a role. Heads are pairs.
func (p *peopled) programAs(t *testing.T, role malthouse.Role, method, path, body string, heads ...string) *httptest.ResponseRecorder {
	t.Helper()
	r := httptest.NewRequest(method, path, strings.NewReader(body))
	r.AddCookie(&http.Cookie{Name: "awn-session", Value: p.standing(t, role)})
	if body != "" {
		r.Header.Set("Content-Type", kindJSON)
	}
	for i := 0; i < len(heads); i += 2 {
		r.Header.Set(heads[i], heads[i+1])
	}
	w := httptest.NewRecorder()
	p.ServeHTTP(w, r)
	return w
}

// enteredAs enters a slip as a program does.
func (p *peopled) enteredAs(t *testing.T, name, body string) *httptest.ResponseRecorder {
	t.Helper()
	w := p.programAs(t, malthouse.Manager, "POST", apiAt+slipsAt+name, body)
	if w.Code != http.StatusOK {
		t.Fatalf("%s: %d %s", name, w.Code, w.Body)
	}
	return w
}

// TestOpenAPIIsOpenAPI holds the document against the schema of the OpenAPI
// Initiative for OpenAPI 3.1 (2021-04-15, testdata/openapi), and each schema in it
// against draft 2020-12, of a house with a record and of one without.
func TestOpenAPIIsOpenAPI(t *testing.T) {
	text, err := os.ReadFile("testdata/openapi/schema-3.1.json")
	if err != nil {
		t.Fatal(err)
	}
	official, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("urn:openapi", official); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("urn:openapi")
	if err != nil {
		t.Fatal(err)
	}
	p := staffed(t)
	for name, w := range map[string]*httptest.ResponseRecorder{
		"house": p.programAs(t, malthouse.Auditor, "GET", apiAt+"/openapi.json", ""), "no record": get(t, served(t), apiAt+"/openapi.json"),
	} {
		valid(t, name, s, w, http.StatusOK)
		var doc map[string]any
		if err := json.Unmarshal(w.Body.Bytes(), &doc); err != nil {
			t.Fatal(err)
		}
		for part := range doc["components"].(map[string]any)["schemas"].(map[string]any) {
			schema(t, doc, part)
		}
	}
	if err := s.Validate(map[string]any{"openapi": "3.1.0"}); err == nil {
		t.Error("a document without a title passes")
	}
}

// strict has every object that is described refuse what is not.
func strict(x any) any {
	switch x := x.(type) {
	case map[string]any:
		if _, described := x["properties"]; described {
			x["additionalProperties"] = false
		}
		for _, one := range x {
			strict(one)
		}
	case []any:
		for _, one := range x {
			strict(one)
		}
	}
	return x
}

// TestEveryAnswerOfTheRecordIsAsDescribed asks every operation that the document
// of a house describes, and holds the answer against the schema of that answer:
// nothing may be in it that is not described.
func TestEveryAnswerOfTheRecordIsAsDescribed(t *testing.T) {
	p := staffed(t)
	p.fill(t)
	w := p.programAs(t, malthouse.Manager, "GET", apiAt+"/openapi.json", "")
	var doc map[string]any
	if err := json.Unmarshal(w.Body.Bytes(), &doc); err != nil {
		t.Fatal(err)
	}
	parts := doc["components"].(map[string]any)["schemas"].(map[string]any)
	asked := 0
	for path, methods := range doc["paths"].(map[string]any) {
		at := asks[path]
		if at == "" {
			at = path
		}
		for method, one := range methods.(map[string]any) {
			asked++
			if method != "get" || strings.HasPrefix(path, "/entries/") {
				continue // entered below and in the tests of changes
			}
			w := p.programAs(t, malthouse.Manager, "GET", apiAt+at, "")
			if w.Code != http.StatusOK || w.Header().Get("ETag") == "" {
				t.Errorf("%s: %d, %v %.200s", at, w.Code, w.Header(), w.Body)
				continue
			}
			content := one.(map[string]any)["responses"].(map[string]any)["200"].(map[string]any)["content"].(map[string]any)
			kind := w.Header().Get("Content-Type")
			said, found := content[kind].(map[string]any)
			if !found {
				t.Errorf("%s answers %s, described is %v", at, kind, content)
				continue
			}
			name, _ := said["schema"].(map[string]any)["$ref"].(string)
			if name = strings.TrimPrefix(name, "#/components/schemas/"); name == "account" {
				t.Errorf("%s has no schema of its own", at)
			}
			if name != "" {
				strict(parts[name])
				valid(t, at, schema(t, doc, name), w, http.StatusOK)
			}
			bad := p.programAs(t, malthouse.Manager, "GET", apiAt+at+"?limit=none&of=N99&from=x&lot=", "")
			if bad.Code >= 400 {
				valid(t, at, schema(t, doc, "problem"), bad, bad.Code)
			}
		}
	}
	if asked != len(p.operations()) {
		t.Errorf("%d operations are described, there are %d", asked, len(p.operations()))
	}
	again := p.enteredAs(t, "move", `{"from":"silo:B7","to":"silo:B8","mass":"1 t"}`)
	strict(parts["entry-1"])
	valid(t, "entry", schema(t, doc, "entry-1"), again, http.StatusOK)
}

// asks are the addresses that have something to fill in.
var asks = map[string]string{
	"/pieces/{code}": "/pieces/P26-0009", "/pieces/{code}/assurance": "/pieces/P26-0009/assurance", "/things/{thing}": "/things/lot:M26-0009",
	"/certificates/{number}": "/certificates/C26-0001", "/trace": "/trace?of=M26-0009", "/balance": "/balance?from=2026-01-01&to=2026-12-31",
	"/complaint": "/complaint?lot=M26-0009&claim=" + url.QueryEscape("moisture 5.2 % wb"), "/documents/{kind}": "/documents/control-points", "/series/{code}": "/series/B7-2M",
}

// fill has something of each kind happen.
func (p *peopled) fill(t *testing.T) {
	t.Helper()
	for _, one := range [][2]string{
		{"start", `{"from":["B7 5 t"],"piece":"P26-0009","vessel":"steep 1"}`}, {"act", `{"piece":"P26-0009","act":"kiln"}`}, {"act", `{"piece":"P26-0009","act":"strip"}`},
		{"book", `{"piece":"P26-0009","malt":["M7 4 t"],"moisture":"4.2 % wb","culms":["FEED 200 kg"],"lot":"M26-0009"}`},
		{"analyse", `{"thing":"lot:M26-0009","results":["moisture 4.2 % wb","extract_fine 81.1 % dm"],"method":"EBC 4.2"}`},
		{"release", `{"thing":"lot:M26-0009","reason":"meets it"}`}, {"ship", `{"receiver":"Tern Rock Brewery","from":["M7 2 t"],"shipment":"S26-0009"}`},
		{"count", `{"place":"silo:B7","mass":"13 t","moisture":"13 % wb","reason":"looked in"}`},
	} {
		p.enteredAs(t, one[0], one[1])
	}
	if _, _, err := p.House.Certify(t.Context(), malthouse.Actor{ID: "manager", Role: malthouse.Manager}, malthouse.Entry{}, malthouse.Issue{Shipment: "S26-0009", Product: "Pale malt"}); err != nil {
		t.Fatal(err)
	}
	p.sensed(t, 100)
	points, err := documents{}.ReadFile(exampleOf[malthouse.ControlPoints])
	if err != nil {
		t.Fatal(err)
	}
	if w := p.programAs(t, malthouse.Manager, "PUT", apiAt+"/documents/control-points", string(points), "If-None-Match", "*", "Content-Type", kindYAML); w.Code != http.StatusOK {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
}

// TestListsAreHadPageByPage follows “next” from the first page on, in the body
// and in Link (RFC 8288), while loads come in: each load is had once.
func TestListsAreHadPageByPage(t *testing.T) {
	p := staffed(t)
	p.loads(t, 7)
	for path, want := range map[string]int{"/deliveries": 8, "/pieces": 1, "/facts": 0, "/entries": 0, "/people": 0, "/lots": 0} {
		seen := map[string]bool{}
		next, pages := apiAt+path+"?limit=3", 0
		for ; next != ""; pages++ {
			w := p.programAs(t, malthouse.Manager, "GET", next, "")
			var got struct {
				Result map[string]json.RawMessage
			}
			if err := json.Unmarshal(w.Body.Bytes(), &got); err != nil || w.Code != http.StatusOK {
				t.Fatal(path, w.Code, err)
			}
			next = ""
			if text, more := got.Result["next"]; more {
				if err := json.Unmarshal(text, &next); err != nil {
					t.Fatal(err)
				}
			}
			if link := w.Header().Get("Link"); (next == "") != (link == "") || next != "" && link != "<"+next+`>; rel="next"` {
				t.Errorf("%s: Link is %q, next is %q", path, link, next)
			}
			var rows []map[string]any
			if err := json.Unmarshal(got.Result[strings.TrimPrefix(path, "/")], &rows); err != nil || len(rows) > 3 {
				t.Fatal(path, len(rows), err)
			}
			for _, row := range rows {
				key := fmt.Sprint(row["delivery"], row["piece"], row["seq"], row["name"], row["lot"], row["id"])
				if seen[key] {
					t.Errorf("%s: %s comes twice", path, key)
				}
				seen[key] = true
			}
			if path == "/deliveries" && pages == 0 {
				p.enteredAs(t, "receive", `{"net":"20 t","moisture":"12 % wb","silo":"B9","grower":"Late"}`) // it stands before the first page
			}
		}
		if want > 0 && len(seen) != want || pages == 0 {
			t.Errorf("%s: %d on %d pages, want %d", path, len(seen), pages, want)
		}
	}
	for _, bad := range []string{"limit=0", "limit=1001", "limit=x", "after=x"} {
		if w := p.programAs(t, malthouse.Manager, "GET", apiAt+"/deliveries?"+bad, ""); w.Code != http.StatusUnprocessableEntity {
			t.Errorf("%s: %d", bad, w.Code)
		}
	}
}

// TestAnswersHoldUntilSomethingIsEntered asks with tags: RFC 9110, 8.8 and 13.
func TestAnswersHoldUntilSomethingIsEntered(t *testing.T) {
	p := staffed(t)
	paths := []string{"/stock", "/deliveries", "/pieces/P26-0001", "/things/silo:B7", "/balance?from=2026-11-01&to=2026-11-30"}
	tags := map[string]string{}
	for _, path := range paths {
		w := p.programAs(t, malthouse.Auditor, "GET", apiAt+path, "")
		tags[path] = w.Header().Get("ETag")
		for _, none := range []string{tags[path], `"x", ` + tags[path], "*", strings.TrimPrefix(tags[path], "W/")} {
			if w := p.programAs(t, malthouse.Auditor, "GET", apiAt+path, "", "If-None-Match", none); w.Code != http.StatusNotModified || w.Body.Len() > 0 || w.Header().Get("ETag") != tags[path] {
				t.Errorf("%s with %s: %d, %d bytes", path, none, w.Code, w.Body.Len())
			}
		}
	}
	if tags["/stock"] == tags["/deliveries"] {
		t.Error("the tag of one address holds at another")
	}
	if w := p.programAs(t, malthouse.Auditor, "GET", apiAt+"/pieces/P26-4711", "", "If-None-Match", tags["/pieces/P26-0001"]); w.Code != http.StatusNotFound {
		t.Errorf("what is not there: %d", w.Code)
	}
	p.loads(t, 1)
	for _, path := range paths {
		w := p.programAs(t, malthouse.Auditor, "GET", apiAt+path, "", "If-None-Match", tags[path])
		if w.Code != http.StatusOK || w.Header().Get("ETag") == tags[path] {
			t.Errorf("%s holds although something was entered: %d", path, w.Code)
		}
	}
	first := p.programAs(t, malthouse.Auditor, "GET", apiAt+"/entries", "")
	if w := p.programAs(t, malthouse.Auditor, "GET", apiAt+"/entries", "", "If-None-Match", first.Header().Get("ETag")); w.Code != http.StatusNotModified {
		t.Errorf("entries: %d", w.Code)
	}
}

// TestNobodyWritesOverWhatTheyHaveNotSeen changes settings and documents by their
// tags.
func TestNobodyWritesOverWhatTheyHaveNotSeen(t *testing.T) {
	p := staffed(t)
	const plain = `{"house.name":"Hallow","house.contact":"the office"}`
	set := func(body string, heads ...string) *httptest.ResponseRecorder {
		return p.programAs(t, malthouse.Manager, "PATCH", apiAt+"/settings", body, heads...)
	}
	was := p.programAs(t, malthouse.Manager, "GET", apiAt+"/settings", "").Header().Get("ETag")
	if w := set(plain); w.Code != http.StatusPreconditionRequired {
		t.Errorf("without a tag: %d", w.Code)
	}
	w := set(plain, "If-Match", was)
	if w.Code != http.StatusOK || !strings.Contains(w.Body.String(), `"Hallow"`) {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	if w := set(`{"house.name":"Other"}`, "If-Match", was); w.Code != http.StatusPreconditionFailed {
		t.Errorf("with the tag of before: %d", w.Code)
	}
	if now := p.programAs(t, malthouse.Manager, "GET", apiAt+"/settings", ""); now.Header().Get("ETag") != w.Header().Get("ETag") || strings.Contains(now.Body.String(), "Other") {
		t.Error("what was refused was set, or the tag is not that of the next look")
	}
	bad := set(`{"house.zone":"Nowhere/At All","house.nam":"x","house.name":"Third"}`, "If-Match", "*")
	var wrong problem
	if err := json.Unmarshal(bad.Body.Bytes(), &wrong); err != nil || bad.Code != http.StatusUnprocessableEntity || len(wrong.Faults) != 2 {
		t.Errorf("%d %s", bad.Code, bad.Body)
	}
	if now := p.programAs(t, malthouse.Manager, "GET", apiAt+"/settings", ""); strings.Contains(now.Body.String(), "Third") {
		t.Error("half of it was set")
	}

	plant, err := documents{}.ReadFile("plant.yaml")
	if err != nil {
		t.Fatal(err)
	}
	at, id := apiAt+"/documents/plant", newID(p.clock())
	put := func(text string, heads ...string) *httptest.ResponseRecorder {
		return p.programAs(t, malthouse.Manager, "PUT", at, text, append(heads, "Content-Type", kindYAML)...)
	}
	if w := p.programAs(t, malthouse.Manager, "GET", at, ""); w.Code != http.StatusNotFound {
		t.Errorf("a document that is not kept: %d", w.Code)
	}
	if w := put(string(plant), "If-Match", "*"); w.Code != http.StatusPreconditionFailed {
		t.Errorf("over what is not there: %d", w.Code)
	}
	if w := p.programAs(t, malthouse.Manager, "PUT", at+"?id="+id, string(plant), "If-None-Match", "*", "Content-Type", kindYAML); w.Code != http.StatusOK || !strings.Contains(w.Body.String(), id) {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	if w := put(string(plant), "If-None-Match", "*"); w.Code != http.StatusPreconditionFailed {
		t.Errorf("a second first: %d", w.Code)
	}
	kept := p.programAs(t, malthouse.Planning, "GET", at, "")
	if !bytes.Equal(kept.Body.Bytes(), plant) {
		t.Error("the document is not what was sent")
	}
	next := string(plant) + "# by one\n"
	if w := put(next, "If-Match", kept.Header().Get("ETag")); w.Code != http.StatusOK || w.Header().Get("ETag") != tagOf([]byte(next)) {
		t.Errorf("%d %v", w.Code, w.Header())
	}
	if w := put(string(plant)+"# by another\n", "If-Match", kept.Header().Get("ETag")); w.Code != http.StatusPreconditionFailed {
		t.Errorf("over what somebody else has changed: %d", w.Code)
	}
	if w := put("awn: silo/1\n", "If-Match", "*"); w.Code != http.StatusUnprocessableEntity {
		t.Errorf("another kind of document: %d %s", w.Code, w.Body)
	}

	pale, err := documents{}.ReadFile("specification-pale.yaml")
	if err != nil {
		t.Fatal(err)
	}
	asked := apiAt + "/documents/specification?name="
	agree := func(name string, heads ...string) *httptest.ResponseRecorder {
		return p.programAs(t, malthouse.Manager, "PUT", asked+name, string(pale), append(heads, "Content-Type", kindYAML)...)
	}
	if w := agree("Amber", "If-None-Match", "*"); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "Pale base malt") {
		t.Errorf("a specification under another name: %d %s", w.Code, w.Body)
	}
	if w := agree("Pale+base+malt", "If-None-Match", "*"); w.Code != http.StatusOK {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	if w := agree("Pale+base+malt", "If-None-Match", "*"); w.Code != http.StatusPreconditionFailed {
		t.Errorf("a second first specification: %d", w.Code)
	}
	if w := p.programAs(t, malthouse.Planning, "GET", asked+"Pale+base+malt", ""); !bytes.Equal(w.Body.Bytes(), pale) {
		t.Error("the specification is not what was sent")
	}
	if w := p.programAs(t, malthouse.Planning, "GET", apiAt+"/documents", ""); !strings.Contains(w.Body.String(), `"name": "Pale base malt"`) {
		t.Errorf("it is not listed: %s", w.Body)
	}
}

package web

import (
	"bytes"
	"encoding/json"
	"io/fs"
	"mime/multipart"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"awn/course"
	"awn/examples"
	"awn/internal/house"
	"awn/internal/paper"
	"awn/internal/report"
	"awn/reckon"
)

// described is the OpenAPI document as it is served.
func described(t *testing.T) map[string]any {
	t.Helper()
	w := get(t, served(t), "/api/v1/openapi.json")
	var doc map[string]any
	if err := json.Unmarshal(w.Body.Bytes(), &doc); err != nil || w.Code != 200 {
		t.Fatal(w.Code, err)
	}
	return doc
}

// schema compiles a schema of the OpenAPI document with a validator of draft
// 2020-12, the dialect of OpenAPI 3.1.
func schema(t *testing.T, doc map[string]any, name string) *jsonschema.Schema {
	t.Helper()
	c := jsonschema.NewCompiler()
	one := doc["components"].(map[string]any)["schemas"].(map[string]any)[name]
	if err := c.AddResource("urn:test", one); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("urn:test")
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return s
}

// sentWith is a request with a document of the examples and all that lies beside
// it.
func sentWith(t *testing.T, path, name string, besides ...string) *httptest.ResponseRecorder {
	t.Helper()
	var b bytes.Buffer
	m := multipart.NewWriter(&b)
	for _, file := range append([]string{name}, besides...) {
		data, err := fs.ReadFile(examples.Files, file)
		if err != nil {
			t.Fatal(err)
		}
		f, err := m.CreateFormFile("document", file)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := f.Write(data); err != nil {
			t.Fatal(err)
		}
	}
	if err := m.Close(); err != nil {
		t.Fatal(err)
	}
	r := httptest.NewRequest("POST", path, &b)
	r.Header.Set("Content-Type", m.FormDataContentType())
	w := httptest.NewRecorder()
	served(t).ServeHTTP(w, r)
	return w
}

// TestAPIIsAsDescribed asks every operation of the OpenAPI document, and holds
// answers and refusals against its schemas.
func TestAPIIsAsDescribed(t *testing.T) {
	doc := described(t)
	answers, refusals := schema(t, doc, "account"), schema(t, doc, "problem")
	h := served(t)
	asked := 0
	for path, methods := range doc["paths"].(map[string]any) {
		for method := range methods.(map[string]any) {
			asked++
			var good, bad *httptest.ResponseRecorder
			switch path {
			case "/piece":
				good = sentWith(t, apiAt+path, examples.First, "lot-easy.yaml", "plant.yaml", "programme-pale.yaml", "specification-pale.yaml")
			case "/load":
				good = sentWith(t, apiAt+path, examples.FirstLoad, "contract.yaml")
			case "/silo":
				good = sentWith(t, apiAt+path, examples.FirstSilo, "silo-readings.csv")
			case "/entries":
				good = get(t, h, apiAt+path)
				valid(t, path, schema(t, doc, "entries-2"), good, 200)
			case "/formulas":
				good = get(t, h, apiAt+path)
				valid(t, path, schema(t, doc, "formulas-1"), good, 200)
			case "/trial":
				good = sentWith(t, apiAt+path, examples.FirstTrial, "trial.csv")
			case "/survey":
				good = sentWith(t, apiAt+path, examples.FirstSurvey, "survey.csv", "survey-before.csv", "survey-frame.csv", "survey-places.csv", "contract-crop.yaml", "contract-crop-wide.yaml", "survey-pilots.csv",
					"piece.yaml", "lot-easy.yaml", "plant.yaml", "programme-pale.yaml", "specification-pale.yaml")
			case "/entries/{entry}":
				ask := "?ask=" + url.QueryEscape("barley 12 % wb 20 °C")
				good, bad = get(t, h, apiAt+"/entries/emc"+ask), get(t, h, apiAt+"/entries/emm"+ask)
			}
			if good == nil {
				t.Errorf("%s %s is described and nobody asks it here", method, path)
				continue
			}
			if method == "post" {
				bad = sentWith(t, apiAt+path, "certificate.json")
			}
			valid(t, path, answers, good, 200)
			if bad != nil {
				valid(t, path, refusals, bad, bad.Code)
				if bad.Code < 400 || bad.Header().Get("Content-Type") != "application/problem+json" {
					t.Errorf("%s: refused with %d, %v", path, bad.Code, bad.Header())
				}
			}
		}
	}
	if asked != len(operations) {
		t.Errorf("%d operations are described, there are %d", asked, len(operations))
	}
	for _, name := range []string{"piece", "load", "silo", "trial"} {
		schema(t, doc, name)
	}
}

func valid(t *testing.T, path string, s *jsonschema.Schema, w *httptest.ResponseRecorder, status int) {
	t.Helper()
	if w.Code != status {
		t.Errorf("%s: %d %.300s", path, w.Code, w.Body)
		return
	}
	body, err := jsonschema.UnmarshalJSON(bytes.NewReader(w.Body.Bytes()))
	if err == nil {
		err = s.Validate(body)
	}
	if err != nil {
		t.Errorf("%s: %v", path, err)
	}
}

// A program is answered byte for byte what the command writes.
func TestAPIAnswersAsTheCommand(t *testing.T) {
	piece, in, faults := paper.Load(examples.Files, examples.First)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	o, err := course.Run(&piece)
	if err != nil {
		t.Fatal(err)
	}
	var want bytes.Buffer
	if err := (report.Report{Outcome: o, Version: house.ReadVersion(), Inputs: report.Inputs(in)}).JSON(&want); err != nil {
		t.Fatal(err)
	}
	w := sentWith(t, apiAt+"/piece", examples.First, "lot-easy.yaml", "plant.yaml", "programme-pale.yaml", "specification-pale.yaml")
	if !bytes.Equal(w.Body.Bytes(), want.Bytes()) {
		t.Errorf("%d bytes differ from %d: %.200s", w.Body.Len(), want.Len(), w.Body)
	}
}

// Nothing of the examples steps in for a file that was not sent.
func TestAPITakesNothingElse(t *testing.T) {
	w := sentWith(t, apiAt+"/piece", examples.First, "lot-easy.yaml")
	var p problem
	if err := json.Unmarshal(w.Body.Bytes(), &p); err != nil || w.Code != 422 || p.Type != "urn:awn:fault:document.file.missing" || len(p.Faults) != 3 {
		t.Errorf("%d %v %+v", w.Code, err, p)
	}
}

func TestEveryEntryAnswersPrograms(t *testing.T) {
	h := served(t)
	for _, e := range reckon.Entries() {
		line := strings.TrimPrefix(e.Examples[0], e.Name+" ")
		if w := get(t, h, apiAt+"/entries/"+e.Name+"?ask="+url.QueryEscape(line)); w.Code != 200 || !json.Valid(w.Body.Bytes()) {
			t.Errorf("%s %s: %d %s", e.Name, line, w.Code, w.Body)
		}
	}
}

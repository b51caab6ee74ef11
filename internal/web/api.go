package web

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"mime/multipart"
	"net/http"
	"slices"
	"strings"

	"awn/course"
	"awn/internal/malthouse"
	"awn/internal/paper"
	"awn/internal/report"
	"awn/internal/slip"
	"awn/internal/words"
	"awn/ledger"
	"awn/reckon"
)

// apiAt is where programs ask.
const apiAt = "/api/v1"

// operation is one thing that a program may ask; routes, the OpenAPI document and
// the page for readers are made of the same list.
type operation struct {
	Method, Path, ID string
	Summary          string
	Body             string   // kind of the document that is sent; "" takes none
	Ask              []asking // in the query or the path
	Schema           string   // kind of the answer
	answer           func(*Server, *http.Request) ([]byte, error)

	Use   malthouse.Use // of the record, "" where it needs none
	asked func(*Server, visit) ([]byte, error)
	slip  string // name of the slip that is entered
}

// asking is one parameter of an operation.
type asking struct {
	Name, In, Doc string
	Must          bool
}

// operations are all there are.
var operations = []operation{
	{Method: "GET", Path: "/entries", ID: "entries", Summary: "The sums of the ready reckoner, with what each asks for.", Schema: "entries/1", answer: (*Server).apiEntries},
	{
		Method: "GET", Path: "/entries/{entry}", ID: "reckon", Summary: "One sum, answered; as “awn reckon --json”.", Schema: "reckoning/1", answer: (*Server).apiReckon,
		Ask: []asking{{"entry", "path", "Name of the sum.", true}, {"ask", "query", "What is given, as it is typed behind the name of the sum.", true}},
	},
	{Method: "POST", Path: "/piece", ID: "piece", Summary: "A piece through its course; as “awn malt --json”.", Body: "piece/1", Schema: report.Schema, answer: (*Server).apiPiece},
	{Method: "POST", Path: "/load", ID: "load", Summary: "A load graded, judged and priced; as “awn grade --json”.", Body: "load/1", Schema: "load-account/1", answer: (*Server).apiLoad},
	{Method: "POST", Path: "/silo", ID: "silo", Summary: "How a silo stands and keeps; as “awn keep --json”.", Body: "silo/1", Schema: "store-account/1", answer: (*Server).apiSilo},
}

// programs sets up what programs ask.
func (s *Server) programs() {
	for _, o := range s.operations() {
		s.mux.HandleFunc(o.Method+" "+apiAt+o.Path, func(w http.ResponseWriter, r *http.Request) {
			body, err := s.ask(o, r)
			if err != nil {
				s.problem(w, r, err)
				return
			}
			s.send(w, kindJSON, http.StatusOK, body)
		})
	}
	s.mux.HandleFunc("GET "+apiAt+"/openapi.json", func(w http.ResponseWriter, r *http.Request) {
		body, err := openAPI(s.Version, s.operations())
		if err != nil {
			s.problem(w, r, err)
			return
		}
		s.send(w, kindJSON, http.StatusOK, body)
	})
	s.mux.HandleFunc(apiAt+"/", func(w http.ResponseWriter, r *http.Request) { s.problem(w, r, errNoPage) })
	s.page("GET "+apiAt+"/{$}", s.reference)
	s.page("GET /api", s.reference)
}

// operations are those of this house.
func (s *Server) operations() []operation {
	if s.House == nil {
		return operations
	}
	return slices.Concat(operations, recordOperations)
}

// ask answers an operation, if who asks may ask it.
func (s *Server) ask(o operation, r *http.Request) ([]byte, error) {
	if o.Use == "" {
		return o.answer(s, r)
	}
	a, _ := asker(r) // nobody else comes through the doors
	err := a.Permit(o.Use)
	var body []byte
	if err == nil {
		body, err = o.asked(s, visit{r, a, words.Units{}})
	}
	return body, ofRecord(err)
}

func (s *Server) send(w http.ResponseWriter, kind string, status int, body []byte) {
	w.Header().Set("Content-Type", kind)
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	_, _ = w.Write(body) // an error here means that the program has gone
}

// problem answers with RFC 9457, all faults in one go.
func (s *Server) problem(w http.ResponseWriter, r *http.Request, err error) {
	one := problemOf(err)
	if one.Status == http.StatusInternalServerError {
		s.Log.Error("api", "path", r.URL.Path, "error", err)
	}
	body, err := json.MarshalIndent(one, "", " ")
	if err != nil {
		s.Log.Error("api", "path", r.URL.Path, "error", err)
	}
	s.send(w, "application/problem+json", one.Status, append(body, '\n'))
}

// problem is an error as RFC 9457 has it, with the faults behind it.
type problem struct {
	Type   string        `json:"type"`
	Title  string        `json:"title"`
	Status int           `json:"status"`
	Detail string        `json:"detail,omitempty"`
	Faults []problemPart `json:"faults,omitempty"`
}

// problemPart is one fault.
type problemPart struct {
	Code    string   `json:"code"`
	Says    string   `json:"says"`
	File    string   `json:"file,omitempty"`
	Line    int      `json:"line,omitempty"`
	Column  int      `json:"column,omitempty"`
	Path    string   `json:"path,omitempty"`
	Allowed []string `json:"allowed,omitempty"`
	Nearest string   `json:"nearest,omitempty"`
}

func problemOf(err error) problem {
	var (
		docs   paper.Faults
		sums   reckon.Faults
		sum    *reckon.Fault
		one    *fault
		slips  slip.Faults
		record ledger.Faults
		parts  []problemPart
		status = http.StatusUnprocessableEntity
	)
	switch {
	case errors.As(err, &docs):
		for _, f := range docs {
			parts = append(parts, problemPart{f.Code, f.Sentence(), f.File, f.Line, f.Column, f.Path, f.Allowed, f.Nearest})
		}
	case errors.As(err, &sums):
		for _, f := range sums {
			parts = append(parts, problemPart{Code: f.Code, Says: f.Error(), Column: f.At + 1})
		}
	case errors.As(err, &slips):
		for _, f := range slips {
			parts = append(parts, problemPart{Code: "web.slip.unreadable", Says: f.Says, Path: f.Field})
		}
	case errors.As(err, &record):
		for _, f := range record {
			parts = append(parts, problemPart{Code: f.Code, Says: f.Error(), Path: f.Path})
		}
	case errors.As(err, &sum):
		parts, status = []problemPart{{Code: sum.Code, Says: sum.Error()}}, http.StatusNotFound
	case errors.As(err, &one):
		parts, status = []problemPart{{Code: one.code, Says: one.says}}, one.status
	default:
		parts, status = []problemPart{{Code: "web.page.failed", Says: Codes["web.page.failed"]}}, http.StatusInternalServerError
	}
	return problem{"urn:awn:fault:" + parts[0].Code, http.StatusText(status), status, parts[0].Says, parts}
}

// sent is the document that a program sends, and the files beside it: the whole
// body, or a form of several files of which the first is the document. JSON is
// read like YAML, for it is YAML.
func sent(r *http.Request) (name string, data []byte, files paper.Files, err error) {
	files = paper.Files{}
	parts, err := r.MultipartReader()
	if errors.Is(err, http.ErrNotMultipart) {
		if data, err = io.ReadAll(r.Body); err != nil {
			err = unreadable(err)
		}
		return "body", data, files, err
	}
	for err == nil {
		var p *multipart.Part
		if p, err = parts.NextPart(); err != nil {
			break
		}
		var text []byte
		if text, err = io.ReadAll(p); name == "" {
			name, data = cmp.Or(p.FileName(), "body"), text
		} else {
			files[p.FileName()] = text
		}
	}
	if err == io.EOF {
		return name, data, files, nil
	}
	return name, data, files, unreadable(err)
}

func (s *Server) apiEntries(*http.Request) ([]byte, error) {
	list := []report.Pairs{}
	for _, e := range reckon.Entries() {
		given := []report.Pairs{}
		for _, in := range e.Inputs {
			one := report.Pairs{}.With("key", in.Key).With("says", in.Doc).With("must", in.Must)
			if units := in.Units(); len(units) > 0 {
				one = one.With("units", units)
			}
			if in.Default != "" {
				one = one.With("default", in.Default)
			}
			given = append(given, one)
		}
		list = append(list, report.Pairs{}.With("name", e.Name).With("title", e.Title).With("subject", e.Subject).With("inputs", given).With("examples", e.Examples))
	}
	return written(report.Pairs{}.With("awn", "entries/1").With("program", s.Version.Release).With("model", s.Version.Model).With("result", list))
}

func (s *Server) apiReckon(r *http.Request) ([]byte, error) {
	e, err := reckon.Find(r.PathValue("entry"))
	if err != nil {
		return nil, err
	}
	a, err := e.Ask(r.FormValue("ask"))
	if err != nil {
		return nil, err
	}
	return written(report.Reckoning(a, s.Version))
}

func written(v any) ([]byte, error) {
	var b bytes.Buffer
	err := report.WriteJSON(&b, v)
	return b.Bytes(), err
}

func (s *Server) apiPiece(r *http.Request) ([]byte, error) {
	name, data, files, err := sent(r)
	if err != nil {
		return nil, err
	}
	piece, in, faults := paper.LoadPiece(files, name, data)
	if len(faults) > 0 {
		return nil, faults
	}
	acc := report.Report{Version: s.Version, Inputs: report.Inputs(in)}
	if acc.Outcome, err = course.Run(&piece); err != nil {
		return nil, cannot(err)
	}
	var b bytes.Buffer
	err = acc.JSON(&b)
	return b.Bytes(), err
}

func (s *Server) apiLoad(r *http.Request) ([]byte, error) {
	name, data, files, err := sent(r)
	if err != nil {
		return nil, err
	}
	d, in, faults := paper.LoadTicket(files, name, data)
	if len(faults) > 0 {
		return nil, faults
	}
	var b bytes.Buffer
	err = judged(d, in, report.Report{Version: s.Version}).JSON(&b)
	return b.Bytes(), err
}

func (s *Server) apiSilo(r *http.Request) ([]byte, error) {
	name, data, files, err := sent(r)
	if err != nil {
		return nil, err
	}
	store, in, faults := paper.LoadSilo(files, name, data)
	if len(faults) > 0 {
		return nil, faults
	}
	a, err := keptAs(store, in, report.Report{Version: s.Version})
	if err != nil {
		return nil, cannot(err)
	}
	var b bytes.Buffer
	err = a.JSON(&b)
	return b.Bytes(), err
}

// reference is the page for people who write programs.
func (s *Server) reference(r *http.Request) (page, error) {
	return page{name: "api", title: readerOf(r).Say("page.foot.api"), data: s.operations()}, nil
}

// At is the whole path of an operation.
func (o operation) At() string { return apiAt + o.Path }

// Try is how to ask from a shell.
func (o operation) Try() string {
	const token = `-H "Authorization: Bearer $AWN_TOKEN" `
	switch {
	case o.slip != "":
		return fmt.Sprintf("curl %s-d @%s.json http://127.0.0.1:8416%s", token, o.slip, o.At())
	case o.Use != "":
		at := o.At()
		for _, a := range o.Ask {
			if a.In == "query" {
				at += map[bool]string{false: "?", true: "&"}[strings.Contains(at, "?")] + a.Name + "=…"
			}
		}
		return "curl " + token + "'http://127.0.0.1:8416" + at + "'"
	case o.Body != "":
		name, _, _ := strings.Cut(o.Body, "/")
		return fmt.Sprintf("curl -F document=@%s.yaml -F beside=@… http://127.0.0.1:8416%s", name, o.At())
	case slices.ContainsFunc(o.Ask, func(a asking) bool { return a.In == "path" }):
		return fmt.Sprintf("curl 'http://127.0.0.1:8416%s/emc?ask=barley+12+%%25+wb+20+°C'", strings.TrimSuffix(o.At(), "/{entry}"))
	}
	return "curl http://127.0.0.1:8416" + o.At()
}

package web

import (
	"cmp"
	"errors"
	"io"
	"mime/multipart"
	"net/http"
	"slices"

	"awn/internal/malthouse"
	"awn/internal/paper"
	"awn/internal/report"
	"awn/internal/words"
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
	Schema           string   // kind of the answer; "" answers a document as it is
	answer           func(*Server, *http.Request) (reply, error)

	Use      malthouse.Use // of the record, "" where it needs none
	asked    func(*Server, visit) (reply, error)
	slip     string   // name of the slip that is entered
	Takes    []string // kinds of body; nil takes none
	List     bool     // is answered a page at a time
	OfRecord bool     // follows from the record alone
	Changes  bool     // what somebody else may have changed meanwhile
}

// asking is one parameter of an operation.
type asking struct {
	Name, In, Doc string
	Must          bool
}

// operations are all there are.
var operations = []operation{
	{Method: "GET", Path: "/entries", ID: "entries", Summary: "The sums of the ready reckoner, with what each asks for.", Schema: "entries/2", answer: (*Server).apiEntries, List: true},
	{
		Method: "GET", Path: "/entries/{entry}", ID: "reckon", Summary: "One sum, answered; as “awn reckon --json”.", Schema: "reckoning/1", answer: (*Server).apiReckon,
		Ask: []asking{{"entry", "path", "Name of the sum.", true}, {"ask", "query", "What is given, as it is typed behind the name of the sum.", true}},
	},
	{Method: "POST", Path: "/piece", ID: "piece", Summary: "A piece through its course; as “awn malt --json”.", Body: "piece/1", Takes: kindsOfDocument, Schema: report.Schema, answer: (*Server).apiPiece},
	{Method: "POST", Path: "/load", ID: "load", Summary: "A load graded, judged and priced; as “awn grade --json”.", Body: "load/1", Takes: kindsOfDocument, Schema: "load-account/1", answer: (*Server).apiLoad},
	{Method: "GET", Path: "/formulas", ID: "formulas", Summary: "The formulas behind every number, with source, range and check.", Schema: "formulas/1", answer: (*Server).apiFormulas, List: true},
	{Method: "POST", Path: "/trial", ID: "trial", Summary: "Varieties of a trial ranked; as “awn rank --json”. The table of the trial comes as a further file.", Body: "trial/1", Takes: kindsOfDocument, Schema: "trial-account/1", answer: (*Server).apiTrial},
	{Method: "POST", Path: "/survey", ID: "survey", Summary: "A harvest surveyed; as “awn survey --json”. Samples and whatever else the document names come as further files.", Body: "survey/1", Takes: kindsOfDocument, Schema: "survey-account/1", answer: (*Server).apiSurvey},
	{Method: "POST", Path: "/silo", ID: "silo", Summary: "How a silo stands and keeps; as “awn keep --json”.", Body: "silo/1", Takes: kindsOfDocument, Schema: "store-account/1", answer: (*Server).apiSilo},
}

// programs sets up what programs ask.
func (s *Server) programs() {
	for _, o := range s.operations() {
		s.mux.HandleFunc(o.Method+" "+apiAt+o.Path, func(w http.ResponseWriter, r *http.Request) {
			a, err := s.ask(o, r)
			if err != nil {
				s.problem(w, r, err)
				return
			}
			s.answered(w, r, a)
		})
	}
	s.mux.HandleFunc("GET "+apiAt+"/openapi.json", func(w http.ResponseWriter, r *http.Request) {
		body, err := openAPI(s.Version, s.operations())
		if err != nil {
			s.problem(w, r, err)
			return
		}
		s.answered(w, r, reply{Body: body})
	})
	s.mux.HandleFunc(apiAt+"/", s.noOperation)
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
func (s *Server) ask(o operation, r *http.Request) (a reply, err error) {
	if o.Takes != nil {
		err = takes(r, o.Takes...)
	}
	if o.Use == "" {
		if err == nil {
			a, err = o.answer(s, r)
		}
		return a, err
	}
	who, _ := asker(r) // nobody else comes through the doors
	if denied := who.Permit(o.Use); denied != nil {
		err = denied
	}
	tag := ""
	if err == nil && o.OfRecord {
		if tag, err = s.recordTag(r.Context(), r.URL.RequestURI()); err == nil && has(r, tag) {
			return reply{Tag: tag}, nil
		}
	}
	if err == nil {
		a, err = o.asked(s, visit{r, who, words.Units{}})
	}
	if o.OfRecord {
		a.Tag = tag
	}
	return a, ofRecord(err)
}

func (s *Server) send(w http.ResponseWriter, kind string, status int, body []byte) {
	w.Header().Set("Content-Type", kind)
	keep := "no-store"
	if status == http.StatusOK {
		keep = "private, no-cache" // by whoever asked, who asks whether it still holds
	}
	w.Header().Set("Cache-Control", keep)
	w.WriteHeader(status)
	_, _ = w.Write(body) // an error here means that the program has gone
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

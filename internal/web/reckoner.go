package web

import (
	"errors"
	"net/http"
	"strings"

	"awn/internal/words"
	"awn/reckon"
)

// start leads to the pages, each with the question that it answers.
func (s *Server) start(*http.Request) (page, error) {
	return page{name: "start", title: "awn"}, nil
}

// subject is one heading of the pocket tables with its entries.
type subject struct {
	Name    string
	Entries []*reckon.Entry
}

// reckoner lists the pocket tables.
func (s *Server) reckoner(r *http.Request) (page, error) {
	var out []subject
	for _, name := range reckon.Subjects {
		one := subject{Name: name}
		for _, e := range reckon.Entries() {
			if e.Subject == name {
				one.Entries = append(one.Entries, e)
			}
		}
		if one.Entries != nil {
			out = append(out, one)
		}
	}
	return page{name: "reckoner", title: readerOf(r).Say("page.go.reckoner"), data: out}, nil
}

// asked is one entry with what was asked of it.
type asked struct {
	Entry    *reckon.Entry
	Line     string
	Answer   *reckon.Answer
	Findings []string
	Faults   []faultLine
}

// faultLine is one thing wrong with a line: the line cut where it lies.
type faultLine struct{ Before, At, After, Says, Code string }

// entry shows one entry and answers it.
func (s *Server) entry(r *http.Request) (page, error) {
	e, err := reckon.Find(r.PathValue("entry"))
	if err != nil {
		return page{}, &fault{status: http.StatusNotFound, code: "reckon.entry.unknown", says: err.Error(), what: r.PathValue("entry")}
	}
	a := asked{Entry: e, Line: strings.Join(strings.Fields(r.FormValue("ask")), " ")}
	if !r.URL.Query().Has("ask") {
		a.Line = strings.TrimPrefix(e.Examples[0], e.Name+" ")
	}
	answer, err := e.Ask(a.Line)
	var faults reckon.Faults
	switch {
	case err == nil:
		a.Answer = &answer
		for _, f := range answer.Findings {
			a.Findings = append(a.Findings, words.Sentence(f, readerOf(r)))
		}
	case errors.As(err, &faults):
		for _, f := range faults {
			a.Faults = append(a.Faults, cutAt(a.Line, f, readerOf(r)))
		}
	default:
		return page{}, err
	}
	return page{name: "entry", title: e.Title, part: "answer", data: a}, nil
}

// cutAt cuts a line where a fault lies.
func cutAt(line string, f *reckon.Fault, u words.Units) faultLine {
	letters := []rune(line)
	from := min(max(f.At, 0), len(letters))
	to := min(from+max(f.Width, 0), len(letters))
	return faultLine{string(letters[:from]), string(letters[from:to]), string(letters[to:]), u.Fault(f.Code, f.Error(), f.Got, f.Allowed, f.Nearest), f.Code}
}

package web

import (
	"cmp"
	"encoding/json"
	"errors"
	"net/http"
	"slices"

	"awn/internal/paper"
	"awn/internal/slip"
	"awn/ledger"
	"awn/reckon"
)

// kindProblem is that of every error.
const kindProblem = "application/problem+json"

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
	s.send(w, kindProblem, one.Status, append(body, '\n'))
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

// several is all that is wrong with what a program sent.
type several []problemPart

func (s several) Error() string { return s[0].Says }

func problemOf(err error) problem {
	var (
		docs   paper.Faults
		sums   reckon.Faults
		sum    *reckon.Fault
		one    *fault
		slips  slip.Faults
		record ledger.Faults
		many   several
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
			parts = append(parts, problemPart{Code: cmp.Or(f.Code, "web.slip.unreadable"), Says: f.Says, Path: f.Field})
		}
	case errors.As(err, &many):
		parts = many
	case errors.As(err, &record):
		if slices.ContainsFunc(record, func(f ledger.Fault) bool { return f.Code == "record.id.other" }) {
			status = http.StatusConflict
		}
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

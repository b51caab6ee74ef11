package web

import (
	"errors"
	"net/http"
	"strings"

	"awn/internal/paper"
)

// Codes are what a page or a program is answered that asks for what cannot be
// given, apart from the faults of what was sent.
var Codes = map[string]string{
	"web.page.missing":    "There is no such page. The line above leads to all there are.",
	"web.page.failed":     "This is a fault of the program, not of what you gave it. It is noted in the log.",
	"web.form.unreadable": "What was sent cannot be taken apart: {what}.",
	"web.form.large":      "What was sent is larger than 2 MiB.",
	"web.sum.refused":     "{what}.",
	"web.sign-in.missing": "Nobody has signed in: send a token of the house, as in “Authorization: Bearer awn_…”.",
	"web.slip.unreadable": "A field of what was typed cannot be read: {what}.",
	"web.slip.other":      "This entry is {what}'s. It waits until {what} signs in.",
	"web.table.faults":    "{what}",
}

// fault is an answer to a request that cannot be met.
type fault struct {
	status int
	code   string
	says   string
}

func (f *fault) Error() string { return f.says }

// Says and Code are what the page of an error shows.
func (f *fault) Says() string { return f.says }

// Code is the code under which docs/codes.md lists it.
func (f *fault) Code() string { return f.code }

// refuse is the fault of a code of this package.
func refuse(status int, code, what string) *fault {
	return &fault{status, code, strings.ReplaceAll(Codes[code], "{what}", strings.TrimSuffix(what, "."))}
}

var errNoPage = refuse(http.StatusNotFound, "web.page.missing", "")

// unreadable says why what was sent is no form.
func unreadable(err error) *fault {
	var large *http.MaxBytesError
	if errors.As(err, &large) {
		return refuse(http.StatusRequestEntityTooLarge, "web.form.large", "")
	}
	return refuse(http.StatusBadRequest, "web.form.unreadable", err.Error())
}

// cannot is why a sum has no answer, as the reader's own doing.
func cannot(err error) error {
	if err == nil {
		return nil
	}
	return refuse(http.StatusUnprocessableEntity, "web.sum.refused", err.Error())
}

// refusal makes the faults of documents and tables an answer to the reader.
func refusal(err error) error {
	var faults paper.Faults
	var rows *tableFaults
	switch {
	case errors.As(err, &faults):
		return &fault{http.StatusUnprocessableEntity, faults[0].Code, faults.Error()}
	case errors.As(err, &rows):
		return refuse(http.StatusUnprocessableEntity, "web.table.faults", rows.Error())
	}
	return err
}

// failed is the page of an error. What is not meant for the reader is written
// to the log and not shown.
func (s *Server) failed(r *http.Request, err error) page {
	var f *fault
	if !errors.As(err, &f) {
		s.Log.Error("page", "path", r.URL.Path, "error", err)
		f = refuse(http.StatusInternalServerError, "web.page.failed", "")
	}
	return page{name: "failed", title: readerOf(r).Say("page.failed.title"), status: f.status, data: f}
}

package web

import (
	"errors"
	"net/http"
	"strings"

	"awn/internal/paper"
	"awn/internal/words"
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
	"web.kind.unknown":    "What was sent is {what}.",
	"web.method.unknown":  "Nothing here is asked by {what}.",
	"web.match.missing":   "Say what you change: the ETag that you were answered, as If-Match; If-None-Match: * where nothing is there yet; If-Match: * to write over whatever is.",
	"web.match.changed":   "Somebody changed it meanwhile, or it is there already. Ask for it anew, and change that.",
	"web.document.none":   "The house keeps no document of the kind {what} yet.",
}

// fault is an answer to a request that cannot be met.
type fault struct {
	status int
	code   string
	says   string
	what   string // what the sentence of the code is filled with
	cause  error  // that says it, in place of the code
}

// in is the fault in the reader's language.
func (f *fault) in(u words.Units) string {
	if f.cause != nil {
		return strings.Join(tell(u, f.cause), "\n")
	}
	return u.Fault(f.code, f.says, f.what, nil, "")
}

func (f *fault) Error() string { return f.says }

// wrong is what the page of an error shows: the sentence, and the code under
// which docs/codes.md lists it.
type wrong struct{ Says, Code string }

// refuse is the fault of a code of this package.
func refuse(status int, code, what string) *fault {
	what = strings.TrimSuffix(what, ".")
	return &fault{status: status, code: code, says: strings.ReplaceAll(Codes[code], "{what}", what), what: what}
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
		return &fault{status: http.StatusUnprocessableEntity, code: faults[0].Code, says: faults.Error(), cause: faults}
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
	u := readerOf(r)
	return page{name: "failed", title: u.Say("page.failed.title"), status: f.status, data: wrong{f.in(u), f.code}}
}

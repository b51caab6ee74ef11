package web

import (
	"bytes"
	"errors"
	"html/template"
	"net/http"
	"net/url"

	"awn/internal/malthouse"
	"awn/internal/table"
	"awn/internal/words"
)

// Doors say who comes in.
type Doors interface {
	// Who asks; found is false of somebody who has not signed in.
	Who(r *http.Request) (a malthouse.Actor, found bool, err error)
}

// room is what a page of the record says, part by part.
type room struct {
	Title string
	Under string // what the page is for, in a sentence
	Says  []saying
	Ask   *question
	Parts []roomPart
	File  *file  // sent in place of the page
	API   string // where programs find the same
}

// way is a link beneath a picture; a script knows by Go what it stands for.
type way struct{ Go, Word, Href string }

// question is one that a page can be asked by its address.
type question struct {
	At     string
	Fields []askField
	Word   string // of the button
}

// askField is one field of a question.
type askField struct{ Name, Label, Value string }

// saying is a sentence of a page; a grave one is marked in the margin.
type saying struct {
	Text  string
	Href  string
	Grave bool
}

// roomPart is a part of a page: sentences, a picture, a table, forms.
type roomPart struct {
	Heading string
	Says    []saying
	Body    template.HTML // set by report, which escapes every word in it
	At      string        // where the tables of the body are had
	Ways    []way         // from the body to others like it
	Grid    *grid
	Slips   []slipForm
	Forms   []blankForm
	Draft   *draft
	Once    string // shown this once
	Whose   bool   // the place where a script says whose entries are made
}

// grid is a table under two plain rules.
type grid struct {
	ID      string // under which it is had as CSV
	Caption string
	Head    []string
	Rows    [][]cell
	CSV     string   // its address
	Shown   arranged // as the address of the page asks for it
}

// cell is a word or a figure, and where it leads. One that stands for a number
// or a time is sorted by that.
type cell struct {
	Text, Href string
	Figure     bool
	code       bool // of a thing of the record
	key        float64
	keyed      bool
}

// by gives a cell what it is sorted by.
func (c cell) by(x float64) cell {
	c.key, c.keyed = x, true
	return c
}

// Whole reports whether a cell stands on one line: a time and a code do.
func (c cell) Whole() bool { return c.keyed || c.code }

func word(text string) cell       { return cell{Text: text} }
func figure(text string) cell     { return cell{Text: text, Figure: true} }
func link(text, href string) cell { return cell{Text: text, Href: href} }

// entered is the query by which a page is told what was entered on the way to
// it.
const entered = "entered"

// visit is somebody in a room.
type visit struct {
	*http.Request
	Actor malthouse.Actor
	Units words.Units
}

// room sets a page of the record for those who may see it.
func (s *Server) room(pattern string, use malthouse.Use, h func(visit) (room, error)) {
	s.let(pattern, use, func(w http.ResponseWriter, v visit) error {
		r, err := h(v)
		if err != nil {
			return err
		}
		return s.showRoom(w, v, r)
	})
}

// showRoom sets a page of the record, or sends the file or the table of it that
// was asked for.
func (s *Server) showRoom(w http.ResponseWriter, v visit, r room) error {
	if r.File != nil {
		var b bytes.Buffer
		if err := r.File.write(&b); err != nil {
			return err
		}
		r.File.send(w, &b)
		return nil
	}
	if id := v.URL.Query().Get("csv"); id != "" {
		return s.sendGrid(w, v, r, id)
	}
	r.Says = append(s.said.of(v.URL.Query().Get(entered), v.Units), r.Says...)
	s.show(w, v.Request, r, 0)
	return nil
}

// let lets in those who may; the others are told who may.
func (s *Server) let(pattern string, use malthouse.Use, h func(http.ResponseWriter, visit) error) {
	s.mux.HandleFunc(pattern, func(w http.ResponseWriter, r *http.Request) {
		a, _ := asker(r) // nobody else comes through the doors
		err := a.Permit(use)
		if err == nil {
			err = h(w, visit{r, a, readerOf(r)})
		}
		if err != nil {
			s.set(w, r, s.failed(r, ofRecord(err)))
		}
	})
}

// ofRecord makes what the record refuses an answer to the reader.
func ofRecord(err error) error {
	var r *malthouse.Refusal
	if !errors.As(err, &r) {
		return err
	}
	status := http.StatusUnprocessableEntity
	switch r.Code {
	case "use.right.missing", "use.scope.narrow":
		status = http.StatusForbidden
	case "use.thing.unknown":
		status = http.StatusNotFound
	}
	return &fault{status: status, code: r.Code, says: r.Error(), cause: r}
}

// sendGrid sends one table of a page as CSV.
func (s *Server) sendGrid(w http.ResponseWriter, v visit, r room, id string) error {
	for _, p := range r.Parts {
		if p.Grid == nil || p.Grid.ID != id {
			continue
		}
		var b bytes.Buffer
		if err := table.WriteCSV(&b, p.Grid.page(v.URL.Query())); err != nil {
			return err
		}
		file{name: id + ".csv", kind: kindCSV}.send(w, &b)
		return nil
	}
	return errNoPage
}

// page is the table as a file: all rows that an address asks for, in its order.
func (g *grid) page(q url.Values) table.Page {
	return table.Page{Name: g.ID, Head: g.Head, Rows: func(yield func([]any, error) bool) {
		for _, r := range orderOf(q, g.ID, len(g.Head)).rows(g.Rows) {
			line := make([]any, len(r))
			for i := range r {
				line[i] = r[i].Text
			}
			if !yield(line, nil) {
				return
			}
		}
	}}
}

// withQuery is an address with one more thing asked.
func withQuery(u *url.URL, key, value string) string {
	q := u.Query()
	q.Set(key, value)
	return u.Path + "?" + q.Encode()
}

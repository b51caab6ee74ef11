package web

import (
	"bytes"
	"html/template"
	"io/fs"
	"net/http"
	"strings"

	"awn/course"
	"awn/examples"
	"awn/internal/paper"
	"awn/internal/report"
)

// documents are the texts that make a piece, by the names of their files: what
// a reader changed, and the examples for the rest.
type documents map[string]string

// Open is here for fs.FS; everything is read whole.
func (d documents) Open(name string) (fs.File, error) {
	return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrInvalid}
}

// ReadFile reads one text.
func (d documents) ReadFile(name string) ([]byte, error) {
	if text, ok := d[name]; ok {
		return []byte(text), nil
	}
	return fs.ReadFile(examples.Files, name)
}

// sheetOf is one document as it stands in the form.
type sheetOf struct{ File, Title, Text string }

// parts are the documents of a piece in the order in which they are changed
// most.
var parts = []sheetOf{
	{File: "programme-pale.yaml", Title: "Programme"}, {File: "lot-easy.yaml", Title: "Lot"}, {File: "specification-pale.yaml", Title: "Specification"},
	{File: "piece.yaml", Title: "Piece"}, {File: "plant.yaml", Title: "House"},
}

// designed is a piece as it is being thought out.
type designed struct {
	Sheets []sheetOf
	Faults paper.Faults
	Wrong  string // why the piece cannot be computed
	Body   template.HTML
}

// piece takes a piece through its course as its documents are changed.
func (s *Server) piece(r *http.Request) (page, error) {
	files := documents{}
	d := designed{}
	for _, p := range parts {
		text, err := files.ReadFile(p.File)
		if err != nil {
			return page{}, err
		}
		p.Text = string(text)
		if r.Method == http.MethodPost && r.PostFormValue(p.File) != "" {
			p.Text = strings.ReplaceAll(r.PostFormValue(p.File), "\r\n", "\n")
		}
		files[p.File] = p.Text
		d.Sheets = append(d.Sheets, p)
	}
	d.compute(files, report.Report{Version: s.version, Units: readerOf(r)})
	return page{name: "piece", title: "A piece, before a kilogram is cast", part: "outcome", data: d}, nil
}

// compute runs the piece and has its account set.
func (d *designed) compute(files documents, r report.Report) {
	piece, _, faults := paper.Load(files, examples.First)
	if d.Faults = faults; len(faults) > 0 {
		return
	}
	var err error
	if r.Outcome, err = course.Run(&piece); err != nil {
		d.Wrong = err.Error()
		return
	}
	var b bytes.Buffer
	if err := r.Fragment(&b); err != nil {
		d.Wrong = err.Error()
		return
	}
	d.Body = template.HTML(b.String()) // set by report, which escapes every word in it
}

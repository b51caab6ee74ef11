package web

import (
	"archive/zip"
	"bytes"
	"io"
	"mime"
	"net/http"
	"time"

	"awn/course"
	"awn/examples"
	"awn/internal/paper"
	"awn/internal/report"
)

// file is something to be taken away.
type file struct {
	name, kind string
	write      func(io.Writer) error
}

// The kinds of file.
const (
	kindHTML = "text/html; charset=utf-8"
	kindCSV  = "text/csv; charset=utf-8"
	kindJSON = "application/json"
	kindPDF  = "application/pdf"
	kindZIP  = "application/zip"
)

// give has a handler's file written and sent, whole or not at all.
func (s *Server) give(pattern string, h func(*http.Request) (file, error)) {
	s.mux.HandleFunc(pattern, func(w http.ResponseWriter, r *http.Request) {
		f, err := h(r)
		var b bytes.Buffer
		if err == nil {
			err = f.write(&b)
		}
		if err != nil {
			s.set(w, r, s.failed(r, refusal(err)))
			return
		}
		f.send(w, &b)
	})
}

// handed is a file of the record for those who are let in.
func (s *Server) handed(h func(visit) (file, error)) func(http.ResponseWriter, visit) error {
	return func(w http.ResponseWriter, v visit) error {
		f, err := h(v)
		var b bytes.Buffer
		if err == nil {
			err = f.write(&b)
		}
		if err == nil {
			f.send(w, &b)
		}
		return err
	}
}

// send sends what was written of a file.
func (f file) send(w http.ResponseWriter, b *bytes.Buffer) {
	f.announce(w)
	_, _ = b.WriteTo(w) // an error here means that the reader has gone
}

// announce says what kind of file comes, and its name.
func (f file) announce(w http.ResponseWriter) {
	head := w.Header()
	head.Set("Content-Type", f.kind)
	head.Set("Content-Disposition", mime.FormatMediaType("attachment", map[string]string{"filename": f.name}))
	head.Set("Cache-Control", "no-store")
}

// pieceRun runs the piece of a form.
func (s *Server) pieceRun(r *http.Request) (report.Report, documents, error) {
	acc := s.account(r)
	d, err := design(r)
	if err != nil {
		return acc, nil, err
	}
	piece, in, faults := paper.Load(d.Documents, examples.First)
	if len(faults) > 0 {
		return acc, nil, faults
	}
	acc.Inputs = report.Inputs(in)
	acc.Outcome, err = course.Run(&piece)
	return acc, d.Documents, cannot(err)
}

// pieceFile gives a file of a piece by its name.
func (s *Server) pieceFile(r *http.Request) (file, error) {
	acc, docs, err := s.pieceRun(r)
	if err != nil {
		return file{}, err
	}
	switch name := r.PathValue("file"); name {
	case "report.html":
		return file{name, kindHTML, acc.HTML}, nil
	case "report.pdf":
		return file{name, kindPDF, func(w io.Writer) error { return acc.PDF(w, report.Print{Paper: paperOf(acc.Units), At: time.Now()}) }}, nil
	case "outcome.json":
		return file{name, kindJSON, acc.JSON}, nil
	case "course.csv":
		return file{name, kindCSV, acc.CSV}, nil
	case "documents.zip":
		return file{name, kindZIP, docs.zip}, nil
	case "table.csv":
		return tableFile(acc.Live(), r)
	}
	return file{}, errNoPage
}

// loadFile gives a file of a load by its name.
func (s *Server) loadFile(r *http.Request) (file, error) {
	acc := s.account(r)
	docs, err := documentsOf(r, loadParts)
	if err != nil {
		return file{}, err
	}
	a, faults := loadOf(docs, acc)
	if len(faults) > 0 {
		return file{}, faults
	}
	switch name := r.PathValue("file"); name {
	case "sheet.pdf":
		return file{name, kindPDF, loadSheet(a, paperOf(acc.Units))}, nil
	case "load.json":
		return file{name, kindJSON, a.JSON}, nil
	case "load.csv":
		return file{name, kindCSV, func(w io.Writer) error { return report.LoadsCSV(w, []report.LoadAccount{a}) }}, nil
	case "documents.zip":
		return file{name, kindZIP, docs.zip}, nil
	case "table.csv":
		return tableFile(a.Live(), r)
	}
	return file{}, errNoPage
}

// siloFile gives a file of a silo by its name.
func (s *Server) siloFile(r *http.Request) (file, error) {
	docs, err := documentsOf(r, siloParts)
	if err != nil {
		return file{}, err
	}
	a, faults, err := siloOf(docs, s.account(r))
	if len(faults) > 0 {
		return file{}, faults
	}
	if err != nil {
		return file{}, cannot(err)
	}
	switch name := r.PathValue("file"); name {
	case "silo.json":
		return file{name, kindJSON, a.JSON}, nil
	case "documents.zip":
		return file{name, kindZIP, docs.zip}, nil
	case "table.csv":
		return tableFile(a.Live(), r)
	}
	return file{}, errNoPage
}

// tableFile is one table of an account.
func tableFile(l *report.Live, r *http.Request) (file, error) {
	var b bytes.Buffer
	found, err := l.CSV(&b, r.FormValue("table"))
	if err != nil {
		return file{}, err
	}
	if !found {
		return file{}, errNoPage
	}
	return file{"table.csv", kindCSV, func(w io.Writer) error { _, err := b.WriteTo(w); return err }}, nil
}

// zip writes the documents beside one another, as the command reads them.
func (d documents) zip(w io.Writer) error {
	z := zip.NewWriter(w)
	for _, one := range d {
		f, err := z.Create(one.File)
		if err != nil {
			return err
		}
		if _, err := io.WriteString(f, one.Text); err != nil {
			return err
		}
	}
	return z.Close()
}

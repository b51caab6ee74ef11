package web

import (
	"bytes"
	"html/template"
	"net/http"
	"path"
	"strings"

	"awn/internal/report"
	"awn/internal/words"
)

// page is what a handler gives to be set.
type page struct {
	name   string // of its template
	title  string
	status int    // 0 is 200
	form   bool   // has a form with the id "work", with which language and units are sent when they are changed
	part   string // name of a part of the template to be set alone for a script that asks for parts; "" sets the whole
	data   any
}

// place is one word of the line that leads through the house, with the question
// that its page answers.
type place struct{ Path, Word, Asks string }

// places are the pages in the order in which grain moves: of a house with a
// record its rooms, else what can be reckoned without one.
func (s *Server) places(u words.Units) (out []place) {
	names := []string{"intake", "silos", "piece", "varieties", "crop", "reckoner"}
	if s.House != nil {
		names = []string{"floor", "deliveries", "stock", "pieces", "weeks", "malt", "trace", "balance", "varieties", "crop", "reckoner"}
	}
	for _, name := range names {
		out = append(out, place{"/" + name, u.Say("page.go." + name), u.Say("page.asks." + name)})
	}
	if s.Accounts != nil {
		out = append(out, place{settingsAt, u.Say("page.go.settings"), u.Say("page.asks.settings")})
	}
	return out
}

// setting is what every template is set with.
type setting struct {
	Title, Here, Stamp string // Here is the word of the line that the page belongs to
	Path               string
	Who                string // is signed in
	Leaves             bool   // may sign out
	Places             []place
	Reader             words.Units
	Short              short    // form for language and units
	Waiting            *waiting // what waits on a phone; nil of a house without a record
	Data               any
}

// parse reads the templates: each page with the frame round it.
func (s *Server) parse() error {
	names, err := templates.ReadDir("templates")
	if err != nil {
		return err
	}
	for _, file := range names {
		name := strings.TrimSuffix(file.Name(), ".html")
		if name == "frame" || name == "field" || name == "footer" || name == "waiting" {
			continue
		}
		for _, tongue := range words.Tongues() {
			say := words.Units{Tongue: tongue}.Say
			t, err := template.New("frame.html").Funcs(template.FuncMap{"say": say, "plain": plainKind}).Parse(report.FormulaText)
			if err != nil {
				return err
			}
			t, err = t.ParseFS(templates, "templates/frame.html", "templates/field.html", "templates/footer.html", "templates/waiting.html", "templates/"+file.Name())
			if err != nil {
				return err
			}
			s.sets[setOf(name, tongue)] = t
		}
	}
	return nil
}

// setOf is the name of a page's templates in a language.
func setOf(name string, t words.Tongue) string { return name + "." + t.Tag() }

// partOf is the header by which a script asks for the changing part of a page.
const partOf = "Awn-Part"

// set sets a page and sends it. It is set whole before a byte of it is sent.
func (s *Server) set(w http.ResponseWriter, r *http.Request, p page) {
	u := readerOf(r)
	if r.PostForm.Get("do") == asReader {
		if err := s.keepReader(w, r, u); err != nil {
			s.Log.Error("reader", "path", r.URL.Path, "error", err)
		}
	}
	all := setting{
		Title: p.title, Here: "/" + firstOf(r.URL.Path), Path: r.URL.Path, Who: whoOf(r), Leaves: s.Accounts != nil, Places: s.places(u), Reader: u, Data: p.data, Short: shortOf(u, backOf(r), p.form),
		Stamp: u.Say("stamp", "release", s.Version.Release, "model", u.Number(float64(s.Version.Model), 0)),
	}
	if _, known := asker(r); s.Doors != nil && !known {
		all.Places = nil // none of them lets a stranger in
	}
	var err error
	if all.Waiting, err = s.waitingOf(r, r.URL.Path == shellAt); err != nil {
		s.Log.Error("waiting", "error", err) // the page is good without it
	}
	name := "frame.html"
	if r.Header.Get(partOf) != "" && p.part != "" {
		name = p.part
	}
	var b bytes.Buffer
	if err := s.sets[setOf(p.name, u.Tongue)].ExecuteTemplate(&b, name, all); err != nil {
		s.Log.Error("template", "page", p.name, "error", err)
		http.Error(w, "This is a fault of the program.", http.StatusInternalServerError)
		return
	}
	h := w.Header()
	h.Set("Content-Type", "text/html; charset=utf-8")
	h.Set("Cache-Control", "no-store")
	h.Set("Vary", partOf+", Accept-Language, Cookie")
	if p.status != 0 {
		w.WriteHeader(p.status)
	}
	_, _ = w.Write(b.Bytes()) // an error here means that the reader has gone
}

// firstOf is the first part of a path.
func firstOf(p string) string {
	first, _, _ := strings.Cut(strings.TrimPrefix(path.Clean(p), "/"), "/")
	return first
}

// plainKind is a kind of document or step in plain words.
func plainKind(kind string) string {
	name, _, _ := strings.Cut(kind, "/")
	return label(name)
}

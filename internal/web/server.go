// Package web shows awn in the browser. A handler reads what was asked, has
// the other packages compute, and gives a page to be set; it computes nothing
// itself. Every page works without script; scripts add what saves a wait.
package web

import (
	"context"
	"embed"
	"html/template"
	"io/fs"
	"log/slog"
	"net/http"
	"sync"

	"awn/internal/account"
	"awn/internal/house"
	"awn/internal/malthouse"
	"awn/internal/report"
)

//go:embed templates/*.html
var templates embed.FS

//go:embed static
var static embed.FS

// Site is what the pages are of.
type Site struct {
	Version house.Version
	Log     *slog.Logger
	House   *malthouse.House // nil: the pages compute and keep nothing
	Doors   Doors            // of the house; with accounts they are those of the accounts

	Accounts  *account.Accounts           // nil: nobody signs in
	Proxied   bool                        // a proxy says where requests come from
	Authority []byte                      // in PEM, of the house itself; nil if others vouch for it
	Again     func(context.Context) error // has the pages made anew, once the house was set up differently
}

// Server is the pages of one house.
type Server struct {
	Site
	mux  *routes
	sets map[string]*template.Template // by the name of the page and its language
	said said

	shellFiles []string // that a phone keeps
	shellMark  string   // and what tells one release of them from the next

	prospects prospects
	remembers remembers
	bell      bell
	changing  sync.Mutex      // what is changed by its tag is looked at and changed in one go
	base      context.Context // of what no request waits for
}

// New readies the pages.
func New(site Site) (*Server, error) {
	s := &Server{Site: site, mux: &routes{}, sets: map[string]*template.Template{}, bell: bell{done: make(chan struct{})}, base: context.Background()}
	if err := s.parse(); err != nil {
		return nil, err
	}
	files, err := fs.Sub(static, "static")
	if err != nil {
		return nil, err
	}
	s.mux.Handle("GET /static/", http.StripPrefix("/static/", kept(http.FileServerFS(files))))
	s.mux.Handle("GET /static/report.css", kept(http.HandlerFunc(reportStyle)))
	s.mux.HandleFunc("GET /{$}", s.begin)
	for at, h := range map[string]func(*http.Request) (page, error){
		loadAt: s.load, siloAt: s.silo, pieceAt: s.piece, "/varieties": s.varieties, cropAt: s.crop,
	} {
		s.page("GET "+at, h)
		s.page("POST "+at, h)
	}
	for at, h := range map[string]func(*http.Request) (file, error){
		loadAt: s.loadFile, siloAt: s.siloFile, pieceAt: s.pieceFile, "/varieties": s.trialFile, cropAt: s.cropFile,
	} {
		s.give("GET "+at+"/{file}", h)
		s.give("POST "+at+"/{file}", h)
	}
	s.page("GET /reckoner", s.reckoner)
	s.page("GET /reckoner/{entry}", s.entry)
	s.page("GET "+formulasAt, s.formulas)
	s.programs()
	if s.House != nil {
		s.openRooms()
		if err := s.openPhone(); err != nil {
			return nil, err
		}
	}
	if s.Accounts != nil {
		s.Doors = s.doors()
		s.openDoors()
		s.openSettings()
	}
	if s.Authority != nil {
		s.openTrust()
	}
	s.openReader()
	s.page("/", func(*http.Request) (page, error) { return page{}, errNoPage })
	return s, nil
}

// routes are the addresses that are answered. They can be listed, so that a
// test can try every one.
type routes struct {
	http.ServeMux
	patterns []string
}

// Handle answers an address.
func (r *routes) Handle(pattern string, h http.Handler) {
	r.patterns = append(r.patterns, pattern)
	r.ServeMux.Handle(pattern, h)
}

// HandleFunc is Handle for a function.
func (r *routes) HandleFunc(pattern string, h func(http.ResponseWriter, *http.Request)) {
	r.Handle(pattern, http.HandlerFunc(h))
}

// ServeHTTP answers a request.
func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	s.secure(http.HandlerFunc(s.guard)).ServeHTTP(w, r)
}

// reportStyle is the style sheet that reports bring, pictures included: pages
// show them and look like them.
func reportStyle(w http.ResponseWriter, _ *http.Request) {
	w.Header().Set("Content-Type", "text/css; charset=utf-8")
	_, _ = w.Write([]byte(report.Style())) // an error here means that the reader has gone
}

// kept lets the browser keep what it has, so long as it asks whether that is
// still right.
func kept(h http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Cache-Control", "public, max-age=300")
		h.ServeHTTP(w, r)
	})
}

// begin is the first page: of a house with a record the floor.
func (s *Server) begin(w http.ResponseWriter, r *http.Request) {
	if s.House != nil {
		http.Redirect(w, r, "/floor", http.StatusSeeOther)
		return
	}
	p, _ := s.start(r) // it cannot fail
	s.set(w, r, p)
}

// page has a handler's page set, or says what went wrong.
func (s *Server) page(pattern string, h func(*http.Request) (page, error)) {
	s.mux.HandleFunc(pattern, func(w http.ResponseWriter, r *http.Request) {
		p, err := h(r)
		if err != nil {
			p = s.failed(r, err)
		}
		s.set(w, r, p)
	})
}

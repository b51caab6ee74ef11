package web

import (
	"io/fs"
	"net/http"
	"slices"
	"strings"

	"awn/examples"
	"awn/internal/malthouse"
	"awn/internal/paper"
)

// exampleOf is what a document of a kind starts from.
var exampleOf = map[string]string{"plant": "plant.yaml", "silo": "silo.yaml", "programme": "programme-pale.yaml", malthouse.ControlPoints: examples.FirstPoints}

// openKept sets the pages of the documents that a house goes by.
func (s *Server) openKept() {
	s.room("GET "+keptAt, malthouse.UseLook, s.kept)
	s.let("GET "+keptAt+"/{kind}", malthouse.UseDecide, s.keptShown)
	s.let("POST "+keptAt+"/{kind}", malthouse.UseDecide, s.keptTaken)
}

func (s *Server) kept(v visit) (room, error) {
	u := v.Units
	g := &grid{ID: "documents", Caption: u.Say("settings.documents"), Head: []string{u.Say("settings.document"), u.Say("room.stands")}}
	for _, kind := range malthouse.Documents() {
		_, found, err := s.House.Kept(v.Context(), v.Actor, kind)
		if err != nil {
			return room{}, err
		}
		stands := u.Say("settings.example")
		if found {
			stands = u.Say("settings.own")
		}
		g.Rows = append(g.Rows, []cell{link(u.Say("settings.document."+kind), keptAt+"/"+kind), word(stands)})
	}
	return room{Title: u.Say("settings.documents"), Under: u.Say("settings.documents.under"), API: apiAt + "/documents", Parts: []roomPart{{Grid: g}}}, nil
}

// draft is a document as it is typed.
type draft struct {
	At, ID, Word, Label string
	Text                string
	Faults              paper.Faults
}

func (s *Server) keptShown(w http.ResponseWriter, v visit) error {
	kind := v.PathValue("kind")
	if !slices.Contains(malthouse.Documents(), kind) {
		return errNoPage
	}
	text, found, err := s.House.Kept(v.Context(), v.Actor, kind)
	if err == nil && !found {
		text, err = fs.ReadFile(examples.Files, exampleOf[kind])
	}
	if err == nil {
		s.drafted(w, v, string(text), nil)
	}
	return err
}

// drafted sets the page on which a document is typed.
func (s *Server) drafted(w http.ResponseWriter, v visit, text string, faults paper.Faults) {
	u, status := v.Units, http.StatusOK
	if len(faults) > 0 {
		status = http.StatusUnprocessableEntity
	}
	title := u.Say("settings.document." + v.PathValue("kind"))
	s.show(w, v.Request, room{Title: title, Under: u.Say("settings.draft.under"), API: apiAt + "/documents/" + v.PathValue("kind"), Parts: []roomPart{{Draft: &draft{
		At: v.URL.Path, ID: newID(s.House.Clock()), Word: u.Say("settings.keep"), Label: title, Text: text, Faults: faults,
	}}}}, status)
}

// keptTaken keeps a document that reads without fault.
func (s *Server) keptTaken(w http.ResponseWriter, v visit) error {
	if err := v.ParseForm(); err != nil {
		return unreadable(err)
	}
	kind := v.PathValue("kind")
	if !slices.Contains(malthouse.Documents(), kind) {
		return errNoPage
	}
	text := strings.ReplaceAll(v.PostForm.Get("text"), "\r\n", "\n")
	d := &document{part: part{File: exampleOf[kind], Kind: kind + "/1"}}
	if d.take(text); d.Wrong != nil {
		s.drafted(w, v, text, d.Wrong)
		return nil
	}
	done, err := s.House.Keep(v.Context(), v.Actor, malthouse.Entry{ID: v.PostForm.Get("id")}, kind, exampleOf[kind], []byte(text))
	if err != nil {
		return err
	}
	s.said.keep(done)
	to := keptAt
	if v.Actor.May(malthouse.UsePeople) {
		to = settingsAt // where what is still lacking is said
	}
	http.Redirect(w, v.Request, to+"?"+entered+"="+done.Fact.ID, http.StatusSeeOther)
	return nil
}

package web

import (
	"errors"
	"io/fs"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"awn/examples"
	"awn/internal/malthouse"
	"awn/internal/paper"
)

// exampleOf is what a document of a kind starts from.
var exampleOf = map[string]string{
	"plant": "plant.yaml", "silo": "silo.yaml", "programme": "programme-pale.yaml", malthouse.ControlPoints: examples.FirstPoints,
	malthouse.SpecificationKind: "specification-pale.yaml", malthouse.ContractKind: "contract.yaml",
}

// openKept sets the pages of the documents that a house goes by.
func (s *Server) openKept() {
	s.room("GET "+keptAt, malthouse.UseLook, s.kept)
	s.let("GET "+keptAt+"/{kind}", malthouse.UseDecide, s.keptShown)
	s.let("POST "+keptAt+"/{kind}", malthouse.UseDecide, s.keptTaken)
	s.let("POST "+keptAt+"/{kind}/end", malthouse.UseDecide, func(w http.ResponseWriter, v visit) error {
		done, err := s.House.Agree(v.Context(), v.Actor, malthouse.Entry{ID: v.PostFormValue("id")}, v.PathValue("kind"), v.PostFormValue("name"), nil)
		return s.told(w, v, done, keptAt, err)
	})
}

// agreedAt is where a document that is agreed with others is shown.
func agreedAt(kind, name string) string {
	return keptAt + "/" + kind + "?name=" + url.QueryEscape(name)
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
	for _, kind := range malthouse.AgreedKinds() {
		all, err := s.House.AllAgreed(v.Context(), v.Actor, kind)
		if err != nil {
			return room{}, err
		}
		for _, x := range all {
			g.Rows = append(g.Rows, []cell{link(u.Say("settings.agreed."+kind, "name", x.Name), agreedAt(kind, x.Name)), word(u.Say("settings.agreed"))})
		}
		g.Rows = append(g.Rows, []cell{link(u.Say("settings.document."+kind), keptAt+"/"+kind), word(u.Say("settings.agreed.another"))})
	}
	return room{Title: u.Say("settings.documents"), Under: u.Say("settings.documents.under"), API: apiAt + "/documents", Parts: []roomPart{{Grid: g}}}, nil
}

// draft is a document as it is typed.
type draft struct {
	At, ID, Word, Label string
	Text                string
	Faults              []told
}

func (s *Server) keptShown(w http.ResponseWriter, v visit) error {
	kind, name := v.PathValue("kind"), v.URL.Query().Get("name")
	if exampleOf[kind] == "" {
		return errNoPage
	}
	text, found, err := s.keptText(v, kind, name)
	if err == nil && !found {
		if name != "" {
			return errNoPage
		}
		text, err = fs.ReadFile(examples.Files, exampleOf[kind])
	}
	if err == nil {
		s.drafted(w, v, string(text), nil)
	}
	return err
}

// keptText is a document of the house: that of its kind, or of those that are
// agreed with others the one of that name.
func (s *Server) keptText(v visit, kind, name string) (text []byte, found bool, err error) {
	if !slices.Contains(malthouse.AgreedKinds(), kind) {
		return s.House.Kept(v.Context(), v.Actor, kind)
	}
	all, err := s.House.AllAgreed(v.Context(), v.Actor, kind)
	i := slices.IndexFunc(all, func(x malthouse.Named) bool { return x.Name == name })
	if err != nil || i < 0 {
		return nil, false, err
	}
	text, err = s.House.Desk.Document(v.Context(), string(all[i].Document))
	return text, err == nil, err
}

// keeps keeps a document that reads without fault, under the name that it gives
// itself where it is agreed with others. Called is the name by which it was asked
// for, if it was.
func (s *Server) keeps(v visit, e malthouse.Entry, kind, called, text string) (malthouse.Done, error) {
	if exampleOf[kind] == "" {
		return malthouse.Done{}, errNoPage
	}
	d := &document{part: part{File: exampleOf[kind], Kind: kind + "/1"}}
	if d.take(text); d.Wrong != nil {
		return malthouse.Done{}, d.Wrong
	}
	if !slices.Contains(malthouse.AgreedKinds(), kind) {
		return s.House.Keep(v.Context(), v.Actor, e, kind, exampleOf[kind], []byte(text))
	}
	name := d.Values["name"]
	if called != "" && called != name {
		return malthouse.Done{}, refuse(http.StatusUnprocessableEntity, "web.form.unreadable", "the name is not that of the document, which is "+name)
	}
	return s.House.Agree(v.Context(), v.Actor, e, kind, name, []byte(text))
}

// drafted sets the page on which a document is typed.
func (s *Server) drafted(w http.ResponseWriter, v visit, text string, faults paper.Faults) {
	u, status := v.Units, http.StatusOK
	if len(faults) > 0 {
		status = http.StatusUnprocessableEntity
	}
	kind, name := v.PathValue("kind"), v.URL.Query().Get("name")
	title := u.Say("settings.document." + kind)
	part := roomPart{Draft: &draft{At: v.URL.Path, ID: newID(s.House.Clock()), Word: u.Say("settings.keep"), Label: title, Text: text, Faults: documents(nil).tell(u, faults)}}
	if name != "" {
		part.Forms = []blankForm{{
			At: v.URL.Path + "/end", Word: u.Say("settings.agreed.end"), Hidden: []blank{{Name: "name", Value: name}, {Name: "id", Value: newID(s.House.Clock())}},
		}}
	}
	s.show(w, v.Request, room{Title: title, Under: u.Say("settings.draft.under"), API: apiAt + "/documents/" + kind, Parts: []roomPart{part}}, status)
}

// keptTaken keeps a document that reads without fault.
func (s *Server) keptTaken(w http.ResponseWriter, v visit) error {
	if err := v.ParseForm(); err != nil {
		return unreadable(err)
	}
	text := strings.ReplaceAll(v.PostForm.Get("text"), "\r\n", "\n")
	done, err := s.keeps(v, malthouse.Entry{ID: v.PostForm.Get("id")}, v.PathValue("kind"), "", text)
	var wrong paper.Faults
	if errors.As(err, &wrong) {
		s.drafted(w, v, text, wrong)
		return nil
	}
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

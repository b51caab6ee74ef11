package web

import (
	"net/http"
	"net/url"

	"awn/internal/malthouse"
)

// openPeople sets the pages of those whom the house knows.
func (s *Server) openPeople() {
	s.room("GET "+peopleAt, malthouse.UsePeople, s.people)
	s.let("POST "+peopleAt+"/{who}/link", malthouse.UsePeople, s.linkMade)
	s.room("GET "+peopleAt+"/{who}/remove", malthouse.UsePeople, s.removing)
	s.let("POST "+peopleAt+"/{who}/remove", malthouse.UsePeople, s.removed)
}

// people are those whom the house knows.
func (s *Server) people(v visit) (room, error) {
	u := v.Units
	all, err := s.House.Desk.People(v.Context())
	if err != nil {
		return room{}, err
	}
	held, err := s.Accounts.Held(v.Context(), v.Actor)
	if err != nil {
		return room{}, err
	}
	g := &grid{ID: "people", Caption: u.Say("settings.people"), Head: []string{
		u.Say("door.who"), u.Say("slip.field.name"), u.Say("slip.field.role"), u.Say("slip.field.contact"), u.Say("settings.password-since"), "",
	}}
	var links []blankForm
	for _, p := range all {
		since := ""
		if at, found := held[p.ID]; found {
			since = u.Day(at.In(u.In(s.House.Zone)))
		}
		at := peopleAt + "/" + url.PathEscape(p.ID)
		g.Rows = append(g.Rows, []cell{word(p.ID), word(p.Name), word(string(p.Role)), word(p.Contact), word(since), link(u.Say("settings.remove"), at+"/remove")})
		if p.Role != "" {
			links = append(links, blankForm{At: at + "/link", Word: u.Say("settings.link", "who", p.Name)})
		}
	}
	return room{Title: u.Say("settings.people"), Under: u.Say("settings.people.under"), API: apiAt + "/people", Parts: []roomPart{
		{Grid: g}, {Slips: v.may(s.form(v, "person", peopleAt, nil))},
		{Heading: u.Say("settings.links"), Says: []saying{{Text: u.Say("settings.links.under")}}, Forms: links},
	}}, nil
}

func (s *Server) linkMade(w http.ResponseWriter, v visit) error {
	u := v.Units
	who, err := s.known(v)
	if err != nil {
		return err
	}
	secret, err := s.Accounts.Link(v.Context(), v.Actor, who.ID)
	if err == nil {
		s.once(w, v, u.Say("settings.link", "who", who.Name), u.Say("settings.link.under"), s.linkTo(v.Request, joinAt, "link", secret), peopleAt)
	}
	return err
}

func (s *Server) removing(v visit) (room, error) {
	u := v.Units
	who, err := s.known(v)
	if err != nil {
		return room{}, err
	}
	return door(u.Say("settings.removing", "who", who.Name), u.Say("settings.removing.under"))(blankForm{
		At: v.URL.EscapedPath(), Word: u.Say("settings.remove"), Hidden: []blank{{Name: "id", Value: newID(s.House.Clock())}},
	}), nil
}

func (s *Server) removed(w http.ResponseWriter, v visit) error {
	done, err := s.House.Dismiss(v.Context(), v.Actor, malthouse.Entry{ID: v.PostFormValue("id")}, v.PathValue("who"))
	if err != nil {
		return err
	}
	s.said.keep(done)
	http.Redirect(w, v.Request, peopleAt+"?"+entered+"="+done.Fact.ID, http.StatusSeeOther)
	return nil
}

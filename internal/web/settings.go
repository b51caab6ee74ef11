package web

import (
	"errors"
	"net/http"
	"slices"
	"strings"

	"awn/internal/malthouse"
)

// Where a house is set up.
const (
	settingsAt = "/settings"
	houseAt    = settingsAt + "/house"
	peopleAt   = settingsAt + "/people"
	tokensAt   = settingsAt + "/tokens"
	passwordAt = settingsAt + "/password"
	keptAt     = settingsAt + "/documents"
)

// openSettings sets the pages that set a house up.
func (s *Server) openSettings() {
	s.room("GET "+settingsAt, malthouse.UseLook, s.settings)
	s.room("GET "+houseAt, malthouse.UsePeople, s.houseRoom)
	s.let("POST "+houseAt, malthouse.UsePeople, s.houseSet)
	s.room("GET "+passwordAt, malthouse.UseLook, s.password)
	s.let("POST "+passwordAt, malthouse.UseLook, s.passwordChanged)
	s.openPeople()
	s.openTokens()
	s.openKept()
}

// settings leads to all that is set, and says what a new house still lacks.
func (s *Server) settings(v visit) (room, error) {
	u := v.Units
	out := room{Title: u.Say("page.go.settings"), Under: u.Say("page.asks.settings")}
	var leads []saying
	if v.Actor.May(malthouse.UsePeople) {
		out.API = apiAt + settingsAt
		lacks, err := s.lacks(v)
		if err != nil {
			return room{}, err
		}
		if len(lacks) > 0 {
			out.Parts = append(out.Parts, roomPart{Heading: u.Say("settings.lacks"), Says: lacks})
		}
		leads = append(leads, saying{Text: u.Say("settings.house"), Href: houseAt}, saying{Text: u.Say("settings.people"), Href: peopleAt})
	}
	leads = append(leads, saying{Text: u.Say("settings.documents"), Href: keptAt}, saying{Text: u.Say("settings.tokens"), Href: tokensAt},
		saying{Text: u.Say("settings.password"), Href: passwordAt})
	if s.Authority != nil {
		leads = append(leads, saying{Text: u.Say("trust.title"), Href: trustAt})
	}
	out.Parts = append(out.Parts, roomPart{Says: leads})
	return out, nil
}

// lacks is what a new house still has to be told, in the order in which it is
// best told.
func (s *Server) lacks(v visit) (out []saying, err error) {
	u := v.Units
	name, found, err := s.House.Desk.Setting(v.Context(), malthouse.SettingName)
	if err != nil {
		return nil, err
	}
	if !found || name == "" {
		out = append(out, saying{Text: u.Say("settings.lacks.house"), Href: houseAt})
	}
	for _, kind := range malthouse.Documents() {
		_, found, err := s.House.Kept(v.Context(), v.Actor, kind)
		if err != nil {
			return nil, err
		}
		if !found {
			out = append(out, saying{Text: u.Say("settings.lacks." + kind), Href: keptAt + "/" + kind})
		}
	}
	people, err := s.House.Desk.People(v.Context())
	if len(people) < 2 {
		out = append(out, saying{Text: u.Say("settings.lacks.people"), Href: peopleAt})
	}
	return out, err
}

// houseSheet is what the house sets.
func (s *Server) houseSheet(v visit) (blankForm, func(blankForm) room, error) {
	u := v.Units
	f, of := blankForm{At: houseAt, Word: u.Say("settings.set")}, door(u.Say("settings.house"), u.Say("settings.house.under"))
	for _, k := range malthouse.Settings() {
		value, found, err := s.House.Desk.Setting(v.Context(), k.Key)
		if err != nil {
			return f, of, err
		}
		if !found {
			value = k.Default
		}
		label := u.Say("setting." + k.Key)
		if strings.HasPrefix(k.Key, "due.") {
			label = u.Say("settings.due", "what", u.Say(k.Key))
		}
		f.Blanks = append(f.Blanks, blank{Name: k.Key, Label: label, Value: value, Words: k.Words, Wide: true})
	}
	return f, of, nil
}

func (s *Server) houseRoom(v visit) (room, error) {
	f, of, err := s.houseSheet(v)
	out := of(f)
	out.API = apiAt + settingsAt
	return out, err
}

// houseSet sets what was changed: all of it, or nothing where something cannot
// be.
func (s *Server) houseSet(w http.ResponseWriter, v visit) error {
	if err := v.ParseForm(); err != nil {
		return unreadable(err)
	}
	was, of, err := s.houseSheet(v)
	if err != nil {
		return err
	}
	f, wrong := was.refill(v.Request), false
	for i, b := range f.Blanks {
		var no *malthouse.Refusal
		if errors.As(malthouse.CheckSetting(b.Name, b.Value), &no) {
			f.Blanks[i].Says, wrong = no.Error(), true
		}
	}
	if wrong {
		s.show(w, v.Request, of(f), http.StatusUnprocessableEntity)
		return nil
	}
	for i, b := range f.Blanks {
		if b.Value == was.Blanks[i].Value {
			continue
		}
		if _, err := s.House.Settle(v.Context(), v.Actor, malthouse.Entry{}, b.Name, b.Value); err != nil {
			return err
		}
	}
	if s.Again != nil {
		if err := s.Again(v.Context()); err != nil {
			return err
		}
	}
	http.Redirect(w, v.Request, settingsAt, http.StatusSeeOther)
	return nil
}

func (s *Server) passwordSheet(v visit) (blankForm, func(blankForm) room) {
	u := v.Units
	return blankForm{At: passwordAt, Word: u.Say("settings.set"), Blanks: []blank{
		{Name: "who", Label: u.Say("door.who"), Value: v.Actor.ID, Kind: "fixed", Auto: "username"},
		{Name: "old", Label: u.Say("door.password.old"), Kind: "password", Auto: "current-password", Must: true}, newBlank(u),
	}}, door(u.Say("settings.password"), u.Say("settings.password.under"))
}

func (s *Server) password(v visit) (room, error) {
	f, of := s.passwordSheet(v)
	return of(f), nil
}

func (s *Server) passwordChanged(w http.ResponseWriter, v visit) error {
	session := ""
	if c, err := v.Cookie(s.doors().cookie(v.Request)); err == nil {
		session = c.Value
	}
	err := s.Accounts.Change(v.Context(), v.Actor, session, v.PostFormValue("old"), v.PostFormValue("password"), s.doors().address(v.Request))
	if err != nil {
		f, of := s.passwordSheet(v)
		return s.again(w, v.Request, f, err, of)
	}
	u := v.Units
	s.show(w, v.Request, room{Title: u.Say("settings.password"), Says: []saying{{Text: u.Say("settings.password.done")}, {Text: u.Say("settings.back"), Href: settingsAt}}}, http.StatusOK)
	return nil
}

// once shows what is shown only once: a link, a token.
func (s *Server) once(w http.ResponseWriter, v visit, title, under, what, back string) {
	s.show(w, v.Request, room{Title: title, Under: under, Parts: []roomPart{{Once: what}, {Says: []saying{{Text: v.Units.Say("settings.back"), Href: back}}}}}, http.StatusOK)
}

// known is the person that the address names.
func (s *Server) known(v visit) (malthouse.Person, error) {
	people, err := s.House.Desk.People(v.Context())
	at := slices.IndexFunc(people, func(p malthouse.Person) bool { return p.ID == v.PathValue("who") })
	if err == nil && at < 0 {
		err = errNoPage
	}
	if err != nil {
		return malthouse.Person{}, err
	}
	return people[at], nil
}

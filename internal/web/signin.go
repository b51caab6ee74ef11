package web

import (
	"errors"
	"net/http"
	"net/url"

	"awn/internal/account"
	"awn/internal/words"
)

// Where people come in.
const (
	firstAt   = "/first"
	signInAt  = "/sign-in"
	signOutAt = "/sign-out"
	joinAt    = "/join"
	comeInAt  = "/come-in"
)

// openDoors sets the pages by which people come in and go.
func (s *Server) openDoors() {
	s.meet("GET "+firstAt, s.first)
	s.meet("POST "+firstAt, s.firstMade)
	s.meet("GET "+signInAt, s.signIn)
	s.meet("POST "+signInAt, s.signedIn)
	s.meet("POST "+signOutAt, s.signOut)
	s.meet("GET "+joinAt, s.join)
	s.meet("POST "+joinAt, s.joined)
	s.meet("GET "+comeInAt, s.comeIn)
	s.meet("POST "+comeInAt, s.cameIn)
}

// doors are those of a house with accounts.
func (s *Server) doors() signed { return signed{s.Accounts, s.Proxied} }

// admit lets somebody in who has shown who they are.
func (s *Server) admit(w http.ResponseWriter, r *http.Request, session, to string) error {
	err := s.doors().begin(w, r, session)
	if err == nil {
		http.Redirect(w, r, to, http.StatusSeeOther)
	}
	return err
}

func nameBlank(u words.Units) blank {
	return blank{Name: "who", Label: u.Say("door.who"), Auto: "username", Must: true}
}

func newBlank(u words.Units) blank {
	return blank{Name: "password", Label: u.Say("door.password.new"), Kind: "password", Auto: "new-password", Must: true}
}

func firstSheet(u words.Units) (blankForm, func(blankForm) room) {
	return blankForm{At: firstAt, Word: u.Say("door.first.word"), Blanks: []blank{
		{Name: "code", Label: u.Say("door.code"), Auto: "one-time-code", Must: true}, nameBlank(u),
		{Name: "name", Label: u.Say("door.name"), Auto: "name"}, newBlank(u),
	}}, door(u.Say("door.first"), u.Say("door.first.under"))
}

// first is the page that makes the first account, so long as there is none.
func (s *Server) first(w http.ResponseWriter, r *http.Request) error {
	none, err := s.Accounts.None(r.Context())
	if err != nil {
		return err
	}
	if !none {
		http.Redirect(w, r, signInAt, http.StatusSeeOther)
		return nil
	}
	f, of := firstSheet(readerOf(r))
	s.show(w, r, of(f), http.StatusOK)
	return nil
}

func (s *Server) firstMade(w http.ResponseWriter, r *http.Request) error {
	v := r.PostForm
	session, err := s.Accounts.First(r.Context(), v.Get("code"), v.Get("who"), v.Get("name"), v.Get("password"), s.doors().address(r))
	if err != nil {
		f, of := firstSheet(readerOf(r))
		return s.again(w, r, f, err, of)
	}
	return s.admit(w, r, session, settingsAt)
}

func signInSheet(u words.Units, back string) (blankForm, func(blankForm) room) {
	return blankForm{At: signInAt, Word: u.Say("door.sign-in"), Hidden: []blank{{Name: "back", Value: back}}, Blanks: []blank{
		nameBlank(u), {Name: "password", Label: u.Say("door.password"), Kind: "password", Auto: "current-password", Must: true},
	}}, door(u.Say("door.sign-in"), u.Say("door.sign-in.under"))
}

func (s *Server) signIn(w http.ResponseWriter, r *http.Request) error {
	none, err := s.Accounts.None(r.Context())
	if err != nil {
		return err
	}
	if none {
		http.Redirect(w, r, firstAt, http.StatusSeeOther)
		return nil
	}
	f, of := signInSheet(readerOf(r), local(r.Form.Get("back")))
	s.show(w, r, of(f), http.StatusOK)
	return nil
}

func (s *Server) signedIn(w http.ResponseWriter, r *http.Request) error {
	back := local(r.PostForm.Get("back"))
	session, err := s.Accounts.SignIn(r.Context(), r.PostForm.Get("who"), r.PostForm.Get("password"), s.doors().address(r))
	if err != nil {
		f, of := signInSheet(readerOf(r), back)
		return s.again(w, r, f, err, of)
	}
	return s.admit(w, r, session, back)
}

// signOut ends the session and has the browser forget what it kept.
func (s *Server) signOut(w http.ResponseWriter, r *http.Request) error {
	w.Header().Set("Clear-Site-Data", `"cache"`) // and not what waits to be sent: that is somebody's
	return s.admit(w, r, "", signInAt)
}

// joinSheet is the form behind a link by which somebody sets a password.
func (s *Server) joinSheet(r *http.Request) (blankForm, func(blankForm) room, error) {
	u, link := readerOf(r), r.Form.Get("link")
	who, err := s.Accounts.Linked(r.Context(), link)
	return blankForm{At: joinAt, Word: u.Say("door.join.word"), Hidden: []blank{{Name: "link", Value: link}}, Blanks: []blank{
		{Name: "who", Label: u.Say("door.who"), Value: who.ID, Auto: "username", Kind: "fixed"}, newBlank(u),
	}}, door(u.Say("door.join", "who", who.Name), u.Say("door.join.under")), err
}

func (s *Server) join(w http.ResponseWriter, r *http.Request) error {
	f, of, err := s.joinSheet(r)
	if err == nil {
		s.show(w, r, of(f), http.StatusOK)
	}
	return notIn(err)
}

func (s *Server) joined(w http.ResponseWriter, r *http.Request) error {
	session, err := s.Accounts.Join(r.Context(), r.PostForm.Get("link"), r.PostForm.Get("password"))
	if err == nil {
		return s.admit(w, r, session, "/")
	}
	f, of, gone := s.joinSheet(r)
	if gone != nil {
		return notIn(gone)
	}
	return s.again(w, r, f, err, of)
}

// comeIn is where the address leads that is printed when a house is opened. The
// code is used by the button and not by the look: a browser may look ahead.
func (s *Server) comeIn(w http.ResponseWriter, r *http.Request) error {
	u := readerOf(r)
	s.show(w, r, door(u.Say("door.come-in"), u.Say("door.come-in.under"))(blankForm{
		At: comeInAt, Word: u.Say("door.come-in.word"), Hidden: []blank{{Name: "code", Value: r.Form.Get("code")}},
	}), http.StatusOK)
	return nil
}

func (s *Server) cameIn(w http.ResponseWriter, r *http.Request) error {
	session, err := s.Accounts.Enter(r.Context(), r.PostForm.Get("code"))
	if err != nil {
		return notIn(err)
	}
	return s.admit(w, r, session, "/")
}

// notIn is the page of a link or a token that leads nowhere.
func notIn(err error) error {
	var f *account.Fault
	if !errors.As(err, &f) {
		return err
	}
	status := http.StatusForbidden
	if f.Code == "account.token.elsewhere" {
		status = http.StatusNotFound
	}
	return &fault{status: status, code: f.Code, says: f.Says(), cause: f}
}

// linkTo is the whole address of a path, as the browser that asks knows the
// house.
func (s *Server) linkTo(r *http.Request, path, key, value string) string {
	u := url.URL{Scheme: "http", Host: r.Host, Path: path, RawQuery: url.Values{key: {value}}.Encode()}
	if s.doors().secret(r) {
		u.Scheme = "https"
	}
	return u.String()
}

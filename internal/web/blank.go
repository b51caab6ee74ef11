package web

import (
	"errors"
	"net/http"
	"slices"

	"awn/internal/account"
	"awn/internal/malthouse"
	"awn/internal/paper"
	"awn/internal/words"
)

// blankForm is a form of a page that is no slip.
type blankForm struct {
	At, Word string // where it is sent, and the word of its button
	Hidden   []blank
	Blanks   []blank
	Wrong    []string // what is wrong with the whole of it
}

// blank is a field of it.
type blank struct {
	Name, Label, Value string
	Kind               string // of the input: "text" without it; "fixed" cannot be changed
	Auto               string // what the browser may fill in
	Words              []string
	Says               string // what is wrong with it
	Must, Wide         bool
}

// blankOf is the field at which a fault lies; others are of the whole form.
var blankOf = map[string]string{
	"account.password.short": "password", "account.password.plain": "password", "account.password.wrong": "old",
	"account.code.wrong": "code", "account.name.wrong": "who", "account.first.unknown": "who",
	"account.token.scope": "scope", "account.token.days": "days", "account.token.name": "name",
}

// faulted puts what is wrong at its field. What is no fault of what was typed
// comes back.
func (f blankForm) faulted(u words.Units, err error) (blankForm, error) {
	var wrong *account.Fault
	var document paper.Faults
	switch {
	case malthouse.IsRefused(err), errors.As(err, &document):
		f.Wrong = append(f.Wrong, tell(u, err)...)
		return f, nil
	case !errors.As(err, &wrong):
		return f, err
	}
	at := slices.IndexFunc(f.Blanks, func(b blank) bool { return b.Name == blankOf[wrong.Code] })
	if at < 0 {
		f.Wrong = append(f.Wrong, u.Fault(wrong.Code, wrong.Says(), wrong.Detail, nil, ""))
		return f, nil
	}
	f.Blanks = slices.Clone(f.Blanks)
	f.Blanks[at].Says = u.Fault(wrong.Code, wrong.Says(), wrong.Detail, nil, "")
	return f, nil
}

// refill puts what was typed back, save what nobody shows again.
func (f blankForm) refill(r *http.Request) blankForm {
	f.Blanks = slices.Clone(f.Blanks)
	for i, b := range f.Blanks {
		if b.Kind != "password" && b.Kind != "fixed" {
			f.Blanks[i].Value = r.PostFormValue(b.Name)
		}
	}
	return f
}

// again shows a page anew whose form was at fault.
func (s *Server) again(w http.ResponseWriter, r *http.Request, f blankForm, err error, of func(blankForm) room) error {
	f, err = f.refill(r).faulted(readerOf(r), err)
	if err == nil {
		s.show(w, r, of(f), http.StatusUnprocessableEntity)
	}
	return err
}

// show sets a page.
func (s *Server) show(w http.ResponseWriter, r *http.Request, of room, status int) {
	for _, p := range of.Parts {
		if p.Grid != nil {
			p.Grid.arrange(r.URL, readerOf(r))
		}
	}
	s.set(w, r, page{name: "room", title: of.Title, status: status, data: of})
}

// meet registers a page that answers whoever comes.
func (s *Server) meet(pattern string, h func(http.ResponseWriter, *http.Request) error) {
	s.mux.HandleFunc(pattern, func(w http.ResponseWriter, r *http.Request) {
		err := r.ParseForm()
		if err != nil {
			err = unreadable(err)
		} else {
			err = h(w, r)
		}
		if err != nil {
			s.set(w, r, s.failed(r, err))
		}
	})
}

// door is a page with one form.
func door(title, under string) func(blankForm) room {
	return func(f blankForm) room {
		return room{Title: title, Under: under, Parts: []roomPart{{Forms: []blankForm{f}}}}
	}
}

package web

import (
	"net/http"
	"strconv"

	"awn/internal/account"
	"awn/internal/malthouse"
	"awn/internal/words"
)

// openTokens sets the pages of the tokens of programs.
func (s *Server) openTokens() {
	s.room("GET "+tokensAt, malthouse.UseLook, func(v visit) (room, error) { return s.tokens(v, tokenSheet(v.Units)) })
	s.let("POST "+tokensAt, malthouse.UseLook, s.tokenMade)
	s.let("POST "+tokensAt+"/{token}/end", malthouse.UseLook, s.tokenEnded)
}

// usualDays is how long a token holds if nobody says otherwise.
const usualDays = 90

func tokenSheet(u words.Units) blankForm {
	scopes := account.Scopes()
	return blankForm{At: tokensAt, Word: u.Say("settings.token.word"), Blanks: []blank{
		{Name: "name", Label: u.Say("settings.token.name"), Must: true}, {Name: "scope", Label: u.Say("settings.token.scope"), Words: scopes, Value: scopes[0]},
		{Name: "days", Label: u.Say("settings.token.days"), Value: strconv.Itoa(usualDays), Must: true},
	}}
}

// tokens are one's own, or all for a manager.
func (s *Server) tokens(v visit, f blankForm) (room, error) {
	u := v.Units
	all, err := s.Accounts.Tokens(v.Context(), v.Actor)
	if err != nil {
		return room{}, err
	}
	g := &grid{ID: "tokens", Caption: u.Say("settings.tokens"), Head: []string{
		u.Say("settings.token.name"), u.Say("room.who"), u.Say("settings.token.scope"), u.Say("settings.token.seen"), u.Say("settings.token.ends"),
	}}
	var ends []blankForm
	for _, t := range all {
		g.Rows = append(g.Rows, []cell{word(t.Name), word(t.Person), word(t.Scope), v.time(t.Seen), v.time(t.Ends)})
		ends = append(ends, blankForm{At: tokensAt + "/" + t.ID + "/end", Word: u.Say("settings.token.end", "name", t.Name)})
	}
	return room{Title: u.Say("settings.tokens"), Under: u.Say("settings.tokens.under"), Parts: []roomPart{{Forms: []blankForm{f}}, {Grid: g}, {Forms: ends}}}, nil
}

func (s *Server) tokenMade(w http.ResponseWriter, v visit) error {
	u := v.Units
	days, _ := strconv.Atoi(v.PostFormValue("days")) // what is no number is no count of days
	token, err := s.Accounts.Issue(v.Context(), v.Actor, v.PostFormValue("name"), v.PostFormValue("scope"), days)
	if err == nil {
		s.once(w, v, u.Say("settings.token.made"), u.Say("settings.token.made.under"), token, tokensAt)
		return nil
	}
	f, err := tokenSheet(u).refill(v.Request).faulted(u, err)
	if err != nil {
		return err
	}
	of, err := s.tokens(v, f)
	if err == nil {
		s.show(w, v.Request, of, http.StatusUnprocessableEntity)
	}
	return err
}

func (s *Server) tokenEnded(w http.ResponseWriter, v visit) error {
	err := s.Accounts.Revoke(v.Context(), v.Actor, v.PathValue("token"))
	if err == nil {
		http.Redirect(w, v.Request, tokensAt, http.StatusSeeOther)
	}
	return notIn(err)
}

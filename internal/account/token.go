package account

import (
	"context"
	"slices"
	"strings"
	"time"

	"awn/internal/malthouse"
	"awn/internal/sqlstore"
)

// tokenMark begins every token, so that one that lies about is known for what
// it is.
const tokenMark = "awn_"

// scopeAll is how the scope without bounds is kept and typed.
const scopeAll = "all"

// Token is what a program shows that acts for a person.
type Token struct {
	ID, Name, Person string
	Scope            string
	Made, Seen, Ends time.Time
	Own              bool // of the one who asks
}

// mostDays is the longest that a token holds.
const mostDays = 366

// Issue makes a token that acts for its maker within a scope: read, enter or
// all. The token itself is shown this once.
func (a *Accounts) Issue(ctx context.Context, by malthouse.Actor, name, scope string, days int) (token string, err error) {
	if err := a.own(by); err != nil {
		return "", err
	}
	name = strings.TrimSpace(name)
	switch {
	case name == "" || len([]rune(name)) > 60:
		return "", &Fault{Code: "account.token.name"}
	case !slices.Contains(Scopes(), scope):
		return "", &Fault{"account.token.scope", scope}
	case days < 1 || days > mostDays:
		return "", &Fault{Code: "account.token.days"}
	}
	s, err := a.pass(ctx, sqlstore.Pass{Kind: kindToken, Person: by.ID, Role: string(by.Role), Name: name, Scope: scope}, time.Duration(days)*dayLasts)
	return tokenMark + s, err
}

// Scopes are what a token may be for.
func Scopes() (out []string) {
	for _, s := range malthouse.Scopes() {
		if s == malthouse.ScopeAll {
			s = scopeAll
		}
		out = append(out, string(s))
	}
	return out
}

// own refuses a program: tokens are made and ended by people.
func (a *Accounts) own(by malthouse.Actor) error {
	if by.Scope != malthouse.ScopeAll {
		return by.Permit(malthouse.UsePeople)
	}
	return by.Permit(malthouse.UseLook)
}

// Program is who a token acts for, and within what.
func (a *Accounts) Program(ctx context.Context, token string) (malthouse.Actor, bool, error) {
	s, ours := strings.CutPrefix(token, tokenMark)
	if !ours {
		return malthouse.Actor{}, false, nil
	}
	p, who, found, err := a.standing(ctx, s, kindToken)
	actor := who.Actor()
	if p.Scope != scopeAll {
		actor.Scope = malthouse.Scope(p.Scope)
	}
	return actor, found, err
}

// Tokens are one's own; a manager sees all.
func (a *Accounts) Tokens(ctx context.Context, by malthouse.Actor) (out []Token, err error) {
	if err := a.own(by); err != nil {
		return nil, err
	}
	all, err := a.db.Passes(ctx, a.house.Code, kindToken)
	moment := func(ms int64) time.Time { return time.UnixMilli(ms).In(a.house.Zone) }
	for _, p := range all {
		if p.Person == by.ID || by.May(malthouse.UsePeople) {
			out = append(out, Token{p.Digest, p.Name, p.Person, p.Scope, moment(p.MadeMS), moment(p.SeenMS), moment(p.EndMS), p.Person == by.ID})
		}
	}
	return out, err
}

// Revoke ends a token: one's own, or as a manager anybody's.
func (a *Accounts) Revoke(ctx context.Context, by malthouse.Actor, id string) error {
	all, err := a.Tokens(ctx, by)
	if err != nil {
		return err
	}
	if !slices.ContainsFunc(all, func(t Token) bool { return t.ID == id }) {
		return &Fault{Code: "account.token.elsewhere"}
	}
	return a.end(ctx, id)
}

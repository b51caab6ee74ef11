package account

import (
	"context"
	"time"

	"awn/internal/malthouse"
	"awn/internal/sqlstore"
)

// SignIn lets somebody in by name and password. Whether the name or the
// password was wrong is not said, and does not show in the time it takes.
func (a *Accounts) SignIn(ctx context.Context, id, password, address string) (session string, err error) {
	if len(id) > mostPassword || len(password) > 4*mostPassword {
		return "", &Fault{Code: "account.sign-in.wrong"}
	}
	if err := a.tries.take(id, address, a.now()); err != nil {
		return "", err
	}
	kept, found, err := a.db.Account(ctx, a.house.Code, id)
	if err != nil {
		return "", err
	}
	if !found {
		if kept.Password, err = a.nobody(ctx); err != nil {
			return "", err
		}
	}
	right, err := a.hasher.is(ctx, password, kept.Password)
	if err != nil {
		return "", err
	}
	who, err := a.house.Desk.Person(ctx, id)
	if !right || !found || sqlstore.Code(err) == "record.person.missing" || err == nil && who.Role == "" {
		return "", &Fault{Code: "account.sign-in.wrong"}
	}
	if err != nil {
		return "", err
	}
	a.tries.well(id, address)
	return a.pass(ctx, sqlstore.Pass{Kind: kindSession, Person: id, Role: string(who.Role)}, sessionLasts)
}

// nobody is a hash of no password at all.
func (a *Accounts) nobody(ctx context.Context) (string, error) {
	a.mutex.Lock()
	defer a.mutex.Unlock()
	var err error
	if a.blank == "" {
		a.blank, err = a.hasher.hash(ctx, secret())
	}
	return a.blank, err
}

// Session is who a session is of.
func (a *Accounts) Session(ctx context.Context, secret string) (malthouse.Actor, bool, error) {
	_, who, found, err := a.standing(ctx, secret, kindSession)
	return who.Actor(), found, err
}

// SignOut ends a session.
func (a *Accounts) SignOut(ctx context.Context, secret string) error {
	return a.end(ctx, digest(secret))
}

// Link makes a link by which somebody sets a password, once. A manager hands it
// over; links made before no longer hold.
func (a *Accounts) Link(ctx context.Context, by malthouse.Actor, id string) (secret string, err error) {
	if err := by.Permit(malthouse.UsePeople); err != nil {
		return "", err
	}
	who, err := a.house.Desk.Person(ctx, id)
	if err != nil {
		return "", err
	}
	if err := a.db.EndPasses(ctx, a.house.Code, id, kindLink, ""); err != nil {
		return "", err
	}
	return a.pass(ctx, sqlstore.Pass{Kind: kindLink, Person: id, Role: string(who.Role)}, linkLasts)
}

// Linked is whom a link is for.
func (a *Accounts) Linked(ctx context.Context, secret string) (malthouse.Person, error) {
	_, who, found, err := a.standing(ctx, secret, kindLink)
	if err == nil && !found {
		err = &Fault{Code: "account.link.ended"}
	}
	return who, err
}

// Join sets the password of whom a link is for, ends the link and every
// session there was, and lets them in.
func (a *Accounts) Join(ctx context.Context, link, password string) (session string, err error) {
	who, err := a.Linked(ctx, link)
	if err != nil {
		return "", err
	}
	if err := fit(password, who.ID); err != nil {
		return "", err
	}
	return a.once(ctx, link, who, func() error {
		_, err := a.keep(ctx, who.ID, password, false)
		return err
	})
}

// once uses a pass up and begins a session; of two at once one is let in.
func (a *Accounts) once(ctx context.Context, secret string, who malthouse.Person, then func() error) (session string, err error) {
	ended, err := a.db.EndPass(ctx, a.house.Code, digest(secret))
	if err == nil && !ended {
		err = &Fault{Code: "account.link.ended"}
	}
	if err == nil {
		err = then()
	}
	if err != nil {
		return "", err
	}
	if err := a.db.EndPasses(ctx, a.house.Code, who.ID, kindSession, ""); err != nil {
		return "", err
	}
	return a.pass(ctx, sqlstore.Pass{Kind: kindSession, Person: who.ID, Role: string(who.Role)}, sessionLasts)
}

// Entry makes a code that lets somebody in, once, within the hour. It is for
// whoever opens a house at the machine itself.
func (a *Accounts) Entry(ctx context.Context, id string) (secret string, err error) {
	who, err := a.house.Desk.Person(ctx, id)
	if err != nil {
		return "", err
	}
	return a.pass(ctx, sqlstore.Pass{Kind: kindEntry, Person: id, Role: string(who.Role)}, entryLasts)
}

// Enter lets in whoever has such a code.
func (a *Accounts) Enter(ctx context.Context, code string) (session string, err error) {
	_, who, found, err := a.standing(ctx, code, kindEntry)
	if err == nil && !found {
		err = &Fault{Code: "account.link.ended"}
	}
	if err != nil {
		return "", err
	}
	return a.once(ctx, code, who, func() error { return nil })
}

// Password gives somebody a password without more ado, for whoever opens a
// house at the machine itself.
func (a *Accounts) Password(ctx context.Context, id, password string) error {
	if err := fit(password, id); err != nil {
		return err
	}
	_, err := a.keep(ctx, id, password, false)
	return err
}

// Change changes one's own password. Every other session of theirs ends.
func (a *Accounts) Change(ctx context.Context, by malthouse.Actor, session, old, new, address string) error {
	if err := a.tries.take(by.ID, address, a.now()); err != nil {
		return err
	}
	kept, _, err := a.db.Account(ctx, a.house.Code, by.ID)
	if err != nil {
		return err
	}
	right, err := a.hasher.is(ctx, old, kept.Password)
	switch {
	case err != nil:
		return err
	case !right:
		return &Fault{Code: "account.password.wrong"}
	}
	a.tries.well(by.ID, address)
	if err := fit(new, by.ID); err != nil {
		return err
	}
	if _, err := a.keep(ctx, by.ID, new, false); err != nil {
		return err
	}
	return a.db.EndPasses(ctx, a.house.Code, by.ID, kindSession, digest(session))
}

// Held says who has a password, and since when.
func (a *Accounts) Held(ctx context.Context, by malthouse.Actor) (map[string]time.Time, error) {
	if err := by.Permit(malthouse.UsePeople); err != nil {
		return nil, err
	}
	all, err := a.db.Accounts(ctx, a.house.Code)
	out := map[string]time.Time{}
	for _, one := range all {
		out[one.Person] = time.UnixMilli(one.ChangedMS).In(a.house.Zone)
	}
	return out, err
}

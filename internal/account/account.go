// Package account says who somebody is: by a password, by a session that a
// browser holds, by a link that is used once, by the token of a program. What
// they may then do is a matter of malthouse.
package account

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base64"
	"encoding/hex"
	"regexp"
	"sync"
	"time"

	"awn/internal/malthouse"
	"awn/internal/sqlstore"
)

// The kinds of a pass.
const (
	kindSession = "session"
	kindLink    = "link"  // sets a password, once
	kindEntry   = "entry" // lets in, once
	kindToken   = "token"
)

// How long a pass holds. A session is long, for a phone on the floor is opened
// with wet hands; one that nobody uses ends sooner.
const (
	sessionLasts = 30 * 24 * time.Hour
	sessionIdle  = 3 * 24 * time.Hour
	linkLasts    = 3 * 24 * time.Hour
	entryLasts   = time.Hour
	dayLasts     = 24 * time.Hour
)

// SessionSeconds is how long a browser keeps a session.
const SessionSeconds = int(sessionLasts / time.Second)

// seenEvery is how often it is noted that a pass is in use.
const seenEvery = 5 * time.Minute

// Accounts are those of a house.
type Accounts struct {
	house  *malthouse.House
	db     *sqlstore.DB
	hasher hasher
	tries  tries

	mutex sync.Mutex
	first [sha256.Size]byte // of the code for the first account, zero if none was given out
	blank string            // hash that a name without account is held against
}

// Of readies the accounts of a house.
func Of(house *malthouse.House, db *sqlstore.DB) *Accounts {
	return &Accounts{house: house, db: db, hasher: make(hasher, atOnce)}
}

func (a *Accounts) now() time.Time { return a.house.Clock() }

// secret is 256 random bits as they stand in a cookie, link or token.
func secret() string {
	b := make([]byte, 32)
	_, _ = rand.Read(b) // it never fails
	return base64.RawURLEncoding.EncodeToString(b)
}

// digest is what is kept of a secret. It is random and long, so a plain hash
// serves.
func digest(secret string) string {
	sum := sha256.Sum256([]byte(secret))
	return hex.EncodeToString(sum[:])
}

// None reports whether nobody has an account yet.
func (a *Accounts) None(ctx context.Context) (bool, error) {
	all, err := a.db.Accounts(ctx, a.house.Code)
	return len(all) == 0, err
}

// FirstCode is the code with which the first account is made. It is made anew
// each time it is asked for, and kept nowhere but here.
func (a *Accounts) FirstCode() string {
	code := rand.Text()[:16]
	a.mutex.Lock()
	defer a.mutex.Unlock()
	a.first = sha256.Sum256([]byte(code))
	return code[:4] + "-" + code[4:8] + "-" + code[8:12] + "-" + code[12:]
}

var dashes = regexp.MustCompile(`[-\s]`)

// isFirst reports whether a code is the one that was given out.
func (a *Accounts) isFirst(code string) bool {
	sum := sha256.Sum256([]byte(dashes.ReplaceAllString(code, "")))
	a.mutex.Lock()
	defer a.mutex.Unlock()
	return a.first != [sha256.Size]byte{} && subtle.ConstantTimeCompare(sum[:], a.first[:]) == 1
}

var isName = regexp.MustCompile(`^[\pL\pN][\pL\pN.-]{0,39}$`)

// First makes the first account of a house, that of a manager, and lets them
// in. A record that knows managers knows this one.
func (a *Accounts) First(ctx context.Context, code, id, name, password, address string) (session string, err error) {
	if err := a.tries.take("", address, a.now()); err != nil {
		return "", err
	}
	if !a.isFirst(code) {
		return "", &Fault{Code: "account.code.wrong"}
	}
	a.tries.well("", address)
	if !isName.MatchString(id) {
		return "", &Fault{"account.name.wrong", id}
	}
	if err := fit(password, id); err != nil {
		return "", err
	}
	none, err := a.None(ctx)
	if err != nil {
		return "", err
	}
	if !none {
		return "", &Fault{Code: "account.first.late"}
	}
	actor, fresh, err := a.house.Welcome(ctx, id)
	switch {
	case malthouse.IsRefused(err) || err == nil && actor.Role != malthouse.Manager:
		return "", &Fault{"account.first.unknown", id}
	case err != nil:
		return "", err
	case fresh && name != "":
		if _, err := a.house.Admit(ctx, actor, malthouse.Entry{}, malthouse.Person{ID: id, Name: name, Role: malthouse.Manager}); err != nil {
			return "", err
		}
	}
	done, err := a.keep(ctx, id, password, true)
	if err == nil && !done {
		err = &Fault{Code: "account.first.late"}
	}
	if err != nil {
		return "", err
	}
	return a.pass(ctx, sqlstore.Pass{Kind: kindSession, Person: id, Role: string(malthouse.Manager)}, sessionLasts)
}

// The least and the most letters of a password.
const (
	leastPassword = 10
	mostPassword  = 200
)

// fit refuses a password that is none.
func fit(password, id string) error {
	switch n := len([]rune(password)); {
	case n < leastPassword || n > mostPassword:
		return &Fault{Code: "account.password.short"}
	case password == id:
		return &Fault{Code: "account.password.plain"}
	}
	return nil
}

// keep sets somebody's password.
func (a *Accounts) keep(ctx context.Context, id, password string, first bool) (bool, error) {
	hash, err := a.hasher.hash(ctx, password)
	if err != nil {
		return false, err
	}
	return a.db.PutAccount(ctx, a.house.Code, sqlstore.Account{Person: id, Password: hash, ChangedMS: a.now().UnixMilli()}, first)
}

// pass makes a pass and gives its secret.
func (a *Accounts) pass(ctx context.Context, p sqlstore.Pass, lasts time.Duration) (string, error) {
	s, now := secret(), a.now()
	p.Digest, p.MadeMS, p.SeenMS, p.EndMS = digest(s), now.UnixMilli(), now.UnixMilli(), now.Add(lasts).UnixMilli()
	return s, a.db.PutPass(ctx, a.house.Code, p)
}

// standing is whom a pass of a kind lets in now.
func (a *Accounts) standing(ctx context.Context, secret, kind string) (p sqlstore.Pass, who malthouse.Person, found bool, err error) {
	p, found, err = a.db.Pass(ctx, a.house.Code, digest(secret))
	now := a.now().UnixMilli()
	if err != nil || !found || p.Kind != kind || p.EndMS <= now {
		return p, who, false, err
	}
	if kind == kindSession && now-p.SeenMS > sessionIdle.Milliseconds() {
		return p, who, false, nil
	}
	who, err = a.house.Desk.Person(ctx, p.Person)
	if sqlstore.Code(err) == "record.person.missing" {
		return p, who, false, nil
	}
	if err != nil || who.Role == "" {
		return p, who, false, err
	}
	if kind == kindSession && string(who.Role) != p.Role {
		return p, who, false, a.end(ctx, p.Digest) // whoever was given another role signs in anew
	}
	if now-p.SeenMS > seenEvery.Milliseconds() {
		err = a.db.SeenPass(ctx, a.house.Code, p.Digest, now)
	}
	return p, who, err == nil, err
}

func (a *Accounts) end(ctx context.Context, digest string) error {
	_, err := a.db.EndPass(ctx, a.house.Code, digest)
	return err
}

package account

import (
	"context"
	"errors"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"awn/internal/malthouse"
	"awn/internal/office"
)

// The check value of the reference implementation for argon2id, version 19
// (phc-winner-argon2, src/test.c: two passes, 64 MiB, one lane), recalled.
const reference = "$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc"

func TestHashIsThatOfArgon2(t *testing.T) {
	h := make(hasher, atOnce)
	for password, want := range map[string]bool{"password": true, "passwore": false, "": false} {
		if got, err := h.is(t.Context(), password, reference); err != nil || got != want {
			t.Errorf("%q: %v, %v", password, got, err)
		}
	}
	kept, err := h.hash(t.Context(), "four words in a row")
	if err != nil || !strings.HasPrefix(kept, "$argon2id$v=19$m=19456,t=2,p=1$") {
		t.Fatalf("%s, %v", kept, err)
	}
	again, err := h.hash(t.Context(), "four words in a row")
	if err != nil || again == kept {
		t.Error("two hashes of one password are the same: there is no salt")
	}
	if got, err := h.is(t.Context(), "four words in a row", kept); err != nil || !got {
		t.Errorf("a password is not its own: %v", err)
	}
	for _, broken := range []string{
		"", "password", "$argon2i$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc",
		"$argon2id$v=19$m=65536,t=2,p=0$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc", "$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$",
		"$argon2id$v=19$m=4000000000,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc",
	} {
		if got, err := h.is(t.Context(), "password", broken); err != nil || got {
			t.Errorf("%q lets somebody in, or fails: %v", broken, err)
		}
	}
}

// Passwords are hashed two at a time: a third waits, and gives up with its
// request.
func TestFewAreHashedAtOnce(t *testing.T) {
	h := make(hasher, atOnce)
	for range atOnce {
		if err := h.wait(t.Context()); err != nil {
			t.Fatal(err)
		}
	}
	gone, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := h.hash(gone, "four words in a row"); !errors.Is(err, context.Canceled) {
		t.Errorf("a third is hashed: %v", err)
	}
	h.free()
	if _, err := h.hash(t.Context(), "four words in a row"); err != nil {
		t.Error(err)
	}
}

func opened(t *testing.T) (*Accounts, *malthouse.House) {
	t.Helper()
	o, err := office.Open(t.Context(), filepath.Join(t.TempDir(), "house.db"), true)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { o.DB.Close() })
	return Of(o.House, o.DB), o.House
}

func refused(t *testing.T, err error, code string) {
	t.Helper()
	var f *Fault
	if !errors.As(err, &f) || f.Code != code {
		t.Errorf("%v, want %s", err, code)
	}
}

func TestFirstAccount(t *testing.T) {
	a, h := opened(t)
	ctx, phrase := t.Context(), "four words in a row"
	_, err := a.First(ctx, "", "runa", "", phrase, "here")
	refused(t, err, "account.code.wrong") // none was given out
	stale := a.FirstCode()
	code := a.FirstCode()
	_, err = a.First(ctx, stale, "runa", "", phrase, "here")
	refused(t, err, "account.code.wrong")
	_, err = a.First(ctx, code, "runa thorne", "", phrase, "here")
	refused(t, err, "account.name.wrong")
	_, err = a.First(ctx, code, "runa", "", "short", "here")
	refused(t, err, "account.password.short")
	session, err := a.First(ctx, strings.ReplaceAll(code, "-", ""), "runa", "Runa Thorne", phrase, "here")
	if err != nil {
		t.Fatal(err)
	}
	who, found, err := a.Session(ctx, session)
	if err != nil || !found || who != (malthouse.Actor{ID: "runa", Name: "Runa Thorne", Role: malthouse.Manager}) {
		t.Errorf("%+v, %v, %v", who, found, err)
	}
	_, err = a.First(ctx, code, "osk", "", phrase, "here")
	refused(t, err, "account.first.late")
	if people, err := h.Desk.People(ctx); err != nil || len(people) != 1 {
		t.Errorf("%d people, %v", len(people), err)
	}
	for range triesAddress {
		_, _ = a.First(ctx, "AAAA-AAAA-AAAA-AAAA", "osk", "", phrase, "there")
	}
	_, err = a.First(ctx, code, "osk", "", phrase, "there")
	refused(t, err, "account.sign-in.often")
}

// A record that was worked with at the command line knows its managers: the
// first account is one of theirs.
func TestFirstAccountOfAKnownHouse(t *testing.T) {
	a, h := opened(t)
	ctx := t.Context()
	boss, _, err := h.Welcome(ctx, "runa")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := h.Admit(ctx, boss, malthouse.Entry{}, malthouse.Person{ID: "osk", Role: malthouse.Floor}); err != nil {
		t.Fatal(err)
	}
	code := a.FirstCode()
	for _, id := range []string{"osk", "stranger"} {
		_, err = a.First(ctx, code, id, "", "four words in a row", "here")
		refused(t, err, "account.first.unknown")
	}
	if _, err = a.First(ctx, code, "runa", "", "four words in a row", "here"); err != nil {
		t.Error(err)
	}
}

// Of many who use one link at the same time, one is let in.
func TestLinkIsUsedOnce(t *testing.T) {
	a, h := opened(t)
	boss, _, err := h.Welcome(t.Context(), "runa")
	if err != nil {
		t.Fatal(err)
	}
	old, err := a.Link(t.Context(), boss, "runa")
	if err != nil {
		t.Fatal(err)
	}
	link, err := a.Link(t.Context(), boss, "runa")
	if err != nil {
		t.Fatal(err)
	}
	_, err = a.Linked(t.Context(), old)
	refused(t, err, "account.link.ended")
	var in atomic.Int64
	var wait sync.WaitGroup
	for range 4 {
		wait.Go(func() {
			if _, err := a.Join(t.Context(), link, "four words in a row"); err == nil {
				in.Add(1)
			}
		})
	}
	wait.Wait()
	if in.Load() != 1 {
		t.Errorf("%d came in by one link", in.Load())
	}
	_, err = a.Link(t.Context(), malthouse.Actor{ID: "osk", Role: malthouse.Floor}, "runa")
	if !malthouse.IsRefused(err) {
		t.Errorf("somebody who is no manager makes a link: %v", err)
	}
	clock := h.Clock()
	late, err := a.Link(t.Context(), boss, "runa")
	if err != nil {
		t.Fatal(err)
	}
	h.Clock = func() time.Time { return clock.Add(linkLasts + time.Minute) }
	_, err = a.Join(t.Context(), late, "four words in a row")
	refused(t, err, "account.link.ended")
}

// A program makes no tokens, whatever it may.
func TestTokensAreMadeByPeople(t *testing.T) {
	a, h := opened(t)
	ctx := t.Context()
	boss, _, err := h.Welcome(ctx, "runa")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name, scope string
		days        int
		code        string
	}{{"", "read", 1, "account.token.name"}, {"x", "write", 1, "account.token.scope"}, {"x", "read", 0, "account.token.days"}, {"x", "read", 400, "account.token.days"}} {
		_, err := a.Issue(ctx, boss, c.name, c.scope, c.days)
		refused(t, err, c.code)
	}
	token, err := a.Issue(ctx, boss, "scale", "enter", 30)
	if err != nil {
		t.Fatal(err)
	}
	program, found, err := a.Program(ctx, token)
	if err != nil || !found || program.Scope != malthouse.ScopeEnter {
		t.Fatalf("%+v, %v, %v", program, found, err)
	}
	if _, err := a.Issue(ctx, program, "more", "all", 30); !malthouse.IsRefused(err) {
		t.Errorf("a token makes a token: %v", err)
	}
	if _, found, _ := a.Session(ctx, strings.TrimPrefix(token, tokenMark)); found {
		t.Error("a token is taken for a session")
	}
	all, err := a.Tokens(ctx, boss)
	if err != nil || len(all) != 1 {
		t.Fatal(err, len(all))
	}
	if err := a.Revoke(ctx, boss, all[0].ID); err != nil {
		t.Error(err)
	}
	if _, found, _ := a.Program(ctx, token); found {
		t.Error("a token that was ended still holds")
	}
}

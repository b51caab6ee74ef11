package storetest

import (
	"sync"
	"sync/atomic"
	"testing"

	"awn/internal/sqlstore"
)

// staff are people of the house of the suite.
func staff(t *testing.T, db *sqlstore.DB, ids ...string) {
	t.Helper()
	Furnish(t, db)
	for _, id := range ids {
		ok(t, db.PutPerson(t.Context(), house, sqlstore.Person{ID: id, Name: id}))
	}
}

func accounts(t *testing.T, db *sqlstore.DB) {
	ctx := t.Context()
	staff(t, db, "p1", "p2")
	_, found, err := db.Account(ctx, house, "p1")
	ok(t, err)
	same(t, "found before", found, false)
	var made atomic.Int64
	var wait sync.WaitGroup
	for _, id := range []string{"p1", "p2", "p1", "p2"} {
		wait.Go(func() {
			done, err := db.PutAccount(ctx, house, sqlstore.Account{Person: id, Password: "h", ChangedMS: 1}, true)
			if err != nil {
				t.Error(err)
			}
			if done {
				made.Add(1)
			}
		})
	}
	wait.Wait()
	same(t, "first accounts", made.Load(), int64(1))
	all, err := db.Accounts(ctx, house)
	ok(t, err)
	same(t, "accounts", len(all), 1)
	for _, p := range []string{"p1", "p2"} {
		_, err := db.PutAccount(ctx, house, sqlstore.Account{Person: p, Password: "k" + p, ChangedMS: 2}, false)
		ok(t, err)
	}
	got, found, err := db.Account(ctx, house, "p2")
	ok(t, err)
	same(t, "account", got, sqlstore.Account{Person: "p2", Password: "kp2", ChangedMS: 2})
	same(t, "found", found, true)
	_, found, err = db.Account(ctx, "other", "p2")
	ok(t, err)
	same(t, "found in another house", found, false)
	if _, err := db.PutAccount(ctx, house, sqlstore.Account{Person: "nobody", Password: "h"}, false); err == nil {
		t.Error("an account of nobody was taken")
	}
}

func passes(t *testing.T, db *sqlstore.DB) {
	ctx := t.Context()
	staff(t, db, "p1", "p2")
	put := func(digest, kind, person string, made, ends int64) {
		t.Helper()
		ok(t, db.PutPass(ctx, house, sqlstore.Pass{Digest: digest, Kind: kind, Person: person, Role: "floor", Name: "n", Scope: "read", MadeMS: made, SeenMS: made, EndMS: ends}))
	}
	there := func(digest string, want bool) {
		t.Helper()
		_, found, err := db.Pass(ctx, house, digest)
		ok(t, err)
		same(t, digest, found, want)
	}
	put("a", "session", "p1", 1, 10)
	put("b", "session", "p1", 2, 100)
	put("c", "session", "p2", 3, 100)
	put("d", "token", "p1", 4, 100)
	ok(t, db.SeenPass(ctx, house, "b", 7))
	got, _, err := db.Pass(ctx, house, "b")
	ok(t, err)
	same(t, "pass", got, sqlstore.Pass{Digest: "b", Kind: "session", Person: "p1", Role: "floor", Name: "n", Scope: "read", MadeMS: 2, SeenMS: 7, EndMS: 100})
	all, err := db.Passes(ctx, house, "session")
	ok(t, err)
	same(t, "latest", all[0].Digest, "c")
	put("e", "session", "p1", 10, 100)
	there("a", false) // it had ended
	ok(t, db.EndPasses(ctx, house, "p1", "session", "e"))
	there("b", false)
	there("e", true)
	there("d", true)
	there("c", true)
	for _, want := range []bool{true, false} {
		ended, err := db.EndPass(ctx, house, "c")
		ok(t, err)
		same(t, "ended", ended, want)
	}
	ok(t, db.RemovePerson(ctx, house, "p1"))
	there("d", false)
	there("e", false)
}

func readers(t *testing.T, db *sqlstore.DB) {
	ctx := t.Context()
	staff(t, db, "p1", "p2")
	chosen := func(of, person, want string) {
		t.Helper()
		got, err := db.Reader(ctx, of, person)
		ok(t, err)
		same(t, person, got, want)
	}
	chosen(house, "p1", "")
	ok(t, db.PutReader(ctx, house, "p1", "tongue=es"))
	ok(t, db.PutReader(ctx, house, "p1", "tongue=en&mass=bushels"))
	chosen(house, "p1", "tongue=en&mass=bushels")
	chosen(house, "p2", "")
	chosen("other", "p1", "")
	if err := db.PutReader(ctx, house, "nobody", "tongue=es"); err == nil {
		t.Error("the choice of nobody was taken")
	}
	ok(t, db.RemovePerson(ctx, house, "p1"))
	chosen(house, "p1", "")
}

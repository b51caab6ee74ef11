package sqlstore

import (
	"cmp"
	"context"
	"database/sql"
	"errors"
	"slices"
)

// Account is how somebody proves who they are.
type Account struct {
	Person    string
	Password  string // its hash in text form, never the password
	ChangedMS int64
}

// Pass is what lets somebody in for a while: a session, a link, a token.
type Pass struct {
	Digest                string // of the secret, which is not kept
	Kind                  string
	Person, Role          string // Role as it was when the pass was made
	Name, Scope           string // of a token
	MadeMS, SeenMS, EndMS int64
}

// PutAccount sets somebody's password. With first it does so only in a house
// where nobody has an account yet, and says whether that was so.
func (db *DB) PutAccount(ctx context.Context, house string, a Account, first bool) (done bool, err error) {
	err = db.write(ctx, func(tx *sql.Tx) error {
		if first {
			// Two who come at once: the second waits for the row of the house.
			if _, err := tx.ExecContext(ctx, `update house set name = name where code = $1`, house); err != nil {
				return err
			}
			var n int
			if err := tx.QueryRowContext(ctx, `select count(*) from account where house = $1`, house).Scan(&n); err != nil || n > 0 {
				return err
			}
		}
		done = true
		_, err := tx.ExecContext(ctx, `
			insert into account (house, person, password, changed_at) values ($1, $2, $3, $4)
			on conflict (house, person) do update set password = excluded.password, changed_at = excluded.changed_at`,
			house, a.Person, a.Password, a.ChangedMS)
		return err
	})
	return done && err == nil, err
}

// Accounts are all of a house, by person.
func (db *DB) Accounts(ctx context.Context, house string) ([]Account, error) {
	rows, err := db.R.QueryContext(ctx, `select person, password, changed_at from account where house = $1`, house)
	if err != nil {
		return nil, db.explain(err)
	}
	all, err := collect(db, rows, func(a *Account) []any { return []any{&a.Person, &a.Password, &a.ChangedMS} })
	slices.SortFunc(all, func(a, b Account) int { return cmp.Compare(a.Person, b.Person) })
	return all, err
}

// Account is that of a person, and whether there is one.
func (db *DB) Account(ctx context.Context, house, person string) (a Account, found bool, err error) {
	a.Person = person
	err = db.R.QueryRowContext(ctx, `select password, changed_at from account where house = $1 and person = $2`, house, person).
		Scan(&a.Password, &a.ChangedMS)
	if errors.Is(err, sql.ErrNoRows) {
		return Account{}, false, nil
	}
	return a, err == nil, db.explain(err)
}

// PutPass keeps a pass, and forgets those that have ended.
func (db *DB) PutPass(ctx context.Context, house string, p Pass) error {
	return db.write(ctx, func(tx *sql.Tx) error {
		if _, err := tx.ExecContext(ctx, `delete from pass where house = $1 and ends_at <= $2`, house, p.MadeMS); err != nil {
			return err
		}
		_, err := tx.ExecContext(ctx, `
			insert into pass (house, digest, kind, person, role, name, scope, made_at, seen_at, ends_at)
			values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)`,
			house, p.Digest, p.Kind, p.Person, p.Role, p.Name, p.Scope, p.MadeMS, p.SeenMS, p.EndMS)
		return err
	})
}

// Pass is the one with a digest, and whether there is one. Whether it has
// ended, the caller sees.
func (db *DB) Pass(ctx context.Context, house, digest string) (p Pass, found bool, err error) {
	p.Digest = digest
	err = db.R.QueryRowContext(ctx, `
		select kind, person, role, name, scope, made_at, seen_at, ends_at from pass where house = $1 and digest = $2`, house, digest).
		Scan(&p.Kind, &p.Person, &p.Role, &p.Name, &p.Scope, &p.MadeMS, &p.SeenMS, &p.EndMS)
	if errors.Is(err, sql.ErrNoRows) {
		return Pass{}, false, nil
	}
	return p, err == nil, db.explain(err)
}

// Passes are those of a kind, the latest first.
func (db *DB) Passes(ctx context.Context, house, kind string) ([]Pass, error) {
	rows, err := db.R.QueryContext(ctx, `
		select digest, kind, person, role, name, scope, made_at, seen_at, ends_at from pass where house = $1 and kind = $2`, house, kind)
	if err != nil {
		return nil, db.explain(err)
	}
	all, err := collect(db, rows, func(p *Pass) []any {
		return []any{&p.Digest, &p.Kind, &p.Person, &p.Role, &p.Name, &p.Scope, &p.MadeMS, &p.SeenMS, &p.EndMS}
	})
	slices.SortFunc(all, func(a, b Pass) int { return cmp.Or(cmp.Compare(b.MadeMS, a.MadeMS), cmp.Compare(a.Digest, b.Digest)) })
	return all, err
}

// SeenPass notes that a pass was used.
func (db *DB) SeenPass(ctx context.Context, house, digest string, atMS int64) error {
	return db.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `update pass set seen_at = $1 where house = $2 and digest = $3`, atMS, house, digest)
		return err
	})
}

// EndPass ends a pass, and says whether it was there: of two who use a link at
// once, one ends it.
func (db *DB) EndPass(ctx context.Context, house, digest string) (ended bool, err error) {
	err = db.write(ctx, func(tx *sql.Tx) error {
		done, err := tx.ExecContext(ctx, `delete from pass where house = $1 and digest = $2`, house, digest)
		if err != nil {
			return err
		}
		n, err := done.RowsAffected()
		ended = n > 0
		return err
	})
	return ended && err == nil, err
}

// EndPasses ends all of a person that are of a kind, save one; save is "" to
// spare none.
func (db *DB) EndPasses(ctx context.Context, house, person, kind, save string) error {
	return db.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `delete from pass where house = $1 and person = $2 and kind = $3 and digest <> $4`, house, person, kind, save)
		return err
	})
}

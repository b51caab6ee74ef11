package sqlstore

import (
	"context"
	"database/sql"
	"errors"
	"slices"
	"strings"
)

// House is a malthouse that keeps its record here.
type House struct {
	Code string
	Name string
	Zone string // as in Europe/London
}

// PutHouse adds a house, or changes what it is called.
func (db *DB) PutHouse(ctx context.Context, h House) error {
	return db.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `
			insert into house (code, name, zone) values ($1, $2, $3)
			on conflict (code) do update set name = excluded.name, zone = excluded.zone`,
			h.Code, h.Name, h.Zone)
		return err
	})
}

// Houses lists the houses in the order of their codes.
func (db *DB) Houses(ctx context.Context) ([]House, error) {
	rows, err := db.R.QueryContext(ctx, `select code, name, zone from house`)
	if err != nil {
		return nil, db.explain(err)
	}
	houses, err := collect(db, rows, func(h *House) []any { return []any{&h.Code, &h.Name, &h.Zone} })
	slices.SortFunc(houses, func(a, b House) int { return strings.Compare(a.Code, b.Code) })
	return houses, err
}

// Set keeps a setting of a house.
func (db *DB) Set(ctx context.Context, house string, key, value string) error {
	return db.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `
			insert into setting (house, key, value) values ($1, $2, $3)
			on conflict (house, key) do update set value = excluded.value`, house, key, value)
		return err
	})
}

// Setting returns a setting of a house, and whether there is one.
func (db *DB) Setting(ctx context.Context, house string, key string) (value string, found bool, err error) {
	err = db.R.QueryRowContext(ctx, `select value from setting where house = $1 and key = $2`, house, key).Scan(&value)
	if errors.Is(err, sql.ErrNoRows) {
		return "", false, nil
	}
	return value, err == nil, db.explain(err)
}

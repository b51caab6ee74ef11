package sqlstore

import (
	"context"
	"database/sql"
	"errors"
)

// House is a malthouse that keeps its record here.
type House struct {
	ID   int64
	Code string
	Name string
	Zone string // as in Europe/London
}

// PutHouse adds a house, or changes what its number is called.
func (db *DB) PutHouse(ctx context.Context, h House) error {
	return db.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `
			insert into house (id, code, name, zone) values ($1, $2, $3, $4)
			on conflict (id) do update set code = excluded.code, name = excluded.name, zone = excluded.zone`,
			h.ID, h.Code, h.Name, h.Zone)
		return err
	})
}

// Houses lists the houses by number.
func (db *DB) Houses(ctx context.Context) ([]House, error) {
	rows, err := db.R.QueryContext(ctx, `select id, code, name, zone from house order by id`)
	if err != nil {
		return nil, db.explain(err)
	}
	return collect(db, rows, func(h *House) []any { return []any{&h.ID, &h.Code, &h.Name, &h.Zone} })
}

// Set keeps a setting of a house.
func (db *DB) Set(ctx context.Context, house int64, key, value string) error {
	return db.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `
			insert into setting (house, key, value) values ($1, $2, $3)
			on conflict (house, key) do update set value = excluded.value`, house, key, value)
		return err
	})
}

// Setting returns a setting of a house, and whether there is one.
func (db *DB) Setting(ctx context.Context, house int64, key string) (value string, found bool, err error) {
	err = db.R.QueryRowContext(ctx, `select value from setting where house = $1 and key = $2`, house, key).Scan(&value)
	if errors.Is(err, sql.ErrNoRows) {
		return "", false, nil
	}
	return value, err == nil, db.explain(err)
}

package sqlstore

import (
	"context"
	"database/sql"
	"errors"
)

// PutReader keeps how somebody wants things told.
func (db *DB) PutReader(ctx context.Context, house, person, chosen string) error {
	return db.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `
			insert into reader (house, person, chosen) values ($1, $2, $3)
			on conflict (house, person) do update set chosen = excluded.chosen`, house, person, chosen)
		return err
	})
}

// Reader is how somebody wants things told; "" if nothing was kept.
func (db *DB) Reader(ctx context.Context, house, person string) (chosen string, err error) {
	err = db.R.QueryRowContext(ctx, `select chosen from reader where house = $1 and person = $2`, house, person).Scan(&chosen)
	if errors.Is(err, sql.ErrNoRows) {
		return "", nil
	}
	return chosen, db.explain(err)
}

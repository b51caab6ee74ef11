package sqlstore

import (
	"context"
	"database/sql"
)

// span is how many rows there are, and from when to when.
type span struct {
	count        int
	fromMS, toMS int64
}

// loader puts rows of one series into the table, passes over those that are
// there already, and says what was new.
type loader func(ctx context.Context, seal int64, rows []Reading) (span, error)

// loader chooses the fastest way in for the database.
func (db *DB) loader(ctx context.Context, conn *sql.Conn, tx *sql.Tx, house string) (loader, error) {
	if db.Dialect == PostgreSQL {
		return copyIn(conn, tx, house)
	}
	return rowByRow(ctx, tx, house)
}

// rowByRow loads by one prepared statement, which ends with the transaction.
func rowByRow(ctx context.Context, tx *sql.Tx, house string) (loader, error) {
	insert, err := tx.PrepareContext(ctx, `
		insert into reading (house, series, at, value, seal) values ($1, $2, $3, $4, $5)
		on conflict (house, series, at) do nothing`)
	return func(ctx context.Context, seal int64, rows []Reading) (added span, err error) {
		for _, r := range rows {
			result, err := insert.ExecContext(ctx, house, r.Series, r.AtMS, r.Value, seal)
			if err != nil {
				return added, err
			}
			if n, _ := result.RowsAffected(); n == 1 { // this driver always knows
				added.add(r.AtMS)
			}
		}
		return added, nil
	}, err
}

func (s *span) add(atMS int64) {
	if s.count == 0 {
		s.fromMS, s.toMS = atMS, atMS
	}
	s.count++
	s.fromMS, s.toMS = min(s.fromMS, atMS), max(s.toMS, atMS)
}

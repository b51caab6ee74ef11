package sqlstore

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"errors"
	"fmt"

	"awn/ledger"
)

// projections are the tables that are worked out from facts, each with how its
// rows are read and cleared.
var projections = []struct{ table, rows, clear string }{
	{"flow", `select seq, n, at, source, target, lot, dry_g, water_g, u_dry_g, u_water_g, standing, alike, undo, struck
		from flow where house = $1`, `delete from flow where house = $1`},
	{"turnover", `select day, source, target, dry_g, water_g from turnover where house = $1`, `delete from turnover where house = $1`},
	{"balance", `select seq, account, dry_g, water_g from balance where house = $1`, `delete from balance where house = $1`},
	{"touch", `select seq, thing, state, leave, drawn, struck from touch where house = $1`, `delete from touch where house = $1`},
	{"subject", `select seq, thing, kind, state, leave, drawn, opened from subject where house = $1`, `delete from subject where house = $1`},
	{"result", `select seq, n, thing, sample, quantity, value, u, less, method, lab, struck
		from result where house = $1`, `delete from result where house = $1`},
	{"rest", `select seq, id from rest where house = $1`, `delete from rest where house = $1`},
	{"strike", `select seq, id from strike where house = $1`, `delete from strike where house = $1`},
	{"accepted", `select seq, id from accepted where house = $1`, `delete from accepted where house = $1`},
}

// VerifyChain goes through all facts of a house, and holds the heads that are
// known from elsewhere and the head that the record itself remembers against
// them. What does not fit is a [*ledger.Broken].
func (db *DB) VerifyChain(ctx context.Context, house string, known ...ledger.Head) (head ledger.Head, err error) {
	err = db.look(ctx, func(tx *sql.Tx) error {
		r := reader{db, tx, house}
		remembered, err := r.Head(ctx)
		if err != nil {
			return err
		}
		if head, err = ledger.Verify(r.Facts(ctx, ledger.Query{}), append(known, remembered)...); err != nil {
			return err
		}
		if head != remembered {
			return &ledger.Broken{Code: "record.chain.head", Seq: remembered.Seq}
		}
		return nil
	})
	return head, err
}

// Rebuild makes all that is worked out from facts again and returns the names
// of the tables that were not what the facts say. They are then as they should
// be.
func (db *DB) Rebuild(ctx context.Context, house string) (differed []string, err error) {
	err = db.Write(ctx, house, func(w ledger.Writer) error {
		differed, err = w.(*writer).rebuild(ctx)
		return err
	})
	return differed, err
}

func (w *writer) rebuild(ctx context.Context) (differed []string, err error) {
	before, err := w.digests(ctx)
	if err != nil {
		return nil, err
	}
	for _, p := range projections {
		if _, err := w.q.ExecContext(ctx, p.clear, w.house); err != nil {
			return nil, err
		}
	}
	for f, err := range w.Facts(ctx, ledger.Query{}) {
		if err == nil {
			err = w.apply(ctx, f)
		}
		if err != nil {
			return nil, fmt.Errorf("fact %d (%s): %w", f.Seq, f.ID, err)
		}
	}
	after, err := w.digests(ctx)
	for i, p := range projections {
		if before[i] != after[i] {
			differed = append(differed, p.table)
		}
	}
	return differed, err
}

// digests are one figure for each table, whatever order its rows come in: the
// sum of the digests of the rows, as whole numbers.
func (w *writer) digests(ctx context.Context) ([]rowSum, error) {
	sums := make([]rowSum, len(projections))
	for i, p := range projections {
		rows, err := w.q.QueryContext(ctx, p.rows, w.house)
		if err != nil {
			return nil, err
		}
		if err := sums[i].add(rows); err != nil {
			return nil, err
		}
	}
	return sums, nil
}

// rowSum adds up digests of rows without carrying from byte to byte.
type rowSum struct {
	rows  int
	bytes [sha256.Size]byte
}

func (s *rowSum) add(rows *sql.Rows) (err error) {
	defer func() { err = errors.Join(err, rows.Close()) }()
	columns, err := rows.Columns()
	if err != nil {
		return err
	}
	values, places := make([]sql.NullString, len(columns)), make([]any, len(columns))
	var text []byte
	for i := range values {
		places[i] = &values[i]
	}
	for rows.Next() {
		if err := rows.Scan(places...); err != nil {
			return err
		}
		s.rows++
		text = text[:0]
		for _, v := range values {
			text = fmt.Appendf(text, "%t %q ", v.Valid, v.String)
		}
		for i, b := range sha256.Sum256(text) {
			s.bytes[i] += b
		}
	}
	return rows.Err()
}

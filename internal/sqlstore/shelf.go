package sqlstore

import (
	"cmp"
	"context"
	"database/sql"
	"errors"
	"slices"
)

// PutDocument keeps a file in the transaction that the record is locked in, so
// that a fact and the document it names are kept together or not at all.
func (w *writer) PutDocument(ctx context.Context, media string, bytes []byte) (string, error) {
	var house int64
	err := w.q.QueryRowContext(ctx, `select id from house where code = $1`, w.house).Scan(&house)
	if errors.Is(err, sql.ErrNoRows) {
		return "", &Fault{Code: "record.house.unknown", Place: w.db.Place, Detail: w.house}
	}
	if err != nil {
		return "", err
	}
	return putDocument(ctx, w.q, house, media, bytes)
}

// People are all that a house knows, by id.
func (db *DB) People(ctx context.Context, house int64) ([]Person, error) {
	rows, err := db.R.QueryContext(ctx, `select id, name, email, phone, address from person where house = $1`, house)
	if err != nil {
		return nil, db.explain(err)
	}
	all, err := collect(db, rows, func(p *Person) []any { return []any{&p.ID, &p.Name, &p.Email, &p.Phone, &p.Address} })
	slices.SortFunc(all, func(a, b Person) int { return cmp.Compare(a.ID, b.ID) })
	return all, err
}

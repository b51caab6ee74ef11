package sqlstore

import (
	"cmp"
	"context"
	"slices"
)

// PutDocument keeps a file in the transaction that the record is locked in, so
// that a fact and the document it names are kept together or not at all.
func (w *writer) PutDocument(ctx context.Context, media string, bytes []byte) (string, error) {
	return putDocument(ctx, w.q, w.house, media, bytes)
}

// SealLogged notes which fact puts a seal on record, in the transaction that
// appends the fact.
func (w *writer) SealLogged(ctx context.Context, series, number int64, fact string) error {
	return sealLogged(ctx, w.q, w.house, series, number, fact)
}

// People are all that a house knows, by id.
func (db *DB) People(ctx context.Context, house string) ([]Person, error) {
	rows, err := db.R.QueryContext(ctx, `select id, name, email, phone, address from person where house = $1`, house)
	if err != nil {
		return nil, db.explain(err)
	}
	all, err := collect(db, rows, func(p *Person) []any { return []any{&p.ID, &p.Name, &p.Email, &p.Phone, &p.Address} })
	slices.SortFunc(all, func(a, b Person) int { return cmp.Compare(a.ID, b.ID) })
	return all, err
}

package sqlstore

import (
	"context"
	"database/sql"
	"encoding/hex"
	"errors"

	"awn/ledger"
)

// DB keeps the records of houses.
var _ ledger.Store = (*DB)(nil)

// querier is a pool or a transaction.
type querier interface {
	ExecContext(ctx context.Context, query string, args ...any) (sql.Result, error)
	QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error)
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
}

// writer is a house's record while it is locked.
type writer struct {
	reader
	head ledger.Head
}

// Write runs a use with a house's record locked: all that it appends is kept,
// or nothing. The lock is the first statement of the transaction and the place
// of each fact is given under it, so the order of the record is the order in
// which transactions are saved, without gaps.
func (db *DB) Write(ctx context.Context, house string, use func(ledger.Writer) error) error {
	if err := ledger.CheckHouse(house); err != nil {
		return err
	}
	fresh := map[string]bool{}
	defer func() {
		if len(fresh) > 0 {
			db.prepare(ctx, fresh)
		}
	}()
	return db.write(ctx, func(tx *sql.Tx) error {
		w := &writer{reader: reader{db, prepared{tx, db, fresh}, house}}
		if err := w.lock(ctx); err != nil {
			return err
		}
		before := w.head
		if err := use(w); err != nil {
			return err
		}
		if w.head == before {
			return nil
		}
		_, err := w.q.ExecContext(ctx, `update chain set seq = $1, hash = $2 where house = $3`,
			w.head.Seq, hex.EncodeToString(w.head.Hash[:]), house)
		return err
	})
}

// lock takes the house's line of the chain, which it makes the first time.
func (w *writer) lock(ctx context.Context) error {
	for {
		var hash string
		err := w.q.QueryRowContext(ctx, `update chain set seq = seq where house = $1 returning seq, hash`, w.house).Scan(&w.head.Seq, &hash)
		if err == nil {
			return unhex(w.head.Hash[:], hash)
		}
		if !errors.Is(err, sql.ErrNoRows) {
			return err
		}
		var none ledger.Head
		if _, err := w.q.ExecContext(ctx, `insert into chain (house, seq, hash) values ($1, 0, $2) on conflict (house) do nothing`,
			w.house, hex.EncodeToString(none.Hash[:])); err != nil {
			return err
		}
	}
}

// Head is where the record stands with what was appended so far.
func (w *writer) Head(context.Context) (ledger.Head, error) { return w.head, nil }

// Append gives drafts their places after the head.
func (w *writer) Append(ctx context.Context, drafts ...ledger.Draft) ([]ledger.Fact, error) {
	var wrong ledger.Faults
	for _, d := range drafts {
		if more, ok := errors.AsType[ledger.Faults](d.Check()); ok {
			wrong = append(wrong, more...)
		}
	}
	if len(wrong) > 0 {
		return nil, wrong
	}
	facts := make([]ledger.Fact, len(drafts))
	for i, d := range drafts {
		there, found, err := w.Fact(ctx, d.ID)
		switch {
		case err != nil:
			return nil, err
		case found && !d.Same(there):
			return nil, ledger.Refused("record.id.other", "id", d.ID)
		case found:
			facts[i] = there
			continue
		}
		facts[i] = d.Fact(w.house, w.head)
		if err := w.keep(ctx, facts[i]); err != nil {
			return nil, err
		}
		w.head = ledger.Head{Seq: facts[i].Seq, Hash: facts[i].Hash}
	}
	return facts, nil
}

// keep writes a fact and what follows from it.
func (w *writer) keep(ctx context.Context, f ledger.Fact) error {
	_, err := w.q.ExecContext(ctx, `
		insert into fact (house, seq, id, kind, schema, at, offset_min, entered, who, body, hash)
		values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)`,
		f.House, f.Seq, f.ID, string(f.Kind), f.Schema, f.At, f.OffsetMin, f.Entered, f.Who, string(f.Body), hex.EncodeToString(f.Hash[:]))
	if err != nil {
		return err
	}
	return w.apply(ctx, f)
}

// Next takes the next number of a counter. Under the lock nobody else takes
// one, and a transaction that fails gives it back: there are no gaps.
func (w *writer) Next(ctx context.Context, counter string) (n int64, err error) {
	err = w.q.QueryRowContext(ctx, `
		insert into counter (house, name, value) values ($1, $2, 1)
		on conflict (house, name) do update set value = counter.value + 1 returning value`, w.house, counter).Scan(&n)
	return n, err
}

func unhex(into []byte, text string) error {
	_, err := hex.Decode(into, []byte(text))
	return err
}

package sqlstore

import (
	"cmp"
	"context"
	"database/sql"
	"errors"
	"iter"
	"slices"

	"awn/ledger"
)

// reader asks a house's record through a pool or inside a transaction.
type reader struct {
	db    *DB
	q     querier
	house string
}

// Read gives the record of a house as it is, without a lock.
func (db *DB) Read(house string) ledger.Reader { return reader{db, db.R, house} }

// Head is where the record stands.
func (r reader) Head(ctx context.Context) (ledger.Head, error) {
	var h ledger.Head
	var hash string
	err := r.q.QueryRowContext(ctx, `select seq, hash from chain where house = $1`, r.house).Scan(&h.Seq, &hash)
	if errors.Is(err, sql.ErrNoRows) {
		return h, nil
	}
	if err != nil {
		return h, r.db.explain(err)
	}
	return h, unhex(h.Hash[:], hash)
}

const factColumns = `f.house, f.seq, f.id, f.kind, f.schema, f.at, f.offset_min, f.entered, f.who, f.body, f.hash`

// row is a fact with its hash as the database has it.
type row struct {
	ledger.Fact
	hash string
}

func (f *row) places() []any {
	return []any{&f.House, &f.Seq, &f.ID, &f.Kind, &f.Schema, &f.At, &f.OffsetMin, &f.Entered, &f.Who, &f.Body, &f.hash}
}

func (f *row) fact() (ledger.Fact, error) {
	return f.Fact, unhex(f.Hash[:], f.hash)
}

func (r reader) rows(ctx context.Context, query string, args ...any) ([]row, error) {
	found, err := r.q.QueryContext(ctx, query, args...)
	if err != nil {
		return nil, r.db.explain(err)
	}
	return collect(r.db, found, (*row).places)
}

// Fact finds a fact by its id.
func (r reader) Fact(ctx context.Context, id string) (ledger.Fact, bool, error) {
	rows, err := r.rows(ctx, `select `+factColumns+` from fact f where f.house = $1 and f.id = $2`, r.house, id)
	if err != nil || len(rows) == 0 {
		return ledger.Fact{}, false, err
	}
	f, err := rows[0].fact()
	return f, true, err
}

// page is how many facts are read at a time, so that whoever reads them may
// ask and write between.
const page = 500

// Facts gives the facts that a query chooses, in the order of the record.
func (r reader) Facts(ctx context.Context, q ledger.Query) iter.Seq2[ledger.Fact, error] {
	return func(yield func(ledger.Fact, error) bool) {
		for from := q.From; ; {
			rows, err := r.choose(ctx, q, from)
			if err != nil {
				yield(ledger.Fact{}, err)
				return
			}
			for i := range rows {
				f, err := rows[i].fact()
				if !yield(f, err) || err != nil {
					return
				}
				from = f.Seq + 1
			}
			if len(rows) < page {
				return
			}
		}
	}
}

// noEnd is beyond every sequence.
const noEnd = int64(1) << 62

func (r reader) choose(ctx context.Context, q ledger.Query, from int64) ([]row, error) {
	to := q.To
	if to == 0 {
		to = noEnd
	}
	if q.About != "" {
		return r.rows(ctx, `
			select `+factColumns+` from touch t join fact f on f.house = t.house and f.seq = t.seq
			where t.house = $1 and t.thing = $2 and t.seq >= $3 and t.seq <= $4 and ($5 = '' or f.kind = $5)
			order by t.seq limit $6`, r.house, string(q.About), from, to, string(q.Kind), page)
	}
	if q.Kind != "" {
		return r.rows(ctx, `select `+factColumns+` from fact f
			where f.house = $1 and f.kind = $2 and f.seq >= $3 and f.seq <= $4 order by f.seq limit $5`,
			r.house, string(q.Kind), from, to, page)
	}
	return r.rows(ctx, `select `+factColumns+` from fact f
		where f.house = $1 and f.seq >= $2 and f.seq <= $3 order by f.seq limit $4`, r.house, from, to, page)
}

// Balance is what one account holds; an account that nothing touched holds nothing.
func (r reader) Balance(ctx context.Context, a ledger.Account) (ledger.Balance, error) {
	b := ledger.Balance{Account: a}
	err := r.q.QueryRowContext(ctx, `select dry_g, water_g, seq from balance where house = $1 and account = $2`, r.house, string(a)).
		Scan(&b.Dry, &b.Water, &b.Seq)
	if errors.Is(err, sql.ErrNoRows) {
		err = nil
	}
	return b, r.db.explain(err)
}

// Balances are all accounts by name.
func (r reader) Balances(ctx context.Context) ([]ledger.Balance, error) {
	rows, err := r.q.QueryContext(ctx, `select account, dry_g, water_g, seq from balance where house = $1`, r.house)
	if err != nil {
		return nil, r.db.explain(err)
	}
	all, err := collect(r.db, rows, func(b *ledger.Balance) []any { return []any{&b.Account, &b.Dry, &b.Water, &b.Seq} })
	slices.SortFunc(all, func(a, b ledger.Balance) int { return cmp.Compare(a.Account, b.Account) })
	return all, err
}

func subjectPlaces(s *ledger.Subject) []any {
	return []any{&s.Ref, &s.State, &s.Leave, &s.Drawn, &s.Opened, &s.Seq}
}

// Subject is one thing of the record.
func (r reader) Subject(ctx context.Context, thing ledger.Ref) (ledger.Subject, bool, error) {
	var s ledger.Subject
	err := r.q.QueryRowContext(ctx, `select thing, state, leave, drawn, opened, seq from subject where house = $1 and thing = $2`,
		r.house, string(thing)).Scan(subjectPlaces(&s)...)
	if errors.Is(err, sql.ErrNoRows) {
		return s, false, nil
	}
	return s, err == nil, r.db.explain(err)
}

// Subjects are the things of one kind by name.
func (r reader) Subjects(ctx context.Context, kind string) ([]ledger.Subject, error) {
	rows, err := r.q.QueryContext(ctx, `select thing, state, leave, drawn, opened, seq from subject where house = $1 and kind = $2`, r.house, kind)
	if err != nil {
		return nil, r.db.explain(err)
	}
	all, err := collect(r.db, rows, subjectPlaces)
	slices.SortFunc(all, func(a, b ledger.Subject) int { return cmp.Compare(a.Ref, b.Ref) })
	return all, err
}

// Results are the results in force about a thing, in the order of the record.
func (r reader) Results(ctx context.Context, of ...ledger.Ref) ([]ledger.Result, error) {
	type placed struct {
		ledger.Result
		seq int64
		n   int
	}
	var all []placed
	for some := range slices.Chunk(of, few) {
		// Sorted here: asked for an order, a database goes through the whole table
		// in that order in place of the index of things.
		rows, err := r.q.QueryContext(ctx, `
			select thing, sample, quantity, value, u, less, method, lab, seq, n from result
			where house = $1 and thing in `+fewMarks+` and struck = 0`, fewOf(r.house, some)...)
		if err != nil {
			return nil, r.db.explain(err)
		}
		found, err := collect(r.db, rows, func(x *placed) []any {
			return []any{&x.Of, &x.Sample, &x.Quantity, &x.Value, &x.U, &x.Less, &x.Method, &x.Lab, &x.seq, &x.n}
		})
		if err != nil {
			return nil, err
		}
		all = append(all, found...)
	}
	slices.SortFunc(all, func(a, b placed) int { return cmp.Or(cmp.Compare(a.seq, b.seq), cmp.Compare(a.n, b.n)) })
	out := make([]ledger.Result, len(all))
	for i := range all {
		out[i] = all[i].Result
	}
	return out, nil
}

// Shaken lists the facts in force that rest on a struck fact, unless a later
// fact stands by them or the certificate was taken back.
func (r reader) Shaken(ctx context.Context) ([]ledger.Fact, error) {
	rows, err := r.rows(ctx, `
		select `+factColumns+` from fact f where f.house = $1
		and exists (select 1 from rest t join strike s on s.house = t.house and s.id = t.id
			where t.house = f.house and t.seq = f.seq
			and not exists (select 1 from accepted a where a.house = f.house and a.id = f.id and a.seq > s.seq
				and not exists (select 1 from fact d join strike k on k.house = d.house and k.id = d.id
					where d.house = a.house and d.seq = a.seq)))
		and not exists (select 1 from strike s where s.house = f.house and s.id = f.id)
		order by f.seq`, r.house)
	if err != nil {
		return nil, err
	}
	var shaken []ledger.Fact
	for i := range rows {
		f, err := rows[i].fact()
		if err != nil {
			return nil, err
		}
		if back, err := r.takenBack(ctx, f); err != nil {
			return nil, err
		} else if !back {
			shaken = append(shaken, f)
		}
	}
	return shaken, nil
}

// takenBack reports whether a fact issued a certificate that was taken back.
func (r reader) takenBack(ctx context.Context, f ledger.Fact) (bool, error) {
	body, err := ledger.Decode(f.Kind, f.Schema, f.Body)
	c, ok := body.(*ledger.Certificate)
	if err != nil || !ok {
		return false, err
	}
	s, _, err := r.Subject(ctx, ledger.To(ledger.CertificateKind, c.Certificate))
	return s.State == ledger.TakenBack, err
}

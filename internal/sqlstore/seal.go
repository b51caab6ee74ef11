package sqlstore

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"fmt"
	"math"
)

// Seal closes over readings of one series, so that a change of any of them
// shows. Its digest goes into the record as a fact.
type Seal struct {
	Series       int64
	Number       int64 // in its series, from 1
	FromMS, ToMS int64 // first and last reading; one that came late may lie within the span of an earlier seal
	Count        int
	SHA256       string // over house, series, number and the rows by time, in hexadecimal
}

// SealRule says when a seal is full.
type SealRule struct {
	Rows   int
	SpanMS int64 // from its first reading to its last
}

// UsualSeal is a thousand rows or a minute.
var UsualSeal = SealRule{Rows: 1000, SpanMS: 60_000}

func (r SealRule) full(s Seal) bool { return s.Count >= r.Rows || s.ToMS-s.FromMS >= r.SpanMS }

func (s *Seal) take(added span) {
	if s.Count == 0 {
		s.FromMS, s.ToMS = added.fromMS, added.toMS
	}
	s.Count += added.count
	s.FromMS, s.ToMS = min(s.FromMS, added.fromMS), max(s.ToMS, added.toMS)
}

// openSeal is the seal that the next rows of a series fall under.
func openSeal(ctx context.Context, tx *sql.Tx, house string, series int64) (Seal, error) {
	s := Seal{Series: series}
	var closed bool
	err := tx.QueryRowContext(ctx, `
		select number, from_at, to_at, count, closed from seal
		where house = $1 and series = $2 order by number desc limit 1`, house, series).
		Scan(&s.Number, &s.FromMS, &s.ToMS, &s.Count, &closed)
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return Seal{Series: series, Number: 1}, nil
	case err == nil && closed:
		return Seal{Series: series, Number: s.Number + 1}, nil
	}
	return s, err
}

// saveSeal keeps a seal; it is closed once it has a digest.
func saveSeal(ctx context.Context, tx *sql.Tx, house string, s Seal) error {
	closed := 0
	if s.SHA256 != "" {
		closed = 1
	}
	_, err := tx.ExecContext(ctx, `
		insert into seal (house, series, number, from_at, to_at, count, digest, closed, rolled, fact)
		values ($1, $2, $3, $4, $5, $6, $7, $8, 0, '')
		on conflict (house, series, number) do update set
			from_at = excluded.from_at, to_at = excluded.to_at, count = excluded.count,
			digest = excluded.digest, closed = excluded.closed`,
		house, s.Series, s.Number, s.FromMS, s.ToMS, s.Count, s.SHA256, closed)
	return err
}

func closeSeal(ctx context.Context, tx *sql.Tx, house string, s Seal) (Seal, error) {
	now, err := digestRows(ctx, tx, house, s)
	s.SHA256 = now.SHA256
	return s, err
}

// digestRows works out a seal anew from the rows that are there.
func digestRows(ctx context.Context, tx *sql.Tx, house string, s Seal) (Seal, error) {
	rows, err := tx.QueryContext(ctx, `
		select at, value from reading
		where house = $1 and series = $2 and at between $3 and $4 and seal = $5 order by at`,
		house, s.Series, s.FromMS, s.ToMS, s.Number)
	if err != nil {
		return Seal{}, err
	}
	defer rows.Close()
	now := Seal{Series: s.Series, Number: s.Number}
	sum, word := sha256.New(), make([]byte, 0, 16)
	sum.Write(binary.BigEndian.AppendUint64(word, uint64(len(house))))
	sum.Write([]byte(house))
	for _, n := range []int64{s.Series, s.Number} {
		sum.Write(binary.BigEndian.AppendUint64(word, uint64(n)))
	}
	for rows.Next() {
		var at int64
		var value float64
		if err := rows.Scan(&at, &value); err != nil {
			return Seal{}, err
		}
		now.take(span{1, at, at})
		sum.Write(binary.BigEndian.AppendUint64(binary.BigEndian.AppendUint64(word, uint64(at)), math.Float64bits(value)))
	}
	now.SHA256 = hex.EncodeToString(sum.Sum(nil))
	return now, rows.Err()
}

// CloseSeals closes what is open in the series of a house: at the end of a
// piece, of a day, or when the program stops.
func (db *DB) CloseSeals(ctx context.Context, house string) (closed []Seal, err error) {
	err = db.write(ctx, func(tx *sql.Tx) error {
		// Takes hold of the series first, as AppendReadings does.
		if _, err := tx.ExecContext(ctx, `update series set id = id where house = $1`, house); err != nil {
			return err
		}
		open, err := db.seals(ctx, tx, `where house = $1 and closed = 0 order by series, number`, house)
		for i := range open {
			if open[i], err = closeSeal(ctx, tx, house, open[i]); err != nil {
				return err
			}
			if err := saveSeal(ctx, tx, house, open[i]); err != nil {
				return err
			}
		}
		closed = open
		return err
	})
	return closed, err
}

func (db *DB) seals(ctx context.Context, tx *sql.Tx, where string, args ...any) ([]Seal, error) {
	rows, err := tx.QueryContext(ctx, `select series, number, from_at, to_at, count, digest from seal `+where, args...)
	if err != nil {
		return nil, err
	}
	return collect(db, rows, func(s *Seal) []any {
		return []any{&s.Series, &s.Number, &s.FromMS, &s.ToMS, &s.Count, &s.SHA256}
	})
}

// UnloggedSeals lists closed seals for which the record has no fact yet; after
// a crash some may be left over.
func (db *DB) UnloggedSeals(ctx context.Context, house string) (seals []Seal, err error) {
	err = db.look(ctx, func(tx *sql.Tx) error {
		seals, err = db.seals(ctx, tx, `where house = $1 and closed = 1 and fact = '' order by series, number`, house)
		return err
	})
	return seals, err
}

// sealLogged notes which fact put a seal on record, in the transaction that
// appends the fact. The first fact stands.
func sealLogged(ctx context.Context, tx querier, house string, series, number int64, fact string) error {
	_, err := tx.ExecContext(ctx, `
		update seal set fact = $1 where house = $2 and series = $3 and number = $4 and fact = ''`, fact, house, series, number)
	return err
}

// SealLogged notes which fact put a seal on record.
func (db *DB) SealLogged(ctx context.Context, house string, s Seal, fact string) error {
	return db.write(ctx, func(tx *sql.Tx) error { return sealLogged(ctx, tx, house, s.Series, s.Number, fact) })
}

// VerifySeal compares a seal, as a fact has it, with the readings that are
// there. Once they are rolled up there is nothing left to compare, and rolled
// says so.
func (db *DB) VerifySeal(ctx context.Context, house string, s Seal) (rolled bool, err error) {
	err = db.look(ctx, func(tx *sql.Tx) error {
		err := tx.QueryRowContext(ctx, `select rolled from seal where house = $1 and series = $2 and number = $3`,
			house, s.Series, s.Number).Scan(&rolled)
		if err != nil && !errors.Is(err, sql.ErrNoRows) || rolled {
			return err
		}
		now, err := digestRows(ctx, tx, house, s)
		if err == nil && now != s {
			err = &Fault{Code: "record.seal.broken", Place: db.Place, Detail: fmt.Sprintf(
				"series %d, seal %d, sealed %d rows, now %d", s.Series, s.Number, s.Count, now.Count)}
		}
		return err
	})
	return rolled, err
}

package office

import (
	"context"
	"errors"
	"slices"

	"awn/internal/malthouse"
	"awn/internal/sqlstore"
	"awn/ledger"
)

// Reading is one value of a sensor as it comes in.
type Reading struct {
	Series, Quantity, Unit string
	AtMS                   int64
	Value                  float64
}

// Taken is what came of readings.
type Taken struct {
	Stored, Repeated int
	Sealed           int // stretches that were closed, and stand in the record
}

// batch is how many readings go in at once.
const batch = 1000

// TakeReadings keeps readings in batches, names series that are new, and puts
// each stretch that is full on record. Readings that came before change
// nothing.
func (o *Office) TakeReadings(ctx context.Context, a malthouse.Actor, readings []Reading) (t Taken, err error) {
	if err := a.Permit(malthouse.UseLog); err != nil {
		return t, err
	}
	ids, err := o.series(ctx, readings)
	if err != nil {
		return t, err
	}
	for some := range slices.Chunk(readings, batch) {
		rows := make([]sqlstore.Reading, len(some))
		for i, r := range some {
			rows[i] = sqlstore.Reading{Series: ids[r.Series], AtMS: r.AtMS, Value: r.Value}
		}
		done, err := o.DB.AppendReadings(ctx, o.Code, sqlstore.UsualSeal, rows)
		if err != nil {
			return t, err
		}
		t.Stored, t.Repeated = t.Stored+done.Stored, t.Repeated+done.Repeated
	}
	t.Sealed, err = o.LogSeals(ctx, a)
	return t, err
}

// series gives each series its number, a new one the next.
func (o *Office) series(ctx context.Context, readings []Reading) (map[string]int64, error) {
	known, err := o.DB.SeriesOf(ctx, o.Code)
	if err != nil {
		return nil, err
	}
	ids, last := map[string]int64{}, int64(0)
	for _, s := range known {
		ids[s.Code] = s.ID
		last = max(last, s.ID)
	}
	for _, r := range readings {
		if ids[r.Series] != 0 {
			continue
		}
		last++
		ids[r.Series] = last
		if err := o.DB.PutSeries(ctx, o.Code, sqlstore.Series{ID: last, Code: r.Series, Quantity: r.Quantity, Unit: r.Unit}); err != nil {
			return nil, err
		}
	}
	return ids, nil
}

// LogSeals puts every closed stretch that has no entry yet on record, also
// those that a crash left over.
func (o *Office) LogSeals(ctx context.Context, a malthouse.Actor) (n int, err error) {
	open, err := o.DB.UnloggedSeals(ctx, o.Code)
	if err != nil {
		return 0, err
	}
	known, err := o.DB.SeriesOf(ctx, o.Code)
	if err != nil {
		return 0, err
	}
	codes := map[int64]string{}
	for _, s := range known {
		codes[s.ID] = s.Code
	}
	for _, s := range open {
		done, err := o.Log(ctx, a, malthouse.Sealed{Series: codes[s.Series], Number: s.Number, FromMS: s.FromMS, ToMS: s.ToMS, Count: s.Count, SHA256: s.SHA256})
		if err != nil {
			return n, err
		}
		if err := o.DB.SealLogged(ctx, o.Code, s, done.Fact.ID); err != nil {
			return n, err
		}
		n++
	}
	return n, nil
}

// CheckSeals compares every stretch on record with the readings that are
// there: what the entry says, which is in the chain, not what a table says.
// Rolled is how many have been rolled up, and cannot be compared.
func (o *Office) CheckSeals(ctx context.Context) (compared, rolled int, err error) {
	seals, err := o.DB.LoggedSeals(ctx, o.Code)
	if err != nil {
		return 0, 0, err
	}
	for f, bad := range o.Store.Read(o.Code).Facts(ctx, ledger.Query{Kind: ledger.Logged}) {
		if bad != nil {
			return compared, rolled, bad
		}
		body, bad := ledger.Decode(f.Kind, f.Schema, f.Body)
		if bad != nil {
			return compared, rolled, bad
		}
		b, s := body.(*ledger.Log), seals[f.ID]
		s.FromMS, s.ToMS, s.Count, s.SHA256 = int64(b.First), int64(b.Last), int(b.Count), string(b.Digest)
		switch gone, bad := o.DB.VerifySeal(ctx, o.Code, s); {
		case bad != nil:
			err = errors.Join(err, bad)
		case gone:
			rolled++
		default:
			compared++
		}
	}
	return compared, rolled, err
}

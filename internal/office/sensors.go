package office

import (
	"context"

	"awn/internal/exchange"
	"awn/internal/malthouse"
	"awn/internal/sqlstore"
)

// sensors keeps what the sensors of a house read, in its database.
type sensors struct {
	db    *sqlstore.DB
	house string
}

var _ malthouse.Sensors = sensors{}

// Series are all series of the house.
func (s sensors) Series(ctx context.Context) ([]exchange.Series, error) {
	all, err := s.db.SeriesOf(ctx, s.house)
	out := make([]exchange.Series, len(all))
	for i, x := range all {
		out[i] = exchange.Series{Code: x.Code, Quantity: x.Quantity, Unit: x.Unit}
	}
	return out, err
}

// Keep keeps a batch, and makes the series that it begins.
func (s sensors) Keep(ctx context.Context, batch []exchange.Sensed) (stored, again int, err error) {
	number, err := s.number(ctx, batch)
	if err != nil {
		return 0, 0, err
	}
	rows := make([]sqlstore.Reading, len(batch))
	for i, r := range batch {
		rows[i] = sqlstore.Reading{Series: number[r.Series.Code], AtMS: r.AtMS, Value: r.Value}
	}
	done, err := s.db.AppendReadings(ctx, s.house, sqlstore.UsualSeal, rows)
	return done.Stored, done.Repeated, err
}

// number gives every series of a batch its number in the house.
func (s sensors) number(ctx context.Context, batch []exchange.Sensed) (map[string]int64, error) {
	all, err := s.db.SeriesOf(ctx, s.house)
	if err != nil {
		return nil, err
	}
	number, last := map[string]int64{}, int64(0)
	for _, x := range all {
		number[x.Code], last = x.ID, max(last, x.ID)
	}
	for _, r := range batch {
		if number[r.Series.Code] != 0 {
			continue
		}
		last++
		number[r.Series.Code] = last
		made := sqlstore.Series{ID: last, Code: r.Series.Code, Quantity: r.Series.Quantity, Unit: r.Series.Unit}
		if err := s.db.PutSeries(ctx, s.house, made); err != nil {
			return nil, err
		}
	}
	return number, nil
}

// Close closes the seals that are open.
func (s sensors) Close(ctx context.Context) error {
	_, err := s.db.CloseSeals(ctx, s.house)
	return err
}

// Unlogged are the closed seals that are not on record.
func (s sensors) Unlogged(ctx context.Context) ([]malthouse.Seal, error) {
	all, err := s.db.SeriesOf(ctx, s.house)
	if err != nil {
		return nil, err
	}
	code := map[int64]string{}
	for _, x := range all {
		code[x.ID] = x.Code
	}
	seals, err := s.db.UnloggedSeals(ctx, s.house)
	out := make([]malthouse.Seal, len(seals))
	for i, x := range seals {
		out[i] = malthouse.Seal{Code: code[x.Series], Series: x.Series, Number: x.Number, FromMs: x.FromMS, ToMs: x.ToMS, Count: x.Count, SHA256: x.SHA256}
	}
	return out, err
}

// Verify compares a seal with the readings that are there.
func (s sensors) Verify(ctx context.Context, x malthouse.Seal) (rolled bool, err error) {
	return s.db.VerifySeal(ctx, s.house, sqlstore.Seal{Series: x.Series, Number: x.Number, FromMS: x.FromMs, ToMS: x.ToMs, Count: x.Count, SHA256: x.SHA256})
}

// RollUp makes least, most and mean of what was read before a moment.
func (s sensors) RollUp(ctx context.Context, beforeMs, everyMs int64) (gone int64, err error) {
	all, err := s.db.SeriesOf(ctx, s.house)
	for _, x := range all {
		n, err := s.db.RollUp(ctx, s.house, x.ID, beforeMs, everyMs)
		if err != nil {
			return gone, err
		}
		gone += n
	}
	return gone, err
}

package office

import (
	"context"
	"iter"

	"awn/internal/exchange"
	"awn/internal/malthouse"
	"awn/internal/sqlstore"
)

// sensors keeps what the sensors of a house read, in its database.
type sensors struct {
	db        *sqlstore.DB
	house     string
	envelopes *sqlstore.Envelopes
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

// Keep keeps a batch, and makes the series that it begins. A series that another
// program began meanwhile in another unit is refused.
func (s sensors) Keep(ctx context.Context, batch []exchange.Sensed) (stored, again int, err error) {
	var want []sqlstore.Series
	met := map[string]bool{}
	for _, r := range batch {
		if x := r.Series; !met[x.Code] {
			met[x.Code] = true
			want = append(want, sqlstore.Series{Code: x.Code, Quantity: x.Quantity, Unit: x.Unit})
		}
	}
	named, err := s.db.BeginSeries(ctx, s.house, want)
	if err != nil {
		return 0, 0, err
	}
	for _, x := range want {
		if is := named[x.Code]; is.Quantity != x.Quantity || is.Unit != x.Unit {
			return 0, 0, &malthouse.Refusal{
				Code: "use.series.other", Got: x.Code + " as " + x.Quantity + ", " + x.Unit, Allowed: []string{is.Quantity + ", " + is.Unit},
			}
		}
	}
	rows := make([]sqlstore.Reading, len(batch))
	for i, r := range batch {
		rows[i] = sqlstore.Reading{Series: named[r.Series.Code].ID, AtMS: r.AtMS, Value: r.Value}
	}
	done, err := s.db.AppendReadings(ctx, s.house, sqlstore.UsualSeal, rows)
	return done.Stored, done.Repeated, err
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

// number is the series of that code; found is false where there is none.
func (s sensors) number(ctx context.Context, code string) (x sqlstore.Series, found bool, err error) {
	all, err := s.db.SeriesOf(ctx, s.house)
	for _, x := range all {
		if x.Code == code {
			return x, true, nil
		}
	}
	return x, false, err
}

// Extent is from when to when a series was read.
func (s sensors) Extent(ctx context.Context, code string) (w malthouse.Watched, found bool, err error) {
	x, found, err := s.number(ctx, code)
	if err != nil || !found {
		return w, false, err
	}
	e, found, err := s.db.Extent(ctx, s.house, x.ID)
	return malthouse.Watched{
		Series:  exchange.Series{Code: x.Code, Quantity: x.Quantity, Unit: x.Unit},
		FirstMs: e.FirstMS, LastMs: e.LastMS, Count: e.Count, Last: e.Last,
	}, found, err
}

// Envelope is a part of a series in stretches.
func (s sensors) Envelope(ctx context.Context, code string, fromMs, toMs, everyMs int64) ([]malthouse.Stretch, error) {
	x, found, err := s.number(ctx, code)
	if err != nil || !found {
		return nil, err
	}
	points, err := s.envelopes.Envelope(ctx, x.ID, fromMs, toMs, everyMs)
	out := make([]malthouse.Stretch, len(points))
	for i, p := range points {
		out[i] = malthouse.Stretch{AtMs: p.AtMS, Count: p.Count, Least: p.Least, Mean: p.Mean, Most: p.Most}
	}
	return out, err
}

// Every goes through the readings of a series.
func (s sensors) Every(ctx context.Context, series exchange.Series) iter.Seq2[exchange.Sensed, error] {
	return func(yield func(exchange.Sensed, error) bool) {
		x, _, err := s.number(ctx, series.Code)
		if err != nil {
			yield(exchange.Sensed{}, err)
			return
		}
		for r, err := range s.db.EveryReading(ctx, s.house, x.ID) {
			if !yield(exchange.Sensed{Series: series, AtMS: r.AtMS, Value: r.Value}, err) {
				return
			}
		}
	}
}

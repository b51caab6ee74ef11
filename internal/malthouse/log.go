package malthouse

import (
	"context"
	"crypto/sha256"
	"fmt"
	"iter"
	"strconv"
	"time"

	"awn/internal/exchange"
	"awn/ledger"
)

// Sensors keeps what sensors read: rows, closed under seals.
type Sensors interface {
	Series(ctx context.Context) ([]exchange.Series, error)
	// Keep keeps a batch, all of it or none. What has a value at that moment
	// already is counted as there again.
	Keep(ctx context.Context, batch []exchange.Sensed) (stored, again int, err error)
	Close(ctx context.Context) error
	Unlogged(ctx context.Context) ([]Seal, error)
	Verify(ctx context.Context, s Seal) (rolled bool, err error)
	RollUp(ctx context.Context, beforeMs, everyMs int64) (gone int64, err error)
	// Extent looks a series over; found is false of one without readings.
	Extent(ctx context.Context, code string) (w Watched, found bool, err error)
	// Envelope is the stretches of everyMs, counted from 1970, that hold a
	// reading.
	Envelope(ctx context.Context, code string, fromMs, toMs, everyMs int64) ([]Stretch, error)
	// Every goes through the readings of a series.
	Every(ctx context.Context, s exchange.Series) iter.Seq2[exchange.Sensed, error]
}

// SealShelf is a [ledger.Writer] that notes which fact puts a seal on record.
type SealShelf interface {
	SealLogged(ctx context.Context, series, number int64, fact string) error
}

// Seal closes over readings of one series.
type Seal struct {
	Code         string // of the series
	Series       int64
	Number       int64
	FromMs, ToMs int64
	Count        int
	SHA256       string
}

// Logged is what came of readings.
type Logged struct {
	Stored int
	Again  int // had a value at that moment already: the first stands
	Seals  int // put on record
}

// Log keeps a batch of readings and puts the seals that it filled on record.
// What is open stays open for the next batch, unless it is the last.
func (h *House) Log(ctx context.Context, a Actor, batch []exchange.Sensed, last bool) (out Logged, err error) {
	if err := a.Permit(UseLog); err != nil {
		return out, err
	}
	if len(batch) > 0 {
		if out.Stored, out.Again, err = h.Sensors.Keep(ctx, batch); err != nil {
			return out, err
		}
	}
	if last {
		if err := h.Sensors.Close(ctx); err != nil {
			return out, err
		}
	}
	out.Seals, err = h.seal(ctx, a)
	return out, err
}

// seal puts every closed seal on record that is not there yet, those too that
// a program left over when it was killed.
func (h *House) seal(ctx context.Context, a Actor) (n int, err error) {
	seals, err := h.Sensors.Unlogged(ctx)
	if err != nil || len(seals) == 0 {
		return 0, err
	}
	err = h.Store.Write(ctx, h.Code, func(w ledger.Writer) error {
		n = 0
		shelf, ok := w.(SealShelf)
		if !ok {
			return refuse("use.documents.missing", "")
		}
		for _, s := range seals {
			d := h.sealed(a, s)
			if _, found, err := w.Fact(ctx, d.ID); err != nil {
				return err
			} else if found { // another program was first
				continue
			}
			if _, err := w.Append(ctx, d); err != nil {
				return err
			}
			if err := shelf.SealLogged(ctx, s.Series, s.Number, d.ID); err != nil {
				return err
			}
			n++
		}
		return nil
	})
	return n, err
}

// sealed is the entry of a seal. Its id is made of the seal alone.
func (h *House) sealed(a Actor, s Seal) ledger.Draft {
	kind, schema, body := ledger.NewBody(&ledger.Log{
		Series: s.Code, Number: s.Series, Seal: s.Number, First: ledger.Time(s.FromMs), Last: ledger.Time(s.ToMs),
		Count: int64(s.Count), Digest: ledger.Digest(s.SHA256),
	})
	sum := sha256.Sum256(fmt.Appendf(nil, "awn seal 1\n%s\n%d\n%d\n", h.Code, s.Series, s.Number))
	_, offset := time.UnixMilli(s.ToMs).In(h.Zone).Zone()
	return ledger.Draft{
		ID: ledger.ID(s.ToMs, [10]byte(sum[:10])), Kind: kind, Schema: schema, Body: body,
		At: s.ToMs, OffsetMin: offset / 60, Entered: h.Clock().UnixMilli(), Who: a.ID,
	}
}

// Sealed compares every seal on record with the readings that are there. Those
// of readings that were rolled up can no longer be compared, and are counted.
func (h *House) Sealed(ctx context.Context, a Actor) (seals, rolled int, err error) {
	if err := a.Permit(UseLook); err != nil {
		return 0, 0, err
	}
	all, _, err := bodies[*ledger.Log](ctx, h.Store.Read(h.Code), "", ledger.Logged)
	for _, l := range all {
		up, err := h.Sensors.Verify(ctx, Seal{
			Series: l.Number, Number: l.Seal, FromMs: int64(l.First), ToMs: int64(l.Last), Count: int(l.Count), SHA256: string(l.Digest),
		})
		if err != nil {
			return seals, rolled, err
		}
		seals++
		if up {
			rolled++
		}
	}
	return seals, rolled, err
}

// Rest seals what the sensors read so far and rolls up what is older than the
// house keeps: part of the day's close.
func (h *House) Rest(ctx context.Context, a Actor) (seals int, rolled int64, err error) {
	if err := a.Permit(UseClose); err != nil {
		return 0, 0, err
	}
	if err := h.Sensors.Close(ctx); err != nil {
		return 0, 0, err
	}
	if seals, err = h.seal(ctx, a); err != nil {
		return 0, 0, err
	}
	rolled, err = h.rollUp(ctx)
	return seals, rolled, err
}

// leastKept is the shortest time that readings are kept as they were read, in
// days: a piece with its malt at rest is over by then.
const leastKept = 30

// rolledEvery is the stretch that old readings are rolled up into.
const rolledEvery = 10 * time.Minute

// rollUp rolls up what was read longer ago than the house keeps readings; a
// house that did not set how long keeps them all.
func (h *House) rollUp(ctx context.Context) (gone int64, err error) {
	text, found, err := h.Desk.Setting(ctx, settingKeep)
	if err != nil || !found || text == "" {
		return 0, err
	}
	days, err := strconv.Atoi(text)
	if err != nil || days < leastKept {
		return 0, refuse("use.setting.value", text)
	}
	return h.Sensors.RollUp(ctx, h.Clock().AddDate(0, 0, -days).UnixMilli(), rolledEvery.Milliseconds())
}

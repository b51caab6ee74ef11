package malthouse

import (
	"context"
	"iter"
	"slices"
	"strings"
	"unicode"

	"awn/internal/exchange"
)

// Stretch is what a stretch of a series comes to.
type Stretch struct {
	AtMs              int64 // when it begins
	Count             int
	Least, Mean, Most float64
}

// Watched is a series with when it was read, and what was read last.
type Watched struct {
	exchange.Series
	FirstMs, LastMs int64
	Count           int
	Last            float64
}

// Seen is a part of a series in stretches of equal length; those without a
// reading are left out.
type Seen struct {
	Watched
	FromMs, ToMs int64 // the part
	EveryMs      int64
	GapMs        int64 // readings further apart than this belong to no common line
	Stretches    []Stretch
}

// Watching lists the series of a house that hold readings, by code.
func (h *House) Watching(ctx context.Context, a Actor) ([]Watched, error) {
	if err := a.Permit(UseLook); err != nil {
		return nil, err
	}
	all, err := h.Sensors.Series(ctx)
	if err != nil {
		return nil, err
	}
	var out []Watched
	for _, s := range all {
		w, found, err := h.Sensors.Extent(ctx, s.Code)
		if err != nil {
			return nil, err
		}
		if found {
			out = append(out, w)
		}
	}
	slices.SortFunc(out, func(x, y Watched) int { return strings.Compare(x.Code, y.Code) })
	return out, nil
}

// See looks at a part of a series in as many stretches as can be told apart; the
// whole of it where from and to are the same.
func (h *House) See(ctx context.Context, a Actor, code string, fromMs, toMs int64, most int) (Seen, error) {
	if err := a.Permit(UseLook); err != nil {
		return Seen{}, err
	}
	code = strings.ToUpper(strings.TrimSpace(code))
	w, found, err := h.Sensors.Extent(ctx, code)
	if err != nil {
		return Seen{}, err
	}
	if !found {
		return Seen{}, refuse("use.thing.unknown", code)
	}
	if toMs <= fromMs {
		fromMs, toMs = w.FirstMs, w.LastMs+1
	}
	fromMs, toMs = max(fromMs, w.FirstMs-(w.LastMs-w.FirstMs)-widest), min(toMs, w.LastMs+(w.LastMs-w.FirstMs)+widest)
	out := Seen{Watched: w, FromMs: fromMs, ToMs: max(toMs, fromMs+1)}
	out.EveryMs = every(out.ToMs-out.FromMs, most)
	out.Stretches, err = h.Sensors.Envelope(ctx, code, fromMs-out.EveryMs, toMs+out.EveryMs, out.EveryMs)
	out.GapMs = gap(out.Stretches, out.EveryMs)
	return out, err
}

// widest is how far beyond its readings a series can be looked at: no further
// than it is long, and a day.
const widest = 86_400_000

// Most and least stretches that a part can be looked at in.
const (
	fewestStretches = 20
	mostStretches   = 4000
)

// lengths are how long stretches may be: round by the clock.
var lengths = []int64{
	1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000, 30_000, 60_000, 120_000, 300_000, 600_000, 1_200_000, 1_800_000,
	3_600_000, 7_200_000, 10_800_000, 21_600_000, 43_200_000, 86_400_000, 172_800_000, 604_800_000, 2_592_000_000,
}

// every is the shortest round stretch of which no more than most cover a span.
func every(spanMs int64, most int) int64 {
	n := int64(min(max(most, fewestStretches), mostStretches))
	for _, l := range lengths {
		if l*n >= spanMs {
			return l
		}
	}
	return (spanMs + n - 1) / n
}

// gap is three times the usual distance of stretches that hold readings.
func gap(all []Stretch, everyMs int64) int64 {
	var apart []int64
	for i := 1; i < len(all); i++ {
		apart = append(apart, all[i].AtMs-all[i-1].AtMs)
	}
	if len(apart) == 0 {
		return everyMs
	}
	slices.Sort(apart)
	return 3 * apart[len(apart)/2]
}

// Readings goes through every reading of a series that is still there as it was
// read, from the first.
func (h *House) Readings(ctx context.Context, a Actor, code string) (iter.Seq2[exchange.Sensed, error], error) {
	if err := a.Permit(UseLook); err != nil {
		return nil, err
	}
	w, found, err := h.Sensors.Extent(ctx, code)
	if err != nil {
		return nil, err
	}
	if !found {
		return nil, refuse("use.thing.unknown", code)
	}
	return h.Sensors.Every(ctx, w.Series), nil
}

// Reads reports whether a series belongs to a vessel: its code begins with the
// vessel's, as KILN1-AIR-ON does with kiln 1.
func Reads(code, vessel string) bool {
	name := plain(vessel)
	for i, r := range code {
		if r == '-' && name != "" && plain(code[:i]) == name {
			return true
		}
	}
	return name != "" && plain(code) == name
}

// plain is a name by its letters and digits alone, in capitals.
func plain(name string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return unicode.ToUpper(r)
		}
		return -1
	}, name)
}

package report

import (
	"io"
	"strconv"
	"time"

	"awn/internal/draw"
	"awn/internal/house"
	"awn/internal/malthouse"
	"awn/internal/words"
)

// SeriesView is a part of what a sensor read, by the clock of a zone: the
// reader's, else that of the house.
type SeriesView struct {
	malthouse.Seen
	Rolled []malthouse.Stretch // the same part for the table, in longer stretches
	At     string              // where a script asks for stretches; "" where there is none to ask
	Own    bool                // the part stands in the address of the page
	Zone   *time.Location
	Units  words.Units
}

// measured is by which ending the figures of a quantity are written, of those
// that are written in several units; the others are written as they are kept.
var measured = map[string]string{
	"temperature": "c", "temperature difference": "k", "moisture": "wb", "share": "tenths", "mass": "kg", "pressure": "pa", "length": "m", "volume": "m3",
}

// Value is a figure of a series in the reader's unit, Unit that unit.
func (s SeriesView) Value(x float64) float64 {
	if m := measured[s.Quantity]; m != "" {
		return words.Value(m, x, s.Units)
	}
	return x
}

// Unit is the reader's unit of the series.
func (s SeriesView) Unit() string {
	if m := measured[s.Quantity]; m != "" {
		return words.Symbol(m, s.Units)
	}
	return s.Series.Unit
}

// seriesDecimals are those of a quantity that is written as it is kept.
const seriesDecimals = 2

func (s SeriesView) decimals() int {
	if m := measured[s.Quantity]; m != "" {
		return words.Decimals(m, s.Units)
	}
	return seriesDecimals
}

// Figure writes a figure with its unit.
func (s SeriesView) Figure(x float64) string {
	return s.Units.Number(s.Value(x), s.decimals()) + "\u00a0" + s.Unit()
}

// Moment writes a time by that clock.
func (s SeriesView) Moment(ms int64) string {
	_, offset := time.UnixMilli(ms).In(s.Zone).Zone()
	return s.Units.Moment(ms, offset/60)
}

// Sentence says what was read in the part that is shown.
func (s SeriesView) Sentence() string {
	u := s.Units
	n, least, most := 0, 0.0, 0.0
	for _, x := range s.Shown() {
		if n == 0 {
			least, most = x.Least, x.Most
		}
		n, least, most = n+x.Count, min(least, x.Least), max(most, x.Most)
	}
	from, to := s.Moment(s.FromMs), s.Moment(s.ToMs)
	if n == 0 {
		return u.Say("series.nothing", "from", from, "to", to)
	}
	return u.Say("series.read", "from", from, "to", to, "least", s.Figure(least), "most", s.Figure(most), "count", u.Number(float64(n), 0))
}

// Lately says what was read last of all.
func (s SeriesView) Lately() string {
	return s.Units.Say("series.last", "last", s.Figure(s.Last), "when", s.Moment(s.LastMs))
}

// Shown are the stretches within the part; one more on either side is there so
// that the line reaches the edge.
func (s SeriesView) Shown() (out []malthouse.Stretch) {
	for _, x := range s.Stretches {
		if x.AtMs+s.EveryMs > s.FromMs && x.AtMs < s.ToMs {
			out = append(out, x)
		}
	}
	return out
}

// Picture draws the part.
func (s SeriesView) Picture() draw.Picture {
	u := s.Units
	c := draw.Series{
		ID: "series-" + s.Code, Title: u.Say("series.title", "code", s.Code, "unit", s.Unit()), Says: s.Sentence(), FromMs: s.FromMs, ToMs: s.ToMs,
		EveryMs: s.EveryMs, GapMs: s.GapMs, Ticks: s.ticks(),
		Head: []string{u.Say("room.when"), u.Say("series.count"), u.Say("head.least"), u.Say("head.mean"), u.Say("head.most")},
	}
	for _, x := range s.Shown() {
		c.AtMs, c.Least, c.Mean, c.Most = append(c.AtMs, x.AtMs), append(c.Least, s.Value(x.Least)), append(c.Mean, s.Value(x.Mean)), append(c.Most, s.Value(x.Most))
	}
	number := func(x float64) string { return u.Number(s.Value(x), s.decimals()) }
	for _, x := range s.Rolled {
		c.Rows = append(c.Rows, []string{s.Moment(x.AtMs), u.Number(float64(x.Count), 0), number(x.Least), number(x.Mean), number(x.Most)})
	}
	if s.At != "" {
		exact := func(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }
		whole := func(ms int64) string { return strconv.FormatInt(ms, 10) }
		c.Look = []draw.Attribute{
			{Name: "series", Value: s.At}, {Name: "from", Value: whole(s.FromMs)}, {Name: "to", Value: whole(s.ToMs)},
			{Name: "first", Value: whole(s.FirstMs)}, {Name: "last", Value: whole(s.LastMs)},
			{Name: "shift", Value: exact(s.Value(0))}, {Name: "scale", Value: exact(s.Value(1) - s.Value(0))},
			{Name: "unit", Value: s.Unit()}, {Name: "decimals", Value: strconv.Itoa(s.decimals())}, {Name: "zone", Value: s.Zone.String()},
			{Name: "read", Value: u.Say("series.read")}, {Name: "nothing", Value: u.Say("series.nothing")},
			{Name: "keys", Value: u.Say("series.keys")},
		}
		if s.Own {
			c.Look = append(c.Look, draw.Attribute{Name: "own", Value: "1"})
		}
	}
	return draw.Pen{Number: u.Number}.Series(c)
}

// mostTimes is how many moments stand along the axis.
const mostTimes = 5

// timeSteps are how far they are apart.
var timeSteps = []time.Duration{
	time.Millisecond, 10 * time.Millisecond, 100 * time.Millisecond, time.Second, 5 * time.Second, 15 * time.Second, time.Minute, 5 * time.Minute, 15 * time.Minute,
	time.Hour, 3 * time.Hour, 6 * time.Hour, 12 * time.Hour, 24 * time.Hour, 48 * time.Hour, 7 * 24 * time.Hour, 14 * 24 * time.Hour,
	30 * 24 * time.Hour, 90 * 24 * time.Hour, 365 * 24 * time.Hour,
}

// ticks are round moments by that clock.
func (s SeriesView) ticks() (out []draw.TimeTick) {
	step := timeSteps[len(timeSteps)-1].Milliseconds()
	for _, one := range timeSteps {
		if one.Milliseconds()*mostTimes >= s.ToMs-s.FromMs {
			step = one.Milliseconds()
			break
		}
	}
	_, offset := time.UnixMilli(s.FromMs).In(s.Zone).Zone()
	ahead := int64(offset) * 1000
	for at := (s.FromMs+ahead+step-1)/step*step - ahead; at <= s.ToMs; at += step {
		t := time.UnixMilli(at).In(s.Zone)
		text := t.Format("15:04")
		switch {
		case step >= 24*time.Hour.Milliseconds() || text == "00:00" && step >= 60_000:
			text = s.Units.DayOfMonth(t)
		case step < 1000:
			text = t.Format("05.000")
		case step < 60_000:
			text = t.Format("15:04:05")
		}
		out = append(out, draw.TimeTick{AtMs: at, Word: text})
	}
	return out
}

// Live is the part with its picture and the table behind it.
func (s SeriesView) Live() *Live {
	l := &Live{Verdict: s.Sentence(), Lines: []string{s.Lately()}, Compared: true, units: s.Units}
	l.Figures = (&counter{}).figures([]string{s.Units.Say("series.title", "code", s.Code, "unit", s.Unit())}, s.Picture())
	return l.numbered()
}

// Glance is the picture alone.
func (s SeriesView) Glance() *Live {
	l := &Live{Compared: true, units: s.Units}
	l.Figures = (&counter{}).figures([]string{s.Units.Say("series.title", "code", s.Code, "unit", s.Unit())}, s.Picture())
	return l.numbered()
}

// SeriesListJSON writes the series of a house, SeriesJSON a part of one, in the
// units in which they are kept.
func SeriesListJSON(w io.Writer, all []malthouse.Watched, v house.Version) error {
	return recordJSON(w, "series-list/1", v, object{"series": each(all, watchedObject)})
}

func watchedObject(x malthouse.Watched) object {
	return object{
		"series": x.Code, "quantity": x.Quantity, "unit": x.Unit, "first_ms": x.FirstMs, "last_ms": x.LastMs, "readings": x.Count, "last": x.Last,
	}
}

// SeriesJSON writes a part of a series.
func SeriesJSON(w io.Writer, s malthouse.Seen, v house.Version) error {
	out := watchedObject(s.Watched)
	out["from_ms"], out["to_ms"], out["every_ms"], out["gap_ms"] = s.FromMs, s.ToMs, s.EveryMs, s.GapMs
	at, count := make([]int64, len(s.Stretches)), make([]int, len(s.Stretches))
	least, mean, most := make([]float64, len(at)), make([]float64, len(at)), make([]float64, len(at))
	for i, x := range s.Stretches {
		at[i], count[i], least[i], mean[i], most[i] = x.AtMs, x.Count, x.Least, x.Mean, x.Most
	}
	out["stretches"] = object{"at_ms": at, "readings": count, "least": least, "mean": mean, "most": most}
	return recordJSON(w, "series/1", v, out)
}

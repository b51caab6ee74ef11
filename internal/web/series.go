package web

import (
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"time"

	"awn/internal/malthouse"
	"awn/internal/report"
	"awn/internal/table"
)

// seriesAt is where what sensors read is shown.
const seriesAt = "/series"

// openSeries opens the pages of what sensors read.
func (s *Server) openSeries() {
	s.room("GET "+seriesAt, malthouse.UseLook, s.allSeries)
	s.room("GET "+seriesAt+"/{code}", malthouse.UseLook, s.oneSeries)
	s.let("GET "+seriesAt+"/{code}/{part}/table.csv", malthouse.UseLook, s.handed(s.seriesTable))
	s.let("GET "+seriesAt+"/{code}/rows.csv", malthouse.UseLook, s.seriesRows)
}

// seriesOf is where a part of a series is shown; the whole of it where from and
// to are the same.
func seriesOf(code string, from, to int64) string {
	at := seriesAt + "/" + url.PathEscape(code)
	if from != to {
		at += "?from=" + strconv.FormatInt(from, 10) + "&to=" + strconv.FormatInt(to, 10)
	}
	return at
}

// allSeries lists the series.
func (s *Server) allSeries(v visit) (room, error) {
	u := v.Units
	all, err := s.House.Watching(v.Context(), v.Actor)
	if err != nil {
		return room{}, err
	}
	out := room{Title: u.Say("series.list"), Under: u.Say("series.list.under"), API: apiAt + seriesAt}
	if len(all) == 0 {
		out.Says = []saying{{Text: u.Say("series.bring")}}
		return out, nil
	}
	g := &grid{ID: "series", Caption: u.Say("series.list"), Head: []string{
		u.Say("series.code"), u.Say("series.what"), u.Say("series.last-figure"), u.Say("series.when"), u.Say("series.first"), u.Say("series.count"),
	}}
	for _, w := range all {
		x := s.view(v, malthouse.Seen{Watched: w})
		g.Rows = append(g.Rows, []cell{
			link(w.Code, seriesOf(w.Code, 0, 0)), word(w.Quantity), figure(x.Figure(w.Last)).by(w.Last), word(x.Moment(w.LastMs)).by(float64(w.LastMs)), word(x.Moment(w.FirstMs)).by(float64(w.FirstMs)), figure(u.Number(float64(w.Count), 0)).by(float64(w.Count)),
		})
	}
	out.Parts = []roomPart{{Grid: g}}
	return out, nil
}

func (s *Server) view(v visit, seen malthouse.Seen) report.SeriesView {
	return report.SeriesView{Seen: seen, Zone: v.Units.In(s.House.Zone), Units: v.Units}
}

// stretchesShown are as many as a picture without a script can show; stretches
// in the table behind it are an hour long, so long as these are not too many.
const (
	stretchesShown = 600
	mostHours      = 400
)

// looked is a part of a series with its table.
func (s *Server) looked(v visit, code string, from, to int64) (report.SeriesView, error) {
	seen, err := s.House.See(v.Context(), v.Actor, code, from, to, stretchesShown)
	if err != nil {
		return report.SeriesView{}, err
	}
	hours := (seen.ToMs - seen.FromMs) / time.Hour.Milliseconds()
	rolled, err := s.House.See(v.Context(), v.Actor, code, seen.FromMs, seen.ToMs, int(min(hours+1, mostHours)))
	out := s.view(v, seen)
	out.At = apiAt + seriesAt + "/" + url.PathEscape(seen.Code)
	rolled.FromMs, rolled.ToMs = seen.FromMs, seen.ToMs
	out.Rolled = report.SeriesView{Seen: rolled}.Shown()
	return out, err
}

// wholeNumber reads milliseconds of an address; 0 where there are none.
func wholeNumber(text string) (int64, error) {
	if text == "" {
		return 0, nil
	}
	ms, err := strconv.ParseInt(text, 10, 64)
	if err != nil || ms < -farthest || ms > farthest {
		return 0, refuse(http.StatusUnprocessableEntity, "web.form.unreadable", "from and to are whole milliseconds since 1970")
	}
	return ms, nil
}

// farthest is beyond any moment that is looked at.
const farthest = 1 << 50

// part reads the part of a series that is asked for.
func (v visit) part() (from, to int64, err error) {
	q := v.URL.Query()
	if from, err = wholeNumber(q.Get("from")); err != nil {
		return 0, 0, err
	}
	to, err = wholeNumber(q.Get("to"))
	return from, to, err
}

// oneSeries shows a part of a series: by links to parts beside it, which a
// script takes over.
func (s *Server) oneSeries(v visit) (room, error) {
	u := v.Units
	from, to, err := v.part()
	if err != nil {
		return room{}, err
	}
	x, err := s.looked(v, v.PathValue("code"), from, to)
	if err != nil {
		return room{}, err
	}
	x.Own = true
	at := seriesTableAt(x.Seen)
	body, err := set(x.Live(), at)
	if err != nil {
		return room{}, err
	}
	span := x.ToMs - x.FromMs
	lead := func(where string, from, to int64) way {
		return way{Go: where, Word: u.Say("series." + where), Href: seriesOf(x.Code, from, to)}
	}
	return room{
		Title: x.Code, Under: u.Say("series.hint"), API: x.At, Says: []saying{{Text: u.Say("series.all"), Href: seriesAt}},
		Parts: []roomPart{
			{Body: body, At: at, Ways: []way{
				lead("earlier", x.FromMs-span/2, x.ToMs-span/2), lead("later", x.FromMs+span/2, x.ToMs+span/2),
				lead("closer", x.FromMs+span/4, x.ToMs-span/4), lead("wider", x.FromMs-span/2, x.ToMs+span/2), lead("whole", 0, 0),
			}},
			{Says: []saying{{Text: u.Say("series.rows"), Href: seriesOf(x.Code, 0, 0) + "/rows.csv"}}},
		},
	}, nil
}

func seriesTableAt(x malthouse.Seen) string {
	return seriesOf(x.Code, 0, 0) + "/" + strconv.FormatInt(x.FromMs, 10) + "," + strconv.FormatInt(x.ToMs, 10) + "/table.csv"
}

// seriesTable is the table behind a part of a series.
func (s *Server) seriesTable(v visit) (file, error) {
	first, last, _ := strings.Cut(v.PathValue("part"), ",")
	from, err := wholeNumber(first)
	if err != nil {
		return file{}, err
	}
	to, err := wholeNumber(last)
	if err != nil {
		return file{}, err
	}
	x, err := s.looked(v, v.PathValue("code"), from, to)
	if err != nil {
		return file{}, err
	}
	return tableFile(x.Live(), v.Request)
}

// seriesRows sends every reading of a series as it was read. It is sent as it
// is read from the record, for it may be long.
func (s *Server) seriesRows(w http.ResponseWriter, v visit) error {
	code := v.PathValue("code")
	rows, err := s.House.Readings(v.Context(), v.Actor, code)
	if err != nil {
		return err
	}
	file{name: code + ".csv", kind: kindCSV}.announce(w)
	err = table.WriteCSV(w, table.Page{Name: code, Head: []string{"series", "time", "value", "unit", "quantity"}, Rows: func(yield func([]any, error) bool) {
		for r, err := range rows {
			if !yield([]any{r.Series.Code, time.UnixMilli(r.AtMS).UTC().Format(exactly), r.Value, r.Series.Unit, r.Series.Quantity}, err) {
				return
			}
		}
	}})
	if err != nil {
		s.Log.Error("series", "code", code, "error", err) // what was sent cannot be taken back
	}
	return nil
}

// exactly is a time to the millisecond, as “awn log” reads it.
const exactly = "2006-01-02T15:04:05.000Z07:00"

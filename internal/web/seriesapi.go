package web

import (
	"io"
	"net/http"
	"strconv"

	"awn/internal/malthouse"
	"awn/internal/report"
)

// seriesOperations are what a program may ask of what sensors read.
var seriesOperations = []operation{
	{Method: "GET", Path: seriesAt, ID: "seriesList", Summary: "What sensors read: every series, with when it was read.", Schema: "series-list/1", Use: malthouse.UseLook, asked: (*Server).apiSeriesList},
	{
		Method: "GET", Path: seriesAt + "/{code}", ID: "series", Summary: "A part of a series in stretches, each with its least, mean and most.", Schema: "series/1", Use: malthouse.UseLook, asked: (*Server).apiSeries,
		Ask: []asking{
			{"code", "path", "Code of the series.", true}, {"from", "query", "From when on, in ms since 1970; the whole without it.", false},
			{"to", "query", "Until when.", false}, {"width", "query", "At most so many stretches, from 20 to 4000; 600 without it.", false},
		},
	},
}

// apiSeriesList answers with every series, apiSeries with a part of one.
func (s *Server) apiSeriesList(v visit) (reply, error) {
	all, err := s.House.Watching(v.Context(), v.Actor)
	if err != nil {
		return reply{}, err
	}
	return toldJSON(func(w io.Writer) error { return report.SeriesListJSON(w, all, s.Version) })
}

func (s *Server) apiSeries(v visit) (reply, error) {
	from, to, err := v.part()
	if err != nil {
		return reply{}, err
	}
	width := stretchesShown
	if text := v.FormValue("width"); text != "" {
		if width, err = strconv.Atoi(text); err != nil {
			return reply{}, refuse(http.StatusUnprocessableEntity, "web.form.unreadable", "width is a whole number")
		}
	}
	seen, err := s.House.See(v.Context(), v.Actor, v.PathValue("code"), from, to, width)
	if err != nil {
		return reply{}, err
	}
	return toldJSON(func(w io.Writer) error { return report.SeriesJSON(w, seen, s.Version) })
}

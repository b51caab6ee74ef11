package web

import (
	"time"

	"awn/internal/malthouse"
	"awn/ledger"
)

// stay is a piece in a vessel.
type stay struct {
	vessel   string
	from, to int64
}

// stays are the vessels of a piece with when it lay in each, until now where it
// still does.
func stays(told []malthouse.Told, now time.Time) (out []stay) {
	move := func(vessel string, at int64) {
		if n := len(out); n > 0 && out[n-1].to == 0 {
			out[n-1].to = at
		}
		if vessel != "" {
			out = append(out, stay{vessel: vessel, from: at})
		}
	}
	for _, t := range told {
		if t.Struck {
			continue
		}
		switch b := t.Body.(type) {
		case *ledger.Casting:
			move(b.Vessel, t.Fact.At)
		case *ledger.Couching:
			move(b.Vessel, t.Fact.At)
		case *ledger.Kilning:
			move(b.Vessel, t.Fact.At)
		case *ledger.Stripping:
			move("", t.Fact.At)
		}
	}
	if n := len(out); n > 0 && out[n-1].to == 0 {
		out[n-1].to = max(now.UnixMilli(), out[n-1].from+1)
	}
	return out
}

// mostGlances are as many pictures of series as a page of something else shows.
const mostGlances = 4

// glances are what sensors read in vessels during stays; the whole of each
// series where a stay has no end.
func (s *Server) glances(v visit, all []stay) (out []roomPart, err error) {
	known, err := s.House.Watching(v.Context(), v.Actor)
	if err != nil {
		return nil, err
	}
	for _, one := range all {
		for _, w := range known {
			if !malthouse.Reads(w.Code, one.vessel) || one.to != 0 && (w.LastMs < one.from || w.FirstMs >= one.to) || len(out) == mostGlances {
				continue
			}
			x, err := s.looked(v, w.Code, one.from, one.to)
			if err != nil {
				return nil, err
			}
			at := seriesTableAt(x.Seen)
			body, err := set(x.Glance(), at)
			if err != nil {
				return nil, err
			}
			p := roomPart{Body: body, At: at, Ways: []way{{Word: v.Units.Say("series.open", "code", w.Code), Href: seriesOf(w.Code, one.from, one.to)}}}
			if len(out) == 0 {
				p.Heading = v.Units.Say("series.list")
			}
			out = append(out, p)
		}
	}
	return out, nil
}

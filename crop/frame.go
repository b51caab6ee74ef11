package crop

import (
	"math"
	"slices"

	"awn/finding"
)

// ReadFrame gives the survey what is known of the harvest apart from samples:
// district, variety, tonnes, and farms where they are known.
func (s *Survey) ReadFrame(rows [][]string) []finding.Cell {
	c := &cells{}
	if len(rows) == 0 {
		return []finding.Cell{{Code: "survey.table.empty", Row: 1}}
	}
	c.head(rows[0])
	roles := c.roles(nil)
	if !c.needs(roles, DistrictColumn, VarietyColumn, TonnesColumn) {
		return c.faults
	}
	var frames []Frame
	seen := map[Stratum]bool{}
	for n, row := range rows[1:] {
		if blank(row) {
			continue
		}
		f := Frame{Farms: math.NaN(), Tonnes: math.NaN(), Counted: true}
		for i, role := range roles {
			switch text := cellOf(row, i); role {
			case DistrictColumn:
				f.District = text
			case VarietyColumn:
				f.Variety = text
			case FarmsColumn:
				f.Farms = c.between(n+2, i, text, 0, mostCount)
			case TonnesColumn:
				f.Tonnes = c.between(n+2, i, text, 0, mostTonnes)
			}
		}
		switch {
		case f.District == "" || f.Variety == "":
			c.fault("survey.name.missing", n+2, -1, string(DistrictColumn))
		case math.IsNaN(f.Tonnes):
			c.fault("survey.weight.missing", n+2, -1, string(TonnesColumn))
		case seen[f.Stratum]:
			c.fault("survey.frame.twice", n+2, -1, f.District+", "+f.Variety)
		default:
			frames = append(frames, f)
		}
		seen[f.Stratum] = true
	}
	s.Frames = frames
	s.complete()
	return c.faults
}

// ReadPlaces gives the survey the places of its districts: district, east and
// north, a row for its middle, or several for the corners of its outline.
func (s *Survey) ReadPlaces(rows [][]string) []finding.Cell {
	c := &cells{}
	if len(rows) == 0 {
		return []finding.Cell{{Code: "survey.table.empty", Row: 1}}
	}
	c.head(rows[0])
	roles := c.roles(nil)
	if !c.needs(roles, DistrictColumn, EastColumn, NorthColumn) {
		return c.faults
	}
	for n, row := range rows[1:] {
		if blank(row) {
			continue
		}
		name, at := "", Point{math.NaN(), math.NaN()}
		for i, role := range roles {
			switch text := cellOf(row, i); role {
			case DistrictColumn:
				name = text
			case EastColumn:
				at.X = c.between(n+2, i, text, -mostTonnes, mostTonnes)
			case NorthColumn:
				at.Y = c.between(n+2, i, text, -mostTonnes, mostTonnes)
			}
		}
		if name == "" || math.IsNaN(at.X) || math.IsNaN(at.Y) {
			c.fault("survey.place.missing", n+2, -1, name)
			continue
		}
		i := slices.IndexFunc(s.Places, func(p Place) bool { return p.District == name })
		if i < 0 {
			i = len(s.Places)
			s.Places = append(s.Places, Place{District: name})
		}
		s.Places[i].At = append(s.Places[i].At, at)
	}
	return c.faults
}

// Add joins the samples of other seasons. Qualities that this survey does not
// have are left out, those that the other lacks are missing.
func (s *Survey) Add(other *Survey) {
	for _, x := range other.Samples {
		readings := slices.Repeat([]Reading{missing}, len(s.Qualities))
		for i, q := range s.Qualities {
			if at := other.Quality(q.Key); at >= 0 {
				readings[i] = x.Readings[at]
			}
		}
		x.Readings = readings
		s.Samples = append(s.Samples, x)
	}
}

package words

import (
	"math"
	"strings"

	"awn/finding"
	"awn/malt"
	"awn/programme"
)

// slot is one place for a figure in a sentence: "{air_off_c}", or "{value:wb}"
// where the name itself does not end in the unit.
type slot struct{ name, unit string }

func parseSlot(s string) slot {
	name, unit, given := strings.Cut(s, ":")
	if !given {
		unit = name
	}
	return slot{name, unit}
}

// fill writes the figures of a finding into a sentence. What stands in square
// brackets is left out if a figure in it is not known.
func fill(text string, f finding.Finding, u Units) string {
	var b strings.Builder
	for text != "" {
		before, rest, found := strings.Cut(text, "[")
		b.WriteString(fillPlain(before, f, u, nil))
		if !found {
			break
		}
		inner, after, _ := strings.Cut(rest, "]")
		missing := false
		filled := fillPlain(inner, f, u, &missing)
		if !missing {
			b.WriteString(filled)
		}
		text = after
	}
	return b.String()
}

// fillPlain fills a stretch without brackets and notes whether a figure was
// missing.
func fillPlain(text string, f finding.Finding, u Units, missing *bool) string {
	var b strings.Builder
	for text != "" {
		before, rest, found := strings.Cut(text, "{")
		b.WriteString(before)
		if !found {
			break
		}
		name, after, _ := strings.Cut(rest, "}")
		written := place(parseSlot(name), f, u)
		if written == unknown && missing != nil {
			*missing = true
		}
		b.WriteString(written)
		text = after
	}
	return b.String()
}

// Slots that speak of where and when a finding holds.
const (
	slotAt     = "at"     // hours since cast-in
	slotLayer  = "layer"  // counted from the floor, from 1
	slotColumn = "column" // from 1
	slotClass  = "class"  // from 1
	slotSpot   = "spot"   // of an uneven bed, by its word

	slotReading = "reading" // the name of the reading that a finding carries; as a unit, that reading's
	slotReached = "reached" // its figure

	slotParameter = "parameter" // the figure of an analysis that the code names
	slotFound     = "found"     // what it comes to
	slotLimit     = "limit-of"  // its limit

	slotFactor = "factor" // the factor of a load that the finding carries
	slotRead   = "read"   // what was read of it
)

// place writes what belongs into a slot.
func place(s slot, f finding.Finding, u Units) string {
	index := func(i int) string {
		if i == finding.Nowhere {
			return unknown
		}
		return u.Number(float64(i+1), 0)
	}
	switch s.name {
	case slotAt:
		if f.AtH == finding.Nowhere || math.IsNaN(f.AtH) {
			return unknown
		}
		return Figure("h", f.AtH, u)
	case slotLayer:
		return index(f.Layer)
	case slotColumn:
		return index(f.Column)
	case slotClass:
		return index(f.Class)
	case slotSpot:
		if f.Spot == "" {
			return unknown
		}
		return u.Say("spot." + f.Spot)
	}
	return carried(s, f, u)
}

// carried writes a figure that the finding carries, or a word that follows
// from one.
func carried(s slot, f finding.Finding, u Units) string {
	reading, reached := readingOf(f)
	switch s.name {
	case slotReading:
		return u.Reading(reading)
	case slotReached:
		_, asked := firstFigure(f, "asked")
		return figureBeside(reading.Key(), reached, asked, u)
	case slotParameter:
		return u.Parameter(malt.Parameter(subject(f.Code)))
	case slotFound:
		name, x := firstFigure(f, subject(f.Code))
		_, limit := firstFigure(f, "limit_")
		return figureBeside(name, x, limit, u)
	case slotLimit:
		name, x := firstFigure(f, "limit_")
		return Figure(name, x, u)
	case slotRead:
		name, x := firstFigure(f, "read_")
		return Figure(name, x, u)
	case slotFactor:
		return u.factorOf(f)
	}
	if s.unit == slotReading {
		s.unit = reading.Key()
	}
	for _, g := range f.Figures {
		if g.Name == s.name {
			return Figure(s.unit, g.Value, u)
		}
	}
	return unknown
}

// firstFigure is the first figure whose name begins so; not a number where there
// is none.
func firstFigure(f finding.Finding, prefix string) (name string, value float64) {
	for _, g := range f.Figures {
		if strings.HasPrefix(g.Name, prefix) {
			return g.Name, g.Value
		}
	}
	return "", math.NaN()
}

// subject is the middle part of a code: what it is about.
func subject(code string) string {
	_, rest, _ := strings.Cut(code, ".")
	thing, _, _ := strings.Cut(rest, ".")
	return thing
}

// readingOf is the first figure of a finding that bears the name of a reading.
func readingOf(f finding.Finding) (programme.Reading, float64) {
	for _, g := range f.Figures {
		for r := programme.None + 1; r < programme.Readings; r++ {
			if g.Name == r.Key() {
				return r, g.Value
			}
		}
	}
	return programme.None, math.NaN()
}

// slots lists the places of a sentence, those within brackets apart.
func slots(text string) (needed, optional []slot) {
	depth := false
	for i := 0; i < len(text); i++ {
		switch text[i] {
		case '[':
			depth = true
		case ']':
			depth = false
		case '{':
			end := strings.IndexByte(text[i:], '}')
			if end < 0 {
				return needed, optional
			}
			s := parseSlot(text[i+1 : i+end])
			if depth {
				optional = append(optional, s)
			} else {
				needed = append(needed, s)
			}
		}
	}
	return needed, optional
}

package words

import (
	"net/url"
	"slices"
	"time"
)

// Choice is one thing that a reader chooses, each by itself.
type Choice struct {
	Key   string
	Words []string // what it may be; nil for a time zone, whose names are not listed
	get   func(Units) string
	set   func(*Units, string)
}

// pick is a choice among words, each of which stands for a value.
func pick[T comparable](key string, at func(*Units) *T, words []string, values []T) Choice {
	return Choice{
		Key: key, Words: words,
		get: func(u Units) string { return words[max(0, slices.Index(values, *at(&u)))] },
		set: func(u *Units, word string) { *at(u) = values[slices.Index(words, word)] },
	}
}

// either is whether a choice is the second of two.
var either = []bool{false, true}

// choices are all, in the order in which a page asks them. The first word of
// each is the usual.
var choices = []Choice{
	pick("tongue", func(u *Units) *Tongue { return &u.Tongue }, tags[:], Tongues()),
	pick("temperature", func(u *Units) *bool { return &u.Fahrenheit }, []string{"celsius", "fahrenheit"}, either),
	pick("mass", func(u *Units) *Mass { return &u.Mass }, []string{"tonnes", "pounds", "bushels"}, []Mass{Tonnes, Pounds, Bushels}),
	pick("test-weight", func(u *Units) *bool { return &u.Winchester }, []string{"kg-hl", "lb-bu"}, either),
	pick("measures", func(u *Units) *bool { return &u.Customary }, []string{"metric", "us"}, either),
	pick("scales", func(u *Units) *bool { return &u.ASBC }, []string{"ebc", "asbc"}, either),
	pick("mark", func(u *Units) *Mark { return &u.Mark }, []string{"tongue", "point", "comma"}, []Mark{MarkOfTongue, MarkPoint, MarkComma}),
	pick("dates", func(u *Units) *Dates { return &u.Dates }, []string{"words", "iso", "day-first", "month-first"},
		[]Dates{DateInWords, DateISO, DateDayFirst, DateMonthFirst}),
	{Key: zoneKey, get: func(u Units) string {
		if u.Zone == nil {
			return ""
		}
		return u.Zone.String()
	}, set: func(u *Units, name string) { u.Zone, _ = ZoneOf(name) }},
}

const zoneKey = "zone"

// presets are choices that are made together, by the names that the command
// line has for them.
var presets = map[string]Units{"metric": {}, "us": American}

// byPreset are the choices that a preset makes.
var byPreset = []string{"temperature", "mass", "test-weight", "measures", "scales"}

// Choices are all that a reader chooses.
func Choices() []Choice { return slices.Clone(choices) }

// ZoneOf is the time zone of a name; nil, the house's own, for none.
func ZoneOf(name string) (zone *time.Location, ok bool) {
	if name == "" {
		return nil, true
	}
	zone, err := time.LoadLocation(name)
	if err != nil || name == "Local" {
		return nil, false
	}
	return zone, true
}

// Takes reports whether a word may be chosen.
func (c Choice) Takes(word string) bool {
	if c.Words == nil {
		_, ok := ZoneOf(word)
		return ok
	}
	return slices.Contains(c.Words, word)
}

// As is the text by which Choose makes this choice.
func (c Choice) As(word string) string { return url.Values{c.Key: {word}}.Encode() }

// Of is what was chosen.
func (c Choice) Of(u Units) string { return c.get(u) }

// Preset chooses what goes together; an unknown name changes nothing.
func (u Units) Preset(name string) Units {
	p, ok := presets[name]
	if !ok {
		return u
	}
	for _, c := range choices {
		if slices.Contains(byPreset, c.Key) {
			c.set(&u, c.get(p))
		}
	}
	return u
}

// PresetName is the preset that the choices come to; "" if they are the
// reader's own.
func (u Units) PresetName() string {
	for _, name := range []string{"metric", "us"} {
		if u.Preset(name) == u {
			return name
		}
	}
	return ""
}

// Chosen writes all choices as a text that Choose reads: a cookie or a row of
// the accounts holds it.
func (u Units) Chosen() string {
	v := url.Values{}
	for _, c := range choices {
		v.Set(c.Key, c.get(u))
	}
	return v.Encode()
}

// Choose makes the choices of a text. What the text does not name, or names by
// no word that is known, stays as it is.
func (u Units) Choose(text string) Units {
	v, err := url.ParseQuery(text)
	if err != nil {
		return u
	}
	for _, c := range choices {
		if v.Has(c.Key) && c.Takes(v.Get(c.Key)) {
			c.set(&u, v.Get(c.Key))
		}
	}
	return u
}

package paper

import (
	"slices"
	"strings"

	"awn/programme"
	"awn/unit"
)

// setting is a quantity that stands as it is given, or that follows a reading:
// "70 %", or "hold air-off humidity 85 % between 0 % and 70 %".
type setting[D dimension] struct {
	quantity[D] // as given; the upper limit of one that follows
	Hold        *holding[D]
}

// holding is what a setting follows, within which limits.
type holding[D dimension] struct {
	Condition
	Least quantity[D]
}

// The settings of documents.
type (
	TemperatureSetting = setting[temperature]
	PercentSetting     = setting[percent]
	AirflowSetting     = setting[airflow]
)

func (s setting[D]) form(least, most string) (func() string, func(string) (any, error), error) {
	pattern, read, err := s.quantity.form(least, most)
	if err != nil {
		return nil, nil, err
	}
	both := func() string {
		one := bare(pattern())
		return "^ *(?:" + one + "|hold +" + bare(conditionPattern()) + " +between +" + one + " +and +" + one + ") *$"
	}
	return both, func(text string) (any, error) { return readSetting[D](text, read) }, nil
}

// bare is a pattern without its ends.
func bare(pattern string) string {
	return strings.TrimSuffix(strings.TrimPrefix(pattern, "^ *"), " *$")
}

func readSetting[D dimension](text string, read func(string) (any, error)) (any, error) {
	words := strings.Join(strings.FieldsFunc(text, func(r rune) bool { return r == ' ' }), " ")
	held, ok := strings.CutPrefix(words, "hold ")
	if !ok {
		q, err := read(text)
		if err != nil {
			return setting[D]{}, err
		}
		return setting[D]{quantity: q.(quantity[D])}, nil
	}
	what, limits, ok := strings.Cut(held, " between ")
	low, high, both := strings.Cut(limits, " and ")
	if !ok || !both {
		return setting[D]{}, &unit.Error{Code: "document.hold.form", Got: text, Allowed: []string{holdExample}}
	}
	c, err := readCondition(what)
	if err != nil {
		return setting[D]{}, err
	}
	least, err := read(low)
	if err != nil {
		return setting[D]{}, err
	}
	most, err := read(high)
	if err != nil {
		return setting[D]{}, err
	}
	return setting[D]{quantity: most.(quantity[D]), Hold: &holding[D]{c.(Condition), least.(quantity[D])}}, nil
}

// holdExample shows how a setting follows a reading.
const holdExample = "hold air-off humidity 85 % between 0 % and 70 %"

// given is the quantity of a setting; nil of one that is not there.
func (s *setting[D]) given() *quantity[D] {
	if s == nil {
		return nil
	}
	return &s.quantity
}

// hold is how the setting follows its reading, its limits in a unit over a
// scale; rises says which readings it goes up with.
func (s *setting[D]) hold(symbol string, scale float64, rises ...programme.Reading) programme.Hold {
	if s == nil || s.Hold == nil {
		return programme.Hold{}
	}
	return programme.Hold{
		Reading: s.Hold.Reading, Value: s.Hold.Value, Rises: slices.Contains(rises, s.Hold.Reading),
		Low: s.Hold.Least.In(symbol) / scale, High: s.In(symbol) / scale,
	}
}

// checkHold finds a setting that cannot follow what it is to hold, or whose
// limits are crossed.
func (s *setting[D]) checkHold(path string, can ...programme.Reading) []Fault {
	switch {
	case s == nil || s.Hold == nil:
		return nil
	case !slices.Contains(can, s.Hold.Reading):
		var names []string
		for _, w := range waits {
			if slices.Contains(can, w.reading) {
				names = append(names, w.name)
			}
		}
		return []Fault{{Code: "programme.hold.not-by-this", Path: path, Allowed: names}}
	case s.Hold.Least.Kind != s.Kind || s.Hold.Least.Value >= s.Value:
		return []Fault{{Code: "programme.hold.limits", Path: path}}
	}
	return nil
}

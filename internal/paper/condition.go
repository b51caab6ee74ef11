package paper

import (
	"regexp"
	"slices"
	"strings"

	"awn/programme"
	"awn/unit"
)

// Condition is what a step waits for: "moisture 43 % wb", "chit 90 %", "break",
// "air-off below 30 °C".
type Condition struct {
	Reading programme.Reading
	Value   float64   // SI: fraction, °C; 0 of break
	Towards direction // unsaid unless "above" or "below" stands there
}

// direction is the way in which a reading comes to a condition.
type direction int

const (
	unsaid direction = iota
	above
	below
)

// wait is a reading that a step may wait for.
type wait struct {
	name    string
	reading programme.Reading
	of      *unit.Dimension // nil if the name says it all
	stages  string          // where it can be read: s(teep), g(erminate), k(iln)
}

var (
	waitMoisture, _    = unit.Moisture.Within("1 % wb", "70 % wb")
	waitTemperature, _ = unit.Temperature.Within("-20 °C", "120 °C")
	waitDifference, _  = unit.TemperatureDifference.Within("0.1 K", "30 K")
	waitAcrospire, _   = unit.Ratio.Within("0.05", "1.5")
)

// waits are the readings by the names they have in documents, longer names
// before those that they begin with.
var waits = []wait{
	{"moisture", programme.Moisture, &waitMoisture, "sgk"},
	{"drained moisture", programme.Drained, &waitMoisture, "s"},
	{"worst layer", programme.WorstLayer, &waitMoisture, "gk"},
	{"driest layer", programme.DriestLayer, &waitMoisture, "gk"},
	{"temperature", programme.TempMean, &waitTemperature, "sgk"},
	{"coolest", programme.TempLow, &waitTemperature, "sgk"},
	{"hottest", programme.TempHigh, &waitTemperature, "sgk"},
	{"difference", programme.TempGap, &waitDifference, "g"},
	{"room carbon dioxide", programme.RoomDioxide, &unit.Percent, "g"},
	{"chit", programme.Chit, &unit.Percent, "sg"},
	{"acrospire", programme.Acrospire, &waitAcrospire, "g"},
	{"air-off humidity", programme.AirOffRH, &unit.Percent, "gk"},
	{"air-off", programme.AirOff, &waitTemperature, "gk"},
	{"break", programme.Break, nil, "k"},
}

// form gives the pattern and the reader; a condition has no limits of its own.
func (Condition) form(_, _ string) (func() string, func(string) (any, error), error) {
	return conditionPattern, readCondition, nil
}

func conditionPattern() string {
	forms := make([]string, len(waits))
	for i, w := range waits {
		forms[i] = regexp.QuoteMeta(w.name)
		if w.of != nil {
			pattern := strings.TrimSuffix(strings.TrimPrefix(w.of.Pattern(), "^ *"), " *$")
			forms[i] += " +(?:(?:above|below) +)?" + pattern
		}
	}
	return "^ *(?:" + strings.Join(forms, "|") + ") *$"
}

func readCondition(text string) (any, error) {
	words := strings.Join(strings.FieldsFunc(text, func(r rune) bool { return r == ' ' }), " ")
	i := slices.IndexFunc(waits, func(w wait) bool {
		return words == w.name || w.of != nil && strings.HasPrefix(words, w.name+" ")
	})
	if i < 0 {
		name := strings.TrimRight(words, "-−.0123456789%°CFKwdb ")
		return nil, &unit.Error{Code: "document.condition.unknown", Got: text, Allowed: waitNames(), Nearest: unit.Nearest(name, waitNames())}
	}
	w := waits[i]
	if w.of == nil {
		return Condition{Reading: w.reading}, nil
	}
	c := Condition{Reading: w.reading}
	value := strings.TrimPrefix(words[len(w.name):], " ")
	for d, word := range map[direction]string{above: "above ", below: "below "} {
		if rest, ok := strings.CutPrefix(value, word); ok {
			c.Towards, value = d, rest
			break
		}
	}
	q, err := w.of.Parse(value)
	c.Value = q.Value
	return c, err
}

func waitNames() []string {
	names := make([]string, len(waits))
	for i, w := range waits {
		names[i] = w.name
	}
	return names
}

// readable says whether a reading can be read in a stage.
func readable(r programme.Reading, stage string) bool {
	return slices.ContainsFunc(waits, func(w wait) bool { return w.reading == r && strings.Contains(w.stages, stage[:1]) })
}

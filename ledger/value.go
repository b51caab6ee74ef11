package ledger

import (
	"encoding/json"
	"slices"
	"strconv"
	"strings"
)

// Standing says how a figure was come by, from the surest down.
type Standing string

// The standings of a mass.
const (
	Weighed   Standing = "weighed"   // on a scale
	Measured  Standing = "measured"  // by another instrument: a meter, a level, a flow
	Computed  Standing = "computed"  // from other figures of the record or by the model
	Estimated Standing = "estimated" // by eye
)

var standings = []Standing{Weighed, Measured, Computed, Estimated}

// weaker returns the less sure of two.
func weaker(a, b Standing) Standing {
	return standings[max(slices.Index(standings, a), slices.Index(standings, b), 0)]
}

func (s *Standing) read(v any, path string, found *Faults) {
	choose(s, v, path, found, standings)
}

// choose reads one word of a closed list.
func choose[S ~string](into *S, v any, path string, found *Faults, among []S) {
	text, _ := v.(string)
	for _, w := range among {
		if text == string(w) {
			*into = w
			return
		}
	}
	found.add("record.value.choice", path, plain(v), words(among)...)
}

// Grams is a mass. In JSON it is written in kilograms, as it was typed, to the
// gram.
type Grams int64

// most is a mass that no entry exceeds.
const most Grams = 1e12

// MarshalJSON writes kilograms.
func (g Grams) MarshalJSON() ([]byte, error) {
	text := strconv.FormatInt(int64(g)/1000, 10)
	if rest := int64(g) % 1000; rest != 0 {
		text += "." + strings.TrimRight(strconv.FormatInt(1000+rest, 10)[1:], "0")
	}
	return []byte(text), nil
}

func (g *Grams) read(v any, path string, found *Faults) {
	n, ok := v.(json.Number)
	if !ok || strings.ContainsAny(n.String(), "eE") {
		found.add("record.value.type", path, plain(v), "a mass in kg with a decimal point and without an exponent")
		return
	}
	whole, part, _ := strings.Cut(n.String(), ".")
	if part = strings.TrimRight(part, "0"); len(part) > 3 {
		found.add("record.mass.precision", path, n)
		return
	}
	grams, err := strconv.ParseInt(whole+(part + "000")[:3], 10, 64)
	if err != nil || grams < 0 || Grams(grams) > most {
		found.add("record.value.range", path, n, "between 0 and 1000000000 kg")
		return
	}
	*g = Grams(grams)
}

// Signed is a mass that may be below zero, in kilograms to the gram.
type Signed Grams

// MarshalJSON writes kilograms.
func (s Signed) MarshalJSON() ([]byte, error) {
	if s < 0 {
		text, err := Grams(-s).MarshalJSON()
		return append([]byte("-"), text...), err
	}
	return Grams(s).MarshalJSON()
}

func (s *Signed) read(v any, path string, found *Faults) {
	n, ok := v.(json.Number)
	if !ok {
		found.add("record.value.type", path, plain(v), "a mass in kg")
		return
	}
	digits, minus := strings.CutPrefix(n.String(), "-")
	var g Grams
	g.read(json.Number(digits), path, found)
	if *s = Signed(g); minus {
		*s = Signed(-g)
	}
}

// Fraction is a share from 0 to 1, as of water in moist grain.
type Fraction float64

func (f *Fraction) read(v any, path string, found *Faults) {
	n, _ := v.(json.Number)
	x, err := n.Float64()
	if err != nil || x < 0 || x > 1 {
		found.add("record.value.range", path, plain(v), "between 0 and 1")
		return
	}
	*f = Fraction(x)
}

func (c *Code) read(v any, path string, found *Faults) {
	text, _ := v.(string)
	if !isCode(text) {
		found.add("record.code.form", path, plain(v))
	}
	*c = Code(text)
}

func (a *Account) read(v any, path string, found *Faults) {
	text, _ := v.(string)
	*a = Account(text)
	if !a.Inside() {
		found.add("record.account.form", path, plain(v), insides...)
	}
}

func (r *Ref) read(v any, path string, found *Faults) {
	text, _ := v.(string)
	kind, code, _ := strings.Cut(text, ":")
	for _, k := range things {
		if k == kind && isCode(code) {
			*r = Ref(text)
			return
		}
	}
	found.add("record.subject.form", path, plain(v), things...)
}

// Month is a period of the accounts, "2026-11".
type Month string

func (m *Month) read(v any, path string, found *Faults) {
	text, _ := v.(string)
	year, month, ok := strings.Cut(text, "-")
	n, err := strconv.Atoi(month)
	if !ok || len(year) != 4 || len(month) != 2 || strings.Trim(text, "0123456789-") != "" || err != nil || n < 1 || n > 12 {
		found.add("record.period.form", path, plain(v))
	}
	*m = Month(text)
}

// Digest is a SHA-256 in hexadecimal.
type Digest string

func (d *Digest) read(v any, path string, found *Faults) {
	text, _ := v.(string)
	if len(text) != 64 || strings.Trim(text, "0123456789abcdef") != "" {
		found.add("record.sha256.form", path, plain(v))
	}
	*d = Digest(text)
}

// FactID names another fact.
type FactID string

func (id *FactID) read(v any, path string, found *Faults) {
	text, _ := v.(string)
	if !isID(text) {
		found.add("record.id.form", path, plain(v))
	}
	*id = FactID(text)
}

// Time is a moment in ms UTC.
type Time int64

func (t *Time) read(v any, path string, found *Faults) {
	n, _ := v.(json.Number)
	ms, err := n.Int64()
	if err != nil || ms < 0 || ms > latestMs {
		found.add("record.time.range", path, plain(v))
	}
	*t = Time(ms)
}

package unit

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// numeral is a number as it is written in documents: plain, with at least one
// digit before the point, so that a lost point cannot hide.
const numeral = `[-−]?(?:0|[1-9][0-9]{0,8})(?:\.[0-9]{1,6})?`

var (
	isNumeral  = regexp.MustCompile(`^` + numeral + `$`)
	isNonsense = regexp.MustCompile(`^(?i)[-−+]?(nan|inf)`)
	isExponent = regexp.MustCompile(`^(?:[eE][-+]?[0-9]|[xX][0-9a-fA-F])`)
	isComma    = regexp.MustCompile(`^[-−]?[0-9]+,[0-9]+$`)
	isDayHour  = regexp.MustCompile(`^([1-9][0-9]{0,2}) *d *(0|1?[1-9]|10|2[0-3]) *h$`)
	isHourMin  = regexp.MustCompile(`^([1-9][0-9]{0,3}) *h *(0|[1-5]?[1-9]|[1-5]0) *min$`)
)

// Parse reads a quantity: number, space, unit and basis. The space may be left
// out. The error is an *Error.
func (d Dimension) Parse(text string) (Quantity, error) {
	text = strings.Trim(text, " ")
	if s, ok := d.seconds(text); ok {
		return d.quantity(text, s, "s")
	}
	i := strings.IndexFunc(text, func(r rune) bool { return !strings.ContainsRune("0123456789.,'-−+", r) })
	if i < 0 {
		i = len(text)
	}
	digits, rest := text[:i], strings.Join(strings.FieldsFunc(text[i:], isSpace), " ")
	if e := faultOfNumber(text, digits, rest); e != nil {
		return Quantity{}, e
	}
	if !isNumeral.MatchString(digits) {
		return Quantity{}, &Error{Code: "number.malformed", Got: digits}
	}
	x, err := strconv.ParseFloat(strings.Replace(digits, "−", "-", 1), 64)
	if err != nil {
		return Quantity{}, &Error{Code: "number.malformed", Got: digits}
	}
	return d.quantity(text, x, rest)
}

// isSpace says that a rune parts words: the space alone, as in Pattern.
func isSpace(r rune) bool { return r == ' ' }

// faultOfNumber names the ways in which numbers go wrong that people meet.
func faultOfNumber(text, digits, rest string) *Error {
	switch {
	case isNonsense.MatchString(text):
		return &Error{Code: "number.not-finite", Got: text}
	case digits == "":
		return &Error{Code: "number.missing", Got: text}
	case isExponent.MatchString(rest):
		return &Error{Code: "number.malformed", Got: text}
	case strings.ContainsAny(digits, ",'") || strings.Count(digits, ".") > 1 || rest != "" && rest[0] >= '0' && rest[0] <= '9':
		return &Error{Code: "number.ambiguous", Got: text, Allowed: readings(digits)}
	}
	return nil
}

// readings lists what a number with a comma may mean.
func readings(digits string) []string {
	if !isComma.MatchString(digits) {
		return []string{"1234.5"}
	}
	point := strings.Replace(digits, ",", ".", 1)
	if whole, part, _ := strings.Cut(point, "."); len(part) == 3 {
		return []string{point, whole + part}
	}
	return []string{point}
}

// quantity gives the number its unit and holds it against the limits.
func (d Dimension) quantity(text string, x float64, name string) (Quantity, error) {
	u, currency, ok := d.find(name)
	switch {
	case !ok && name == "":
		return Quantity{}, &Error{Code: "unit.missing", Got: text, Allowed: d.units(name)}
	case !ok && d.lacksBasis(name):
		return Quantity{}, &Error{Code: "unit.basis.missing", Got: text, Allowed: d.units(name)}
	case !ok:
		return Quantity{}, &Error{Code: "unit.unknown", Got: name, Allowed: d.units(name), Nearest: Nearest(name, d.names())}
	case !u.holds(x):
		if d.composite && name == "s" {
			u, _, _ = d.find("h") // limits in seconds say little
		}
		return Quantity{}, &Error{Code: "number.range", Got: text, Allowed: []string{u.limits(currency)}}
	}
	return Quantity{Value: u.to(x), Kind: u.Kind, Symbol: u.named(currency), Currency: currency}, nil
}

// units lists the units that may stand in place of name: prices in its
// currency, if it has one.
func (d Dimension) units(name string) []string {
	currency := "EUR"
	if len(name) >= 3 && isCurrency(name[:3]) {
		currency = name[:3]
	}
	units := make([]string, len(d.Units))
	for i, u := range d.Units {
		units[i] = u.named(currency)
	}
	return units
}

// names lists the symbols and aliases.
func (d Dimension) names() []string {
	names := d.Symbols()
	for _, u := range d.Units {
		names = append(names, u.Aliases...)
	}
	return slices.DeleteFunc(names, func(name string) bool { return strings.Contains(name, "¤") })
}

// seconds reads "1 d 6 h" and "6 h 30 min", whole numbers only.
func (d Dimension) seconds(text string) (float64, bool) {
	if !d.composite {
		return 0, false
	}
	for _, form := range compositeForms {
		if m := form.is.FindStringSubmatch(text); m != nil {
			large, _ := strconv.Atoi(m[1])
			small, _ := strconv.Atoi(m[2])
			return float64((large*form.parts + small) * form.seconds), true
		}
	}
	return 0, false
}

// compositeForms are the durations of two units: parts small units, each of so
// many seconds, make a large one.
var compositeForms = []struct {
	is             *regexp.Regexp
	large, small   string
	parts, seconds int
}{
	{isDayHour, "d", "h", 24, 3600},
	{isHourMin, "h", "min", 60, 60},
}

package unit

import (
	"math"
	"strconv"
	"strings"
)

// Format prints a value that is held in the Inside unit, in the unit named by
// its symbol, with so many digits after the point: "42.0 % wb". The error is
// an *Error if the dimension has no such unit.
func (d Dimension) Format(value float64, symbol string, digits int) (string, error) {
	u, currency, err := d.named(symbol)
	if err != nil {
		return "", err
	}
	return join(number(u.from(value), digits), u.named(currency)), nil
}

// In returns a value that is held in the Inside unit as a number of the unit
// named by its symbol. The error is an *Error if the dimension has no such
// unit.
//
//	x = v/f - s        (v inside; f and s of the unit; % db is X of DryBasis)
//
// Definition.
func (d Dimension) In(value float64, symbol string) (float64, error) {
	u, _, err := d.named(symbol)
	if err != nil {
		return math.NaN(), err
	}
	return u.from(value), nil
}

// named finds the unit of a symbol, with the currency if it is a price.
func (d Dimension) named(symbol string) (Unit, string, error) {
	u, currency, ok := d.find(symbol)
	if !ok {
		return Unit{}, "", &Error{Code: "unit.unknown", Got: symbol, Allowed: d.Symbols(), Nearest: Nearest(symbol, d.names())}
	}
	return u, currency, nil
}

// number prints x without exponent; "n/a" if it is not finite.
func number(x float64, digits int) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "n/a"
	}
	s := strconv.FormatFloat(x, 'f', digits, 64)
	if strings.HasPrefix(s, "-") && !strings.ContainsAny(s, "123456789") {
		return s[1:] // no minus zero
	}
	return s
}

// join puts number and unit together: "42 % wb", but "7/64 in" and "0.8".
func join(number, symbol string) string {
	if symbol == "" || symbol[0] == '/' {
		return number + symbol
	}
	return number + " " + symbol
}

// named is the unit's symbol with the currency in its place.
func (u Unit) named(currency string) string { return strings.Replace(u.Symbol, "¤", currency, 1) }

// limits prints the unit's limits as "-40 to 140 °F".
func (u Unit) limits(currency string) string {
	short := func(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
	return short(u.least) + " to " + join(short(u.most), u.named(currency))
}

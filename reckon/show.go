package reckon

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"awn/unit"
)

// scale says in which units a number is shown: "°C:1" with so many decimals,
// "kg~5" with so many figures.
type scale struct {
	in    unit.Dimension
	units []string
}

// show prints a value in each unit of the scale.
func (s scale) show(value float64) []string {
	var out []string
	for _, u := range s.units {
		symbol, digits, decimals := strings.Cut(u, ":")
		if !decimals {
			symbol, digits, _ = strings.Cut(u, "~")
		}
		n, _ := strconv.Atoi(digits)
		x, err := s.in.In(value, symbol)
		if err != nil {
			continue // a test reads every scale
		}
		number := fixed(x, n)
		if !decimals {
			number = figures(x, n)
		}
		if !strings.HasPrefix(symbol, "/") {
			number += " "
		}
		out = append(out, number+symbol)
	}
	return out
}

// like puts the unit that a quantity was given in before the others.
func (s scale) like(f Filled) scale {
	symbolIs := func(u string) bool {
		symbol, _, _ := strings.Cut(strings.ReplaceAll(u, "~", ":"), ":")
		return symbol == f.Quantity.Symbol
	}
	i := slices.IndexFunc(s.units, symbolIs)
	if i <= 0 {
		return s
	}
	first := s.units[i]
	return scale{s.in, append([]string{first}, slices.Delete(slices.Clone(s.units), i, i+1)...)}
}

// has returns the unit of the scale's kind that text names.
func (s scale) has(text string) (symbol string, ok bool) {
	first, _, _ := strings.Cut(strings.ReplaceAll(s.units[0], "~", ":"), ":")
	kind := ""
	for _, u := range s.in.Units {
		if u.Symbol == first {
			kind = u.Kind
		}
	}
	for _, u := range s.in.Units {
		if u.Kind == kind && (u.Symbol == text || slices.Contains(u.Aliases, text)) {
			return u.Symbol, true
		}
	}
	return "", false
}

// result is a number shown on a scale.
func (s scale) result(key, name string, value float64, formula, worked string) Result {
	return Result{Key: key, Name: name, Value: value, Low: math.NaN(), High: math.NaN(), Shown: s.show(value), on: s, Formula: formula, Worked: worked}
}

// without drops the units that the number is not to be shown in.
func (r Result) without(symbol string) Result {
	r.Shown = slices.DeleteFunc(r.Shown, func(s string) bool { return symbolOf(s) == symbol })
	return r
}

// between gives a result its band and shows it in the first unit.
func (s scale) between(r Result, low, high float64) Result {
	r.Low, r.High = low, high
	from, to := s.show(low)[0], s.show(high)[0]
	number, _, _ := strings.Cut(from, " ")
	r.Band = number + " to " + to
	return r
}

// bare is a number shown with a unit that is not converted, factor of it to
// one of the value.
func bare(key, name string, value, factor float64, decimals int, symbol, formula, worked string) Result {
	shown := strings.TrimSpace(fixed(value*factor, decimals) + " " + symbol)
	return Result{Key: key, Name: name, Value: value, Low: math.NaN(), High: math.NaN(), Shown: []string{shown}, Formula: formula, Worked: worked}
}

// decimalsOf is how many decimals show a number with so many figures.
func decimalsOf(x float64, figures int) int {
	if x == 0 || math.IsNaN(x) || math.IsInf(x, 0) {
		return 0
	}
	return min(max(figures-1-int(math.Floor(math.Log10(math.Abs(x)))), 0), 9)
}

// fixed prints a number with so many decimals; "n/a" if it is not known.
func fixed(x float64, decimals int) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "n/a"
	}
	return strconv.FormatFloat(x, 'f', decimals, 64)
}

// figures prints a number with so many figures, without zeros at its end.
func figures(x float64, n int) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "n/a"
	}
	return plain(round(x, decimalsOf(x, n)))
}

// plain prints a number with the decimals it has.
func plain(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

func round(x float64, decimals int) float64 {
	p := math.Pow(10, float64(decimals))
	return math.Round(x*p) / p
}

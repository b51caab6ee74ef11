package unit

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

// Unit is one way of writing a quantity. Its basis, where it has one, is part
// of its symbol: "% wb", "lb/bu imperial".
type Unit struct {
	Symbol  string   // as printed; "¤" stands for a currency code
	Aliases []string // also read
	Kind    string   // units of different kinds do not convert into each other
	Inside  string   // the unit of Quantity.Value

	to, from    func(float64) float64 // number written to value inside, and back
	least, most float64               // limits of the number written
}

// Dimension is a closed list of the units in which a quantity may be written.
type Dimension struct {
	Name      string
	Units     []Unit
	composite bool // "1 d 6 h" is read too
}

// Quantity is what a text with number, unit and basis says.
type Quantity struct {
	Value    float64 // in the Inside unit
	Kind     string  // kind of its unit, "" where the dimension has but one
	Symbol   string  // the unit it was written in, as it is printed
	Currency string  // "EUR"; "" unless it is a price
}

// scaled is a unit of which one is factor units inside.
func scaled(factor float64, symbol string, aliases ...string) Unit {
	return shifted(factor, 0, symbol, aliases...)
}

// shifted is a unit on a straight line: inside = factor*(written + shift).
func shifted(factor, shift float64, symbol string, aliases ...string) Unit {
	return curved(
		func(x float64) float64 { return factor * (x + shift) },
		func(v float64) float64 { return v/factor - shift },
		symbol, aliases...)
}

// curved is a unit on any rising curve.
func curved(to, from func(float64) float64, symbol string, aliases ...string) Unit {
	return Unit{Symbol: symbol, Aliases: aliases, to: to, from: from}
}

// kind gives units that convert into each other their common name, inside unit
// and limits. No field of any document lies beyond least and most.
func kind(name, inside string, least, most float64, units ...Unit) []Unit {
	for i := range units {
		u := &units[i]
		u.Kind, u.Inside = name, inside
		u.least, u.most = written(u.from(least)), written(u.from(most))
	}
	return units
}

// Limits of the numbers that are read: nine digits before the point and six
// after it, fifteen in all, which a float64 holds apart from their neighbours.
const (
	wholeDigits = 9
	decimals    = 6
	largest     = 1e9 - 1e-6
)

// written rounds a limit to a number that can be written.
func written(x float64) float64 {
	x, _ = strconv.ParseFloat(strconv.FormatFloat(x, 'f', decimals, 64), 64)
	return min(max(x, -largest), largest)
}

// Within returns the dimension with narrower limits, each given as quantities
// of the dimension ("-40 °C"; "0.5 m/s, 20 m3/h/t" for two kinds); "" leaves
// a limit as it is.
func (d Dimension) Within(least, most string) (Dimension, error) {
	narrow := d
	narrow.Units = slices.Clone(d.Units)
	for i, texts := range [2]string{least, most} {
		for text := range strings.SplitSeq(texts, ",") {
			if text == "" {
				continue
			}
			q, err := d.Parse(text)
			if err != nil {
				return Dimension{}, err
			}
			for j := range narrow.Units {
				u := &narrow.Units[j]
				switch limit := written(u.from(q.Value)); {
				case u.Kind != q.Kind:
				case i == 0:
					u.least = limit
				default:
					u.most = limit
				}
			}
		}
	}
	return narrow, nil
}

// Symbols lists the units as they are printed, prices in any currency as "¤/t".
func (d Dimension) Symbols() []string {
	symbols := make([]string, len(d.Units))
	for i, u := range d.Units {
		symbols[i] = u.Symbol
	}
	return symbols
}

// Unit returns the unit of that symbol or alias, in any currency if it is a price.
func (d Dimension) Unit(symbol string) (Unit, bool) {
	u, _, ok := d.find(symbol)
	return u, ok
}

// find returns the unit that text names, with the currency code if it is a price.
func (d Dimension) find(text string) (u Unit, currency string, ok bool) {
	for _, u := range d.Units {
		if text == u.Symbol || slices.Contains(u.Aliases, text) {
			return u, "", true
		}
		if per, price := strings.CutPrefix(u.Symbol, "¤"); price && len(text) >= 3 && text[3:] == per && isCurrency(text[:3]) {
			return u, text[:3], true
		}
	}
	return Unit{}, "", false
}

func isCurrency(code string) bool {
	return !strings.ContainsFunc(code, func(r rune) bool { return r < 'A' || r > 'Z' })
}

// lacksBasis says whether text is a unit of the dimension without its basis.
func (d Dimension) lacksBasis(text string) bool {
	if len(text) >= 3 && isCurrency(text[:3]) {
		text = "¤" + text[3:]
	}
	return slices.ContainsFunc(d.Units, func(u Unit) bool {
		i := strings.LastIndexByte(u.Symbol, ' ')
		return i >= 0 && u.Symbol[:i] == text
	})
}

// holds says whether the number written lies within the unit's limits.
func (u Unit) holds(x float64) bool { return !math.IsNaN(x) && x >= u.least && x <= u.most }

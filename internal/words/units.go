package words

import (
	"math"
	"strconv"
	"strings"
)

// Tongue is a language.
type Tongue int

// English is the only language so far.
const English Tongue = iota

// Tag is the language as HTML and PDF name it.
func (t Tongue) Tag() string { return [...]string{English: "en"}[t] }

// Units is a reader's choice of language, units and decimal mark. The zero
// value is English in metric units with a decimal point.
type Units struct {
	Tongue     Tongue
	Fahrenheit bool
	Pounds     bool // lb, bu, gal, ft and cfm; lb/bu in place of kg/hL
	SRM        bool // colour by ASBC in place of EBC
	Comma      bool // decimal comma
}

// American is the choice of most maltsters in the United States.
var American = Units{Fahrenheit: true, Pounds: true, SRM: true}

// unknown stands where a figure is not known.
const unknown = "–"

// thin is the narrow space between thousands; it never breaks a line.
const thin = "\u202f"

// Number writes x with so many decimals: "4.20", "12 500", with the reader's
// decimal mark, and a dash for what is not known.
func (u Units) Number(x float64, decimals int) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return unknown
	}
	return u.digits(strconv.FormatFloat(x, 'f', decimals, 64))
}

// digits sets a plain number in the reader's form.
func (u Units) digits(s string) string {
	sign := ""
	if rest, negative := strings.CutPrefix(s, "-"); negative {
		s = rest
		if strings.ContainsAny(s, "123456789") {
			sign = "−"
		}
	}
	whole, part, point := strings.Cut(s, ".")
	if len(whole) > 4 {
		for i := len(whole) - 3; i > 0; i -= 3 {
			whole = whole[:i] + thin + whole[i:]
		}
	}
	switch {
	case !point:
		return sign + whole
	case u.Comma:
		return sign + whole + "," + part
	}
	return sign + whole + "." + part
}

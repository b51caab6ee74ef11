package words

import (
	"math"
	"strconv"
	"strings"
	"time"
)

// Units is how a reader wants things told: language, units, decimal mark, dates
// and clock. The zero value is English in metric units with a decimal point, by
// the clock of the house.
type Units struct {
	Tongue     Tongue
	Fahrenheit bool
	Mass       Mass
	Winchester bool // test weight in lb/bu in place of kg/hL
	Customary  bool // gal, ft, cfm and inches of water in place of m³, m, m³/h and Pa
	ASBC       bool // SRM and degrees Lintner in place of EBC and Windisch-Kolbach
	Mark       Mark
	Dates      Dates
	Zone       *time.Location // nil is the clock of the house
}

// Mass is what grain is counted in.
type Mass int

// A bushel is a mass here: 48 lb of barley, 34 lb of malt. What is neither, or
// may be either, is then given in pounds.
const (
	Tonnes Mass = iota
	Pounds
	Bushels
)

// Mark is the decimal mark.
type Mark int

// The marks.
const (
	MarkOfTongue Mark = iota
	MarkPoint
	MarkComma
)

// American is the choice of most maltsters in the United States.
var American = Units{Fahrenheit: true, Mass: Pounds, Winchester: true, Customary: true, ASBC: true}

// Comma reports whether numbers have a decimal comma.
func (u Units) Comma() bool {
	return u.Mark == MarkComma || u.Mark == MarkOfTongue && u.language().comma
}

// Plain is the same units in the form that programs read: English with a
// decimal point, by the clock of the house.
func (u Units) Plain() Units {
	u.Tongue, u.Mark, u.Dates, u.Zone = English, MarkPoint, DateInWords, nil
	return u
}

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
	case u.Comma():
		return sign + whole + "," + part
	}
	return sign + whole + "." + part
}

package unit

import (
	"math"
	"regexp"
	"strconv"
	"strings"
)

// Pattern returns a regular expression, in the syntax common to Go and
// JavaScript, that matches exactly the texts that Parse reads, limits included.
func (d Dimension) Pattern() string {
	var forms []string
	for _, u := range d.Units {
		names := make([]string, 0, 1+len(u.Aliases))
		for _, name := range append([]string{u.Symbol}, u.Aliases...) {
			name = strings.ReplaceAll(regexp.QuoteMeta(name), " ", " +")
			names = append(names, strings.Replace(name, "¤", "[A-Z]{3}", 1))
		}
		forms = append(forms, between(u.least, u.most, decimals)+" *"+either(names))
	}
	if d.composite {
		forms = append(forms, d.compositePatterns()...)
	}
	return "^ *" + either(forms) + " *$"
}

// compositePatterns are the patterns of "1 d 6 h" and "6 h 30 min".
func (d Dimension) compositePatterns() (patterns []string) {
	u, _, _ := d.find("s")
	add := func(largeLeast, largeMost, smallLeast, smallMost int, large, small string) {
		if largeLeast = max(largeLeast, 1); largeLeast <= largeMost && smallLeast <= smallMost {
			patterns = append(patterns, between(float64(largeLeast), float64(largeMost), 0)+" *"+large+" *"+
				between(float64(smallLeast), float64(smallMost), 0)+" *"+small)
		}
	}
	for _, f := range compositeForms {
		least := int(math.Ceil(u.least / float64(f.seconds)))
		most := int(math.Floor(u.most / float64(f.seconds)))
		first, last := least/f.parts, most/f.parts
		if first == last {
			add(first, last, least%f.parts, most%f.parts, f.large, f.small)
			continue
		}
		add(first, first, least%f.parts, f.parts-1, f.large, f.small)
		add(first+1, last-1, 0, f.parts-1, f.large, f.small)
		add(last, last, 0, most%f.parts, f.large, f.small)
	}
	return patterns
}

// between returns an expression for the numerals from least to most.
func between(least, most float64, decimals int) string {
	var signs []string
	if most >= 0 {
		signs = append(signs, magnitudes(max(least, 0), most, decimals)...)
	}
	if least <= 0 {
		signs = append(signs, "[-−]"+either(magnitudes(math.Abs(min(most, 0)), math.Abs(least), decimals)))
	}
	return either(signs)
}

// magnitudes returns an expression for each number of digits before the point.
func magnitudes(least, most float64, decimals int) (forms []string) {
	lo, hi := fixed(least, decimals), fixed(most, decimals)
	point := func(s string) int { return strings.IndexByte(s, '.') }
	for n := point(lo); n <= point(hi); n++ {
		from, to := "0", strings.Repeat("9", n)
		if n > 1 {
			from = "1" + strings.Repeat("0", n-1)
		}
		from, to = from+"."+strings.Repeat("0", decimals), to+"."+strings.Repeat("9", decimals)
		if n == point(lo) {
			from = lo
		}
		if n == point(hi) {
			to = hi
		}
		forms = append(forms, span(from, to))
	}
	return forms
}

// fixed writes x with its point, even if no digit follows it.
func fixed(x float64, decimals int) string {
	s := strconv.FormatFloat(x, 'f', decimals, 64)
	if decimals == 0 {
		s += "."
	}
	return s
}

// span returns an expression for the digits that may follow, between two
// digit strings of one length with the point at one place. Behind the point
// the digits may end wherever only zeros are left of the lower one.
func span(lo, hi string) string {
	zeros, nines := strings.Trim(lo, "0.") == "", strings.Trim(hi, "9.") == ""
	whole := strings.IndexByte(lo, '.')
	switch {
	case lo == "" || lo == ".":
		return ""
	case whole < 0 && zeros && nines:
		return "[0-9]{0," + strconv.Itoa(len(lo)) + "}"
	case whole == 0:
		return optional(`\.`+first(lo[1:], hi[1:]), zeros)
	case whole < 0:
		return optional(first(lo, hi), zeros)
	case whole > 1 && zeros && nines:
		return "[0-9]{" + strconv.Itoa(whole) + "}" + span(lo[whole:], hi[whole:])
	}
	return first(lo, hi)
}

// first branches on the first digit: at a limit's own digit the rest is bound
// by that limit, between them it is free.
func first(lo, hi string) string {
	low, high := lo[0], hi[0]
	least, most := rest(lo, '0'), rest(hi, '9')
	if low == high {
		return string(low) + span(lo[1:], hi[1:])
	}
	var forms []string
	if lo[1:] != least {
		forms = append(forms, string(low)+span(lo[1:], most))
		low++
	}
	last := ""
	if hi[1:] != most {
		last = string(high) + span(least, hi[1:])
		high--
	}
	if low <= high {
		forms = append(forms, "["+string(low)+"-"+string(high)+"]"+span(least, most))
	}
	if last != "" {
		forms = append(forms, last)
	}
	return either(forms)
}

// rest is the string behind the first digit with each digit replaced.
func rest(s string, digit rune) string {
	return strings.Map(func(r rune) rune {
		if r == '.' {
			return r
		}
		return digit
	}, s[1:])
}

func either(forms []string) string {
	if len(forms) == 1 {
		return forms[0]
	}
	return "(?:" + strings.Join(forms, "|") + ")"
}

func optional(form string, may bool) string {
	if !may {
		return form
	}
	return "(?:" + form + ")?"
}

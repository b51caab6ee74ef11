package web

import (
	"maps"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"time"

	"awn/internal/slip"
	"awn/internal/words"
)

// measured are the hints of fields that hold a number with its unit.
var measured = []string{"MASS", "FIGURE", "AMOUNT", "“NAME VALUE”", "“PLACE MASS”"}

// number is a number with a mark in it, as somebody types it.
var number = regexp.MustCompile(`(^|[\s<])(\d+)([.,])(\d+)`)

// inMark is what was typed in a slip with a decimal point, where the reader has
// a decimal comma. A number that could as well have its mark between thousands
// is refused: 1,234 and 1.234, but not 0,125 or 28,1. Units are never put in: a
// number without one is refused by whoever reads the slip.
func inMark(u words.Units, one slip.Slip, typed url.Values) (url.Values, error) {
	if !u.Comma() {
		return typed, nil
	}
	out, faults := maps.Clone(typed), slip.Faults{}
	for _, f := range slip.Fields(one) {
		if !slices.Contains(measured, f.Hint) {
			continue
		}
		out[f.Name] = slices.Clone(typed[f.Name])
		for i, text := range typed[f.Name] {
			for _, n := range number.FindAllStringSubmatch(text, -1) {
				if whole, part := n[2], n[4]; len(part) == 3 && len(whole) <= 3 && whole != "0" {
					faults = append(faults, slip.Of(f.Name, "slip.mark.ambiguous", whole+n[3]+part, whole+part, whole+","+part+"0"))
				}
			}
			out[f.Name][i] = number.ReplaceAllString(text, "$1$2.$4")
		}
	}
	if len(faults) > 0 {
		return nil, faults
	}
	return out, nil
}

// moment reads a time as the reader sees times: by the reader's clock, and in
// the reader's form of a date. It is kept by the clock of the house.
func (s *Server) moment(u words.Units, text string) (time.Time, error) {
	var layouts []string
	if l := u.DateLayout(); l != "" {
		layouts = append(layouts, l)
	}
	at, err := slip.Moment(strings.ReplaceAll(text, ",", ""), s.House.Clock().In(u.In(s.House.Zone)), layouts...)
	return at.In(s.House.Zone), err
}

// typedLayout is how a time is typed.
const typedLayout = "2006-01-02 15:04"

// byHouse is what was typed in a slip with its times by the clock of the house,
// where the reader has another. What is no time is left for whoever reads the
// slip to refuse.
func (s *Server) byHouse(u words.Units, one slip.Slip, typed url.Values) url.Values {
	out := maps.Clone(typed)
	for _, f := range slip.Fields(one) {
		if f.Hint != "WHEN" {
			continue
		}
		if at, err := s.moment(u, typed.Get(f.Name)); err == nil {
			out.Set(f.Name, at.Format(typedLayout))
		}
	}
	return out
}

// zoneName is the name of a time zone that a browser knows, "" if it has none.
func zoneName(z *time.Location) string {
	if z == nil || z == time.Local {
		return ""
	}
	return z.String()
}

// hintOf is what may stand in a field, in the reader's language.
func hintOf(u words.Units, f slip.Field) string {
	if f.Hint == "" {
		return ""
	}
	return u.Say("slip.hint." + strings.ToLower(f.Hint))
}

// wordsOf are the words of a field that takes no others, as the reader knows
// them. An act that has to be named is one of a list too.
func wordsOf(u words.Units, f slip.Field, value string) (out []option) {
	all := f.Words
	if len(all) > 0 && f.Usual == "" {
		all = append([]string{""}, all...)
	}
	for _, w := range all {
		label := ""
		if w != "" {
			label = u.Say("slip.word." + w)
		}
		out = append(out, option{w, label, w == value})
	}
	return out
}

package paper

import (
	"regexp"
	"time"

	"awn/unit"
)

// Date is a day: "2026-08-31".
type Date struct{ time.Time }

const dateForm = "2006-01-02"

var isDate = regexp.MustCompile(`^(?:19[89][0-9]|20[0-9]{2})-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12][0-9]|3[01])$`)

func (Date) form(_, _ string) (func() string, func(string) (any, error), error) {
	return isDate.String, func(text string) (any, error) {
		if !isDate.MatchString(text) {
			return nil, &unit.Error{Code: "document.time.form", Got: text, Allowed: []string{"2026-08-31"}}
		}
		t, err := time.Parse(dateForm, text)
		if err != nil {
			return nil, &unit.Error{Code: "document.time.day", Got: text}
		}
		return Date{t}, nil
	}, nil
}

// text is the date as it is written, "" if there is none.
func (d *Date) text() string {
	if d == nil {
		return ""
	}
	return d.Format(dateForm)
}

const hoursPerDay = 24

// daysAfter counts the days from another date.
func (d Date) daysAfter(from Date) float64 { return d.Sub(from.Time).Hours() / hoursPerDay }

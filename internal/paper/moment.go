package paper

import (
	"regexp"
	"time"

	"awn/unit"
)

// Moment is a time of day with its offset from UTC: "2026-03-02T06:00+01:00".
type Moment struct{ time.Time }

const momentForm = "2006-01-02T15:04Z07:00"

var isMoment = regexp.MustCompile(`^(?:19[89][0-9]|20[0-9]{2})-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12][0-9]|3[01])T(?:[01][0-9]|2[0-3]):[0-5][0-9](?:Z|[-+](?:0[0-9]|1[0-4]):[0-5][0-9])$`)

func (Moment) form(_, _ string) (func() string, func(string) (any, error), error) {
	return isMoment.String, func(text string) (any, error) {
		if !isMoment.MatchString(text) {
			return nil, &unit.Error{Code: "document.time.form", Got: text, Allowed: []string{"2026-03-02T06:00+01:00"}}
		}
		t, err := time.Parse(momentForm, text)
		if err != nil {
			return nil, &unit.Error{Code: "document.time.day", Got: text}
		}
		return Moment{t}, nil
	}, nil
}

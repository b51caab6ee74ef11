package words

import "time"

// Weekday writes a day with its name and without its year: "Tue 3 Nov".
func (u Units) Weekday(t time.Time) string {
	return u.Say("moment.day", "weekday", u.language().weekdays[t.Weekday()], "day", u.DayOfMonth(t))
}

// DayOfMonth writes a day as it stands along an axis: "3 Nov".
func (u Units) DayOfMonth(t time.Time) string {
	return u.Say("day.month", "day", t.Format("2"), "month", u.language().months[t.Month()-1])
}

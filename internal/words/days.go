package words

import "time"

// Day writes a day by the clock of the house, without its time.
func (u Units) Day(t time.Time) string {
	l := u.language()
	return u.Say("moment.day", "weekday", l.weekdays[t.Weekday()], "day", t.Format("2"), "month", l.months[t.Month()-1])
}

// DayOfMonth writes a day as it stands along an axis: "3 Nov".
func (u Units) DayOfMonth(t time.Time) string {
	return u.Say("day", "day", t.Format("2"), "month", u.language().months[t.Month()-1])
}

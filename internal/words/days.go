package words

import "time"

// Day writes a day by the clock of the house, without its time.
func (u Units) Day(t time.Time) string {
	l := u.language()
	return u.Say("moment.day", "weekday", l.weekdays[t.Weekday()], "day", t.Format("2"), "month", l.months[t.Month()-1])
}

package words

import "time"

// Day writes a day of a month as it stands along an axis: "3 Nov".
func (u Units) Day(t time.Time) string {
	return u.Say("day", "day", t.Format("2"), "month", u.language().months[t.Month()-1])
}

package words

import "time"

// Dates is the form of a date.
type Dates int

// The forms: 25 Nov 2026, 2026-11-25, 25/11/2026 and 11/25/2026.
const (
	DateInWords Dates = iota
	DateISO
	DateDayFirst
	DateMonthFirst
)

// layouts are the forms without words, as package time writes them.
var layouts = map[Dates]string{DateISO: time.DateOnly, DateDayFirst: "02/01/2006", DateMonthFirst: "01/02/2006"}

// Moment writes a time: ms since 1970 UTC, and the minutes by which the clock of
// the house was ahead. A reader in another zone has it by the own clock, with
// how far that is ahead of UTC wherever it differs from the house's.
func (u Units) Moment(ms int64, offsetMin int) string {
	t := time.UnixMilli(ms).In(time.FixedZone("", offsetMin*60))
	apart := ""
	if u.Zone != nil {
		own := t.In(u.Zone)
		if _, ahead := own.Zone(); ahead != offsetMin*60 {
			apart = " " + own.Format("-07:00")
		}
		t = own
	}
	clock := t.Format("15:04") + apart
	if layout, ok := layouts[u.Dates]; ok {
		return t.Format(layout) + " " + clock
	}
	return u.Say("moment", "weekday", u.language().weekdays[t.Weekday()], "day", u.Day(t), "time", clock)
}

// Day writes a date.
func (u Units) Day(t time.Time) string {
	if layout, ok := layouts[u.Dates]; ok {
		return t.Format(layout)
	}
	return u.Say("day", "day", t.Format("2"), "month", u.language().months[t.Month()-1], "year", t.Format("2006"))
}

// DateLayout is the form in which the reader may type a date besides
// 2026-11-25; "" if there is none.
func (u Units) DateLayout() string {
	if u.Dates == DateISO {
		return ""
	}
	return layouts[u.Dates]
}

// In is the reader's clock, where the house's is another.
func (u Units) In(house *time.Location) *time.Location {
	if u.Zone != nil {
		return u.Zone
	}
	return house
}

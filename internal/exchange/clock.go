package exchange

import (
	"math"
	"strconv"
	"strings"
	"time"

	"awn/internal/paper"
)

// moment is a time as the record keeps it.
type moment struct {
	ms        int64
	offsetMin int
}

// clock reads times as a map says.
type clock struct {
	form   string // as the map writes it
	layout string // "" for the day numbers of a spreadsheet
	place  string
	zone   *time.Location
}

// layouts turns the form of a map into one of package time. Leading zeros may
// be missing.
var layouts = strings.NewReplacer("YYYY", "2006", "MM", "1", "DD", "2", "hh", "15", "mm", "4", "ss", "5")

func newClock(how paper.ImportMap) clock {
	c := clock{form: how.TimeForm(), place: how.Zone}
	if c.form != "serial" {
		c.layout = layouts.Replace(c.form)
	}
	var err error
	if c.zone, err = time.LoadLocation(how.Zone); err != nil {
		c.zone = time.UTC // a map with such a zone is refused when it is read
	}
	return c
}

// time reads when a row happened.
func (r *row) time() moment {
	field, text := "at", ""
	if _, ok := r.find("at"); ok || r.in.fixed["at"] != "" {
		text = r.needed("at")
	} else if field, text = "date", r.needed("date"); text != "" {
		if clock := r.text("clock"); clock != "" {
			text += " " + clock
		}
	}
	if text == "" {
		return moment{}
	}
	m, f := r.in.zone.read(text)
	if f.Code != "" {
		r.in.fault(r.line, r.header(field), f)
	}
	return m
}

// read reads a time on the wall. Where the clock was put back, the first of the two is
// taken.
func (c clock) read(text string) (moment, Fault) {
	wall, ok := c.wall(text)
	if !ok {
		return moment{}, Fault{Code: "import.time.form", Got: text, Allowed: []string{c.form}}
	}
	t := time.Date(wall.Year(), wall.Month(), wall.Day(), wall.Hour(), wall.Minute(), wall.Second(), 0, c.zone)
	if t.Hour() != wall.Hour() || t.Minute() != wall.Minute() {
		return moment{}, Fault{Code: "import.time.gap", Got: text, Allowed: []string{c.place}}
	}
	t = c.firstOf(t)
	_, offsetS := t.Zone()
	return moment{t.UnixMilli(), offsetS / 60}, Fault{}
}

// wall reads what the clock showed.
func (c clock) wall(text string) (time.Time, bool) {
	if c.layout == "" {
		return serial(text)
	}
	t, err := time.Parse(c.layout, text)
	return t, err == nil
}

// firstOf is the earlier of the two times at which the clock on the wall showed
// what it shows at t, and t where there is one only.
func (c clock) firstOf(t time.Time) time.Time {
	_, nowS := t.Zone()
	_, beforeS := t.Add(-longestFold).Zone()
	earlier := t.Add(time.Duration(nowS-beforeS) * time.Second)
	if _, s := earlier.Zone(); beforeS > nowS && s == beforeS {
		return earlier
	}
	return t
}

// longestFold is more than any clock is put back at once.
const longestFold = 3 * time.Hour

// dayZero is the day before which spreadsheets count none: 1 is 1900-01-01 to
// them, and 60 a 29 February that never was, so that from March 1900 on the
// count starts here.
var dayZero = time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)

// Bounds of day numbers: March 1980 and the year 2200, with a reader's typing
// errors outside.
const (
	firstDay = 29281
	lastDay  = 109575
)

// serial reads a day number, to the second.
func serial(text string) (time.Time, bool) {
	x, err := strconv.ParseFloat(text, 64)
	if err != nil || !(x >= firstDay && x < lastDay) {
		return time.Time{}, false
	}
	day, part := math.Modf(x)
	return dayZero.AddDate(0, 0, int(day)).Add(time.Duration(math.Round(part*86400)) * time.Second), true
}

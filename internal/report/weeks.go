package report

import (
	"math"
	"strings"
	"time"

	"awn/internal/expect"
	"awn/internal/words"
	"awn/schedule"
)

// WeeksAccount tells pieces on their way through the weeks.
type WeeksAccount struct {
	*expect.Weeks
	Units words.Units
}

// at writes an hour of the axis as a moment.
func (a WeeksAccount) at(h float64) string {
	t := a.Time(h)
	_, offset := t.Zone()
	return a.Units.Moment(t.Round(time.Minute).UnixMilli(), offset/60)
}

// day writes an hour of the axis as a day.
func (a WeeksAccount) day(h float64) string { return a.Units.Day(a.Time(h)) }

// name is what a run is called.
func (a WeeksAccount) name(i int) string {
	r := a.Runs[i]
	if !r.Meant {
		return string(a.Of[i].Piece)
	}
	when := a.at(r.Legs[0].From.H)
	if r.Order != "" {
		return a.Units.Say("weeks.meant-for", "when", when, "order", r.Order)
	}
	return a.Units.Say("weeks.meant", "when", when)
}

// vessel is what a vessel is called.
func (a WeeksAccount) vessel(road schedule.Road, name string) string {
	switch {
	case name != "":
		return name
	case road == schedule.Store:
		return a.Units.Say("weeks.at-rest")
	}
	return a.Units.Say("weeks.unnamed")
}

// order says when an order is ready, beside when it is due.
func (a WeeksAccount) order(o schedule.Order) string {
	u := a.Units
	if math.IsNaN(o.Ready.H) {
		for _, i := range o.Runs {
			if len(a.Runs[i].Ready) == 0 {
				return u.Say("weeks.ready-not", "order", o.Name, "piece", a.name(i))
			}
		}
	}
	ready := u.Say("weeks.ready", "order", o.Name, "ready", a.day(o.Ready.H), "early", a.day(o.Ready.LowH), "late", a.day(o.Ready.HighH))
	drawn := o.Ready.HighH > o.Ready.LowH
	if !drawn {
		ready = u.Say("weeks.ready-sure", "order", o.Name, "ready", a.day(o.Ready.H))
	}
	switch {
	case math.IsNaN(o.DueH):
		return u.Say("weeks.no-due", "ready", ready)
	case drawn:
		return u.Say("weeks.due", "ready", ready, "due", a.day(o.DueH), "odds", u.Number(100*o.InTime.Fraction(), 0))
	}
	verdict := u.Say("weeks.in-time")
	if o.Ready.H > o.DueH {
		verdict = u.Say("weeks.late", "span", u.Span(o.Ready.H-o.DueH))
	}
	return u.Say("weeks.due-plan", "ready", ready, "due", a.day(o.DueH), "verdict", verdict)
}

// clash names a double booking.
func (a WeeksAccount) clash(c schedule.Clash) string {
	phrase := "weeks.clash"
	first := a.Runs[c.First]
	switch {
	case !c.Certainly:
		phrase = "weeks.clash-maybe"
	case first.Legs[len(first.Legs)-1].Open:
		phrase = "weeks.clash-open"
	}
	return a.Units.Say(phrase, "vessel", words.Capital(a.vessel(c.Vessel.Road, c.Vessel.Name)), "first", a.name(c.First), "second", a.name(c.Second),
		"from", a.at(c.From), "until", a.until(c))
}

// until is when the first piece of a double booking leaves.
func (a WeeksAccount) until(c schedule.Clash) string {
	for _, l := range a.Runs[c.First].Legs {
		if l.Road == c.Vessel.Road && l.Vessel == c.Vessel.Name {
			if c.Certainly {
				return a.at(l.To.H)
			}
			return a.at(l.To.HighH)
		}
	}
	return a.at(c.To)
}

// Said is the account in sentences: orders, double bookings, the next steep
// that is free. Grave are those that somebody has to mind.
func (a WeeksAccount) Said() (orders, clashes []string, free string) {
	u := a.Units
	for _, o := range a.Orders {
		orders = append(orders, a.order(o))
	}
	if len(orders) == 0 {
		orders = []string{u.Say("weeks.no-orders")}
	}
	for _, c := range a.Clashes {
		clashes = append(clashes, a.clash(c))
	}
	free = u.Say("weeks.no-free")
	next := math.Inf(1)
	for _, g := range a.Gaps {
		if g.Vessel.Road == schedule.Steep && g.From < next {
			next = g.From
			free = u.Say("weeks.free", "vessel", a.vessel(schedule.Steep, g.Vessel.Name), "from", a.at(g.From), "to", a.at(g.To))
		}
	}
	return orders, clashes, free
}

// Live is the account as a page shows it.
func (a WeeksAccount) Live() *Live {
	u, n := a.Units, &counter{}
	orders, clashes, free := a.Said()
	if len(clashes) == 0 {
		clashes = []string{u.Say("weeks.no-clash")}
	}
	l := &Live{Verdict: strings.Join(orders, " "), Lines: append(clashes, free), Compared: true, units: u}
	l.Figures = n.figures([]string{u.Say("weeks.title")}, a.picture())
	l.Figures[0].Table.Words = map[int]bool{0: true, 1: true, 2: true, 3: true, 4: true, 5: true, 6: true}
	l.Tables = a.tables()
	return l.numbered()
}

// tables are the orders and the gaps.
func (a WeeksAccount) tables() (out []table) {
	u := a.Units
	allWords := map[int]bool{0: true, 1: true, 2: true, 3: true, 4: true}
	if len(a.Orders) > 0 {
		t := table{
			Caption: u.Say("weeks.orders"), Note: u.Say("weeks.rest"), Words: allWords,
			Head: []string{u.Say("weeks.head.order"), u.Say("weeks.head.due"), u.Say("weeks.head.ready"), u.Say("weeks.head.likely"), u.Say("weeks.head.odds")},
		}
		for _, o := range a.Orders {
			t.Rows = append(t.Rows, []string{o.Name, a.orDash(o.DueH), a.orDash(o.Ready.H), a.band(o.Ready), a.inTime(o)})
		}
		out = append(out, t)
	}
	if len(a.Gaps) > 0 {
		t := table{
			Caption: u.Say("weeks.gaps"), Words: allWords, Shut: true,
			Head: []string{u.Say("weeks.head.vessel"), u.Say("weeks.head.from"), u.Say("weeks.head.to")},
		}
		for _, g := range a.Gaps {
			t.Rows = append(t.Rows, []string{a.vessel(g.Vessel.Road, g.Vessel.Name), a.at(g.From), a.at(g.To)})
		}
		out = append(out, t)
	}
	return out
}

func (a WeeksAccount) orDash(h float64) string {
	if math.IsNaN(h) {
		return "–"
	}
	return a.at(h)
}

// band is where a moment falls eight times in ten.
func (a WeeksAccount) band(m schedule.Moment) string {
	if !(m.HighH > m.LowH) {
		return ""
	}
	return a.Units.Say("weeks.band", "early", a.at(m.LowH), "late", a.at(m.HighH))
}

// inTime is the chance of an order, in words.
func (a WeeksAccount) inTime(o schedule.Order) string {
	if o.InTime.Of < 2 {
		return "–"
	}
	return a.Units.Say("odds.line", "odds", a.Units.Number(100*o.InTime.Fraction(), 0))
}

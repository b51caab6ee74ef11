package report

import (
	"slices"
	"time"

	"awn/internal/draw"
	"awn/schedule"
)

// tickDays are how many days lie between two marks, by how many weeks are shown.
func tickDays(weeks float64) int {
	switch {
	case weeks <= 2:
		return 1
	case weeks <= 13:
		return 7
	}
	return 28
}

// A picture of at most so many hours is marked every few of them.
const (
	mostHoursMarked = 72
	tickHours       = 6
	tickRoom        = 2 * time.Hour // that the word of a mark takes
)

// ticks are the marks of the axis: days, or hours where few days are shown.
func (a WeeksAccount) ticks(hour func(time.Time) float64) (out []draw.Moment) {
	days, from := hour(a.To)/24, a.From
	if hour(a.To) > mostHoursMarked {
		for t, step := from, tickDays(days/7); t.Before(a.To); t = t.AddDate(0, 0, step) {
			out = append(out, draw.Moment{AtH: hour(t), Word: a.Units.Weekday(t)})
		}
		return out
	}
	for t := time.Date(from.Year(), from.Month(), from.Day(), 0, 0, 0, 0, from.Location()); t.Before(a.To); t = t.Add(tickHours * time.Hour) {
		word := t.Format("15:04")
		if t.Hour() == 0 {
			word = a.Units.Weekday(t)
		}
		if !t.Before(from) && t.Before(a.To.Add(-tickRoom)) {
			out = append(out, draw.Moment{AtH: hour(t), Word: word})
		}
	}
	return out
}

// picture is the string diagram.
func (a WeeksAccount) picture() draw.Picture {
	u, hour := a.Units, func(t time.Time) float64 { return t.Sub(a.From).Hours() }
	d := draw.Strings{
		ID: "weeks", Title: u.Say("weeks.title"), Says: u.Say("weeks.says"), ToH: hour(a.To), NowH: hour(a.Now), NowWord: u.Say("moment.now"),
		Table: a.legTable(),
	}
	d.Ticks = a.ticks(hour)
	last := schedule.Silo
	for _, v := range a.Vessels {
		t := draw.Track{Name: a.vessel(v.Road, v.Name)}
		if v.Road != last {
			t.Head, last = u.Say("weeks.road."+v.Road.String()), v.Road
		}
		d.Tracks = append(d.Tracks, t)
	}
	for i, r := range a.Runs {
		d.Pieces = append(d.Pieces, draw.Strung{Name: a.label(i), Legs: a.legs(r, d.NowH)})
	}
	for _, c := range a.Clashes {
		if c.To <= d.FromH || c.From >= d.ToH {
			continue // elsewhere on the axis
		}
		word := u.Say("weeks.double")
		if !c.Certainly {
			word = u.Say("weeks.maybe")
		}
		d.Doubles = append(d.Doubles, draw.Double{Track: a.track(c.Vessel.Road, c.Vessel.Name), FromH: c.From, ToH: c.To, Word: word, Possible: !c.Certainly})
	}
	for _, o := range a.Orders {
		aim := draw.Aim{Name: o.Name, ReadyH: o.Ready.H, ReadyHem: [2]float64{o.Ready.LowH, o.Ready.HighH}, DueH: o.DueH}
		aim.ReadyWord, aim.DueWord = u.Say("weeks.ready-word", "day", a.day(o.Ready.H)), u.Say("weeks.due-word", "day", a.day(o.DueH))
		d.Aims = append(d.Aims, aim)
	}
	return Report{Units: u}.pen().Strings(d)
}

// label is what stands on a line.
func (a WeeksAccount) label(i int) string {
	if a.Runs[i].Meant {
		return a.Units.Weekday(a.Time(a.Runs[i].Legs[0].From.H))
	}
	return string(a.Of[i].Piece)
}

// track is the number of a vessel.
func (a WeeksAccount) track(road schedule.Road, name string) int {
	return slices.IndexFunc(a.Vessels, func(v schedule.Vessel) bool { return v.Road == road && v.Name == name })
}

var roadHatch = map[schedule.Road]draw.Hatch{schedule.Steep: draw.Waves, schedule.Germinate: draw.Strokes, schedule.Kiln: draw.Lines}

// legs are the stays of a run, inked until now where they began.
func (a WeeksAccount) legs(r schedule.Run, now float64) (out []draw.StrungLeg) {
	for _, l := range r.Legs {
		one := draw.StrungLeg{
			Track: a.track(l.Road, l.Vessel), FromH: l.From.H, ToH: l.To.H, InkedH: l.From.H,
			ToHem: [2]float64{l.To.LowH, l.To.HighH}, Hatch: roadHatch[l.Road],
		}
		switch {
		case l.Ended:
			one.InkedH = l.To.H
		case l.Begun:
			one.InkedH = min(now, l.To.H)
		}
		out = append(out, one)
	}
	return out
}

// legTable is each stay in words.
func (a WeeksAccount) legTable() draw.Table {
	u := a.Units
	t := draw.Table{Head: []string{
		u.Say("weeks.head.piece"), u.Say("weeks.head.order"), u.Say("weeks.head.vessel"), u.Say("weeks.head.from"), u.Say("weeks.head.to"),
		u.Say("weeks.head.likely"), u.Say("weeks.head.stands"),
	}}
	for i, r := range a.Runs {
		for _, l := range r.Legs {
			stands := "ahead"
			switch {
			case l.Ended:
				stands = "done"
			case l.Open:
				stands = "open"
			case l.Begun:
				stands = "there"
			case r.Meant:
				stands = "meant"
			}
			t.Rows = append(t.Rows, []string{
				a.name(i), r.Order, a.vessel(l.Road, l.Vessel), a.at(l.From.H), a.at(l.To.H), a.band(l.To), u.Say("weeks.stands." + stands),
			})
		}
	}
	return t
}

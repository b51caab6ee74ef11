package report

import (
	"io"
	"math"

	"awn/internal/house"
	"awn/schedule"
)

// Text writes the weeks for a terminal.
func (a WeeksAccount) Text(w io.Writer) error {
	p := &printer{}
	orders, rest := a.said()
	for _, s := range append(orders, rest...) {
		p.wrapped("", s)
	}
	p.rule()
	for i, r := range a.Runs {
		head := join([]string{a.name(i), r.Order})
		if r.Meant {
			head = join([]string{a.name(i), string(a.Of[i].Intention)})
		}
		p.wrapped("", head)
		for _, l := range r.Legs {
			p.line("  " + pad(a.vessel(l.Road, l.Vessel), 14) + " " + a.at(l.From.H) + " – " + a.at(l.To.H))
		}
	}
	p.rule()
	_, err := io.WriteString(w, p.String())
	return err
}

// JSON writes the weeks for programs.
func (a WeeksAccount) JSON(w io.Writer, v house.Version) error {
	ms := func(h float64) int64 { return a.Time(h).UnixMilli() }
	moment := func(o object, key string, m schedule.Moment) {
		if math.IsNaN(m.H) {
			return
		}
		o[key+"_ms"] = ms(m.H)
		if m.HighH > m.LowH {
			o[key+"_p10_ms"], o[key+"_p90_ms"] = ms(m.LowH), ms(m.HighH)
		}
	}
	runs := []object{}
	for i, r := range a.Runs {
		o := object{"legs": each(r.Legs, func(l schedule.Leg) object {
			leg := object{"road": l.Road.String(), "vessel": l.Vessel, "begun": l.Begun, "ended": l.Ended}
			moment(leg, "from", l.From)
			if !l.Open {
				moment(leg, "to", l.To)
			}
			return leg
		})}
		runs = append(runs, o.text("piece", string(a.Of[i].Piece)).text("intention", string(a.Of[i].Intention)).text("order", r.Order))
	}
	called := func(i int) string {
		if a.Of[i].Piece != "" {
			return string(a.Of[i].Piece)
		}
		return string(a.Of[i].Intention)
	}
	return recordJSON(w, "weeks/1", v, object{
		"runs": runs,
		"orders": each(a.Orders, func(o schedule.Order) object {
			out := object{"order": o.Name}
			moment(out, "ready", o.Ready)
			if !math.IsNaN(o.DueH) {
				out["due_ms"] = ms(o.DueH)
			}
			if o.InTime.Of > 1 {
				out["in_time"] = o.InTime.Fraction()
			}
			return out
		}),
		"clashes": each(a.Clashes, func(c schedule.Clash) object {
			return object{"vessel": c.Vessel.Name, "road": c.Vessel.Road.String(), "first": called(c.First), "second": called(c.Second), "from_ms": ms(c.From), "certain": c.Certainly}
		}),
		"gaps": each(a.Gaps, func(g schedule.Gap) object {
			return object{"vessel": g.Vessel.Name, "road": g.Vessel.Road.String(), "from_ms": ms(g.From), "to_ms": ms(g.To)}
		}),
	})
}

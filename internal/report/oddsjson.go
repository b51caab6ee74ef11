package report

import (
	"awn/course"
	"awn/malt"
	"awn/programme"
)

// odds is the ensemble for machines; nil where no draws were made.
func (r Report) odds() object {
	o := r.Odds
	if o == nil {
		return nil
	}
	figures := object{}
	for _, b := range o.Bands {
		figures[b.Key] = object{"draws": b.Known}.num("p10", b.P10).num("p50", b.P50).num("p90", b.P90)
	}
	out := object{
		"draws": o.Done, "asked": o.Asked, "failed": o.Failed, "calibrated": false,
		"figures": figures, "curve": curveBand(o.Curve), "lines": r.oddsLines(), "advice": r.adviceObject(),
		"drivers": r.driverObjects(), "measure_next": each(o.Next, measuring),
	}
	if len(o.Lines) > 0 {
		out.num("all_lines_chance", o.All.Share())
	}
	if len(o.Faults) > 0 {
		out["faults"] = each(o.Faults, func(f course.Fault) object { return object{"draw": f.Draw, "reason": f.Err.Error()} })
	}
	if len(o.Totals) > 0 {
		out["total_shares"] = each(o.Totals, r.total)
	}
	return out
}

func (r Report) oddsLines() []object {
	out := make([]object, len(r.Odds.Lines))
	for i, l := range r.Odds.Lines {
		out[i] = object{"figure": l.Limit.Parameter.Key(l.Limit.Basis), "draws": l.In.Of}.
			num("chance", l.In.Share()).num("p10", l.P10).num("p50", l.P50).num("p90", l.P90).num("guard_band", r.Odds.Guards[i])
	}
	return out
}

func (r Report) adviceObject() object {
	a := r.Odds.Advice
	checks := each(a.Measured, func(c course.Check) object {
		l := r.Odds.Lines[c.Line].Limit
		return object{"figure": l.Parameter.Key(l.Basis), "published": c.Published}.
			num("deviation", c.Deviation).num("guard", c.Guard).num("released_beyond_limit_chance", c.AtLimit)
	})
	blends := each(a.Blends, func(b course.Blend) object {
		l := r.Odds.Lines[b.Line].Limit
		return object{"figure": l.Parameter.Key(l.Basis)}.num("partner_least", b.Least).num("partner_most", b.Most)
	})
	return object{"act": a.Act, "measure": checks, "blend": blends}.num("risk", a.Risk).num("out_prior_chance", a.Prior).
		num("released_chance", a.Released).num("out_given_released_chance", a.OutGivenReleased)
}

// driverObjects leave out what a regression cannot tell.
func (r Report) driverObjects() []object {
	var out []object
	for _, d := range r.Odds.Drivers {
		l := r.Odds.Lines[d.Line].Limit
		one := object{"figure": l.Parameter.Key(l.Basis), "logarithm": d.Log, "shown": d.Good()}.num("r2", d.R2)
		if d.Good() {
			var shares []object
			for _, s := range d.Shares {
				in := r.Odds.Inputs[s.Input]
				shares = append(shares, object{"input": in.Key, "group": in.Group}.num("share", s.Share).num("deviation", s.Deviation))
			}
			one["shares"] = shares
		}
		out = append(out, one)
	}
	return out
}

func measuring(m course.Measuring) object {
	return object{"measure": m.Key}.num("work_h", m.Hours).num("wrong_release_chance", m.Now).num("fall", m.Fall).num("deviation", m.Deviation)
}

func (r Report) total(t course.Total) object {
	lines := object{}
	for i, l := range r.Odds.Lines {
		lines[l.Limit.Parameter.Key(l.Limit.Basis)] = object{}.num("share", t.Shares[i]).num("deviation", t.Deviation[i])
	}
	return object{"group": t.Group, "lines": lines}
}

// curveBand holds the 10th, 50th and 90th percentile of each reading as lists.
func curveBand(c course.CurveBand) object {
	out := object{"time_h": c.TimeH}
	for key, at := range map[string][]programme.Values{"p10": c.P10, "p50": c.P50, "p90": c.P90} {
		one := curve(course.Curve{TimeH: c.TimeH, At: at})
		delete(one, "time_h")
		out[key] = one
	}
	return out
}

// withOdds gives the figures of a malt the ends of their draws.
func (r Report) withOdds(analysis object) object {
	for _, p := range malt.Parameters() {
		f, ok := r.Outcome.Malt[p]
		if !ok {
			continue
		}
		key := p.Key(f.Basis)
		if b, ok := r.band("malt." + key); ok {
			analysis[key].(object).num("p10", b.P10).num("p50", b.P50).num("p90", b.P90)
		}
	}
	return analysis
}

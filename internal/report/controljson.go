package report

import (
	"io"

	"awn/complaint"
	"awn/finding"
	"awn/lab"
)

// JSON writes the account; figures of a quality stand in the unit that the table
// gives it, which is told beside them.
func (a ControlAccount) JSON(w io.Writer) error {
	var fs []object
	for _, r := range a.Remarks {
		o := a.findingObject(r.Finding, r.Quality).text("sample", r.Sample).text("since", day(r.Since)).text("from", day(r.From)).text("to", day(r.To))
		o["bench"] = benchObject(r.Bench)
		if r.Other != (lab.Bench{}) {
			o["other_bench"] = benchObject(r.Other)
		}
		if len(r.Lines) > 0 {
			o["lines"] = r.Lines
		}
		fs = append(fs, o)
	}
	for _, c := range a.Comparisons {
		for _, r := range c.Remarks(a.Results) {
			fs = append(fs, a.findingObject(r.Finding, r.Quality).text("term", r.Term).text("name", r.Name).text("other_term", r.Other))
		}
	}
	if fs == nil {
		fs = []object{}
	}
	rates := object{}
	for rule, n := range a.RuleRate {
		rates.num(string(rule), n)
	}
	result := object{
		"charts": each(a.Charts, a.chartObject), "benches": each(a.Benches, a.againstObject), "repeats": each(a.Repeats, a.repeatObject), "rings": each(a.Rings, a.ringObject),
		"pieces": each(a.Comparisons, a.comparisonObject), "readings_between_false_alarms": rates.num("all", a.AllRate),
	}
	return enveloped(w, "control/1", a.Version, a.Inputs, nil, result, fs)
}

func (a ControlAccount) findingObject(f finding.Finding, quality int) object {
	return findingObject(f).text("quality", a.Results.Qualities[quality].Name)
}

// qualityObject begins an object with its quality and unit.
func (a ControlAccount) qualityObject(quality int) object {
	q := a.Results.Qualities[quality]
	return object{"quality": q.Name}.text("unit", q.Unit)
}

func benchObject(b lab.Bench) object {
	return object{}.text("laboratory", b.Laboratory).text("instrument", b.Instrument).text("method", b.Method)
}

func (a ControlAccount) chartObject(c lab.Chart) object {
	o := a.qualityObject(c.Quality)
	o["bench"], o["missing"] = benchObject(c.Bench), c.Missing
	o["stretches"] = each(c.Segments, func(s lab.Segment) object {
		x := object{"limits_from": string(s.Basis), "base": s.Base, "drifts": s.Drifts}.text("sample", s.Sample).text("supply", s.Batch).
			num("centre", s.Centre).num("deviation", s.Sigma).num("range_limit", s.RangeMost).num("reference", s.Reference).num("bias", s.Bias).num("bias_se", s.BiasSE)
		if f := s.Shift; f != nil {
			x["change"] = object{"gradual": f.Gradual, "since": day(c.Points[f.At].Day), "from": day(c.Points[f.First].Day), "to": day(c.Points[f.Last].Day)}.
				num("size", f.Size).num("low", f.Low).num("high", f.High).num("size_each_day", f.PerDay)
		}
		return x
	})
	o["points"] = each(c.Points, func(p lab.Point) object {
		x := object{"day": day(p.Day), "n": p.N, "line": p.Line}.num("mean", p.Mean).num("range", p.Range).num("deviations", p.Z).
			num("sum_above", p.Up).num("sum_below", p.Down).num("weighted", p.Smooth).text("event", p.Event)
		if len(p.Broken) > 0 {
			x["broken"] = p.Broken
		}
		return x
	})
	return o
}

func (a ControlAccount) againstObject(x lab.Against) object {
	o := a.qualityObject(x.Quality)
	o["bench"], o["other_bench"], o["samples"] = benchObject(x.A), benchObject(x.B), len(x.Pairs)
	if x.Few {
		return o
	}
	l := x.Line
	o["line"] = object{}.num("slope", l.Slope).num("slope_se", l.SlopeSE).num("slope_low", l.SlopeLow).num("slope_high", l.SlopeHigh).num("offset", l.Offset).num("offset_se", l.OffsetSE)
	return o.num("difference", x.Difference).num("se", x.SE).num("low", x.Low).num("high", x.High).num("allowed", x.Allowed).num("beyond_chance", x.Beyond).
		num("reproducibility", x.R95).num("repeatability", x.Repeat)
}

func (a ControlAccount) repeatObject(x lab.RepeatsOf) object {
	o := a.qualityObject(x.Quality)
	o["bench"], o["samples"] = benchObject(x.Bench), x.Samples
	return o.num("deviation", x.Deviation).num("low", x.Low).num("high", x.High).num("limit", x.Limit).num("published", x.Published).num("worse_chance", x.Worse)
}

func (a ControlAccount) ringObject(x lab.Ring) object {
	o := a.qualityObject(x.Quality).text("sample", x.Sample).text("day", day(x.Day))
	o["bench"], o["primed"], o["laboratories"] = benchObject(x.Bench), x.Primed, x.Of
	return o.num("found", x.X).num("assigned", x.Assigned).num("deviation", x.SD).num("score", x.Score)
}

func (a ControlAccount) comparisonObject(c complaint.Comparison) object {
	o := a.qualityObject(c.Quality).text("cause", c.Cause).num("mean", c.Mean)
	o["figures"], o["pieces"] = c.Figures, c.Pieces
	o["parts"] = each(c.Parts, func(p complaint.Part) object {
		return object{"term": p.Term, "levels": p.Levels}.num("variance", p.Variance).num("deviation", p.SD).num("low", p.Low).num("high", p.High).
			num("share", p.Share).num("p", p.P).num("p_holm", p.PHolm)
	})
	o["left_out"] = each(c.Left, func(l complaint.Left) object {
		return object{"term": l.Term, "why": string(l.Why)}.text("with", l.With)
	})
	o["levels"] = each(c.Levels, func(l complaint.Level) object {
		return object{"term": l.Term, "name": l.Name, "figures": l.Figures}.num("difference", l.Difference.Value).num("se", l.Difference.SE).num("freedom", l.Difference.Freedom).
			num("low", l.Low).num("high", l.High).num("p", l.P).num("p_holm", l.PHolm)
	})
	return o
}

package report

import (
	"awn/crop"
	"awn/intake"
	"awn/malt"
)

// kgPerT is what turns tonnes into the kilograms of JSON.
const kgPerT = 1000

// object is the account for machines: fractions and kilograms. What is withheld
// from people is withheld here.
func (a CropAccount) object() object {
	s := a.Summary
	out := object{
		"samples": len(s.Survey.Samples), "farms": s.Farms, "lonely": a.Lonely, "weighting": s.Survey.Weighting,
		"qualities": each(s.Lines, a.lineObject), "districts": each(s.Districts, a.groupObject), "varieties": each(s.Varieties, a.groupObject),
		"strata": each(s.Strata, a.smallObject), "contracts": each(s.Takings, a.takingObject), "plans": each(s.Plans, planObject),
	}.text("survey", a.Name).num("sampled_kg", kgPerT*s.TonnesT).num("unseen_kg", kgPerT*s.UnseenT)
	if s.Season != 0 {
		out["season"] = s.Season
	}
	if a.Malting != nil {
		out["malt"] = object{"programme": a.Malting.Programme, "pilots": a.Malting.Pilots, "seasons": each(a.Malting.Seasons, maltSeasonObject)}
	}
	return out
}

func cropEstimate(e crop.Estimate) object {
	return object{"farms": e.Farms, "samples": e.Samples, "freedom": e.Freedom}.num("value", e.Value).num("se", e.SE).num("design_effect", e.DesignEffect)
}

func shareObject(s crop.Share) object {
	return cropEstimate(s.Estimate).num("low", s.Low).num("high", s.High)
}

func traceObject(t *crop.Trace) object {
	out := object{"fitted": t.Fitted, "samples": t.Samples, "below": t.Under}.num("below_share", t.UnderShare).
		num("mean_zero", t.Zero).num("mean_half", t.Half).num("mean_limit", t.Full)
	if t.Fitted {
		low, high := t.Mean.LogInterval(0.95)
		out.num("mean", t.Mean.Value).num("mean_se", t.Mean.SE).num("mean_low", low).num("mean_high", high).num("p90", t.P90.Value).num("p90_se", t.P90.SE)
	}
	return out
}

func keyObject(k intake.Key) object {
	out := object{"factor": k.Factor}
	if k.SlotM > 0 {
		out["slot_m"] = k.SlotM
	}
	return out
}

func (a CropAccount) lineObject(l crop.Line) object {
	out := keyObject(l.Key)
	low, high := l.Mean.Interval(0.95)
	out["mean"] = cropEstimate(l.Mean).num("low", low).num("high", high)
	out["quantiles"] = each(l.Points[:], func(q crop.Quantile) object {
		return object{"share": q.Share, "below_smallest": q.Below, "above_largest": q.Above}.num("value", q.Value).num("low", q.Low).num("high", q.High)
	})
	if l.Trace != nil {
		out["trace"] = traceObject(l.Trace)
	}
	if c := l.Change; c != nil {
		out["change"] = cropEstimate(c.Estimate).num("now", c.Now.Value).num("before", c.Before.Value).num("rise_chance", c.Rise)
	}
	return out.num("between_strata_variance", l.Between)
}

func (a CropAccount) groupObject(g crop.Group) object {
	out := object{"name": g.Name, "withheld": g.Withheld}.num("sampled_kg", kgPerT*g.TonnesT).num("unseen_kg", kgPerT*g.UnseenT)
	if g.Withheld {
		return out
	}
	out["farms"] = g.Farms
	lines := make([]object, len(g.Lines))
	for i, l := range g.Lines {
		lines[i] = keyObject(a.Summary.Lines[i].Key)
		lines[i]["mean"] = cropEstimate(l.Mean).num("low", l.Low).num("high", l.High)
		lines[i].num("median", l.Median)
		if l.Trace != nil {
			lines[i]["trace"] = traceObject(l.Trace)
		}
	}
	out["qualities"] = lines
	return out
}

func (a CropAccount) smallObject(s crop.Small) object {
	out := object{"district": s.District, "variety": s.Variety, "withheld": s.Withheld}.num("harvested_kg", kgPerT*s.TonnesT)
	if s.Withheld {
		return out
	}
	out["farms"] = s.Farms
	var lines []object
	for i, b := range s.Lines {
		lines = append(lines, keyObject(a.Summary.Lines[i].Key).num("value", b.Value).num("mse", b.MSE).num("own_weight", b.Own))
	}
	out["qualities"] = lines
	return out
}

func (a CropAccount) takingObject(k crop.Taking) object {
	taken := func(t crop.Taken) object {
		return object{"open_samples": t.Open, "share": shareObject(t.Share), "complete_samples": shareObject(t.Complete)}.text("name", t.Name).
			num("least", t.Least).num("most", t.Most).num("at_discount", t.Cheaper).num("taken_kg", kgPerT*t.TonnesT*t.Share.Value).
			num("lost_cost", t.Lost.Value).num("lost_se_cost", t.Lost.SE)
	}
	shown := func(parts []crop.Taken, groups []crop.Group) (out []object) {
		for i, p := range parts {
			if !groups[i].Withheld && p.Share.Farms > 0 {
				out = append(out, taken(p))
			}
		}
		return out
	}
	out := taken(k.All).text("contract", k.Contract.Name).num("wanted_kg", kgPerT*k.WantedT).num("met_chance", k.All.Met)
	out["districts"], out["varieties"] = shown(k.District, a.Summary.Districts), shown(k.Variety, a.Summary.Varieties)
	out["not_judged"] = each(k.Unjudged, keyObject)
	out["reasons"] = each(k.Reasons, func(r crop.Reason) object {
		o := keyObject(r.Limit.Key)
		o["least"], o["at_printed"] = r.Limit.Least, r.Limit.At
		o["all"], o["complete"], o["only"] = shareObject(r.All), shareObject(r.Complete), shareObject(r.Only)
		return o
	})
	return out
}

func planObject(s crop.Sowing) object {
	out := keyObject(s.Key).num("half", s.Half).num("half_now", s.Now).num("se", s.Plan.SE)
	out["total"] = s.Plan.Total
	var strata []object
	for i, p := range s.Plan.Strata {
		strata = append(strata, object{"district": p.District, "variety": p.Variety, "now": p.Now, "wanted": s.Plan.Farms[i], "pooled": p.Pooled})
	}
	out["strata"] = strata
	return out
}

func maltSeasonObject(m crop.MaltSeason) object {
	return object{
		"season": m.Season, "lots": m.Lots, "failed": m.Failed,
		"figures": each(m.Figures, func(f crop.MaltFigure) object {
			return object{"figure": f.Key(f.Basis)}.num("mean", f.Mean).num("p10", f.P10).num("p90", f.P90).num("pilot", f.Pilot)
		}),
		"specifications": each(m.Met, func(s crop.Met) object {
			i := -1
			return object{"name": s.Specification.Name, "lines": each(s.Specification.Limits, func(l malt.Limit) object {
				i++
				return object{"figure": l.Parameter.Key(l.Basis)}.num("share", s.Lines[i])
			})}.num("all", s.All)
		}),
		"steps": object{}.num("steep_out_wb", m.Steps.SteepOut).num("chit", m.Steps.Chit).num("acrospire", m.Steps.Acrospire).num("growth_h", 24*m.Steps.GrowthD),
		"said":  each(m.Said, func(s crop.Said) object { return findingObject(s.Finding).num("share", s.Share) }),
	}
}

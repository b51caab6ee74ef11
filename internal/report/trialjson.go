package report

import (
	"io"
	"math"

	"awn/mixed"
	"awn/variety"
)

// JSON writes the account; figures of a trait are in its own unit.
func (a TrialAccount) JSON(w io.Writer) error {
	out := object{
		"entries": len(a.Trials.Entries()), "environments": a.Trials.Environments(), "records": len(a.Trials.Records),
		"traits": each(a.Traits, trialTrait),
	}.text("trial", a.Name).text("check", a.Check)
	var seed *uint64
	if r := a.Ranking; r != nil {
		out["draws"], seed = a.Draws, &a.Seed
		out["scores"] = each(r.Rulers, ruler)
		out["front"] = r.Front
		out["guides"] = each(a.Guides, guide)
	}
	if len(a.Droughts) > 0 {
		out["drought"] = each(a.Droughts, func(d variety.Drought) object {
			return object{"entry": d.Entry}.num("stressed", d.Stressed).num("free", d.Free).num("ssi", d.Susceptibility).num("sti", d.Tolerance).num("gmp", d.Geometric)
		})
	}
	if len(a.Sheet.Candidates) > 0 {
		out["candidates"] = each(a.Sheet.Candidates, candidate)
		out["stages"] = each(a.Sheet.Stages, stageOfSheet)
	}
	fs := each(a.Account.Remarks, func(r variety.Remark) object {
		o := findingObject(r.Finding).text("trait", r.Trait).text("entry", r.Entry).text("environment", r.Environment).text("term", r.Term)
		if r.Line > 0 {
			o["line"] = r.Line
		}
		return o
	})
	return enveloped(w, "ranking/1", a.Version, a.Inputs, seed, out, fs)
}

func estimate(e mixed.Estimate) object {
	o := object{}.num("value", e.Value)
	if len(o) > 0 {
		o.num("se", e.SE).num("freedom", e.Freedom)
	}
	return o
}

func trialTrait(t variety.Judged) object {
	x := t.Analysis
	out := object{"analysed": !t.Failed, "direction": x.Trait.Direction}.text("trait", x.Trait.Name).text("unit", x.Trait.Unit)
	if t.Failed {
		return out
	}
	h := x.Heritability
	out["mean"] = estimate(x.Mean)
	out["heritability"] = object{}.num("cullis", h.Cullis).num("piepho", h.Piepho).num("balanced", h.Balanced)
	out["components"] = each(x.Components, func(c variety.Component) object {
		return object{"term": c.Name, "open": math.IsInf(c.High, 1)}.num("variance", c.Variance).num("se", c.SE).num("low", c.Low).num("high", c.High)
	})
	out["entries"] = each(x.Entries, func(e variety.Entry) object {
		return object{"entry": e.Name, "records": e.Plots, "environments": e.Environments, "mean": estimate(e.Mean), "effect": estimate(e.Effect)}.
			num("raw", e.Raw).num("reliability", e.Reliability)
	})
	out["against"] = each(t.Against, func(c variety.Comparison) object {
		return object{"entry": c.Entry, "difference": estimate(c.Difference), "expected": estimate(c.Expected)}.
			num("lsd_unadjusted", c.LSD).num("dunnett", c.Need).num("p_unadjusted", c.P).num("p_dunnett", c.PDunnett).
			num("beats", c.Beats).num("beats_all_looked", c.BeatsAllLooked)
	})
	if p := t.Adjusted; p != nil {
		out["at_equal"] = object{
			"by": p.By, "records": p.Plots, "slope": estimate(p.Slope),
			"entries": each(p.Entries, func(e variety.AdjustedEntry) object {
				return object{"entry": e.Entry, "plain": estimate(e.Plain), "equal": estimate(e.Equal)}.num("beats_plain", e.BeatsPlain).
					num("beats_at_equal", e.BeatsAtEqual).num("owed_share", e.OwedShare).num("by_difference", e.ByDifference)
			}),
		}
	}
	if s := t.Shares; s != nil {
		out["quasi_likelihood"] = object{"against": each(t.SharesOf, func(c variety.ShareComparison) object {
			return object{"entry": c.Entry, "log_odds": estimate(c.Difference)}.num("percent", c.Percent).num("odds_low", c.Low).
				num("odds_high", c.High).num("less", c.Less).num("p_dunnett", c.PDunnett)
		})}.num("dispersion", s.Dispersion)
	}
	if len(t.Pairs) > 0 {
		out["pairs"] = each(t.Pairs, func(p variety.Pair) object {
			return object{"a": p.A, "b": p.B, "difference": estimate(p.Difference)}.num("hsd_tukey", p.HSD).num("p_unadjusted", p.P).
				num("p_tukey", p.PTukey).num("p_holm", p.PHolm)
		})
	}
	if len(t.Stabilities) > 0 {
		out["stability"] = each(t.Stabilities, func(s variety.Stability) object {
			return object{"entry": s.Entry}.num("mean", s.Mean).num("slope", s.Slope).num("slope_se", s.SlopeSE).num("slope_p", s.SlopeP).
				num("deviations", s.Deviations).num("variance", s.Spread).num("variation", s.Variation).num("wricke", s.Ecovalence).
				num("shukla", s.Shukla).num("superiority", s.Superiority)
		})
		out["left_out"] = append([]string{}, t.LeftOut...)
	}
	for name, b := range map[string]*variety.Biplot{"ammi": t.AMMI, "gge": t.GGE} {
		if b != nil {
			out[name] = biplot(b)
		}
	}
	out["outlook"] = each(t.Outlook, func(b variety.Buy) object {
		return object{}.num("years", b.Years).num("sites", b.Sites).num("plots", b.Plots).num("reliability", b.Reliability).num("gain", b.Gain)
	})
	return out
}

func biplot(b *variety.Biplot) object {
	scores := func(names []string, of [][]float64) []object {
		out := make([]object, len(names))
		for i, name := range names {
			out[i] = object{"name": name}.num("axis_1", of[i][0])
			if len(of[i]) > 1 {
				out[i].num("axis_2", of[i][1])
			}
		}
		return out
	}
	return object{"shares": b.Share, "entries": scores(b.Entries, b.EntryScores), "environments": scores(b.Environments, b.EnvironmentScores)}
}

func guide(g variety.Guide) object {
	index := func(x *variety.Index) object {
		if x == nil {
			return object{}
		}
		return object{"weights": x.Weights, "response": x.Response}.num("accuracy", x.Accuracy).num("condition", x.Condition)
	}
	return object{
		"customer": g.Customer, "traits": append([]string{}, g.Traits...), "left_out": append([]string{}, g.LeftOut...),
		"smith_hazel": index(g.SmithHazel), "base": index(g.Base), "desired_gain": index(g.DesiredGain),
		"entries": each(g.Entries, func(e variety.Guided) object {
			return object{"entry": e.Entry}.num("smith_hazel", e.SmithHazel).num("base", e.Base).num("desired_gain", e.DesiredGain).num("desirability", e.Desirability)
		}),
	}
}

func candidate(c variety.Candidate) object {
	return object{"name": c.Name, "year": c.Year, "steps": each(c.Steps, func(s variety.Step) object {
		return object{"year": s.Year, "decision": string(s.Decision), "evidence": each(s.Evidence, func(e variety.Evidence) object {
			o := object{}.text("trait", e.Trait).text("customer", e.Customer).text("from", e.From).
				num("difference", e.Difference).num("se", e.SE).num("better", e.Beats)
			if len(e.Years) > 0 {
				o["crops"] = e.Years
			}
			return o
		})}.text("stage", s.Stage).text("reason", s.Reason)
	})}.text("cross", c.Cross)
}

func stageOfSheet(s variety.Stage) object {
	return object{"name": s.Name, "from_year": s.From, "to_year": s.To, "sites": s.Sites, "entries_in": s.EntriesIn, "entries_out": s.EntriesOut,
		"crops": max(1, s.Years)}.text("gate", s.Rule).num("sample_kg", s.SampleKg)
}

func ruler(r variety.Ruler) object {
	return object{
		"customer": r.Customer.Name,
		"wishes": each(r.Customer.Wishes, func(w variety.Wish) object {
			return object{"trait": w.Trait}.num("weight", w.Weight).num("least", w.Min).num("most", w.Max)
		}),
		"entries": each(r.Scores, func(s variety.Score) object {
			o := object{"entry": s.Entry, "parts": s.Parts}.num("score", s.Value.Mid).num("p5", s.Value.Low).num("p95", s.Value.High).
				num("beats", s.BeatsCheck).num("first", s.First).num("top", s.Top).num("rank_p5", s.Rank.Low).num("rank_p95", s.Rank.High)
			var limits []object
			for i, w := range r.Customer.Wishes {
				if !math.IsNaN(s.Limits[i]) {
					limits = append(limits, object{"trait": w.Trait}.num("chance", s.Limits[i]))
				}
			}
			if limits != nil {
				o["limits"] = limits
			}
			if len(s.Culled) > 0 {
				o["culled"] = s.Culled
			}
			if len(s.Guessed) > 0 {
				o["guessed"] = s.Guessed
			}
			return o
		}),
	}
}

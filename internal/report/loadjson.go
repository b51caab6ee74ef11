package report

import (
	"io"

	"awn/intake"
)

// JSON writes the account, in SI units and fractions.
func (a LoadAccount) JSON(w io.Writer) error {
	out := object{}.text("load", a.Load.Code).text("variety", a.Load.Variety)
	if g := a.Grade; g != nil {
		grade := object{
			"table": g.Table.Key, "edition": g.Table.Edition, "best": g.Best, "worst": g.Worst, "missing": each(g.Missing, key),
			"deciding": each(g.Deciding, limitVerdict),
			"odds":     each(g.Odds, func(o intake.GradeOdds) object { return object{"grade": o.Name}.num("chance", o.Chance) }),
		}
		out["grade"] = grade.text("name", g.Name)
	}
	if j := a.Judgement; j != nil {
		s := j.Settlement
		out["judgement"] = object{
			"decision": j.Decision, "deciding": each(j.Deciding, key), "missing": each(j.Missing, key), "limits": each(j.Verdicts, limitVerdict),
			"settlement": object{
				"currency": s.Currency, "lines": each(s.Lines, func(l intake.Line) object { return key(l.Key).num("price_per_t", l.PriceT).num("amount", l.Amount) }),
			}.num("net_kg", s.Mass.NetKg).num("clean_kg", s.Mass.CleanKg).num("shrink_kg", s.Mass.ShrinkKg).num("handling_kg", s.Mass.HandlingKg).
				num("payable_kg", s.Mass.PayableKg).num("by_dry_matter_kg", s.Mass.ByDryKg).num("price_per_t", s.PriceT).num("amount", s.Total),
		}.num("confidence", j.Confidence)
	}
	out["silos"] = each(a.Fits, func(f intake.Fit) object {
		return object{"name": f.Bin.Name, "bars": f.Bars}.num("mean_protein_dm", f.MeanProtein)
	})
	return envelope(w, "load-account/1", a.Version, a.Inputs, nil, out, a.findings())
}

func key(k intake.Key) object {
	o := object{}.text("factor", string(k.Factor))
	if k.SlotM > 0 {
		o.num("slot_mm", 1000*k.SlotM)
	}
	return o
}

func limitVerdict(v intake.Verdict) object {
	read, limit := v.Limit.In.Figure("read", v.Rounded), v.Limit.In.Figure("limit", v.Limit.At)
	word := [...]string{intake.Unsaid: "not-read", intake.Meets: "meets", intake.Misses: "misses"}[v.Outcome]
	o := key(v.Limit.Key).num(read.Name, read.Value).num(limit.Name, limit.Value)
	if v.Banded {
		o.num("chance", v.Chance)
	}
	o["least"], o["outcome"] = v.Limit.Least, word
	return o
}

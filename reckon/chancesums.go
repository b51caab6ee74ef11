package reckon

import (
	"fmt"
	"math"

	"awn/intake"
	"awn/lab"
	"awn/odds"
	"awn/unit"
)

func counted(g *given) ([]Result, error) {
	p, err := kernels(g.at("count"), g.at("of"))
	if err != nil {
		return nil, err
	}
	if g.has("least") == g.has("most") {
		return nil, &Fault{Code: "reckon.input.missing", Got: "a limit, one of the two", Allowed: []string{"at-least 95 %", "at-most 4 %"}}
	}
	limit := g.at("least")
	chance, worked := p.ChanceAtLeast(limit), fmt.Sprintf("P = 1 - B(%s; %d + 1/2, %d + 1/2)", figures(limit, 4), p.Hits, p.Rest().Hits)
	if g.has("most") {
		limit = g.at("most")
		chance = p.Rest().ChanceAtLeast(1 - limit)
		worked = fmt.Sprintf("P = B(%s; %d + 1/2, %d + 1/2)", figures(limit, 4), p.Hits, p.Rest().Hits)
	}
	g.say(odds.AgainstLimit(chance)...)
	return []Result{
		shareScale.result("chance", "chance that it meets the limit", chance, "odds.Proportion.ChanceAtLeast", worked+" = "+figures(chance, 4)),
		share("share", "share of the lot", p, 1-2*odds.OneSide),
	}, nil
}

// Chances at which a rule is told: of refusing what the seller holds for good,
// and of taking what the buyer holds for bad.
const (
	sellersRisk = 0.05
	buyersRisk  = 0.10
)

func accepted(g *given) ([]Result, error) {
	p, err := kernels(g.at("least"), g.at("of"))
	if err != nil {
		return nil, err
	}
	rule := odds.Plan{N: p.Of, C: p.Rest().Hits}
	if rule.C == rule.N {
		return nil, &Fault{Code: "reckon.plan.impossible", Got: fmt.Sprintf("%d of %d", p.Hits, p.Of)}
	}
	var out []Result
	if g.has("truth") {
		truth := g.at("truth")
		chance := rule.AcceptChance(1 - truth)
		out = append(out, shareScale.result("accept", "chance that it is taken", chance, "odds.Plan.AcceptChance",
			fmt.Sprintf("P = Σ binomial(%d, k) × %s^k × %s^(%d - k), k to %d = %s", rule.N, figures(1-truth, 4), figures(truth, 4), rule.N, rule.C, figures(chance, 4))))
	}
	return append(out,
		shareScale.result("taken_95", "taken 95 times in 100", 1-rule.BadAt(1-sellersRisk), "odds.Plan.BadAt", ""),
		shareScale.result("taken_50", "taken every other time", 1-rule.BadAt(0.5), "odds.Plan.BadAt", ""),
		shareScale.result("taken_10", "taken 10 times in 100", 1-rule.BadAt(buyersRisk), "odds.Plan.BadAt", "")), nil
}

func replicates(g *given) ([]Result, error) {
	mean, n, each := g.at("mean"), g.at("replicates"), g.at("kernels")
	if n != math.Trunc(n) || each != math.Trunc(each) {
		return nil, &Fault{Code: "reckon.replicates.whole", Got: plain(n) + " replicates of " + plain(each)}
	}
	w := lab.RangeTolerance(mean, int(n), int(each))
	g.say(lab.CompareReplicates(g.at("range"), w)...)
	return []Result{shareScale.result("range", "they may lie apart by", w, "lab.RangeTolerance",
		fmt.Sprintf("w = %s × √(%s × %s/%s) = %s", figures(odds.SpanQuantile(0.975, int(n)), 4), figures(mean, 4), figures(1-mean, 4), plain(each), figures(w, 4)))}, nil
}

func toxin(g *given) ([]Result, error) {
	plan := intake.ToxinPlan{SampleG: 1000 * g.at("sample"), PortionG: 1000 * g.at("portion"), Analyses: int(g.at("analyses"))}
	if !g.has("truth") && !g.has("read") {
		return nil, &Fault{Code: "reckon.input.missing", Got: "what the lot holds or what was read", Allowed: []string{"true 1.2 mg/kg", "read 0.9 mg/kg"}}
	}
	if n := g.at("analyses"); n != math.Trunc(n) {
		return nil, &Fault{Code: "reckon.count.impossible", Got: plain(n) + " analyses"}
	}
	mg := scale{perMass, []string{"mg/kg~3"}}
	var out []Result
	if g.has("truth") {
		truth := g.at("truth")
		out = append(out, shareScale.result("variation", "results vary by (one deviation)", plan.Deviation(truth)/truth, "intake.ToxinPlan.Deviation", ""))
		if g.has("limit") {
			out = append(truthResults(plan, truth, g.at("limit")), out...)
		}
	}
	if g.has("read") {
		read := g.at("read")
		v := plan.True(read)
		if !v.Banded() {
			read = math.NaN() // below or beyond what the law says anything of
		}
		r := mg.result("truth_kg_kg", "the lot may truly hold", read, "intake.ToxinPlan.AcceptChance", "")
		out = append(out, mg.between(r, v.Low, v.High))
		g.say(plan.AgainstLimit(read, g.at("limit"))...)
	}
	return out, nil
}

// truthResults are how often a lot is taken, and how large a sample keeps a bad
// one out.
func truthResults(plan intake.ToxinPlan, truth, limit float64) []Result {
	chance := plan.AcceptChance(truth, limit)
	out := []Result{shareScale.result("accept", "chance that it reads no more than the limit", chance, "intake.ToxinPlan.AcceptChance",
		fmt.Sprintf("P = Γ(%s; mean %s, deviation %s mg/kg) = %s", figures(1e6*limit, 4), figures(1e6*truth, 4), figures(1e6*plan.Deviation(truth), 3), figures(chance, 4)))}
	if larger, ok := plan.SampleFor(truth, limit, odds.OneSide); ok && truth > limit {
		out = append(out, scale{unit.Mass, []string{"kg~3", "lb~3"}}.result("sample_kg", "sample by which it slips in 5 times in 100", larger.SampleG/1000, "intake.ToxinPlan.AcceptChance", ""))
	}
	return out
}

package reckon

import (
	"fmt"
	"math"
	"strings"

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

// sameUnit is the fault that figures to be compared stand in different units.
func sameUnit(g *given, keys ...string) error {
	var written []string
	differ := false
	for _, key := range keys {
		if f := g.get(key); f.Input != nil {
			differ = differ || f.Quantity.Symbol != g.get(keys[0]).Quantity.Symbol
			written = append(written, f.Written)
		}
	}
	if differ {
		return &Fault{Code: "reckon.units.mixed", Got: strings.Join(written, " and ")}
	}
	return nil
}

// precisionUnits are the units that the published precision of a figure is in.
var precisionUnits = map[string]struct {
	in   unit.Dimension
	kind string
}{
	"moisture": {unit.Moisture, ""}, "nitrogen": {unit.MassFraction, unit.KindDM}, "soluble-nitrogen": {unit.MassFraction, unit.KindDM},
	"diastatic-power": {unit.DiastaticPower, ""}, "alpha-amylase": {unit.AlphaAmylase, unit.KindDM},
}

// methods are those of the published precision, by the word for them.
var methods = map[string]func(method string) bool{
	"":              func(string) bool { return true },
	"near-infrared": func(m string) bool { return m == "near infrared" },
	"combustion":    func(m string) bool { return strings.HasPrefix(m, "combustion") },
}

// published is the precision of a figure that a line names, at what was read.
func published(g *given, f Filled) (lab.Precision, error) {
	figure, matrix, method := g.get("figure").Word, g.get("matrix").Word, g.get("method").Word
	switch {
	case figure == "":
		return lab.Precision{}, &Fault{Code: "reckon.input.missing", Got: "how far two laboratories may differ", Allowed: []string{"within 0.4 % wb", "moisture", "nitrogen"}}
	case matrix == "":
		return lab.Precision{}, &Fault{Code: "reckon.input.missing", Got: "what was analysed", Allowed: []string{"barley or malt"}}
	}
	none := &Fault{Code: "reckon.precision.none", Got: strings.TrimSpace(figure + " of " + matrix + " " + method)}
	u := precisionUnits[figure]
	for _, p := range lab.Precisions {
		if p.Analyte != strings.ReplaceAll(figure, "-", "_") || p.Matrix != matrix || !methods[method](p.Method) {
			continue
		}
		if u.in.Name == f.In.Name && u.kind == f.Quantity.Kind && !math.IsNaN(p.Reproducibility(f.Value)) {
			return p, nil
		}
		none.Got += fmt.Sprintf(" at %s (%s: %s to %s %s)", f.Written, p.Method, plain(p.From), plain(p.To), p.Unit)
		break
	}
	return lab.Precision{}, none
}

// precision is how far two laboratories may differ at a figure, as given or as
// published, and the number that says so.
func precision(g *given, f Filled) (limit float64, r Result, err error) {
	const key, name = "within", "two laboratories may differ by"
	if g.has("within") {
		limit = g.at("within")
		return limit, stretch(f, key, name, f.Value, f.Value+limit, "", ""), nil
	}
	p, err := published(g, f)
	if err != nil {
		return 0, Result{}, err
	}
	limit = p.Reproducibility(f.Value)
	return limit, stretch(f, key, name, f.Value, f.Value+limit, "lab.Precision.Reproducibility", "published for "+p.Method+": "+p.Source), nil
}

// inUnit shows a value in the unit that a figure was written in.
func inUnit(f Filled) scale { return scale{f.In, []string{f.Quantity.Symbol + "~4"}} }

// stretch shows a distance between two values of a dimension in the unit of
// one of them.
func stretch(f Filled, key, name string, from, to float64, formula, worked string) Result {
	a, _ := f.In.In(from, f.Quantity.Symbol)
	b, _ := f.In.In(to, f.Quantity.Symbol) // a unit that was read can be written
	return Result{Key: key + suffixOf(f.Quantity.Kind, f.In), Name: name, Value: to - from, Low: math.NaN(), High: math.NaN(),
		Shown: []string{strings.TrimSpace(figures(b-a, 4) + " " + f.Quantity.Symbol)}, Formula: formula, Worked: worked}
}

func measured(g *given) ([]Result, error) {
	f := g.get("read")
	if err := sameUnit(g, "read", "least", "most", "within"); err != nil {
		return nil, err
	}
	if !g.has("least") && !g.has("most") {
		return nil, &Fault{Code: "reckon.input.missing", Got: "a limit", Allowed: []string{"at-least …", "at-most …"}}
	}
	limit, r95, err := precision(g, f)
	if err != nil {
		return nil, err
	}
	v := odds.WithDeviation(f.Value, lab.Deviation(limit), odds.Measured)
	chance := 1.0
	if g.has("most") {
		chance = v.ChanceBelow(g.at("most"))
	}
	if g.has("least") {
		chance = max(0, chance-v.ChanceBelow(g.at("least")))
	}
	g.say(odds.AgainstLimit(chance)...)
	truth := inUnit(f).result("truth"+suffixOf(f.Quantity.Kind, f.In), "true figure", f.Value, "lab.Deviation", "")
	return []Result{
		shareScale.result("chance", "chance that it meets the limit", chance, "odds.Value.ChanceBelow", ""),
		inUnit(f).between(truth, v.Low, v.High), r95,
	}, nil
}

func labs(g *given) ([]Result, error) {
	a, b := g.get("one"), g.get("other")
	if err := sameUnit(g, "one", "other", "within"); err != nil {
		return nil, err
	}
	mean := a
	mean.Value = (a.Value + b.Value) / 2
	limit, r95, err := precision(g, mean)
	if err != nil {
		return nil, err
	}
	g.say(lab.Compare(a.Value, b.Value, limit)...)
	low, high := min(a.Value, b.Value), max(a.Value, b.Value)
	chance := lab.DifferenceChance(high-low, limit)
	v := lab.Between(a.Value, b.Value, limit)
	both := inUnit(a).result("mean"+suffixOf(a.Quantity.Kind, a.In), "both together", v.Mid, "lab.Deviation", "")
	return []Result{
		stretch(a, "difference", "they differ by", low, high, "", ""), r95,
		shareScale.result("chance", "honest ones differ so much in", chance, "lab.DifferenceChance",
			fmt.Sprintf("P = 2 (1 - F(1.96 × %s/%s)) = %s", figures(high-low, 4), figures(limit, 4), figures(chance, 3))),
		inUnit(a).between(both, v.Low, v.High),
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
		r := mg.result("truth_kg_kg", "the lot may truly hold", read, "intake.ToxinPlan.AcceptChance", "")
		if v.Banded() {
			r = mg.between(r, v.Low, v.High)
		}
		out = append(out, r)
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

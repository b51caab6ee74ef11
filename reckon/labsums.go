package reckon

import (
	"fmt"
	"math"
	"strings"

	"awn/lab"
	"awn/odds"
	"awn/unit"
)

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
	if w := g.get("within"); w.Input != nil {
		if limit = distance(f, w); !(limit > 0) {
			return 0, Result{}, &Fault{Code: "number.range", Got: w.Written, Allowed: []string{"above 0"}}
		}
		return limit, stretch(f, key, name, f.Value, f.Value+limit, "", ""), nil
	}
	p, err := published(g, f)
	if err != nil {
		return 0, Result{}, err
	}
	limit = p.Reproducibility(f.Value)
	return limit, stretch(f, key, name, f.Value, f.Value+limit, "lab.Precision.Reproducibility", "published for "+p.Method+": "+p.Source), nil
}

// distance is how far apart two values of a dimension are that differ by what
// was written, near a figure in the same unit: a scale may begin elsewhere
// than at 0, or bend.
func distance(f, written Filled) float64 {
	const part, least = 1e-4, 1e-3
	h := part * max(math.Abs(f.Value), least)
	a, _ := f.In.In(f.Value, f.Quantity.Symbol)
	b, _ := f.In.In(f.Value+h, f.Quantity.Symbol)
	d, _ := f.In.In(written.Value, f.Quantity.Symbol) // a unit that was read can be written
	return d * h / (b - a)
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

package report

import (
	"awn/course"
	"awn/germinate"
	"awn/internal/draw"
	"awn/internal/words"
)

// corn is one figure of what growth makes of corns.
type corn struct {
	phrase, key string
	of          func(germinate.Analysis) float64
}

// corns are the figures of growth that are shown, mean beside worst.
var corns = []corn{
	{"growth.age", "age_d", func(a germinate.Analysis) float64 { return a.AgeD }},
	{"growth.beta-glucan", "beta_glucan_dm", func(a germinate.Analysis) float64 { return a.BetaGlucan }},
	{"growth.wort-beta-glucan", "wort_beta_glucan_mg_l", func(a germinate.Analysis) float64 { return a.WortBetaGlucanMgL }},
	{"growth.friability", "friability", func(a germinate.Analysis) float64 { return a.Friability }},
	{"growth.kolbach", "kolbach", func(a germinate.Analysis) float64 { return a.Kolbach }},
	{"growth.fan", "fan_mg_100g_dm", func(a germinate.Analysis) float64 { return a.FANMg100g }},
	{"growth.alpha-amylase", "alpha_amylase_du_dm", func(a germinate.Analysis) float64 { return a.AlphaAmylaseDU }},
	{"growth.diastatic-power", "diastatic_power_lintner", func(a germinate.Analysis) float64 { return a.DiastaticPowerASBC }},
	{"growth.limit-dextrinase", "limit_dextrinase", func(a germinate.Analysis) float64 { return a.LimitDextrinase }},
	{"growth.viscosity", "viscosity_mpas", func(a germinate.Analysis) float64 { return a.ViscosityMPas }},
	{"growth.extract", "extract_fine_dm", func(a germinate.Analysis) float64 { return a.ExtractFine }},
}

// growthTable is what growth made of the corns: the mean, the mean of the
// living alone, and the least grown layer.
func (r Report) growthTable() table {
	u, m := r.Units, r.Outcome.Growth
	t := table{
		Caption: u.Say("table.growth"),
		Head:    []string{"", u.Say("head.mean"), u.Say("head.living"), u.Say("head.least-grown")},
	}
	for _, c := range corns {
		number := func(a germinate.Analysis) string {
			return u.Number(words.Value(c.key, c.of(a), u), words.Decimals(c.key, u))
		}
		name := u.Say("with-unit", "name", u.Say(c.phrase), "unit", words.Symbol(c.key, u))
		t.add(c.key, name, number(m.Mean), number(m.Living), number(m.Worst))
	}
	return t
}

// cornTable is the corns by number.
func (r Report) cornTable() table {
	u, m := r.Units, r.Outcome.Growth
	t := table{Caption: u.Say("table.corns"), Head: []string{"", u.Say("head.corns")}}
	for _, x := range []struct {
		phrase, key string
		share       float64
	}{
		{"corns.whole", "wug", m.WholeCorns}, {"corns.partly", "pug", m.PartlyCorns}, {"corns.undergrown", "share", m.Undergrown},
		{"corns.overgrown", "share", m.Overgrown}, {"corns.idle", "share", m.Idle},
	} {
		t.Rows = append(t.Rows, []string{u.Say(x.phrase), words.Figure(x.key, x.share, u)})
	}
	return t
}

// quarterWords name the classes of germinate.Modification.Quarters, and
// quarterMarks are the lengths that their marks are drawn with.
var (
	quarterWords = [...]string{"quarter.1", "quarter.2", "quarter.3", "quarter.4", "quarter.over"}
	quarterMarks = [...]float64{0.16, 0.42, 0.68, 0.94, 1.12}
)

// growthPicture is the acrospires in quarters by number.
func (r Report) growthPicture() (draw.Picture, bool) {
	u, m := r.Units, r.Outcome.Growth
	g := draw.Growth{
		ID: "growth", Title: u.Say("picture.growth"),
		Says: u.Say("says.growth", "mean", u.Number(m.Acrospire, 2), "short", r.figure("share", m.Undergrown), "over", r.figure("share", m.Overgrown)),
		Head: []string{u.Say("head.acrospire"), u.Say("head.corns")},
	}
	sum := 0.0
	for i, share := range m.Quarters {
		g.Classes = append(g.Classes, draw.Grown{Word: u.Say(quarterWords[i]), Share: share, Acrospire: quarterMarks[i]})
		sum += share
	}
	return r.pen().Growth(g), sum > 0
}

// growth is what growth made of the corns, for JSON.
func growth(o *course.Outcome) object {
	m := o.Growth
	out := object{}
	for name, a := range map[string]germinate.Analysis{"mean": m.Mean, "living": m.Living, "worst_layer": m.Worst} {
		figures := object{}
		for _, c := range corns {
			figures.num(c.key, c.of(a))
		}
		out[name] = figures
	}
	out["acrospire_quarters"] = m.Quarters
	return out.num("acrospire", m.Acrospire).num("overgrown", m.Overgrown).num("undergrown", m.Undergrown).
		num("wug", m.WholeCorns).num("pug", m.PartlyCorns).num("idle", m.Idle)
}

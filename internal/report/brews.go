package report

import (
	"awn/course"
	"awn/internal/words"
	"awn/odds"
)

// promise is one figure of what a brewer or distiller gets.
type promise struct {
	phrase, key string
	value       odds.Value
}

// promises are what the malt becomes.
func (r Report) promises() []promise {
	b := r.Outcome.Brewed
	return []promise{
		{"brew.extract-asis", "extract_fine_asis", b.ExtractAsIs},
		{"brew.extract-dry", "extract_fine_dm", b.ExtractDry},
		{"brew.wort", "wort_hl_t", b.WortHLTonne},
		{"brew.attenuation", "attenuation_limit", b.AttenuationLimit},
		{"brew.final", "final_plato", b.FinalPlato},
		{"brew.alcohol", "alcohol_abv", b.AlcoholByVolume},
		{"brew.spirit", "spirit_yield_l_t_asis", b.SpiritLTonne},
	}
}

// brewTable is what a brewer or distiller gets.
func (r Report) brewTable() table {
	u := r.Units
	t := table{
		Caption: u.Say("table.brew", "plato", words.Figure("plato", float64(r.Outcome.Brewed.Wort), u)),
		Head:    []string{"", u.Say("head.found"), u.Say("head.standing")}, Words: map[int]bool{2: true},
	}
	for _, p := range r.promises() {
		if p.value.Known() {
			t.add(p.key, u.Say(p.phrase), u.Doubt(p.key, p.value), u.Standing(p.value.Standing))
		}
	}
	return t
}

// brewed is the same for JSON.
func brewed(o *course.Outcome) object {
	out := object{}.num("wort_plato", float64(o.Brewed.Wort))
	for _, p := range (Report{Outcome: o}).promises() {
		out.quantity(p.key, p.value)
	}
	return out
}

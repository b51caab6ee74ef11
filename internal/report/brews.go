package report

import (
	"awn/internal/words"
	"awn/odds"
)

// promise is one figure of what a brewer or distiller gets.
type promise struct {
	phrase, key string
	band        string // its key in the account
	value       odds.Value
}

// promises are what the malt becomes.
func (r Report) promises() []promise {
	b := r.Outcome.Brewed
	return []promise{
		{"brew.extract-asis", "extract_fine_asis", "brewed.extract_asis", b.ExtractAsIs},
		{"brew.extract-dry", "extract_fine_dm", "brewed.extract_dm", b.ExtractDry},
		{"brew.wort", "wort_hl_t", "brewed.wort_hl_t", b.WortHLTonne},
		{"brew.attenuation", "attenuation_limit", "brewed.attenuation_limit", b.AttenuationLimit},
		{"brew.final", "final_plato", "brewed.final_plato", b.FinalPlato},
		{"brew.alcohol", "alcohol_abv", "brewed.abv", b.AlcoholByVolume},
		{"brew.spirit", "spirit_yield_l_t_asis", "brewed.spirit_l_t_asis", b.SpiritLTonne},
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
			t.add(p.key, u.Say(p.phrase), u.Doubt(p.key, r.drawn(p.band, p.value)), u.Standing(p.value.Standing))
		}
	}
	return t
}

// brewed is the same for JSON.
func (r Report) brewed() object {
	out := object{}.num("wort_plato", float64(r.Outcome.Brewed.Wort))
	for _, p := range r.promises() {
		out.quantity(p.key, p.value)
		if b, ok := r.band(p.band); ok && p.value.Known() {
			out[p.key].(object).num("p10", b.P10).num("p50", b.P50).num("p90", b.P90)
		}
	}
	return out
}

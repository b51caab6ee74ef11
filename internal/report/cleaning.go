package report

import (
	"awn/dress"
	"awn/internal/words"
)

// cleaned says whether anything is known of the barley before the steep.
func (r Report) cleaned() bool { return r.Outcome.Cleaned.Received.DryKg > 0 }

// receivedRow is what had to be received for the piece, and what went of it.
func (r Report) receivedRow() row {
	u, c := r.Units, r.Outcome.Cleaned
	if !r.cleaned() {
		return row{"", u.Say("row.received"), "–", ""}
	}
	second := ""
	if c.Second.DryKg > 0 {
		second = u.Say("cleaned.second", "second", r.weight(c.Second.Kg()))
	}
	return row{"", u.Say("row.received"), r.weight(c.Received.Kg()), u.Say("cleaned.lost",
		"lost", r.weight(c.Screened.Kg()+c.Dust.Kg()+c.Foreign.Kg()), "second", second)}
}

// cleanedTable is the barley from the pit to the steep.
func (r Report) cleanedTable() table {
	u, c := r.Units, r.Outcome.Cleaned
	kg := words.Symbol("kg", u)
	t := table{Caption: u.Say("table.cleaned"), Head: []string{"", kg, u.Say("head.dry", "unit", kg)}}
	for _, x := range []struct {
		phrase string
		of     dress.Stream
	}{
		{"cleaned.received", c.Received}, {"cleaned.dust", c.Dust}, {"cleaned.foreign", c.Foreign}, {"cleaned.cleaned", c.Cleaned},
		{"cleaned.screened", c.Screened}, {"cleaned.second-grade", c.Second}, {"cleaned.steeped", c.Steeped},
	} {
		if x.of.DryKg > 0 {
			t.Rows = append(t.Rows, []string{u.Say(x.phrase), r.amount(words.Value("kg", x.of.Kg(), u)), r.amount(words.Value("kg", x.of.DryKg, u))})
		}
	}
	if c.DriedKg != 0 {
		t.Rows = append(t.Rows, []string{u.Say("cleaned.dried"), r.amount(words.Value("kg", c.DriedKg, u)), ""})
	}
	if money := r.money(c.For); money != "" {
		t.Rows = append(t.Rows, []string{u.Say("cleaned.for"), money, ""})
	}
	return t
}

// cleanedObject is the barley before the steep, for JSON.
func (r Report) cleanedObject() object {
	c := r.Outcome.Cleaned
	out := object{}.num("dried_kg", c.DriedKg).num("by_product_value", c.For)
	for key, s := range map[string]dress.Stream{
		"received": c.Received, "dust": c.Dust, "foreign": c.Foreign, "cleaned": c.Cleaned,
		"screenings": c.Screened, "second_grade": c.Second, "steeped": c.Steeped,
	} {
		out.num(key+"_kg", s.Kg()).num(key+"_kg_dm", s.DryKg)
	}
	return out
}

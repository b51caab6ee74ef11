package report

import (
	"math"

	"awn/internal/words"
)

// restRow says which air the rests of the steep drew.
func (r Report) restRow() row {
	u, m := r.Units, r.Outcome.Made
	what := u.Say("made.outside")
	switch {
	case math.IsNaN(m.RestC):
		what = ""
	case m.MadeH > 0:
		what = u.Say("made.made", "outside", r.figure("c", m.OutsideC))
	}
	return row{"temperature", u.Say("row.rest-air"), r.figure("c", m.RestC), what}
}

// roomRow is the carbon dioxide above the growing bed beside the limit for people.
func (r Report) roomRow() row {
	u, m := r.Units, r.Outcome.Made
	said := ""
	if !math.IsNaN(m.RoomDioxide) {
		said = u.Say("made.room-limit", "figure", r.figure("tenths", roomLimit))
	}
	return row{"oxygen", u.Say("row.room"), r.figure("tenths", m.RoomDioxide), said}
}

// roomLimit is the carbon dioxide at a workplace over a working day.
// Source: 29 CFR 1910.1000, table Z-1, 5000 ppm.
const roomLimit = 0.005

// madeTable is what the air of steep and germination took.
func (r Report) madeTable() table {
	u, m := r.Units, r.Outcome.Made
	t := table{Caption: u.Say("table.made"), Head: []string{"", u.Say("head.used")}}
	for _, x := range []struct {
		phrase, key string
		value       float64
	}{
		{"made.fan", "j", m.FanJ}, {"made.heat", "j", m.HeatJ}, {"made.cooling", "j", m.CoolingJ}, {"made.cooling-work", "j", m.CoolingWorkJ},
		{"made.humidifier", "kg", m.HumidifierKg}, {"made.fresh", "kg", m.FreshKg},
		{"made.rests-warmed", "j", m.WarmedJ}, {"made.rests-cooled", "j", m.CooledJ},
	} {
		t.Rows = append(t.Rows, []string{u.Say("with-unit", "name", u.Say(x.phrase), "unit", words.Symbol(x.key, u)), u.Number(words.Value(x.key, x.value, u), 0)})
	}
	return t
}

// made is the air made before the kiln, for JSON.
func (r Report) made() object {
	m := r.Outcome.Made
	return object{}.num("rest_h", m.RestH).num("rest_made_h", m.MadeH).num("rest_c", m.RestC).num("outside_c", m.OutsideC).
		num("rest_warmed_j", m.WarmedJ).num("rest_cooled_j", m.CooledJ).num("fan_j", m.FanJ).num("heat_j", m.HeatJ).
		num("cooling_j", m.CoolingJ).num("cooling_work_j", m.CoolingWorkJ).num("humidifier_kg", m.HumidifierKg).
		num("fresh_air_kg", m.FreshKg).num("co2_room", m.RoomDioxide)
}

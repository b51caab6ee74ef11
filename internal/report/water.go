package report

import (
	"math"

	"awn/course"
	"awn/internal/words"
)

// waterTable is all that is counted and recorded of the steep water.
func (r Report) waterTable() table {
	u, w := r.Units, r.Outcome.Water
	t := table{Caption: u.Say("table.water-made"), Head: []string{"", u.Say("head.used")}}
	for _, x := range []struct {
		phrase, key string
		value       float64
		always      bool
	}{
		{"water.fresh", "m3", w.FreshM3, true}, {"water.supply", "c", w.SupplyC, true}, {"water.heat", "j", w.WarmedJ, true}, {"water.cold", "j", w.CooledJ, true},
		{"water.reused", "m3", w.ReusedM3, false}, {"water.reused-c", "c", w.ReusedC, false}, {"water.reused-cod", "kg", w.ReusedCODKg, false},
		{"water.ph", "x", w.PH, false}, {"water.hardness", "mg_l", w.HardnessMgL, false}, {"water.iron", "mg_l", w.IronL, false},
	} {
		if x.always || x.value > 0 && !math.IsNaN(x.value) {
			t.Rows = append(t.Rows, []string{u.Say("with-unit", "name", u.Say(x.phrase), "unit", words.Symbol(x.key, u)), r.amount(words.Value(x.key, x.value, u))})
		}
	}
	return t
}

// steepWater is the same for JSON.
func steepWater(w course.SteepWater) object {
	return object{}.num("supply_c", w.SupplyC).num("fresh_m3", w.FreshM3).num("reused_m3", w.ReusedM3).num("reused_c", w.ReusedC).
		num("reused_cod_kg", w.ReusedCODKg).num("warmed_j", w.WarmedJ).num("cooled_j", w.CooledJ).num("fuel_lhv_j", w.HeatFuelJ).
		num("cooling_work_j", w.CoolWorkJ).num("ph_x", w.PH).num("hardness_mg_l", w.HardnessMgL).num("iron_mg_l", w.IronL)
}

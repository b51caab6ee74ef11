package report

import (
	"math"
	"strconv"

	"awn/programme"
)

// additionTable is what was put into water or onto grain, as a certificate names
// it.
func (r Report) additionTable() table {
	u := r.Units
	t := table{
		Caption: u.Say("table.additions"), Words: map[int]bool{1: true, 2: true, 3: true, 5: true},
		Head: []string{u.Say("head.substance"), u.Say("head.dose"), u.Say("head.where"), u.Say("head.lot"), u.Say("head.residue"), u.Say("head.permitted")},
	}
	for _, a := range r.Outcome.Piece.Programme.Additions {
		permitted := a.Permitted
		if permitted == "" {
			permitted = u.Say("addition.nobody")
		}
		t.Rows = append(t.Rows, []string{
			a.Substance, strconv.FormatFloat(a.Dose, 'g', 6, 64) + " " + a.DoseUnit, u.Stage(a.Stage), a.Lot, r.residue(a), permitted,
		})
	}
	return t
}

func (r Report) residue(a programme.Addition) string {
	if math.IsNaN(a.ResidueMgKg) {
		return ""
	}
	return r.Units.Number(a.ResidueMgKg, 1)
}

// addition is one for JSON.
func addition(a programme.Addition) object {
	return object{"substance": a.Substance, "stage": a.Stage}.text("dose_unit", a.DoseUnit).text("lot", a.Lot).text("permitted", a.Permitted).
		num("dose", a.Dose).num("at_h", a.AtH).num("residue_mg_kg", a.ResidueMgKg).num("limit_mg_kg", a.LimitMgKg)
}

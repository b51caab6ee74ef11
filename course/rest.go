package course

import (
	"awn/barley"
	"awn/dress"
	"awn/unit"
)

// rest lets the malt rest in its silo before it is sent out. It lies at the
// temperature at which it was stripped.
func (r *runner) rest() error {
	p, sum, dry := r.piece, 0.0, 0.0
	for cell := range r.grain.Cells() {
		sum += r.grain.CellDryKg(cell) * r.grain.TempC[cell]
		dry += r.grain.CellDryKg(cell)
	}
	strippedH := r.atH
	var err error
	r.out.Rested, err = dress.Rest(&r.c.dress, dress.Keeping{
		Store: p.House.MaltStore, Isotherm: barley.MaltIsotherm(r.c.barley), PressurePa: pressurePa(&p.House),
		Days: p.Programme.RestD, Moisture: unit.WetBasis(r.out.Kilned.MoistureMean), TempC: sum / dry,
		Outside: func(atH float64) (tempC, rh float64) { return p.outsideMean(strippedH + atH) },
	})
	return err
}

// sent is a moisture as stripped with what the malt took up at rest.
func (r *runner) sent(strippedWB float64) float64 {
	if r.out.Rested.Gained == 0 {
		return strippedWB
	}
	x := strippedWB/(1-strippedWB) + r.out.Rested.Gained
	return x / (1 + x)
}

package course

import (
	"cmp"

	"awn/dress"
	"awn/plant"
	"awn/unit"
)

// clean takes the barley from the pit to the steep: what had to be received for
// the piece, and the lot as the screens leave it. A piece that begins later, and
// a house that says nothing of its cleaning, have none.
func (r *runner) clean() error {
	p := r.piece
	if p.Begin != nil || p.House.Cleaning == (plant.Cleaning{}) {
		return nil
	}
	pit := unit.WetBasis(cmp.Or(r.lot.ReceivedWB, r.lot.Moisture.Mid))
	cleaned, err := dress.Clean(&r.c.dress, p.House.Cleaning, r.lot, pit, p.CastKg)
	if err != nil {
		return err
	}
	r.lot, r.out.Cleaned = cleaned.Lot, cleaned
	r.out.Findings = cleaned.Findings(r.out.Findings)
	return nil
}

// paidT is the barley that is paid for, t: as received, or as cast where nobody
// knows that.
func (r *runner) paidT() float64 {
	if kg := r.out.Cleaned.Received.DryKg; kg > 0 {
		return r.out.Cleaned.Received.Kg() / kgPerT
	}
	return r.castT()
}

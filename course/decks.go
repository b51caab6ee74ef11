package course

import (
	"awn/kiln"
	"awn/plant"
	"awn/programme"
)

// decks takes the piece over two decks: through the programme above, down, and
// through it again below.
func (r *runner) decks(setup kiln.Setup) error {
	steps := r.piece.Programme.Kiln
	run, err := kiln.StartDecks(setup, steps, r.piece.LowerPiece, r.grain)
	if err != nil {
		return err
	}
	twice := make([]programme.KilnStep, 0, 2*len(steps)+1)
	twice = append(twice, steps...)
	if h := setup.Kiln.Decks.DropH; h > 0 {
		twice = append(twice, programme.KilnStep{Name: "dropping", Until: programme.Until{LatestH: h}})
	}
	twice = append(twice, steps...)
	if err := follow(r, Kiln, run, kilnLookH, twice, run.Begin, kilnStep); err != nil {
		return err
	}
	settled := run.Settled()
	r.out.Decks = &settled
	return r.kilnedIn(run)
}

// floors is how many pieces the kilns of the house hold.
func floors(kilns []plant.Kiln) int {
	n := len(kilns)
	for _, k := range kilns {
		if k.Decks != nil {
			n++
		}
	}
	return n
}

package report

// deckRows are what a kiln of two decks adds to the account: how the piece was
// dropped, and how the state was found that it was computed in.
func (r Report) deckRows() []row {
	d := r.Outcome.Decks
	if d == nil {
		return nil
	}
	u := r.Units
	how := u.Say("decks.repeats", "runs", u.Number(float64(d.Runs), 0))
	if d.Named {
		how = u.Say("decks.named")
	}
	return []row{
		{"bed-moisture", u.Say("row.dropped", "hours", r.figure("h", d.CycleH)), r.figure("wb", d.DropWB), r.worst("worst.wettest", "wb", d.DropTop)},
		{"", u.Say("row.decks"), u.Say("decks.cycle", "hours", r.figure("h", d.CycleH)), how},
	}
}

// decks is how two decks were solved, for JSON; nil for one deck.
func (r Report) decks() object {
	d := r.Outcome.Decks
	if d == nil {
		return nil
	}
	return object{"named": d.Named, "runs_n": d.Runs}.num("cycle_h", d.CycleH).num("moved_mean_wb", d.Mean).num("moved_wettest_wb", d.Worst).
		num("drop_mean_wb", d.DropWB).num("drop_wettest_wb", d.DropTop)
}

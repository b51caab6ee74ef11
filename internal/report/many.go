package report

import (
	"io"

	"awn/intake"
	"awn/internal/words"
	"awn/silo"
)

// SumText writes the totals of many loads.
func SumText(w io.Writer, t intake.Totals, currency string, u words.Units) error {
	p, n := &printer{}, 0
	for _, count := range t.Loads {
		n += count
	}
	count := func(x int) string { return u.Number(float64(x), 0) }
	p.rule()
	p.wrapped("", u.Say("load.sum", "loads", count(n), "taken", count(t.Loads[intake.Accept]+t.Loads[intake.AcceptDiscount]),
		"net", words.Figure("kg", t.NetKg, u), "payable", words.Figure("kg", t.PayableKg, u), "money", currency+"\u00a0"+u.Number(t.Amount, 2)))
	if t.Unpriced > 0 {
		p.wrapped("", u.Say("load.unpriced", "count", count(t.Unpriced)))
	}
	_, err := io.WriteString(w, p.String())
	return err
}

// OrderText writes the order in which silos are to be used, with the reasons.
func OrderText(w io.Writer, stocks []silo.Stock, order []silo.Place, u words.Units) error {
	p := &printer{}
	p.rule()
	p.line(u.Say("store.order"))
	for i, place := range order {
		var why []string
		for _, r := range place.Reasons {
			why = append(why, u.Turn(r))
		}
		p.wrapped(u.Number(float64(i+1), 0)+"  ", u.Say("store.place", "name", stocks[place.Stock].Name, "why", u.List(why)))
	}
	_, err := io.WriteString(w, p.String())
	return err
}

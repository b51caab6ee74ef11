package report

import (
	"io"
	"time"

	"awn/intake"
	"awn/internal/sheet"
	"awn/internal/words"
)

// LoadSheets writes loads as printed sheets that the seller can read and take
// along, each load on pages of its own, and the settlement of several at the
// end.
func LoadSheets(w io.Writer, loads []LoadAccount, paper sheet.Paper) error {
	if len(loads) == 0 {
		return nil
	}
	u := loads[0].Units
	s := sheet.New(sheet.Options{
		Title: u.Say("load.sheet"), Lang: u.Tongue.Tag(), Paper: paper, Foot: stamp(loads[0].Version, u), Of: u.Say("sheet.page"),
		At: loads[len(loads)-1].arrived(), Producer: stamp(loads[0].Version, u),
	})
	for i, a := range loads {
		if i > 0 {
			s.Page()
		}
		a.sheet(s)
	}
	if len(loads) > 1 {
		s.Page()
		settled(s, loads)
	}
	_, err := s.WriteTo(w)
	return err
}

// arrived is the day of the load; the beginning of time if it is not said.
func (a LoadAccount) arrived() time.Time {
	t, err := time.Parse(time.DateOnly, string(a.Load.Arrived))
	if err != nil {
		return time.UnixMilli(0)
	}
	return t
}

// sheet writes one load. Silos are the buyer's own business and stay out.
func (a LoadAccount) sheet(s *sheet.Sheet) {
	u, l := a.Units, a.Load
	s.Title(u.Say("load.sheet"), u.Say("load.title", "code", l.Code))
	s.Pairs([][2]string{
		{u.Say("load.variety"), l.Variety}, {u.Say("load.arrived"), string(l.Arrived)}, {words.Capital(u.Say("load.net")), words.Figure("barley_kg", l.NetKg, u)},
		{u.Say("load.cargo"), l.PreviousCargo}, {u.Say("load.meter"), l.Meter},
	})
	if a.Judgement != nil {
		s.Strong(a.decision() + ".")
	}
	for _, text := range a.graded() {
		s.Says(text)
	}
	if a.Judgement != nil {
		s.Heading(u.Say("load.against", "name", a.Contract.Name))
		entries(s, []string{u.Say("load.factor"), u.Say("load.found"), u.Say("load.limit")}, "lrl", a.limits())
	}
	if a.priced() {
		s.Heading(u.Say("load.paid"))
		entries(s, []string{u.Say("load.mass"), "", ""}, "lrl", a.masses())
		entries(s, []string{u.Say("load.line"), u.Say("load.per"), u.Say("load.amount")}, "lrr", a.prices())
	}
	where, told := a.sampled()
	if len(told) > 0 {
		s.Heading(u.Say("load.says"))
		entries(s, []string{u.Say("load.factor"), u.Say("load.found"), ""}, "lrl", told)
	}
	if where != "" {
		s.Small(where)
	}
	if all := a.findings(); len(all) > 0 {
		s.Heading(u.Say("load.remarks"))
		for _, f := range all {
			s.Says(words.Capital(u.Severity(f.Severity)) + ". " + words.Sentence(f, u) + " [" + f.Source + "]")
		}
	}
	s.Sign(u.Say("load.seller"), u.Say("load.buyer"))
}

// entries writes rows of an account as a table.
func entries(s *sheet.Sheet, head []string, align sheet.Align, all []entry) {
	var rows [][]string
	for _, r := range all {
		rows = append(rows, []string{r.name, r.figure, r.note})
	}
	s.Table(head, rows, align)
}

// settled writes what several loads come to.
func settled(s *sheet.Sheet, loads []LoadAccount) {
	s.Title(loads[0].Units.Say("load.together"), "")
	t := settledTable(loads)
	s.Table(t.Head, t.Rows, "llrrlr")
	for _, text := range Settled(loads) {
		s.Strong(text)
	}
}

// settledTable is a row for each load.
func settledTable(loads []LoadAccount) table {
	u := loads[0].Units
	t := table{Head: []string{u.Say("load.code"), u.Say("load.arrived"), u.Say("load.net"), u.Say("load.payable"), "", u.Say("load.amount")}, Words: map[int]bool{1: true, 4: true}}
	for _, a := range loads {
		row := []string{a.Load.Code, string(a.Load.Arrived), words.Figure("barley_kg", a.Load.NetKg, u), "", "", ""}
		if j := a.Judgement; j != nil {
			row[4] = words.Capital(u.Decision(j.Decision))
			if j.Taken() && a.priced() {
				row[3], row[5] = words.Figure("barley_kg", j.Settlement.Mass.PayableKg, u), a.money(j.Settlement.Total)
			}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// Settled says what several loads come to, a sentence for each currency.
func Settled(loads []LoadAccount) (out []string) {
	u := loads[0].Units
	byCurrency := map[string][]intake.Judgement{}
	var order []string
	for _, a := range loads {
		if a.Judgement == nil {
			continue
		}
		c := a.Contract.Currency
		if byCurrency[c] == nil {
			order = append(order, c)
		}
		byCurrency[c] = append(byCurrency[c], *a.Judgement)
	}
	count := func(x int) string { return u.Number(float64(x), 0) }
	for _, c := range order {
		t := intake.Sum(byCurrency[c])
		out = append(out, u.Say("load.sum", "loads", count(len(byCurrency[c])), "taken", count(t.Loads[intake.Accept]+t.Loads[intake.AcceptDiscount]),
			"net", words.Figure("barley_kg", t.NetKg, u), "payable", words.Figure("barley_kg", t.PayableKg, u), "money", c+"\u00a0"+u.Number(t.Amount, 2)))
		if t.Unpriced > 0 {
			out = append(out, u.Say("load.unpriced", "count", count(t.Unpriced)))
		}
	}
	return out
}

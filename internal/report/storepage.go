package report

import (
	"cmp"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"awn/internal/draw"
	"awn/internal/words"
	"awn/silo"
)

// Stores are the silos of a house, for one reader.
type Stores []StoreAccount

// HTML writes them as one page that opens anywhere.
func (all Stores) HTML(w io.Writer) error { return all.page().write(w, all.units()) }

// PDF writes them as sheets to print.
func (all Stores) PDF(w io.Writer, as Print) error { return all.page().print(w, all.units(), as) }

// OrderText writes the order in which the silos are to be used, with the reasons.
func (all Stores) OrderText(w io.Writer) error {
	p := &printer{}
	p.rule()
	p.line(all.units().Say("store.order"))
	for i, row := range all.order() {
		p.wrapped(strconv.Itoa(i+1)+"  ", all.units().Say("store.place", "name", row.name, "why", row.note))
	}
	_, err := io.WriteString(w, p.String())
	return err
}

// OrderJSON writes the order, with the reasons as codes.
func (all Stores) OrderJSON(w io.Writer) error {
	order := each(all.places(), func(p silo.Place) object {
		a := all[p.Stock]
		return object{"silo": a.Store.Name, "reasons": p.Reasons}.num("to_95_d", a.Account.To95.Mid)
	})
	return envelope(w, "store-order/1", all[0].Version, nil, nil, object{"order": order}, nil)
}

func (all Stores) units() words.Units {
	if len(all) == 0 {
		return words.Units{}
	}
	return all[0].Units
}

// places is the order in which the silos are to be used.
func (all Stores) places() []silo.Place {
	stocks := make([]silo.Stock, len(all))
	for i := range all {
		stocks[i] = all[i].Account.Stock(&all[i].Store)
	}
	return silo.Order(stocks)
}

// order is each silo with the reasons for its place, the one to use first first.
func (all Stores) order() (out []entry) {
	u := all.units()
	for _, place := range all.places() {
		a := all[place.Stock]
		var why []string
		for _, r := range place.Reasons {
			why = append(why, u.Turn(r))
		}
		out = append(out, entry{name: a.Store.Name, figure: a.days(a.Account.To95), note: strings.Join(why, "; ")})
	}
	return out
}

// page gathers the silos: what to do, how long they keep, then each by itself.
func (all Stores) page() page {
	u := all.units()
	p := page{Name: u.Say("store.report"), Title: all.title(), FindingsTitle: u.Say("section.findings"), NoFindings: u.Say("findings.none")}
	if len(all) == 0 {
		return p
	}
	p.Stamp = stamp(all[0].Version, u)
	if first := all.order()[0]; len(all) > 1 {
		p.Verdict = u.Say("store.first", "name", first.name, "why", first.note)
	} else {
		p.Verdict = all[0].verdict()
	}
	found := all.found()
	p.Findings, p.Rest = found[:min(len(found), mostFindings)], found[min(len(found), mostFindings):]
	n := &counter{}
	p.add(all.keepingSection(n))
	for i, a := range all {
		p.add(a.section(n, i))
	}
	return p
}

func (all Stores) title() string {
	u := all.units()
	if len(all) == 1 {
		return u.Say("store.title", "name", all[0].Store.Name) + ", " + u.Say("store.day", "day", u.Number(all[0].Store.Today, 0))
	}
	return u.Say("store.many", "count", strconv.Itoa(len(all)))
}

// verdict is how long one silo keeps.
func (a StoreAccount) verdict() string {
	if math.IsNaN(a.Account.To95.Mid) {
		return a.Units.Say("store.nofall")
	}
	return a.Units.Say("store.verdict", "first", a.days(a.Account.To95), "second", a.days(a.Account.To90))
}

// found are the findings of all, the weightiest first; of several silos each
// names its own, and what holds for all is said once.
func (all Stores) found() (out []found) {
	type weighed struct {
		found
		weight float64
	}
	var list []weighed
	seen := map[string]bool{}
	u := all.units()
	for _, a := range all {
		for _, f := range a.findings() {
			reason := words.Reason(f, u)
			if seen[f.Code+reason] && f.Source != "" && isCaution(f.Code) {
				continue
			}
			seen[f.Code+reason] = true
			if len(all) > 1 && !isCaution(f.Code) {
				reason = u.Say("store.of", "name", a.Store.Name, "what", reason)
			}
			list = append(list, weighed{found{words.Capital(u.Severity(f.Severity)), words.Capital(reason), words.Change(f, u), f.Source, f.Severity.String()}, f.Weight()})
		}
	}
	slices.SortStableFunc(list, func(a, b weighed) int { return cmp.Compare(b.weight, a.weight) })
	for _, f := range list {
		out = append(out, f.found)
	}
	return out
}

// isCaution reports whether a finding is a caution for people at work, which
// holds for every silo.
func isCaution(code string) bool {
	for _, act := range []silo.Act{silo.Entering, silo.Unloading} {
		for _, f := range silo.Cautions(act) {
			if f.Code == code {
				return true
			}
		}
	}
	return false
}

// keepingSection is how long the silos keep, and in which order to use them.
func (all Stores) keepingSection(n *counter) section {
	u := all.units()
	s := section{ID: "keeping", Title: u.Say("store.keeping"), Wide: true, Figures: n.figures([]string{u.Say("store.keeping")}, all.keepingPicture())}
	if len(all) > 1 {
		t := table{Caption: u.Say("store.order"), Head: []string{u.Say("store.silo"), u.Say("store.to95"), u.Say("store.why")}, Words: map[int]bool{2: true}}
		for _, row := range all.order() {
			t.Rows = append(t.Rows, []string{row.name, row.figure, row.note})
		}
		s.Tables = []table{t}
	}
	return s
}

// keepingPicture is a line for each silo, in the order of use.
func (all Stores) keepingPicture() draw.Picture {
	u := all.units()
	k := draw.Keeping{ID: "keeping", Title: u.Say("store.keeping"), Says: u.Say("store.keeping.says"), Axis: u.Say("store.axis"),
		Head: []string{u.Say("store.silo"), u.Say("store.to95"), u.Say("store.early"), u.Say("store.late"), u.Say("store.to90"), u.Say("store.early"), u.Say("store.late"), u.Say("store.planned")}}
	for _, place := range all.places() {
		a := all[place.Stock]
		row := draw.Kept{Name: u.Say("store.title", "name", a.Store.Name), Planned: math.NaN(), Unknown: u.Say("store.uncounted")}
		if !a.Account.Living.Known() {
			row.Unknown = u.Say("store.notcounted")
		}
		if a.Store.SteepDay >= a.Store.Today {
			row.Planned = a.Store.SteepDay - a.Store.Today
			row.Plan = u.Say("store.steep-in", "days", u.Number(row.Planned, 0))
		}
		for _, level := range []struct {
			word string
			silo.Days
		}{{"95", a.Account.To95}, {"90", a.Account.To90}} {
			row.Falls = append(row.Falls, draw.Fall{Word: u.Say("store.fall", "level", level.word, "days", u.Number(level.Mid, 0)), Mid: level.Mid, Low: level.Low, High: level.High})
		}
		k.Rows = append(k.Rows, row)
	}
	return draw.Pen{Number: u.Number}.Keeping(k)
}

// section is one silo by itself.
func (a StoreAccount) section(n *counter, number int) section {
	u := a.Units
	s := section{ID: "silo-" + strconv.Itoa(number+1), Title: u.Say("store.title", "name", a.Store.Name), Wide: true}
	if pic, ok := a.cutPicture(number); ok {
		s.Figures = n.figures([]string{u.Say("store.cut")}, pic)
	}
	for _, part := range []struct {
		title string
		rows  []entry
		note  string
	}{{u.Say("store.now"), a.stands(), ""}, {u.Say("store.ahead"), a.future(), a.windows()}} {
		if len(part.rows) > 0 {
			s.Tables = append(s.Tables, wordTable(words.Capital(part.title), part.rows, part.note))
		}
	}
	return s
}

// wordTable is the rows of an account as a table of a page.
func wordTable(caption string, rows []entry, note string) table {
	t := table{Caption: caption, Head: []string{"", "", ""}, Words: map[int]bool{2: true}, Note: note}
	for _, r := range rows {
		t.Rows = append(t.Rows, []string{r.name, r.figure, r.note})
	}
	return t
}

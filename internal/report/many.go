package report

import (
	"encoding/csv"
	"io"
	"strings"

	"awn/intake"
	cells "awn/internal/table"
)

// SumText writes what several loads come to.
func SumText(w io.Writer, loads []LoadAccount) error {
	p := &printer{}
	p.rule()
	for _, text := range Settled(loads) {
		p.wrapped("", text)
	}
	_, err := io.WriteString(w, p.String())
	return err
}

// LoadsCSV writes loads, one in each row, in SI units and fractions; a field
// is empty where nothing is known.
func LoadsCSV(w io.Writer, loads []LoadAccount) error {
	c := csv.NewWriter(w)
	rows := [][]string{{"load", "variety", "arrived", "net_kg", "dockage", "moisture_wb", "protein_dm", "grade", "decision", "confidence", "deciding", "payable_kg", "price_per_t", "amount", "currency"}}
	for _, a := range loads {
		rows = append(rows, a.record())
	}
	return c.WriteAll(rows)
}

// record is the row of a load. One that is not taken has no price.
func (a LoadAccount) record() []string {
	l := &a.Load
	read := func(f intake.Factor) string { v, _ := l.Value(intake.Of(f)); return plain(v.Mid) }
	row := []string{cells.Words(l.Code), cells.Words(l.Variety), string(l.Arrived), plain(l.NetKg), plain(l.Dockage), read(intake.Moisture), read(intake.Protein), "", "", "", "", "", "", "", ""}
	if a.Grade != nil {
		row[7] = a.Grade.Name
	}
	j := a.Judgement
	if j == nil {
		return row
	}
	row[8], row[9], row[10] = string(j.Decision), plain(j.Confidence), strings.Join(a.names(j.Deciding), "; ")
	if s := j.Settlement; j.Taken() && a.priced() {
		row[11], row[12], row[13], row[14] = exact(s.Mass.PayableKg), exact(s.PriceT), exact(s.Total), s.Currency
	}
	return row
}

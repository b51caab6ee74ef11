package report

import (
	"io"

	"awn/internal/malthouse"
	"awn/internal/words"
)

// BookedText writes what came of a piece beside what was expected.
func BookedText(w io.Writer, b malthouse.Booked, u words.Units) error {
	p := &printer{}
	rows := bookedRows(b, u)
	p.rule()
	p.fit(rows)
	p.part(u.Say("record.came"), nil, rows)
	_, err := io.WriteString(w, p.String())
	return err
}

// bookedRows are the figures, each with what was expected of a piece of that
// size.
func bookedRows(b malthouse.Booked, u words.Units) (rows []entry) {
	scale := 1.0
	if b.Expected != nil && b.Expected.CastKg > 0 {
		scale = b.CastKg / b.Expected.CastKg
	}
	expected := func(key string, of func(*malthouse.Plan) float64) string {
		if b.Expected == nil {
			return ""
		}
		return u.Say("record.expected", "figure", words.Figure(key, of(b.Expected), u))
	}
	add := func(phrase, key string, x float64, note string) {
		rows = append(rows, entry{u.Say(phrase), words.Figure(key, x, u), note})
	}
	add("record.row.cast", "kg", b.CastKg, "")
	add("record.row.malt", "kg", b.MaltKg, expected("kg", func(e *malthouse.Plan) float64 { return scale * e.MaltKg }))
	add("record.row.moisture", "wb", b.MaltWB, expected("wb", func(e *malthouse.Plan) float64 { return e.MoistureWB }))
	add("record.row.yield", "tenths", b.Yield, expected("tenths", func(*malthouse.Plan) float64 { return b.ExpectedYield }))
	add("record.row.culms", "kg", b.CulmsKg, expected("kg", func(e *malthouse.Plan) float64 { return scale * e.CulmsKg }))
	add("record.row.screenings", "kg", b.ScreeningsKg, expected("kg", func(e *malthouse.Plan) float64 { return scale * e.ScreeningsKg }))
	add("record.row.respired", "kg_dm", b.RespiredKg, u.Say("record.worked-out"))
	return rows
}

// BookedRows are the figures of a piece that ended, each with what was expected.
func BookedRows(b malthouse.Booked, u words.Units) (rows [][3]string) {
	for _, r := range bookedRows(b, u) {
		rows = append(rows, [3]string{r.name, r.figure, r.note})
	}
	return rows
}

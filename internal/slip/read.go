package slip

import (
	"context"
	"errors"
	"math"
	"strings"
	"time"

	"awn/internal/malthouse"
	"awn/internal/paper"
	"awn/ledger"
	"awn/unit"
)

// reader reads the fields of one slip and keeps what is wrong with them.
type reader struct{ faults Faults }

// grams reads a mass such as "28.1 t".
func (r *reader) grams(field, text string) ledger.Grams {
	q, err := unit.Mass.Parse(text)
	if err != nil {
		r.faults.unread(field, "", err)
	}
	return ledger.Grams(math.Round(q.Value * 1000))
}

// water reads a mass or a volume of water, which weighs 1000 kg a cubic metre
// as near as meters read.
func (r *reader) water(field, text string) *ledger.Water {
	if text == "" {
		return nil
	}
	if v, err := unit.Volume.Parse(text); err == nil {
		return &ledger.Water{WaterKg: ledger.Grams(math.Round(v.Value * 1e6)), Standing: ledger.Measured}
	}
	return &ledger.Water{WaterKg: r.grams(field, text), Standing: ledger.Measured}
}

// temp reads a temperature.
func (r *reader) temp(field, text string) *float64 {
	if text == "" {
		return nil
	}
	q, err := unit.Temperature.Parse(text)
	if err != nil {
		r.faults.unread(field, "", err)
	}
	return &q.Value
}

// moistureGrain is how finely a moisture is kept: as finely as anybody writes
// one, so that 13.2 % is 0.132 and no longer number.
const moistureGrain = 1e9

func (r *reader) moisture(field, text string) *ledger.Fraction {
	if text == "" {
		return nil
	}
	q, err := unit.Moisture.Parse(text)
	if err != nil {
		r.faults.unread(field, "", err)
	}
	wb := ledger.Fraction(math.Round(q.Value*moistureGrain) / moistureGrain)
	return &wb
}

// Weighing are the fields that say what an amount is.
type Weighing struct {
	Moisture  string `placeholder:"FIGURE" help:"Moisture, as in 13.2 % wb. Without it, that of the place by the book, where there is one."`
	Measured  bool   `xor:"standing" help:"The mass is read off an instrument other than a scale."`
	Estimated bool   `xor:"standing" help:"The mass is judged by eye."`
	Doubt     string `placeholder:"MASS" help:"Standard uncertainty of the mass, as in 20 kg."`
}

// amount is a mass with its moisture.
func (r *reader) amount(field, text string, w Weighing) ledger.Amount {
	a := ledger.Amount{Standing: ledger.Weighed}
	switch {
	case w.Measured:
		a.Standing = ledger.Measured
	case w.Estimated:
		a.Standing = ledger.Estimated
	}
	a.FreshKg = r.grams(field, text)
	if w.Doubt != "" {
		a.UFreshKg = r.grams("doubt", w.Doubt)
	}
	a.MoistureWB = r.moisture("moisture", w.Moisture)
	return a
}

// draws reads what is taken from where: "B7 28.1 t", with a moisture behind it
// or not: "B7 28.1 t 13.2 % wb".
func (r *reader) draws(field string, texts []string, usual string, w Weighing) (out []ledger.Draw) {
	for _, t := range texts {
		f := strings.Fields(t)
		if len(f) < 3 {
			r.faults.add(field, "slip.draw.form", t, "“B7 28.1 t”")
			continue
		}
		own := w
		if len(f) > 3 {
			own.Moisture = strings.Join(f[3:], " ")
		}
		out = append(out, ledger.Draw{Place: Place(f[0], usual), Amount: r.amount(field, f[1]+" "+f[2], own)})
	}
	return out
}

// figures reads results such as "don 1.6 mg/kg" and "ndma < 1 ug/kg".
func (r *reader) figures(field string, texts []string, method string) (out []ledger.Figure) {
	for _, t := range texts {
		plain, less := t, false
		if name, rest, found := strings.Cut(t, "<"); found {
			plain, less = strings.TrimSpace(name)+" "+strings.TrimSpace(rest), true
		}
		key, value, err := paper.ReadFigure(plain)
		if err != nil {
			r.faults.unread(field, t, err)
			continue
		}
		out = append(out, ledger.Figure{Quantity: ledger.Quantity(key), Value: Tidy(value), Less: less, Method: method})
	}
	return out
}

// Figures reads results of one method such as "don 1.6 mg/kg", typed in the
// field of that name.
func Figures(field string, texts []string, method string) ([]ledger.Figure, error) {
	var r reader
	out := r.figures(field, texts, method)
	return out, r.faults.orNil()
}

// Tidy takes off the digits that arithmetic left behind.
func Tidy(x float64) float64 { return math.Round(x*1e12) / 1e12 }

// Place reads "silo:B7", or "B7" for a place of the usual kind.
func Place(text, usual string) ledger.Account {
	if kind, code, found := strings.Cut(text, ":"); found {
		return ledger.In(kind, Code(code))
	}
	return ledger.In(usual, Code(text))
}

// placed is Place for what may lie in several kinds of place: a bare code is the
// place of that code that the record knows, if it knows one.
func placed(ctx context.Context, h *malthouse.House, text, usual string) (ledger.Account, error) {
	if strings.Contains(text, ":") {
		return Place(text, usual), nil
	}
	of, err := malthouse.Find(ctx, h.Store.Read(h.Code), text, ledger.Silo, ledger.MaltStore, ledger.ByProduct)
	var r *malthouse.Refusal
	if errors.As(err, &r) && r.Code == "use.thing.unknown" {
		return Place(text, usual), nil
	}
	return ledger.Account(of), err
}

// find is a thing of the record by its code.
func find(ctx context.Context, h *malthouse.House, text string, among ...string) (ledger.Ref, error) {
	return malthouse.Find(ctx, h.Store.Read(h.Code), text, among...)
}

// Code is a code as a person types it.
func Code(text string) ledger.Code { return ledger.Code(strings.ToUpper(strings.TrimSpace(text))) }

// Bare is the code of a thing, with its kind or without.
func Bare(text string) ledger.Code {
	if kind, rest, found := strings.Cut(text, ":"); found && malthouse.Kinds[kind] != "" {
		return Code(rest)
	}
	return Code(text)
}

// Moment reads a time by the clock of now, today's if it has no day. Layouts are
// forms of a date that may be typed besides 2026-11-25.
func Moment(text string, now time.Time, layouts ...string) (time.Time, error) {
	text = strings.Replace(strings.TrimSpace(text), "T", " ", 1)
	for _, layout := range []string{"2006-01-02 15:04", "2006-01-02 15:04:05", time.DateOnly, "2006-01-02 15:04:05Z07:00", "2006-01-02 15:04Z07:00"} {
		if t, err := time.ParseInLocation(layout, text, now.Location()); err == nil {
			return t, nil
		}
	}
	if t, err := time.ParseInLocation("15:04", text, now.Location()); err == nil {
		return time.Date(now.Year(), now.Month(), now.Day(), t.Hour(), t.Minute(), 0, 0, now.Location()), nil
	}
	for _, day := range layouts {
		for _, layout := range []string{day + " 15:04", day} {
			if t, err := time.ParseInLocation(layout, text, now.Location()); err == nil {
				return t, nil
			}
		}
	}
	return time.Time{}, Faults{Of("at", "slip.time.form", text, now.Format("2006-01-02 15:04"))}
}

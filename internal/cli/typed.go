package cli

import (
	"context"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"awn/internal/malthouse"
	"awn/internal/paper"
	"awn/ledger"
	"awn/unit"
)

// grams reads a mass such as "28.1 t".
func grams(flag, text string) (ledger.Grams, error) {
	q, err := unit.Mass.Parse(text)
	if err != nil {
		return 0, badFlag(flag, err)
	}
	return ledger.Grams(math.Round(q.Value * 1000)), nil
}

// water reads a mass or a volume of water, which weighs 1000 kg a cubic metre
// as near as meters read.
func water(flag, text string) (*ledger.Water, error) {
	if text == "" {
		return nil, nil
	}
	if v, err := unit.Volume.Parse(text); err == nil {
		return &ledger.Water{WaterKg: ledger.Grams(math.Round(v.Value * 1e6)), Standing: ledger.Measured}, nil
	}
	g, err := grams(flag, text)
	return &ledger.Water{WaterKg: g, Standing: ledger.Measured}, err
}

// badFlag names the flag or the word that could not be read.
func badFlag(flag string, err error) error {
	return &lineError{fmt.Sprintf("%s: %v", flag, err)}
}

// weighing are the flags that say what an amount is.
type weighing struct {
	Moisture  string `placeholder:"FIGURE" help:"Moisture, as in 13.2 % wb. Without it, that of the place by the book, where there is one."`
	Measured  bool   `xor:"standing" help:"The mass is read off an instrument other than a scale."`
	Estimated bool   `xor:"standing" help:"The mass is judged by eye."`
	Doubt     string `placeholder:"MASS" help:"Standard uncertainty of the mass, as in 20 kg."`
}

// amount is a mass with its moisture.
func (w weighing) amount(flag, text string) (ledger.Amount, error) {
	a := ledger.Amount{Standing: ledger.Weighed}
	switch {
	case w.Measured:
		a.Standing = ledger.Measured
	case w.Estimated:
		a.Standing = ledger.Estimated
	}
	var err error
	if a.FreshKg, err = grams(flag, text); err != nil {
		return a, err
	}
	if w.Doubt != "" {
		if a.UFreshKg, err = grams("--doubt", w.Doubt); err != nil {
			return a, err
		}
	}
	a.MoistureWB, err = moisture("--moisture", w.Moisture)
	return a, err
}

// moistureGrain is how finely a moisture is kept: as finely as anybody writes
// one, so that 13.2 % is 0.132 and no longer number.
const moistureGrain = 1e9

func moisture(flag, text string) (*ledger.Fraction, error) {
	if text == "" {
		return nil, nil
	}
	q, err := unit.Moisture.Parse(text)
	if err != nil {
		return nil, badFlag(flag, err)
	}
	wb := ledger.Fraction(math.Round(q.Value*moistureGrain) / moistureGrain)
	return &wb, nil
}

// place reads "silo:B7", or "B7" for a place of the usual kind.
func place(text, usual string) ledger.Account {
	if kind, code, found := strings.Cut(text, ":"); found {
		return ledger.In(kind, ledger.Code(strings.ToUpper(code)))
	}
	return ledger.In(usual, ledger.Code(strings.ToUpper(text)))
}

// placed is place for what may lie in several kinds of place: a bare code is the
// place of that code that the record knows, if it knows one.
func (d *desk) placed(ctx context.Context, text, usual string) (ledger.Account, error) {
	if strings.Contains(text, ":") {
		return place(text, usual), nil
	}
	of, err := malthouse.Find(ctx, d.Store.Read(d.Code), text, ledger.Silo, ledger.MaltStore, ledger.ByProduct)
	var r *malthouse.Refusal
	if errors.As(err, &r) && r.Code == "use.thing.unknown" {
		return place(text, usual), nil
	}
	return ledger.Account(of), err
}

// draws reads what is taken from where: "B7 28.1 t", with a moisture behind it
// or not: "B7 28.1 t 13.2 % wb".
func (w weighing) draws(texts []string, usual string) ([]ledger.Draw, error) {
	var out []ledger.Draw
	for _, t := range texts {
		f := strings.Fields(t)
		if len(f) < 3 {
			return nil, &lineError{fmt.Sprintf("--from “%s”: write a place and a mass, as in --from “B7 28.1 t”.", t)}
		}
		own := w
		if len(f) > 3 {
			own.Moisture = strings.Join(f[3:], " ")
		}
		a, err := own.amount("--from", f[1]+" "+f[2])
		if err != nil {
			return nil, err
		}
		out = append(out, ledger.Draw{Place: place(f[0], usual), Amount: a})
	}
	return out, nil
}

// figures reads results such as "don 1.6 mg/kg" and "ndma < 1 ug/kg".
func figures(texts []string, method string) ([]ledger.Figure, error) {
	var out []ledger.Figure
	for _, t := range texts {
		plain, less := t, false
		if name, rest, found := strings.Cut(t, "<"); found {
			plain, less = strings.TrimSpace(name)+" "+strings.TrimSpace(rest), true
		}
		key, value, err := paper.ReadFigure(plain)
		if err != nil {
			return nil, badFlag("“"+t+"”", err)
		}
		out = append(out, ledger.Figure{Quantity: ledger.Quantity(key), Value: tidy(value), Less: less, Method: method})
	}
	return out, nil
}

// tidy takes off the digits that arithmetic left behind.
func tidy(x float64) float64 { return math.Round(x*1e12) / 1e12 }

// code is a code as a person types it.
func code(text string) ledger.Code { return ledger.Code(strings.ToUpper(text)) }

// bare is the code of a thing, with its kind or without.
func bare(text string) ledger.Code {
	if kind, rest, found := strings.Cut(text, ":"); found && malthouse.Kinds[kind] != "" {
		return code(rest)
	}
	return code(text)
}

// decimal is a number as it can be read back.
func decimal(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

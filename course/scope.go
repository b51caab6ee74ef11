package course

import (
	"math"

	"awn/finding"
)

// Recorded is what a route after the kiln comes to, as the house gives it. It is
// the zero Recorded where there is none; NaN is not known.
type Recorded struct {
	Kind      string
	MaltKg    float64
	ColourEBC float64
}

// firstConstants are the constants with which a course begins: those of the
// house, times the factors of grain that is not barley.
func (p *Piece) firstConstants() (*constants, error) {
	if len(p.Lot.Factor) == 0 {
		return newConstants(p.House.Parameters)
	}
	bare := *p
	bare.Programme.Additions = nil
	values, err := bare.parametersAt(Kiln)
	if err != nil {
		return nil, err
	}
	return newConstants(values)
}

// scope says where an answer rests on what lies outside the model.
func (r *runner) scope() {
	o := r.out
	tell := func(code, act, stage string, severity finding.Severity, figures ...finding.Figure) {
		f := finding.New(code, severity, stage, figures...)
		f.Act, f.Chance, f.Cost, f.Source = act, 0.5, 0.05, "common practice, no source"
		o.Findings = append(o.Findings, f)
	}
	if r.piece.Lot.Grain != "" {
		tell("lot.grain.as-barley", "act.lot.check-or-barley", "lot", finding.Caution, finding.Figure{Name: "factors_n", Value: float64(len(r.piece.Lot.Factor))})
	}
	route := r.piece.Programme.Route
	if route == nil {
		return
	}
	o.Route = Recorded{route.Kind, o.Yield.Malt.Kg() * route.Yield, route.ColourEBC}
	var figures []finding.Figure
	if !math.IsNaN(o.Route.MaltKg) {
		figures = append(figures, finding.Figure{Name: "made_kg", Value: o.Route.MaltKg})
	}
	if !math.IsNaN(route.ColourEBC) {
		figures = append(figures, finding.Figure{Name: "colour_ebc", Value: route.ColourEBC})
	}
	tell("programme.route."+route.Kind, "act.malt.analyse-finished", "programme", finding.Note, figures...)
}

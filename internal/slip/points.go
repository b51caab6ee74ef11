package slip

import (
	"awn/internal/malthouse"
	"awn/internal/paper"
	"awn/ledger"
)

// Points are the control points of a document.
func Points(doc paper.ControlPoints) (out []malthouse.ControlPoint, err error) {
	for _, p := range doc.Points {
		quantity, least, most, err := p.Limits()
		if err != nil {
			return nil, err
		}
		out = append(out, malthouse.ControlPoint{
			Name: p.Name, Hazard: p.Hazard, Of: p.Of, Quantity: ledger.Quantity(quantity), Least: least, Most: most, Act: p.Act,
		})
	}
	return out, nil
}

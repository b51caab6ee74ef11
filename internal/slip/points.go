package slip

import (
	"context"

	"awn/internal/malthouse"
	"awn/internal/paper"
	"awn/ledger"
)

// Points reads the control points of a document; file says where it lies.
func Points(file string, text []byte) (plan string, points []malthouse.ControlPoint, err error) {
	doc, faults := paper.Read[paper.ControlPoints](file, text)
	if len(faults) > 0 {
		return "", nil, faults
	}
	for _, p := range doc.Points {
		quantity, least, most, err := p.Limits()
		if err != nil {
			return "", nil, err
		}
		points = append(points, malthouse.ControlPoint{
			Name: p.Name, Hazard: p.Hazard, Of: p.Of, Quantity: ledger.Quantity(quantity), Least: least, Most: most, Act: p.Act,
		})
	}
	return doc.Name, points, nil
}

// HousePoints reads the control points that a house goes by; found is false of a
// house that keeps none: limits are nobody's until it does.
func HousePoints(ctx context.Context, h *malthouse.House, a malthouse.Actor) (plan string, points []malthouse.ControlPoint, found bool, err error) {
	text, found, err := h.Kept(ctx, a, malthouse.ControlPoints)
	if err != nil || !found {
		return "", nil, false, err
	}
	plan, points, err = Points(malthouse.ControlPoints+".yaml", text)
	return plan, points, true, err
}

package paper

import "strconv"

// ControlPoints are the points at which a house controls what could make malt
// unsafe or unfit, as its own plan has them.
type ControlPoints struct {
	Name   string         `key:"name" doc:"Whose plan it is, and its date."`
	Points []ControlPoint `key:"points" doc:"The points, in the order in which grain meets them."`
}

// ControlPoint is one of them.
type ControlPoint struct {
	Name   string `key:"name" doc:"What it is called."`
	Hazard string `key:"hazard?" doc:"What it guards against."`
	Of     string `key:"of" one:"delivery|piece|lot|shipment" doc:"What is measured there."`
	Figure string `key:"figure" doc:"What is measured, as in don or moisture."`
	Least  string `key:"least?" doc:"The least it may be, with unit and basis."`
	Most   string `key:"most?" doc:"The most it may be, with unit and basis."`
	Act    string `key:"act" doc:"What is done when it is beyond its limit."`

	_ struct{} `rule:"some of least most"`
}

// Kind is the word behind the first key.
func (ControlPoints) Kind() string { return "control-points/1" }

// Limits are the limits of a point in the units that the record keeps, and the
// name under which it keeps the figure; nil where there is none.
func (p ControlPoint) Limits() (quantity string, least, most *float64, err error) {
	for _, l := range []struct {
		text string
		into **float64
	}{{p.Least, &least}, {p.Most, &most}} {
		if l.text == "" {
			continue
		}
		key, value, err := ReadFigure(p.Figure + " " + l.text)
		if err != nil {
			return "", nil, nil, err
		}
		quantity, *l.into = key, &value
	}
	return quantity, least, most, nil
}

// Check reads the limits.
func (c ControlPoints) Check() (faults []Fault) {
	for i, p := range c.Points {
		if _, _, _, err := p.Limits(); err != nil {
			faults = append(faults, Fault{Code: "points.limit.unread", Path: "points[" + strconv.Itoa(i) + "]", Got: err.Error()})
		}
	}
	return faults
}

package reckon

import (
	"slices"

	"awn/unit"
)

// place finds the input that a quantity without a name is meant for.
func (r *reading) place(span token, written, symbol string) *Input {
	var free, full []string // inputs that take the unit but want their name, or have a value
	for i := range r.entry.Inputs {
		in := &r.entry.Inputs[i]
		switch {
		case r.has(in):
			if in.takes(symbol) {
				full = append(full, in.Key)
			}
		case !in.takes(symbol):
		case in.Named:
			free = append(free, in.form())
		default:
			return in
		}
	}
	f := &Fault{Code: "reckon.input.place", Got: written, Allowed: r.open()}
	switch {
	case len(free) > 0:
		f.Code, f.Allowed = "reckon.input.name", free
	case len(full) > 0 && symbol != "":
		f.Code = "reckon.input.twice"
	default:
		r.unitFault(f, symbol)
	}
	r.fault(span, f)
	return nil
}

// unitFault says it of the unit if that is what is wrong.
func (r *reading) unitFault(f *Fault, symbol string) {
	var units []string
	for i := range r.entry.Inputs {
		in := &r.entry.Inputs[i]
		if r.has(in) {
			continue
		}
		if nearest := unit.Nearest(symbol, in.Units()); symbol != "" && nearest != "" {
			f.Code, f.Got, f.Allowed, f.Nearest = "unit.unknown", symbol, in.Units(), nearest
			return
		}
		for _, u := range in.Units() {
			if !slices.Contains(units, u) {
				units = append(units, u)
			}
		}
	}
	if symbol == "" && len(units) > 0 {
		f.Code, f.Allowed = "unit.missing", units
	}
}

// open lists what is not given yet.
func (r *reading) open() []string {
	var out []string
	for i := range r.entry.Inputs {
		if in := &r.entry.Inputs[i]; !r.has(in) {
			out = append(out, in.form())
		}
	}
	if len(out) == 0 {
		out = []string{"nothing"}
	}
	return out
}

// fill gives an input its value, once in each part.
func (r *reading) fill(span token, f Filled) {
	if r.has(f.Input) {
		r.fault(span, &Fault{Code: "reckon.input.twice", Got: f.Input.Key})
		return
	}
	f.Part = r.part
	r.given.filled = append(r.given.filled, f)
}

package course

import (
	"slices"

	"awn/barley"
	"awn/programme"
)

// fieldRows is the most moments of a bed that are kept evenly spread: more than
// a picture shows.
const fieldRows = 120

// recorder keeps the curve of a piece and the field of each column of a bed.
// Its slices are made once for the longest the programme can take, so that
// nothing is allocated while a stage runs.
type recorder struct {
	fromH  float64 // when the stage began, hours since the piece began
	curve  *Curve
	bed    func(column int, moistureWB, tempC []float64)
	fields []*Field
	lastH  float64 // of the last row of the fields
	everyH float64
	out    *Outcome
}

// newRecorder has room for looks more moments over at most so many hours.
// Stages of a single layer have no field.
func newRecorder(out *Outcome, stage Stage, fromH, hours float64, looks int, shape *barley.Grain, bed func(column int, moistureWB, tempC []float64)) *recorder {
	c := &out.Curve
	c.TimeH = append(make([]float64, 0, len(c.TimeH)+looks), c.TimeH...)
	c.At = append(make([]programme.Values, 0, len(c.At)+looks), c.At...)
	r := &recorder{fromH: fromH, curve: c, bed: bed, lastH: -hours, everyH: hours / fieldRows, out: out}
	if shape.Layers == 1 {
		return r
	}
	for column := range shape.Columns {
		rows := min(looks, fieldRows+2)
		room := rows * shape.Layers
		r.fields = append(r.fields, &Field{
			Stage: stage, Column: column, Layers: shape.Layers, TimeH: make([]float64, 0, rows),
			Moisture: make([]float64, 0, room), TempC: make([]float64, 0, room),
		})
	}
	return r
}

// record keeps one moment of the stage, atH hours after it began. A second look
// at the same moment replaces the first.
func (r *recorder) record(atH float64, now *programme.Values) {
	h := r.fromH + atH
	n := len(r.curve.TimeH)
	if n == 0 || r.curve.TimeH[n-1] < h {
		r.curve.TimeH = append(r.curve.TimeH, h)
		r.curve.At = append(r.curve.At, programme.Values{})
		n++
	}
	if r.fields != nil && atH >= r.lastH+r.everyH {
		r.field(atH)
	}
	r.curve.At[n-1] = *now
}

// field keeps a row of each column.
func (r *recorder) field(atH float64) {
	for _, f := range r.fields {
		f.TimeH = append(f.TimeH, r.fromH+atH)
		n := len(f.Moisture)
		f.Moisture = slices.Grow(f.Moisture, f.Layers)[:n+f.Layers]
		f.TempC = slices.Grow(f.TempC, f.Layers)[:n+f.Layers]
		r.bed(f.Column, f.Moisture[n:], f.TempC[n:])
	}
	r.lastH = atH
}

// close keeps the last moment of the beds and hands them over.
func (r *recorder) close(atH float64) {
	if r.fields != nil && r.lastH < atH {
		r.field(atH)
	}
	for _, f := range r.fields {
		r.out.Bed = append(r.out.Bed, *f)
	}
}

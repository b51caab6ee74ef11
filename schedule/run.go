// Package schedule puts pieces into the vessels of a house through the weeks: it
// says where two want one vessel, where a vessel stands empty, and when an order
// is ready. Hours count from any one moment that all pieces share.
package schedule

// Road is a stretch of the way that grain takes through a house.
type Road int

// The stretches, in the order in which the grain moves.
const (
	Silo Road = iota
	Steep
	Germinate
	Kiln
	Store
)

// String is the stretch's name in JSON.
func (r Road) String() string {
	return [...]string{"silo", "steep", "germinate", "kiln", "store"}[r]
}

// Vessel is a vessel of a house. Room is how many pieces it takes at once.
type Vessel struct {
	Road Road
	Name string
	Room int
}

// Span is a stretch of time; ends that are not certain have a 10th and a 90th
// percentile beside the middle.
type Span struct{ From, To Moment }

// Moment is an hour with what is known of it.
type Moment struct{ H, LowH, HighH float64 }

// At is an hour that is certain.
func At(h float64) Moment { return Moment{h, h, h} }

// Leg is the stay of a piece in one vessel.
type Leg struct {
	Road   Road
	Vessel string
	Span
	Begun bool // it is there, or was
	Ended bool // it is not there any more
	Open  bool // it is there, and nobody can say until when
}

// Run is a piece on its way.
type Run struct {
	Name  string
	Legs  []Leg
	Order string
	Due   float64   // hour at which the order is to be ready; NaN where nobody said
	Ready []float64 // hours at which its malt may go out, a draw each; empty where nobody can say
	Meant bool      // not cast yet
}

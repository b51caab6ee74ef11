// Package course runs one piece through every stage: house, lot and programme
// in, malt with its balances out. It owns what lies between the stages: the
// walk through a programme, the conditions that end a step, transfers, the
// whole-piece account and its cost.
package course

import (
	"awn/barley"
	"awn/kiln"
	"awn/malt"
	"awn/plant"
	"awn/programme"
)

// Stage is a part of the course, in the order the grain moves.
type Stage int

// The stages.
const (
	Steep Stage = iota
	Germinate
	Kiln
	Dress
)

// String is the stage's name in findings and JSON.
func (s Stage) String() string { return [...]string{"steep", "germinate", "kiln", "dress"}[s] }

// Piece is what is asked: one lot in one house by one programme, for one
// specification.
type Piece struct {
	Code          string
	Lot           barley.Lot
	House         plant.House
	Programme     programme.Programme
	Specification malt.Specification

	// StartMs is when the piece is cast in (or when a later first stage
	// begins), in ms UTC; OffsetMin is the local clock's offset then.
	StartMs   int64
	OffsetMin int
	CastKg    float64 // barley as cast, as-is

	// Which vessel of the house, by index.
	Steep, Germinator, Kiln int

	// Begin starts the piece at a later stage from a measured state.
	Begin *Begin

	// LowerPiece is what lies on the lower deck of a kiln with two; nil solves
	// them to the state that repeats itself.
	LowerPiece *kiln.LowerPiece

	// Level takes a perfectly level bed, whatever the house says of its vessels.
	Level bool

	Grid Grid
}

// Grid is how finely time and beds are cut. The zero Grid is the usual one.
type Grid struct {
	GerminateLayers, KilnLayers int     // of each column; 0 takes the usual number
	StepShare                   float64 // of the usual longest time steps, up to 1; 0 takes them whole
}

// Begin is the measured state of grain with which a piece starts at a later
// stage. NaN marks what was not measured.
type Begin struct {
	Stage    Stage   // Germinate or Kiln
	DryKg    float64 // dry matter of the piece
	Moisture float64 // wet basis, film included
	TempC    float64
	Chit     float64 // by number
	AgeD     float64 // mean growth age of chitted corns, days at 16 °C and 45 %
}

package course_test

import (
	"testing"

	"awn/course"
)

// The old side of the house: the same piece on a level bed and over three spots,
// and a kiln of two decks solved to the state that repeats itself beside the same
// with a named lower piece, which is one run of it.
func BenchmarkHouse(b *testing.B) {
	level := load(b, "piece-uneven.yaml")
	level.Level = true
	named := load(b, "piece-decks.yaml")
	d := run(b, named).Decks
	named.LowerPiece = lowerOf(d)
	for name, p := range map[string]*course.Piece{
		"level": level, "three-spots": load(b, "piece-uneven.yaml"), "decks-named": named, "decks-periodic": load(b, "piece-decks.yaml"),
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				run(b, p)
			}
		})
	}
}

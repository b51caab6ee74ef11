package course_test

import (
	"testing"

	"awn/course"
)

// A draw of the piece of BenchmarkPiece, its share of what is gathered at the end
// included.
func BenchmarkDraw(b *testing.B) {
	p := load(b, "piece.yaml")
	b.ReportAllocs()
	const draws = 50
	for b.Loop() {
		e, err := course.Draw(b.Context(), p, course.Sampling{Draws: draws, Seed: 1})
		if err != nil {
			b.Fatal(err)
		}
		e.Weigh(course.UsualRisk)
	}
	b.ReportMetric(float64(b.Elapsed().Milliseconds())/float64(b.N)/draws, "ms/draw")
}

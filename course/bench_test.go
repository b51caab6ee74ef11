package course_test

import "testing"

// The piece that is built in: two days of steep, five of growth in 20 layers,
// a night and a day on the kiln in 60, 24 kernel classes, one column.
func BenchmarkPiece(b *testing.B) {
	p := load(b, "piece.yaml")
	b.ReportAllocs()
	for b.Loop() {
		run(b, p)
	}
}

package course_test

import (
	"os"
	"testing"

	"awn/course"
	"awn/internal/paper"
)

func BenchmarkPiece(b *testing.B) {
	p, _, faults := paper.Load(os.DirFS("../examples"), "piece.yaml")
	if len(faults) > 0 {
		b.Fatal(faults)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := course.Run(&p); err != nil {
			b.Fatal(err)
		}
	}
}

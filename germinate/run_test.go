package germinate

import (
	"testing"

	"awn/programme"
)

func BenchmarkFourDays(b *testing.B) {
	s := setup(b, 20)
	g := steeped(classes(), 20, 0.455, 16, 400, 0.1)
	r := start(b, s, g)
	first := r.Clone()
	step := plain(96)
	for b.Loop() {
		r.Reset(first)
		run(b, r, step)
	}
	v := read(r)
	b.ReportMetric(v[programme.Age], "age")
	b.ReportMetric(v[programme.TempMean], "C")
}

func BenchmarkRead(b *testing.B) {
	r := start(b, setup(b, 20), steeped(classes(), 20, 0.455, 16, 400, 0.1))
	run(b, r, plain(24))
	var v programme.Values
	for b.Loop() {
		r.Read(&v)
	}
}

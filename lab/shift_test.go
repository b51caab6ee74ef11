package lab

import (
	"math"
	"strings"
	"testing"
)

// Twelve invented readings; slopes and their unscaled variances by lm() of base R 4
// for a step at the seventh: 0.4816667 and 0.3333333. Seven printed digits.
func TestFindShift(t *testing.T) {
	day := []float64{0, 7, 14, 21, 30, 35, 42, 49, 60, 63, 70, 77}
	x := []float64{9.86, 9.96, 10.04, 9.83, 10.03, 10, 10.41, 10.67, 10.12, 10.79, 10.29, 10.33}
	const sigma = 0.15
	s, ok := FindShift(day, x, sigma, math.Inf(1))
	if !ok || s.Gradual || s.At != 6 || s.First != 6 || s.Last != 6 {
		t.Fatalf("%+v", s)
	}
	near(t, "size", s.Size, 0.4816667, 1e-7)
	near(t, "gain", s.Gain, 0.4816667*0.4816667/0.3333333/(sigma*sigma), 1e-5)
	half := 1.959964 * sigma * math.Sqrt(0.3333333)
	near(t, "low", s.Low, 0.4816667-half, 1e-6)
	near(t, "high", s.High, 0.4816667+half, 1e-6)

	// A drift of a tenth a day from the sixth reading on, without noise.
	for i := range x {
		x[i] = 10 + 0.1*max(0, day[i]-day[5])
	}
	x[3] = math.NaN()
	if s, ok = FindShift(day, x, sigma, 10); !ok || !s.Gradual || s.At != 6 {
		t.Fatalf("%+v", s)
	}
	near(t, "per day", s.PerDay, 0.1, 1e-9)
	near(t, "size today", s.Size, 4.2, 1e-9)
	if _, ok := FindShift(day[:5], x[:5], sigma, 10); ok {
		t.Error("five readings have a change")
	}
	if _, ok := FindShift(day, x, 0, 10); ok {
		t.Error("readings without a deviation have a change")
	}
}

func TestRead(t *testing.T) {
	cells := func(text string) (out [][]string) {
		for _, l := range strings.Split(strings.TrimSpace(text), "\n") {
			out = append(out, strings.Split(l, ","))
		}
		return out
	}
	r, faults := Read(cells(`date,sample,kind,Kiln,colour [EBC],protein [% dm]
2026-03-01,P1,piece,K1,3.4,10.2
46083,P2,,K2,,10.4
2026-03-02T08:00,C,check,,3.5,`), nil)
	if len(faults) > 0 || len(r.Rows) != 4 || len(r.Qualities) != 2 || r.Vessels[0] != "kiln" {
		t.Fatalf("%+v %+v", faults, r)
	}
	// 1 March 2026 is day 20513 (date -d 2026-03-01 +%s over 86400), and 46082 to a workbook.
	if r.Rows[0].Day != 20513 || r.Rows[2].Day != 20514 || r.Rows[3].Day != 20514 {
		t.Errorf("days %v %v %v", r.Rows[0].Day, r.Rows[2].Day, r.Rows[3].Day)
	}
	r, faults = Read(cells(`Tag,probe,quality,value
2026-02-29,C,protein [% dm],x
,,protein,"`), map[string]Column{"Tag": DateColumn, "probe": SampleColumn, "wann": DateColumn})
	var codes []string
	for _, f := range faults {
		codes = append(codes, f.Code)
	}
	want := "lab.header.unknown lab.date.unreadable lab.cell.not-a-number lab.cell.not-a-number lab.sample.missing"
	if got := strings.Join(codes, " "); got != want {
		t.Errorf("faults %s, want %s", got, want)
	}
	if _, faults = Read(nil, nil); len(faults) != 1 {
		t.Error("no table at all is read")
	}
}

func FuzzRead(f *testing.F) {
	f.Add("date,sample,quality,value\n2026-03-01,C,protein [%],10.2")
	f.Add("sample,kiln,colour\nP,K,3")
	f.Fuzz(func(t *testing.T, text string) {
		var cells [][]string
		for _, l := range strings.Split(text, "\n") {
			cells = append(cells, strings.Split(l, ","))
		}
		r, _ := Read(cells, nil)
		r.Control(Options{})
	})
}

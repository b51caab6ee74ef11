package crop_test

import (
	"context"
	"math"
	"os"
	"strings"
	"testing"

	"awn/course"
	"awn/crop"
	"awn/internal/paper"
	"awn/internal/table"
	"awn/malt"
)

func piece(t testing.TB) course.Piece {
	t.Helper()
	p, _, faults := paper.Load(os.DirFS("../examples"), "piece.yaml")
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return p
}

// example is the invented harvest that travels with the program.
func example(t testing.TB) *crop.Survey {
	t.Helper()
	var out *crop.Survey
	for _, name := range []string{"survey.csv", "survey-before.csv"} {
		f, err := os.Open("../examples/" + name)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		sheet, err := table.Read(f, "")
		if err != nil {
			t.Fatal(err)
		}
		s, faults := crop.Read(sheet.Cells, nil)
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		if out == nil {
			out = s
		} else {
			out.Add(s)
		}
	}
	return out
}

// The coarse beds of a survey move figures of malt by less than lots differ: two
// in a hundred, where most figures of the example's lots spread by five or more.
// Moisture is the kiln's and not the harvest's; it has a tolerance of its own.
func TestCoarseBedsAreNearEnough(t *testing.T) {
	const share, moisture = 0.02, 0.0015
	fine := piece(t)
	coarse := fine
	coarse.Grid = course.Grid{GerminateLayers: 4, KilnLayers: 12}
	a, err := course.Run(&fine)
	if err != nil {
		t.Fatal(err)
	}
	b, err := course.Run(&coarse)
	if err != nil {
		t.Fatal(err)
	}
	for p, r := range a.Malt {
		near := share * math.Abs(r.Value.Mid)
		if p == malt.Moisture {
			near = moisture
		}
		if d := math.Abs(b.Malt[p].Value.Mid - r.Value.Mid); d > near {
			t.Errorf("%s: %.4g and %.4g", p, b.Malt[p].Value.Mid, r.Value.Mid)
		}
	}
}

// The same seed gives the same malt however many work at it; a harvest with more
// protein makes malt with less extract.
func TestMaltOfAHarvest(t *testing.T) {
	s := example(t)
	q := crop.MaltQuestion{Piece: piece(t), Lots: 12, Seed: 3, Workers: 1}
	one, err := s.Malt(context.Background(), nil, q)
	if err != nil {
		t.Fatal(err)
	}
	q.Workers = 4
	four, err := s.Malt(context.Background(), nil, q)
	if err != nil {
		t.Fatal(err)
	}
	if len(one.Seasons) != 2 || one.Seasons[0].Season != 2026 || one.Seasons[0].Lots != 12 {
		t.Fatalf("%d seasons", len(one.Seasons))
	}
	for i, f := range one.Seasons[0].Figures {
		if g := four.Seasons[0].Figures[i]; f.Mean != g.Mean || f.P90 != g.P90 {
			t.Errorf("%s: %v with one at work and %v with four", f.Parameter, f.Mean, g.Mean)
		}
	}
	for i := range s.Samples {
		if s.Samples[i].Season == 2026 {
			s.Samples[i].Readings[s.Quality(s.Qualities[1].Key)].X += 0.015
		}
	}
	richer, err := s.Malt(context.Background(), nil, q)
	if err != nil {
		t.Fatal(err)
	}
	extract := func(m *crop.Malting) float64 {
		for _, f := range m.Seasons[0].Figures {
			if f.Parameter == malt.ExtractFine {
				return f.Mean
			}
		}
		return math.NaN()
	}
	if !(extract(richer) < extract(one)) {
		t.Errorf("extract %v with more protein and %v with less", extract(richer), extract(one))
	}
	stopped, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := s.Malt(stopped, nil, q); err == nil {
		t.Error("stopped, and yet it has something to say")
	}
}

// A harvest that takes up water badly, that sleeps or that grows more is told with
// what to change.
func TestWhatToChange(t *testing.T) {
	s := example(t)
	for i := range s.Samples {
		for q, quality := range s.Qualities {
			if r := &s.Samples[i].Readings[q]; s.Samples[i].Season == 2026 && strings.HasPrefix(string(quality.Factor), "germination_8") {
				r.X = max(0, r.X-0.3)
			}
		}
	}
	m, err := s.Malt(context.Background(), nil, crop.MaltQuestion{Piece: piece(t), Lots: 8, Seed: 1, Workers: 2})
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range m.Findings {
		if r.Code == "crop.malt.more-sensitive" && r.Act == "act.crop.lengthen-rests" {
			return
		}
	}
	t.Errorf("nothing is said of a harvest far more sensitive to water: %v", m.Findings)
}

// Pilot malts are read on their own basis and set beside the expected ones.
func TestPilots(t *testing.T) {
	pilots, faults := crop.ReadPilots([][]string{{"name", "extract_fine", "colour_srm"}, {"a", "80", "2"}, {"b", "81", ""}})
	if len(faults) > 0 || len(pilots) != 2 {
		t.Fatal(pilots, faults)
	}
	m := &crop.Malting{Seasons: []crop.MaltSeason{{Figures: []crop.MaltFigure{
		{Parameter: malt.ExtractFine, Basis: malt.Dry}, {Parameter: malt.Colour, Basis: malt.ScaleEBC}, {Parameter: malt.Friability},
	}}}}
	m.Compare(pilots)
	if got := m.Seasons[0].Figures[0].Pilot; math.Abs(got-0.805) > 1e-12 {
		t.Errorf("extract %v", got)
	}
	if got := m.Seasons[0].Figures[1].Pilot; !(got > 3 && got < 4.5) {
		t.Errorf("colour of 2 SRM is %v EBC", got)
	}
	if got := m.Seasons[0].Figures[2].Pilot; !math.IsNaN(got) {
		t.Errorf("friability %v, which nobody measured", got)
	}
	if _, faults := crop.ReadPilots([][]string{{"extract_fin"}, {"80"}}); len(faults) == 0 {
		t.Error("a figure that does not exist is read")
	}
}

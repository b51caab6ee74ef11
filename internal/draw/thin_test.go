package draw

import (
	"math"
	"testing"
)

// TestThinKeepsWhatIsSeen draws a long jagged line: no more points than can
// be seen, the ends and the extremes kept.
func TestThinKeepsWhatIsSeen(t *testing.T) {
	var pts []point
	for i := range 20000 {
		x := float64(i) / 19999
		pts = append(pts, point{x * wide, 60 + 50*math.Sin(300*x)})
	}
	pts[7777].y = -40
	out := thin(pts)
	if len(out) > mostPoints {
		t.Errorf("%d points, at most %d", len(out), mostPoints)
	}
	if out[0] != pts[0] || out[len(out)-1] != pts[len(pts)-1] {
		t.Error("an end is gone")
	}
	low := math.Inf(1)
	for _, p := range out {
		low = min(low, p.y)
	}
	if low != -40 {
		t.Errorf("the spike is gone: lowest %g", low)
	}
}

func TestStraightLineNeedsTwoPoints(t *testing.T) {
	var pts []point
	for i := range 300 {
		pts = append(pts, point{float64(i), 0.5 * float64(i)})
	}
	if got := thin(pts); len(got) != 2 {
		t.Errorf("%d points, want 2", len(got))
	}
}

func TestTicks(t *testing.T) {
	for _, c := range []struct {
		low, high float64
		n         int
		want      []float64
		decimals  int
	}{
		{0, 47, 4, []float64{0, 20, 40}, 0},
		{0, 1, 4, []float64{0, 0.5, 1}, 1},
		{-3, 3, 3, []float64{-2, 0, 2}, 0},
		{0.012, 0.05, 4, []float64{0.02, 0.03, 0.04, 0.05}, 2},
		{5, 5, 4, []float64{5}, 0},
	} {
		got, decimals := ticks(c.low, c.high, c.n)
		same := len(got) == len(c.want) && decimals == c.decimals
		for i := 0; same && i < len(got); i++ {
			same = math.Abs(got[i]-c.want[i]) < 1e-12
		}
		if !same {
			t.Errorf("ticks(%g, %g, %d) = %v with %d decimals, want %v with %d", c.low, c.high, c.n, got, decimals, c.want, c.decimals)
		}
	}
}

func TestHours(t *testing.T) {
	got := hours(144, 168, 10)
	if len(got) != 9 || got[0] != 144 || got[8] != 168 {
		t.Errorf("hours(144, 168, 10) = %v, want every third from 144 to 168", got)
	}
}

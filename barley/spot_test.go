package barley

import (
	"math"
	"testing"
)

func TestSpotsAreNamed(t *testing.T) {
	for name, c := range map[string]struct {
		columns []Column
		want    []string
	}{
		"level":      {[]Column{{1, 1, 1}}, []string{""}},
		"usual":      {Uneven(0.1, 1.25), []string{"thin", "mean", "thick"}},
		"two":        {[]Column{{0.5, 1.2, 1}, {0.5, 0.8, 1}}, []string{"thick", "thin"}},
		"by packing": {[]Column{{0.5, 1, 1}, {0.5, 1, 1.2}}, []string{"thin", "thick"}},
		"four":       {[]Column{{0.2, 1, 1}, {0.3, 0.9, 1}, {0.3, 1.05, 1}, {0.2, 1.1, 1}}, []string{"spot", "thin", "spot", "thick"}},
		"all alike":  {[]Column{{0.5, 1, 1}, {0.5, 1, 1}}, []string{"spot", "spot"}},
	} {
		for i, want := range c.want {
			if got := Spot(c.columns, i); got != want {
				t.Errorf("%s: column %d is %q, want %q", name, i, got, want)
			}
		}
	}
}

// The usual uneven bed is the whole floor and has the mean depth.
func TestUnevenIsTheWholeBed(t *testing.T) {
	floor, depth := 0.0, 0.0
	for _, c := range Uneven(0.13, 1.2) {
		floor += c.Share
		depth += c.Share * c.Depth
	}
	if math.Abs(floor-1) > 1e-12 || math.Abs(depth-1) > 1e-12 {
		t.Errorf("spots take %g of the floor and %g of the depth", floor, depth)
	}
}

// The parts of a piece hold what the piece holds.
func TestPartsAddUp(t *testing.T) {
	g := NewGrain([]Class{{Number: 0.6}, {Number: 0.4}}, Uneven(0.1, 1), 4)
	for i := range g.DryKg {
		g.DryKg[i] = float64(i + 1)
	}
	for i := range g.WaterKg {
		g.WaterKg[i] = float64(2*i + 1)
	}
	dry, water := 0.0, 0.0
	for column := range g.Columns {
		p := g.Part(column)
		dry, water = dry+p.TotalDryKg(), water+p.TotalWaterKg()
		if p.CellMoistureDB(3) != g.CellMoistureDB(g.Cell(column, 3)) {
			t.Errorf("column %d: the top layer is another", column)
		}
	}
	if math.Abs(dry-g.TotalDryKg()) > 1e-9 || math.Abs(water-g.TotalWaterKg()) > 1e-9 {
		t.Errorf("the parts hold %g and %g, the piece %g and %g", dry, water, g.TotalDryKg(), g.TotalWaterKg())
	}
}

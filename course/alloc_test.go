package course_test

import (
	"testing"

	"awn/programme"
)

// A course allocates what its stages, its curve and its findings need, not by
// the hour: two more days of growth take 96 more looks, and each may not cost
// an allocation.
func TestTwoMoreDaysAllocateNoMore(t *testing.T) {
	allocations := func(hours float64) float64 {
		p := load(t, "piece.yaml")
		p.Programme.Germinate = p.Programme.Germinate[:1]
		p.Programme.Germinate[0].Until = programme.Until{LatestH: hours}
		return testing.AllocsPerRun(1, func() { run(t, p) })
	}
	short, long := allocations(72), allocations(120)
	t.Logf("%.0f and %.0f allocations", short, long)
	if long > short+10 { // a finding more is a few
		t.Errorf("%.0f allocations with three days of growth, %.0f with five", short, long)
	}
}

package programme

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Whatever it reads, a drive stays within its limits, is no faster than one
// travel in its time, and moves the way that brings the reading back.
func TestHoldKeepsItsLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		low := rapid.Float64Range(0, 0.9).Draw(t, "low")
		h := Hold{
			Reading: rapid.SampledFrom([]Reading{AirOffRH, AirOff, RoomDioxide, TempGap}).Draw(t, "of"), Value: rapid.Float64Range(-1, 100).Draw(t, "value"),
			Rises: rapid.Bool().Draw(t, "rises"), Low: low, High: rapid.Float64Range(low, 1).Draw(t, "high"),
		}
		at := h.Start(rapid.Float64Range(-1, 2).Draw(t, "was"))
		reading := rapid.Float64Range(-50, 150).Draw(t, "reading")
		const travelH = 2
		dtH := rapid.Float64Range(0, 3).Draw(t, "dt")
		to := h.Follow(at, reading, travelH, dtH)
		const rounding = 1e-12
		if !(to >= h.Low && to <= h.High) {
			t.Fatalf("%g lies outside %g and %g", to, h.Low, h.High)
		}
		if most := (h.High - h.Low) * dtH / travelH; math.Abs(to-at) > most+rounding {
			t.Fatalf("moved by %g, at most %g", to-at, most)
		}
		if up := reading > h.Value == h.Rises; to != at && (to > at) != up {
			t.Fatalf("reads %g for %g and moves from %g to %g", reading, h.Value, at, to)
		}
	})
}

func TestHoldWithoutReadingStands(t *testing.T) {
	h := Hold{Reading: AirOff, Value: 60, High: 1}
	if got := h.Follow(0.3, math.NaN(), 1, 1); got != 0.3 {
		t.Errorf("moved to %g", got)
	}
	if h.Missed(0, math.NaN()) {
		t.Error("a reading that is not known is missed")
	}
}

// Too little of a gas is no miss; too hot with the drive at its end is.
func TestHoldMissesOneSide(t *testing.T) {
	gas := Hold{Reading: RoomDioxide, Value: 0.005, Rises: true, Low: 0.1, High: 0.6}
	if gas.Missed(0.1, 0) || !gas.Missed(0.6, 0.02) || gas.Missed(0.3, 0.02) {
		t.Error("carbon dioxide")
	}
	warm := Hold{Reading: TempHigh, Value: 18, Low: 11, High: 15}
	if !warm.Missed(11, 22) || !warm.Missed(15, 12) || warm.Missed(13, 22) || warm.Missed(11, 18.5) {
		t.Error("temperature")
	}
}

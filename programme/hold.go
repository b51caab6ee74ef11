package programme

import "math"

// Hold lets a setting of the plant follow a reading: a fan, a damper or a burner
// is moved until the reading stands at a value, within limits of its own. The
// zero Hold leaves the setting as it is given.
type Hold struct {
	Reading Reading // None: the setting is given
	Value   float64 // SI: fraction, °C, K
	Rises   bool    // the setting goes up when the reading is above the value
	// Low and High are the limits of the setting: shares for dampers, °C for
	// air-on, and of the step's flow for a fan.
	Low, High float64
}

// Holds says whether the setting follows a reading.
func (h *Hold) Holds() bool { return h.Reading != None }

// Start is where a setting begins that stood at was before: there, or at the
// nearer of its limits.
//
// Definition.
func (h *Hold) Start(was float64) float64 { return min(max(was, h.Low), h.High) }

// Away is how far a reading is from the value in widths of the band within
// which the drive slows down, above it positive.
//
// Definition.
func (h *Hold) Away(reading float64) float64 { return (reading - h.Value) / bandOf(h.Reading) }

// Follow is where the drive has brought a setting after dtH hours of a reading:
// it moves at its full speed, one travel in travelH hours, when the reading is
// further away than the band, and slower in proportion within it. A reading that
// is not known leaves the drive where it is.
//
//	s2 = s1 ± min(1, |x - x0|/band) (high - low) Δt/travel      (within low and high)
//
// Assumed: the form and the bands; common practice, no source.
// Valid: any reading; NaN leaves the setting as it is.
func (h *Hold) Follow(setting, reading, travelH, dtH float64) float64 {
	away := h.Away(reading)
	if math.IsNaN(away) {
		return setting
	}
	away = min(max(away, -1), 1)
	if !h.Rises {
		away = -away
	}
	return min(max(setting+away*(h.High-h.Low)*dtH/travelH, h.Low), h.High)
}

// missedBy is how far from its value a held reading may stand, in bands, without
// a word.
const missedBy = 0.4

// Missed says whether the reading is well away from its value because the drive
// stands at its end. Less of a gas than its limit is no miss.
func (h *Hold) Missed(setting, reading float64) bool {
	const end = 1e-9
	away := h.Away(reading)
	if !(math.Abs(away) > missedBy) || away < 0 && h.Reading == RoomDioxide {
		return false
	}
	up := (away > 0) == h.Rises
	return up && setting >= h.High-end || !up && setting <= h.Low+end
}

// The bands within which a drive slows down.
//
// Assumed: common practice, no source.
const (
	bandK     = 5.0
	bandRH    = 0.1
	bandShare = 0.005 // of a gas
)

func bandOf(r Reading) float64 {
	switch r {
	case AirOnRH, AirOffRH:
		return bandRH
	case RoomDioxide, CarbonDioxideMost, OxygenLeast:
		return bandShare
	}
	return bandK
}

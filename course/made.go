package course

import (
	"math"

	"awn/air"
	"awn/programme"
)

// MadeAir is the air that was made for a piece before the kiln, and what that
// took.
type MadeAir struct {
	// Rests of the steep that draw air. Its temperature is given by the programme
	// for MadeH of them; for the rest it is what it is outside.
	RestH, MadeH float64
	RestC        float64 // mean of the air drawn; NaN if none was
	OutsideC     float64 // mean of the month
	WarmedJ      float64 // to bring that air from outside to its temperature
	CooledJ      float64 // the same where it was cooled

	// The air under the growing bed.
	FanJ, HeatJ            float64
	CoolingJ, CoolingWorkJ float64 // taken out by coil or chilled spray, and the power that took
	HumidifierKg, FreshKg  float64
	RoomDioxide            float64 // most of it above the bed, share by volume; NaN if nobody stood there
}

// rests counts the air that the steep's rests drew. How it is made, and what that
// costs, the house does not say.
func (r *runner) rests(steps []programme.SteepStep, went []StepOutcome) {
	m := &r.out.Made
	outside, _ := r.piece.outsideMean(went[0].FromH)
	m.OutsideC = outside
	sum := 0.0
	for i, s := range steps {
		h := went[i].ToH - went[i].FromH
		if !(s.SuctionM3HT > 0 && h > 0) {
			continue
		}
		m.RestH += h
		at := outside
		if !math.IsNaN(s.AirC) {
			at = s.AirC
			m.MadeH += h
		}
		sum += h * at
		m3h := min(s.SuctionM3HT*r.castT(), r.piece.House.Steeps[r.piece.Steep].SuctionM3H)
		heatJ := m3h * h * programme.ReferenceAirKgM3 * air.DryAirJKgK * (at - outside)
		m.WarmedJ += max(0, heatJ)
		m.CooledJ += max(0, -heatJ)
	}
	m.RestC = nan
	if m.RestH > 0 {
		m.RestC = sum / m.RestH
	}
}

// madeForGrowth enters what the air under the growing bed took.
func (r *runner) madeForGrowth() {
	m, u := &r.out.Made, &r.grown
	m.FanJ, m.HeatJ, m.CoolingJ, m.CoolingWorkJ = u.FanJ, u.HeatJ, u.CoolingJ, u.CoolingWorkJ
	m.HumidifierKg, m.FreshKg = u.HumidifierKg, u.FreshAirKg
	for _, s := range r.out.Stages {
		for i, h := range r.out.Curve.TimeH {
			if s.Stage == Germinate && h >= s.FromH && h <= s.ToH {
				if x := r.out.Curve.At[i][programme.RoomDioxide]; !(x <= m.RoomDioxide) && !math.IsNaN(x) {
					m.RoomDioxide = x
				}
			}
		}
	}
}

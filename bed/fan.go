package bed

import "math"

// curveKgM3 is the density of the air at which fan curves are printed.
// Assumed: dry air at 20 °C and 1013.25 hPa, as catalogues have it.
const curveKgM3 = 1.204

// Fan is a fan with the ducts, floor and dampers it works through. Its
// pressure falls from ShutOffPa at no flow with the square of the flow to 0 at
// FreeM3S; what it meets before the bed is LossPa at half of FreeM3S and rises
// with the square.
type Fan struct {
	ShutOffPa float64
	FreeM3S   float64
	LossPa    float64
}

// Pressure is what the fan leaves for the bed at a flow, Pa.
//
//	ΔP = ρ/1.204 · (P0 (1 - (V/Vf)²) - 4 Pl (V/Vf)²)
//
// Assumed: a parabola through shut-off and free delivery; both it and the
// losses scale with the density of the air (fan laws).
// Valid: flows of 0 and more; negative where the fan cannot follow.
func (f Fan) Pressure(flowM3S, airKgM3 float64) float64 {
	x := flowM3S / f.FreeM3S
	return airKgM3 / curveKgM3 * (f.ShutOffPa - (f.ShutOffPa+4*f.LossPa)*x*x)
}

// Loss is the pressure that the air loses outside the bed at a flow, Pa.
//
//	ΔP = ρ/1.204 · 4 Pl (V/Vf)²
//
// Assumed: as Pressure. A slowed or throttled fan raises the drop of the bed
// and this.
func (f Fan) Loss(flowM3S, airKgM3 float64) float64 {
	if f.LossPa == 0 {
		return 0 // also for a fan whose curve nobody gave
	}
	x := flowM3S / f.FreeM3S
	return airKgM3 / curveKgM3 * 4 * f.LossPa * x * x
}

// Most is the greatest velocity that the fan drives through the bed, m/s over
// the floor: where its curve meets the bed's resistance, or where a spot
// reaches MostMS. The work slice holds as many entries as there are spots.
//
//	Pressure(v A) = drop of the spots at mean velocity v, solved for v
//
// Assumed: as Pressure and Drop.
// Check: both sides agree at the answer.
func (f Fan) Most(spots []Spot, floorM2, airKgM3 float64, work []float64) float64 {
	const enough, most = 1e-9, 60
	short := func(v float64) float64 { // pressure that the fan lacks
		drop := Split(work, spots, v)
		if math.IsNaN(drop) { // beyond the law
			drop = f.ShutOffPa
		}
		return drop - f.Pressure(v*floorM2, airKgM3)
	}
	// False position, which halves the weight of an end that stays put
	// (Illinois), keeps the answer between low and high.
	low, high := 0.0, math.Min(f.FreeM3S/floorM2, MostMS)
	atLow, atHigh := short(low), short(high)
	if atHigh <= 0 {
		return high
	}
	for range most {
		v := (low*atHigh - high*atLow) / (atHigh - atLow)
		at := short(v)
		if at > 0 {
			high, atHigh, atLow = v, at, atLow/2
		} else {
			low, atLow, atHigh = v, at, atHigh/2
		}
		if high-low < enough*high || math.Abs(at) < enough*f.ShutOffPa {
			break
		}
	}
	return low
}

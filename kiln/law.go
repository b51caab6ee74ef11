package kiln

import "math"

// The two rate constants between which a kernel moves as it dries, f·exp(e/T).
const (
	wetRate, wetRateK = 139.3, -4426.0   // O'Callaghan 1971
	dryRate, dryRateK = 311.6, -5108.445 // O'Callaghan 1971, as diffusion in a sphere of 1.9 mm
	rateDryDB         = 0.10             // below this moisture the second holds
	rateSpanDB        = 0.30             // above this much more, the first
	rateKneeDB        = 0.12             // below this the rate falls with the moisture itself
	zeroC             = 273.15
)

// InnerRate is the rate at which moisture inside a kernel nears equilibrium,
// 1/s.
//
//	k = min(1, X/0.12) kw^s kd^(1-s), s = x² (3 - 2x), x = (X - 0.10)/0.30 within 0 and 1
//	kw = 139.3 exp(-4426/T), kd = 311.6 exp(-5108.445/T)      (T in K)
//
// Assumed: the passage between them and the fall below 12 %, tuned so that a
// pale programme ends at 3.5 to 5 %.
// Recalled: O'Callaghan 1971, both rates as a later text prints them; the second
// is a diffusivity there, read as m²/h in a sphere of 1.9 mm.
// Valid: -40 to 130 °C, moisture of 0 or more; NaN outside. Measured below 80 °C.
// Check: six values and a drying curve by a second computation, in testdata/rate.csv.
func InnerRate(tempC, moistureDB float64) float64 {
	if !(moistureDB >= 0 && tempC >= leastC && tempC <= mostC) {
		return math.NaN()
	}
	T := tempC + zeroC
	s := wetness(moistureDB)
	return min(1, moistureDB/rateKneeDB) * wetRate * math.Exp(wetRateK/T) *
		math.Pow(dryRate/wetRate*math.Exp((dryRateK-wetRateK)/T), 1-s)
}

// wetness is the share s of the wet rate.
func wetness(moistureDB float64) float64 {
	x := (moistureDB - rateDryDB) * (1 / rateSpanDB)
	switch {
	case x <= 0:
		return 0
	case x >= 1:
		return 1
	}
	return x * x * (3 - 2*x)
}

// Film is the heat that air gives a m³ of bed for each K between them, W/(m³ K).
//
//	h = 49.32e3 G^0.6906      (G in kg/(m² s))
//
// Recalled: Bala 1984; the coefficient was read in a later text that prints it
// without a clear scale.
// Valid: G of 0 or more; NaN outside.
// Check: 30 560 at 0.5 kg/(m² s); halving it moves the break by 0.2 h.
// Note: mass follows heat with a Lewis number of 1 (assumed).
func Film(airKgM2S float64) float64 {
	if !(airKgM2S >= 0) {
		return math.NaN()
	}
	return filmW * math.Pow(airKgM2S, filmPower)
}

const (
	filmW     = 49.32e3
	filmPower = 0.6906
)

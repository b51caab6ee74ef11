package barley

import (
	"awn/lab"
	"awn/odds"
)

// The four sieve classes, coarsest first: held by the 2.8 mm slot, by 2.5 mm,
// by 2.2 mm, and through 2.2 mm.
const SieveClasses = 4

// Sieving says how the four fractions of a lot were separated. The two series
// differ by up to 0.3 mm; their fractions are never mixed or converted.
type Sieving int

// The two series of slotted sieves in use.
const (
	SieveEBC Sieving = iota // 2.8, 2.5 and 2.2 mm
	SieveUS                 // 7/64, 6/64 and 5/64 in
)

// Lot is a parcel of barley with what the laboratory knows of it. Fractions
// are 0 to 1. A value whose Mid is NaN is unknown; Complete gives it a stated
// default with a wide range.
type Lot struct {
	Code    string // the house's own code, at most 20 characters
	Variety string
	Rows    int // 2 or 6, 0 unknown
	// Grain is what it is if it is not barley: wheat, rye, oats. Factor then
	// multiplies the parameters of the model by their keys.
	Grain    string
	Factor   map[string]float64
	CropYear int // 0 unknown
	Origin   string

	Moisture       odds.Value // wet basis, as steeped
	ReceivedWB     float64    // as received, wet basis; 0 if it was steeped as it came
	Protein        odds.Value // of dry matter
	KernelMassMg   odds.Value // mean kernel as-is at Moisture (thousand-kernel weight in g)
	TestWeightKgHL odds.Value // as-is

	Sieving Sieving
	Sieve   [SieveClasses]float64 // fractions by mass, summing to 1

	Counts4mL []lab.Count // germinated in 4 mL of water
	Counts8mL []lab.Count // germinated in 8 mL
	Capacity  odds.Value  // living kernels by number, dormant ones included
	Dormant   odds.Value  // living kernels that will not chit yet, by number
	// WaterSensitivity is the fraction by number that germinates in 4 mL but
	// not in 8 mL.
	WaterSensitivity odds.Value
	// ChitThermalTimeCH is the median thermal time to chit above the base
	// temperature, °C·h, from the lot's own counts where it has them.
	ChitThermalTimeCH odds.Value

	BetaGlucan odds.Value // of dry matter
	// Uptake multiplies the rate of water uptake of this lot; 1 is the
	// default kernel. It follows from FirstImmersion where that was measured.
	Uptake         odds.Value
	FirstImmersion *FirstImmersion
	// GreenSMM is the S-methylmethionine of green malt in mg per kg dry
	// matter; NaN if nobody measured it, and then only its fraction left is
	// given.
	GreenSMM odds.Value
}

// FirstImmersion is one measured moisture at the end of a first immersion,
// which fixes the uptake of a lot better than its analysis can.
type FirstImmersion struct {
	Hours    float64
	WaterC   float64
	Moisture float64 // wet basis, drained and unblotted
}

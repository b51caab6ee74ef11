package ledger

import "math"

// Difference is what nobody can explain about a place in a month: what was
// counted less what the book said, in grams of one good, beside all that went
// through and the standard uncertainty of what was put in and taken out.
type Difference struct {
	Gap     Grams   // counted less book
	Through Grams   // what came in
	U       float64 // standard uncertainty of the gap in grams, 0 if nobody gave any
}

// AlarmShare is the share of what went through from which on a difference is
// an alarm, unless the house sets another.
const AlarmShare = 0.01

// Share is the difference as a share of what went through.
//
//	s = |gap| / through
//
// Definition.
// Valid: something went through; NaN otherwise.
func (d Difference) Share() float64 {
	if d.Through <= 0 {
		return math.NaN()
	}
	return math.Abs(float64(d.Gap)) / float64(d.Through)
}

// Chance is the chance that weighing alone makes a difference as large as this
// or larger, if every uncertainty is as it was given and errors are normal.
//
//	P = erfc(|gap| / (u sqrt 2))
//
// Definition.
// Valid: an uncertainty above 0; NaN otherwise.
func (d Difference) Chance() float64 {
	if d.U <= 0 {
		return math.NaN()
	}
	return math.Erfc(math.Abs(float64(d.Gap)) / (d.U * math.Sqrt2))
}

// DryMatter is the difference in dry matter of a place, from the flows that
// touch it in a stretch of time. Errors of different weighings are taken as
// independent: a scale that is off by the same amount each time shows as a
// difference that should not be.
func DryMatter(place Account, flows []Flow) Difference {
	var d Difference
	var square float64
	for _, f := range flows {
		other, sign := f.From, Grams(1)
		if f.From == place {
			other, sign = f.To, -1
		} else if f.To != place {
			continue
		}
		u := float64(f.UDry)
		square += u * u
		switch {
		case other.Kind() == unexplained:
			d.Gap += sign * f.Dry
		case sign > 0:
			d.Through += f.Dry
		}
	}
	d.U = math.Sqrt(square)
	return d
}

package barley

import "math"

// slotsMM are the sieves of each series, coarsest first, between the widths
// beyond which no corn is looked for. Assumed: the outer two, common practice,
// no source; the slots are the definition of the series.
var slotsMM = map[Sieving][SieveClasses + 1]float64{
	SieveEBC: {3.4, 2.8, 2.5, 2.2, 1.6},
	SieveUS:  {3.4, 7 * inchMM / 64, 6 * inchMM / 64, 5 * inchMM / 64, 1.6},
}

const inchMM = 25.4

// Through is the part of each sieve fraction of a series, coarsest first, that
// is thinner than a slot: all of the finer ones, none of the coarser ones, and
// of the one in which the slot falls in proportion.
//
// Assumed: within a fraction corns of every thickness are equally many by mass.
func (s Sieving) Through(slotMM float64) (part [SieveClasses]float64) {
	at := slotsMM[s]
	for i := range part {
		part[i] = min(max((slotMM-at[i+1])/(at[i]-at[i+1]), 0), 1)
	}
	return part
}

// Less is what a lot is when of each sieve fraction a part has been taken out:
// its sieving, and the weight of its mean kernel. What else its analysis found
// is left as it is.
func (l Lot) Less(taken [SieveClasses]float64) Lot {
	was, massWas := l.meanRatio()
	left := l.Sieve
	for i := range left {
		left[i] *= 1 - taken[i]
	}
	l.Sieve = left
	is, mass := l.meanRatio()
	if !(mass > 0) || !(massWas > 0) {
		return l
	}
	for i := range l.Sieve {
		l.Sieve[i] /= mass / massWas
	}
	k := &l.KernelMassMg
	k.Mid, k.Low, k.High = k.Mid*is/was, k.Low*is/was, k.High*is/was
	return l
}

// meanRatio is the mean kernel by number against the others, and the mass of
// all fractions.
func (l *Lot) meanRatio() (ratio, mass float64) {
	number := 0.0
	for i, m := range l.Sieve {
		mass += m
		number += m / kernelMassRatio[i]
	}
	if number == 0 {
		return math.NaN(), 0
	}
	return mass / number, mass
}

package malt

import "math"

// Blended is a figure of a blend that each part brings in proportion to its
// mass: extract, nitrogen, friability, unmodified grains. What a lauter tun
// makes of a blend is no such figure.
//
//	x = sum(s x) / sum(s)        (s the mass or share of each part)
//
// Definition.
// Valid: shares of 0 and more, not all 0; NaN otherwise.
// Check: 90 and 81 % in halves give 85.5 %.
func Blended(shares, figures []float64) float64 {
	sum, all := 0.0, 0.0
	for i, s := range shares {
		if !(s >= 0) || i >= len(figures) {
			return math.NaN()
		}
		sum += s * figures[i]
		all += s
	}
	return sum / all
}

// BlendedKolbach is the Kolbach index of a blend: its parts are mixed first and
// divided then.
//
//	KI = sum(s N) / sum(s T)        (N soluble, T total, on dry matter; s the dry matter of each part)
//
// Definition.
// Valid: shares of 0 and more, total above 0; NaN otherwise.
// Check: 0.72 of 1.60 and 0.66 of 1.84 in halves give 40.1 %, where the mean of the two ratios is 40.4 %.
func BlendedKolbach(shares, soluble, total []float64) float64 {
	return Kolbach(Blended(shares, soluble), Blended(shares, total))
}

// SharesOfSecond are the least and the most of the second of two malts with
// which a blend keeps every limit, from the room that each malt has to each
// limit by itself, below 0 where it misses it.
//
//	all x in 0..1 with (1 - x) m1 + x m2 >= 0 for every limit
//
// Definition.
// Valid: figures that mix by mass; NaN where no blend keeps them all.
// Check: wholly unmodified 0.5 and 4.0 % against 2.0 % at the most give 0 to 42.9 %.
func SharesOfSecond(first, second []float64) (least, most float64) {
	least, most = 0, 1
	for i, a := range first {
		switch b := second[i]; {
		case math.IsNaN(a) || math.IsNaN(b) || a < 0 && b < 0:
			return math.NaN(), math.NaN()
		case a < 0:
			least = max(least, a/(a-b))
		case b < 0:
			most = min(most, a/(a-b))
		}
	}
	if least > most {
		return math.NaN(), math.NaN()
	}
	return least, most
}

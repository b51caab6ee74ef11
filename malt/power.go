package malt

// WindischKolbach is diastatic power on the scale of the EBC.
type WindischKolbach float64

// Lintner is diastatic power on the scale of the ASBC, on which it is printed
// without a name.
type Lintner float64

// WindischKolbach is the same power on the scale of the EBC.
//
//	WK = 3.5 L - 16
//
// Source: e-malt undated.
// Valid: where the result is not negative; NaN below.
// Check: testdata/conversions.csv, DP1.
// Note: the scale of the IoB has no sound conversion and none is given.
func (l Lintner) WindischKolbach() WindischKolbach {
	return WindischKolbach(notNegative(3.5*float64(l) - 16))
}

// Lintner is the same power on the scale of the ASBC.
//
//	L = (WK + 16) / 3.5
//
// Source: e-malt undated.
// Valid: WK not negative; NaN below.
// Check: testdata/conversions.csv, DP2.
// Note: another published line, 0.3 WK + 4, gives 79 where this gives 76.
func (w WindischKolbach) Lintner() Lintner {
	return Lintner((notNegative(float64(w)) + 16) / 3.5)
}

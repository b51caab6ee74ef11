package barley

import (
	"fmt"
	"math"

	"awn/odds"
)

// UsualQuantiles is into how many kinds of germination vigour the living
// kernels of a sieve fraction are cut unless the caller says otherwise.
const UsualQuantiles = 5

// kernelMassRatio is what kernels of the sieve fractions weigh relative to one
// another, coarsest first. Assumed: common practice, no source.
var kernelMassRatio = [SieveClasses]float64{50, 40, 30, 20}

// Classes cuts a lot into kernel classes: each sieve fraction that holds
// anything, coarsest first, in the given number of equal quantiles of vigour
// from the quickest to the slowest, and one idle class of the dead and the
// dormant last. Sieves weigh and germination counts: a fraction by number is
// its fraction by mass over the mass of its kernels.
//
// The lot must be complete: its moisture, kernel mass, capacity and dormancy
// known. Dormant is a share of all kernels, as is Capacity.
func Classes(lot *Lot, quantiles int) ([]Class, error) {
	if quantiles < 1 {
		return nil, fmt.Errorf("kernel classes: %d quantiles of vigour, need 1 or more", quantiles)
	}
	number, err := lot.numbers()
	if err != nil {
		return nil, err
	}
	growing := max(0, lot.Capacity.Mid-lot.Dormant.Mid)
	if !(growing <= 1) {
		return nil, fmt.Errorf("kernel classes: capacity %g less dormant %g is not a share", lot.Capacity.Mid, lot.Dormant.Mid)
	}
	dryMg := lot.kernelDryMg(number)
	var classes []Class
	for sieve, share := range number {
		if share == 0 {
			continue
		}
		class := Class{Sieve: sieve, KernelDryMg: dryMg[sieve], Number: share * growing / float64(quantiles)}
		for q := range quantiles {
			class.Vigour = odds.NormalQuantile((float64(q) + 0.5) / float64(quantiles))
			classes = append(classes, class)
		}
		classes = append(classes, Class{Sieve: sieve, KernelDryMg: dryMg[sieve], Number: share * (1 - growing), Idle: true})
	}
	return classes, nil
}

// numbers is the share of each sieve fraction by number.
func (l *Lot) numbers() ([SieveClasses]float64, error) {
	var number [SieveClasses]float64
	sum := 0.0
	for i, mass := range l.Sieve {
		if !(mass >= 0) || math.IsInf(mass, 1) {
			return number, fmt.Errorf("kernel classes: sieve fraction %d is %g", i+1, mass)
		}
		number[i] = mass / kernelMassRatio[i]
		sum += number[i]
	}
	if sum == 0 {
		return number, fmt.Errorf("kernel classes: the sieve fractions sum to nothing")
	}
	for i := range number {
		number[i] /= sum
	}
	return number, nil
}

// kernelDryMg is the dry mass of a kernel of each sieve fraction, such that
// the mean by number is the lot's.
func (l *Lot) kernelDryMg(number [SieveClasses]float64) (mg [SieveClasses]float64) {
	mean := 0.0
	for i, share := range number {
		mean += share * kernelMassRatio[i]
	}
	for i := range mg {
		mg[i] = kernelMassRatio[i] / mean * l.KernelMassMg.Mid * (1 - l.Moisture.Mid)
	}
	return mg
}

// Cast returns a piece of asIsKg of a complete lot at tempC: one layer, with
// the mass of each column by its share of the floor and its depth.
func Cast(lot *Lot, quantiles int, columns []Column, asIsKg, tempC float64) (*Grain, error) {
	classes, err := Classes(lot, quantiles)
	if err != nil {
		return nil, err
	}
	if !(asIsKg > 0) || math.IsInf(asIsKg, 1) || math.IsNaN(tempC) {
		return nil, fmt.Errorf("cast: %g kg at %g °C is no piece of grain", asIsKg, tempC)
	}
	g := NewGrain(classes, columns, 1)
	meanMg := 0.0
	for _, c := range classes {
		meanMg += c.Number * c.KernelDryMg
	}
	dryKg := asIsKg * (1 - lot.Moisture.Mid)
	for cell, share := range MassShares(columns) {
		g.WaterKg[cell] = asIsKg * lot.Moisture.Mid * share
		g.TempC[cell] = tempC
		g.Heat[cell] = Green()
		dry := g.Of(g.DryKg, cell)
		for i, c := range classes {
			dry[i] = dryKg * share * c.Number * c.KernelDryMg / meanMg
		}
	}
	return g, nil
}

// MassShares is the share of a piece that lies in each column: its share of
// the floor times its depth.
func MassShares(columns []Column) []float64 {
	shares, sum := make([]float64, len(columns)), 0.0
	for i, c := range columns {
		shares[i] = c.Share * c.Depth
		sum += shares[i]
	}
	for i := range shares {
		shares[i] /= sum
	}
	return shares
}

package odds

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// tail is how far out a shape without ends is drawn: nobody knows what lies
// beyond, and a rate must not change its sign there.
const tail = 0.01

// At is the value of the parameter below which a share of its distribution
// lies; its default is the middle of the shapes with two sides.
//
//	normal: default ± z s, s = (default - low)/1.645 below the middle, (high - default)/1.645 above;
//	log-normal: the same in ln x; uniform: low + share (high - low)
//
// Assumed: normal on each side of the middle, and no further out than the 1st and the 99th percentile; common practice, no source.
// Valid: share 0 to 1; NaN outside, and for a log-normal shape that is not above 0.
// Check: its own 5th, 50th and 95th percentile.
func (p Parameter) At(share float64) float64 {
	if !(share >= 0 && share <= 1) {
		return math.NaN()
	}
	switch p.Distribution {
	case Uniform:
		return p.Low + share*(p.High-p.Low)
	case LogNormal:
		log := Value{Mid: math.Log(p.Default), Low: math.Log(p.Low), High: math.Log(p.High)}
		return math.Exp(log.At(share))
	}
	return Default(p).At(share)
}

// At is the figure below which a share of what the true one may be lies.
//
//	x = mid ± z s, s = (mid - low)/1.645 below the middle, (high - mid)/1.645 above
//
// Assumed: normal on each side of the middle, and no further out than the 1st and the 99th percentile; common practice, no source.
// Valid: share 0 to 1; NaN outside. Without a band it is the figure itself.
func (v Value) At(share float64) float64 {
	if !(share >= 0 && share <= 1) {
		return math.NaN()
	}
	if !v.Banded() {
		return v.Mid
	}
	z := NormalQuantile(min(max(share, tail), 1-tail)) / bandDeviates
	if z < 0 {
		return v.Mid + z*(v.Mid-v.Low)
	}
	return v.Mid + z*(v.High-v.Mid)
}

// At is the share of all kernels below which a part of what the counted share
// may truly be lies.
//
//	p = B(part; k + 1/2, n - k + 1/2)        (B the beta quantile)
//
// Recalled: Jeffreys 1946, the prior.
// Valid: part strictly between 0 and 1; NaN outside, and for an impossible count.
// Check: lies within 0.01 of the limits of Wilson at 90 %.
func (p Proportion) At(part float64) float64 {
	if !p.Valid() || !inside(part) {
		return math.NaN()
	}
	return distuv.Beta{Alpha: float64(p.Hits) + 0.5, Beta: float64(p.Of-p.Hits) + 0.5}.Quantile(part)
}

package kernel

import (
	"math"

	"awn/barley"
)

// Shells is into how many shells of equal volume a kernel is cut. Five are
// wrong by a point of moisture in the first hour; ten by a quarter of a point
// then, and by 0.02 after a day.
const Shells = 10

// longestUptakeH is the longest step of the implicit scheme, which is first
// order in time.
const longestUptakeH = 5.0 / 60

// conductances between neighbouring shells of a sphere of radius 1, from the
// middle out: face area over the distance of the shells' middles, over the
// volume of a shell; the last is that of the skin to the outermost middle.
var conductances = func() (g [Shells]float64) {
	volume := 1.0 / (3 * Shells)
	middle := func(i int) float64 { return math.Cbrt((float64(i) + 0.5) / Shells) }
	for i := range Shells - 1 {
		face := math.Cbrt(float64(i+1) / Shells)
		g[i] = face * face / (middle(i+1) - middle(i)) / volume
	}
	g[Shells-1] = 1 / (1 - middle(Shells-1)) / volume
	return g
}()

// Uptake is the water within the kernels of one sieve fraction, kg per kg dry
// matter: shells of equal volume from the middle out.
type Uptake struct {
	Shell     [Shells]float64
	perRadius float64 // (lot factor)/r², 1/m²
}

// NewUptake returns kernels evenly wet at startDB. asIsMg is the mass of one
// kernel as is, 5 to 100 mg (otherwise all moistures become NaN); lotFactor
// multiplies the speed of uptake.
func NewUptake(asIsMg, startDB, lotFactor float64) Uptake {
	r := barley.KernelRadius(asIsMg)
	u := Uptake{perRadius: lotFactor / (r * r)}
	for i := range u.Shell {
		u.Shell[i] = startDB
	}
	return u
}

// Diffusivity is that of water within the kernel, m²/s.
//
//	D = D15 exp(-(E/R)(1/T - 1/288.15))      (T in K)
//
// Source: Becker 1960, the form and the energy of activation, on wheat.
// Valid: 0 to 45 °C; it is answered below, where nobody steeps but a cold lot
// may be cast.
// Check: Becker 1960, energy of activation 51.5 kJ/mol.
// Note: D15 is fitted to recalled steeping times of barley.
func (c *Constants) Diffusivity(tempC float64) float64 {
	const fifteenK = 15 + zeroC
	return c.DiffusivityM2S * math.Exp(-c.ActivationJMol/gasJMolK*(1/(tempC+zeroC)-1/fifteenK))
}

// MeanDB is the water of the mean shell.
//
// Definition.
func (u *Uptake) MeanDB() float64 {
	sum := 0.0
	for _, x := range u.Shell {
		sum += x
	}
	return sum / Shells
}

// Add spreads water evenly over the shells.
func (u *Uptake) Add(db float64) {
	for i := range u.Shell {
		u.Shell[i] += db
	}
}

// Scale multiplies the moisture of all shells, as when dry matter is lost.
func (u *Uptake) Scale(by float64) {
	for i := range u.Shell {
		u.Shell[i] *= by
	}
}

// Blend makes u the mean of itself and another state, with the given weight
// of the other.
func (u *Uptake) Blend(other *Uptake, weight float64) {
	for i := range u.Shell {
		u.Shell[i] += weight * (other.Shell[i] - u.Shell[i])
	}
}

// Soak advances kernels whose skin is held wet at surfaceDB.
//
//	dX/dt = D ∇²X,  X = Xs at the skin
//
// An implicit step can neither overshoot nor oscillate, whatever its length.
func (u *Uptake) Soak(dtH, diffusivityM2S, surfaceDB float64) {
	u.advance(dtH, diffusivityM2S, conductances[Shells-1], surfaceDB)
}

// Equalise advances kernels whose skin is dry: water moves inwards only.
func (u *Uptake) Equalise(dtH, diffusivityM2S float64) {
	u.advance(dtH, diffusivityM2S, 0, 0)
}

// advance takes equal steps of the backward Euler scheme. Its three diagonals
// are the same in all of them and are eliminated once, from the middle out.
func (u *Uptake) advance(dtH, diffusivityM2S, skin, surfaceDB float64) {
	const secondsPerHour = 3600
	steps := math.Ceil(dtH / longestUptakeH)
	fourier := diffusivityM2S * u.perRadius * dtH * secondsPerHour / steps

	var inward, pivot, outward [Shells]float64 // couplings to either side, over the pivot
	within := 0.0                              // what is left of the coupling inwards
	for i, g := range conductances {
		if i == Shells-1 {
			g = skin
		}
		out := fourier * g
		pivot[i] = 1 / (1 + out + within)
		outward[i] = out * pivot[i]
		if i > 0 {
			inward[i] = fourier * conductances[i-1] * pivot[i]
		}
		within = out * (1 - outward[i])
	}
	for range int(steps) {
		u.step(&inward, &pivot, &outward, surfaceDB)
	}
}

func (u *Uptake) step(inward, pivot, outward *[Shells]float64, surfaceDB float64) {
	x := &u.Shell
	x[0] *= pivot[0]
	for i := 1; i < Shells; i++ {
		x[i] = x[i]*pivot[i] + x[i-1]*inward[i]
	}
	without := surfaceDB
	for i := Shells - 1; i >= 0; i-- {
		x[i] += outward[i] * without
		without = x[i]
	}
}

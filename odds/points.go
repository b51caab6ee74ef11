package odds

import (
	"fmt"
	"math/bits"
)

// Points are the points of a scrambled Sobol' sequence: spread evenly over the
// unit cube, however many of them are taken, and different for each seed.
//
// The scrambling is Owen's: a bit of a coordinate is flipped or not by a coin
// that the bits above it and the seed alone decide. It keeps the evenness and
// makes each single point uniform.
//
// Source: Joe and Kuo 2008, the direction numbers.
// Recalled: Sobol' 1967, the sequence; Owen 1995, the scrambling.
type Points struct {
	keys  []uint64 // of the coins of each dimension
	steps [][wordBits]uint32
}

// wordBits is how many bits of a coordinate are made.
const wordBits = 32

// MostDimensions is how many dimensions Points can have.
const MostDimensions = len(directions) + 1

// NewPoints makes the points of a seed.
func NewPoints(dimensions int, seed uint64) (*Points, error) {
	if dimensions < 1 || dimensions > MostDimensions {
		return nil, fmt.Errorf("points of %d dimensions: 1 to %d are possible", dimensions, MostDimensions)
	}
	p := &Points{keys: make([]uint64, dimensions), steps: make([][wordBits]uint32, dimensions)}
	for d := range p.keys {
		p.keys[d] = mix(mix(seed) + uint64(d))
		p.steps[d] = stepsOf(d)
	}
	return p, nil
}

// At writes the point of an index into dst, one coordinate for each dimension,
// each strictly between 0 and 1.
func (p *Points) At(index int, dst []float64) {
	const cells = 1 << wordBits
	for d := range dst {
		word := flipped(p.word(index, d), p.keys[d])
		dst[d] = (float64(word) + 0.5) / cells
	}
}

// word is a coordinate before it is scrambled. The sequence runs in the order of
// the Gray code: neighbours differ by one step.
func (p *Points) word(index, dimension int) uint32 {
	word := uint32(0)
	for gray := uint32(index) ^ uint32(index)>>1; gray != 0; gray &= gray - 1 {
		word ^= p.steps[dimension][bits.TrailingZeros32(gray)]
	}
	return word
}

// stepsOf are the direction numbers of a dimension as binary fractions: the
// given ones, and the rest by the recurrence of its polynomial.
func stepsOf(dimension int) (steps [wordBits]uint32) {
	if dimension == 0 {
		for k := range steps {
			steps[k] = 1 << (wordBits - 1 - k)
		}
		return steps
	}
	row := directions[dimension-1]
	polynomial, first := row[0], row[1:]
	degree := len(first)
	for k := range steps {
		if k < degree {
			steps[k] = first[k] << (wordBits - 1 - k)
			continue
		}
		steps[k] = steps[k-degree] ^ steps[k-degree]>>degree
		for i := 1; i < degree; i++ {
			if polynomial>>(degree-i)&1 == 1 {
				steps[k] ^= steps[k-i]
			}
		}
	}
	return steps
}

// flipped is a word with its bits flipped by coins.
func flipped(word uint32, key uint64) uint32 {
	out := uint32(0)
	for bit := wordBits - 1; bit >= 0; bit-- {
		above := uint64(word) >> (bit + 1)
		coin := uint32(mix(key^(above<<6|uint64(bit)))) & 1
		out |= (word>>bit&1 ^ coin) << bit
	}
	return out
}

// mix spreads a number over all bits.
//
// Recalled: Steele, Lea and Flood 2014, the finisher of SplitMix64.
func mix(x uint64) uint64 {
	x += 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

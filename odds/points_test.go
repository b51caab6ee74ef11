package odds

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// Unscrambled, the points are those of a general-purpose library, bit for bit.
func TestPointsAgainstALibrary(t *testing.T) {
	p, err := NewPoints(MostDimensions, 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range table(t, "sobol.csv") {
		for name, want := range row {
			var d int
			if n, _ := fmt.Sscanf(name, "d%d", &d); n == 0 {
				continue
			}
			if got := float64(p.word(int(row["index"]), d-1)) / (1 << wordBits); got != want {
				t.Errorf("point %v, dimension %d: %v, want %v", row["index"], d, got, want)
			}
		}
	}
}

// Scrambling keeps what makes the points even: of any 2^k in a row from the
// start, each 2^k-th of every axis holds one (Owen 1995; recalled).
func TestScrambledPointsStayEven(t *testing.T) {
	const n = 256
	p, _ := NewPoints(MostDimensions, 7)
	seen := make([][n]bool, MostDimensions)
	u := make([]float64, MostDimensions)
	for i := range n {
		p.At(i, u)
		for d, x := range u {
			if !(x > 0 && x < 1) {
				t.Fatalf("coordinate %v", x)
			}
			cell := int(x * n)
			if seen[d][cell] {
				t.Fatalf("two of %d points in one %d-th of axis %d", n, n, d)
			}
			seen[d][cell] = true
		}
	}
}

// The first two dimensions are a net: of 256 points each box of 16 by 16 and of
// 4 by 64 holds one (Sobol' 1967; recalled).
func TestFirstTwoDimensionsAreANet(t *testing.T) {
	p, _ := NewPoints(2, 3)
	for _, boxes := range [][2]float64{{16, 16}, {4, 64}, {128, 2}} {
		seen := map[[2]int]bool{}
		var u [2]float64
		for i := range 256 {
			p.At(i, u[:])
			seen[[2]int{int(u[0] * boxes[0]), int(u[1] * boxes[1])}] = true
		}
		if len(seen) != 256 {
			t.Errorf("%v: %d of 256 boxes hold a point", boxes, len(seen))
		}
	}
}

// The mean of a product of 12 factors whose mean is 1: the error is under a
// tenth of what as many independent draws would have.
func TestPointsIntegrateBetterThanChance(t *testing.T) {
	const n, dims, seeds = 1024, 12, 20
	product := func(u []float64) float64 {
		y := 1.0
		for d, x := range u {
			y *= 1 + (x-0.5)*2/float64(d+2)
		}
		return y
	}
	u := make([]float64, dims)
	var even, chance float64
	r := rand.New(rand.NewPCG(1, 2))
	for seed := range uint64(seeds) {
		p, _ := NewPoints(dims, seed)
		a, b := 0.0, 0.0
		for i := range n {
			p.At(i, u)
			a += product(u)
			for d := range u {
				u[d] = r.Float64()
			}
			b += product(u)
		}
		even += (a/n - 1) * (a/n - 1)
		chance += (b/n - 1) * (b/n - 1)
	}
	if ratio := math.Sqrt(even / chance); ratio > 0.1 {
		t.Errorf("errors of even points over those of chance: %.3f", ratio)
	}
}

func TestSeedsDifferAndRepeat(t *testing.T) {
	at := func(seed uint64) []float64 {
		p, _ := NewPoints(5, seed)
		u := make([]float64, 5)
		p.At(3, u)
		return u
	}
	if !slices.Equal(at(1), at(1)) || slices.Equal(at(1), at(2)) {
		t.Error("a seed must repeat, and another must not")
	}
	for _, n := range []int{0, MostDimensions + 1} {
		if _, err := NewPoints(n, 1); err == nil {
			t.Errorf("%d dimensions were taken", n)
		}
	}
}

func TestShapesHaveTheirPercentiles(t *testing.T) {
	for _, p := range []Parameter{
		{Default: 2, Low: 1, High: 4, Distribution: Normal},
		{Default: 2, Low: 1, High: 4, Distribution: LogNormal},
		{Default: 77, Low: 45, High: 85, Distribution: Normal},
	} {
		for share, want := range map[float64]float64{0.05: p.Low, 0.5: p.Default, 0.95: p.High} {
			near(t, fmt.Sprint(p.Distribution, share), p.At(share), want, 1e-9*want)
		}
		near(t, "the tail ends", p.At(0), p.At(tail), 0)
	}
	u := Parameter{Default: 2, Low: 1, High: 4, Distribution: Uniform}
	near(t, "uniform", u.At(0.25), 1.75, 1e-12)
	near(t, "without a band", Alone(3, Measured).At(0.9), 3, 0)
	if !math.IsNaN(u.At(1.01)) || !math.IsNaN(Exact(1, Weak).At(-1)) || !math.IsNaN(Proportion{3, 2}.At(0.5)) {
		t.Error("a share that cannot be gives a figure")
	}
}

// The interval of Jeffreys lies close to that of Wilson (Brown, Cai and
// DasGupta 2001, recalled: within a few thousandths for n of 50 and more).
func TestCountedShareAgainstWilson(t *testing.T) {
	for _, p := range []Proportion{{47, 50}, {197, 200}, {120, 200}} {
		low, high := p.Wilson(0.9)
		near(t, fmt.Sprint(p, " low"), p.At(0.05), low, 0.01)
		near(t, fmt.Sprint(p, " high"), p.At(0.95), high, 0.01)
	}
}

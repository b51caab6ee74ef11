package kernel_test

import (
	"math"
	"testing"

	"awn/barley"
	"awn/kernel"
	"awn/unit"
)

// percentWB is moisture in per cent wet basis.
func percentWB(db float64) float64 { return 100 * float64(unit.DryBasis(db).WetBasis()) }

func TestUptakeAgainstIndependentProgram(t *testing.T) {
	c := constants(t, nil)
	hours := []float64{1, 2, 4, 6, 8, 12, 16, 24, 32, 48, 72}
	worst := 0.0
	for _, row := range table(t, "uptake.csv") {
		u := kernel.NewUptake(45, 0.125/0.875, 1)
		at := 0.0
		for i, want := range row[1:] {
			u.Soak(hours[i]-at, c.Diffusivity(row[0]), c.SurfaceDB)
			at = hours[i]
			got := percentWB(u.MeanDB() + c.CapDB)
			worst = math.Max(worst, math.Abs(got-want))
			if math.Abs(got-want) > 0.15 {
				t.Errorf("%g °C, %g h: %.2f %%, want %.1f", row[0], at, got, want)
			}
		}
	}
	t.Logf("worst miss %.2f points", worst)
}

// Barley slides undated show barley at 18 °C, drained: 23.2 % after 5 min. The
// moisture to begin with is not visible; 12.5 % is assumed, and one point
// either way moves the result by about as much: hence 1.5 points.
func TestFiveMinutesUnderWater(t *testing.T) {
	c := constants(t, nil)
	u := kernel.NewUptake(45, 0.125/0.875, 1)
	u.Soak(5.0/60, c.Diffusivity(18), c.SurfaceDB)
	got := percentWB(u.MeanDB() + c.CapDB + c.FilmDB)
	t.Logf("5 min at 18 °C, drained: %.1f %%, published 23.2", got)
	if math.Abs(got-23.2) > 1.5 {
		t.Errorf("%.1f %% after 5 min, published 23.2", got)
	}
}

// Becker 1960: energy of activation of water in wheat 51.5 kJ/mol. Ours is an
// input, so this checks that the law carries it: 10 % for other grain.
func TestActivationEnergy(t *testing.T) {
	c := constants(t, nil)
	slope := math.Log(c.Diffusivity(25)/c.Diffusivity(10)) / (1/283.15 - 1/298.15) * 8.314462618
	if math.Abs(slope/51.5e3-1) > 0.10 {
		t.Errorf("energy of activation %.1f kJ/mol, published 51.5", slope/1e3)
	}
}

// Yin 1996: larger kernels are significantly drier after the same steep.
func TestLargeKernelsStayDrier(t *testing.T) {
	c := constants(t, nil)
	last := math.Inf(1)
	for _, mg := range []float64{36, 45, 52} {
		u := kernel.NewUptake(mg, 0.14, 1)
		u.Soak(40, c.Diffusivity(16), c.SurfaceDB)
		if u.MeanDB() >= last {
			t.Errorf("%g mg takes up %.3f, no less than the smaller kernel", mg, u.MeanDB())
		}
		last = u.MeanDB()
	}
}

func TestEqualisingKeepsWater(t *testing.T) {
	c := constants(t, nil)
	u := kernel.NewUptake(45, 0.14, 1)
	u.Soak(5, c.Diffusivity(15), c.SurfaceDB)
	before, skin := u.MeanDB(), u.Shell[kernel.Shells-1]
	u.Equalise(20, c.Diffusivity(15))
	if math.Abs(u.MeanDB()/before-1) > 1e-12 {
		t.Errorf("mean went from %.6f to %.6f without water", before, u.MeanDB())
	}
	for i := range kernel.Shells - 1 {
		if u.Shell[i] > u.Shell[i+1] || u.Shell[i+1] > skin {
			t.Errorf("after 20 h of rest shells hold %.3f", u.Shell)
		}
	}
}

// A sphere from 0 towards 1 fills by the series of Crank 1975, eq. 6.20, the
// law for a plain sphere in closed form. The shells are within 0.02 of it
// from a Fourier number of 0.01.
func TestSphereAgainstSeries(t *testing.T) {
	r := barley.KernelRadius(45)
	for _, fourier := range []float64{0.01, 0.03, 0.1, 0.3} {
		u := kernel.NewUptake(45, 0, 1)
		u.Soak(10, fourier*r*r/36000, 1)
		left := 0.0
		for n := 1.0; n <= 400; n++ {
			left += math.Exp(-n*n*math.Pi*math.Pi*fourier) / (n * n)
		}
		if want := 1 - 6/(math.Pi*math.Pi)*left; math.Abs(u.MeanDB()-want) > 0.02 {
			t.Errorf("Fourier number %g: filled to %.3f, series %.3f", fourier, u.MeanDB(), want)
		}
	}
}

func BenchmarkSoak(b *testing.B) {
	c := constants(b, nil)
	u := kernel.NewUptake(45, 0.14, 1)
	d := c.Diffusivity(15)
	b.ReportAllocs()
	for b.Loop() {
		u.Soak(2.5/60, d, c.SurfaceDB)
	}
}

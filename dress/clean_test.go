package dress

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"awn/barley"
	"awn/odds"
	"awn/plant"
	"awn/unit"
)

func sieved(moisture float64, sieve ...float64) barley.Lot {
	l := barley.Lot{Moisture: odds.Exact(moisture, odds.Measured), KernelMassMg: odds.Exact(44, odds.Measured)}
	copy(l.Sieve[:], sieve)
	return l
}

// Worked by hand: of 60, 30, 8 and 2 % on the EBC slots a 2.2 mm screen that
// takes 0.9 leaves 98.2 %; a slot of 2.35 mm, half way through the third
// fraction, then keeps apart 0.9 of half of that and of the tenth left below.
// Tolerance: the digits written here.
func TestCleaningByHand(t *testing.T) {
	p := plant.Cleaning{ScreenMM: 2.2, DustShare: 0.004, ForeignShare: 0.006, FeedPriceT: 140, SecondPriceT: 180}
	c, err := Clean(constants(t), p, sieved(0.13, 0.60, 0.30, 0.08, 0.02), 0.13, 100e3)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "cleaned", c.Cleaned.Kg(), 101833, 1)
	near(t, "received", c.Received.Kg(), 102862, 1)
	near(t, "screenings", c.Screened.Kg(), 1833, 1)
	near(t, "what they fetch", c.For, 256.6, 0.1)
	near(t, "thin corns left", c.Lot.Sieve[3], 0.002/0.982, 1e-9)
	p.GradeMM = 2.35
	c, err = Clean(constants(t), p, sieved(0.13, 0.60, 0.30, 0.08, 0.02), 0.13, 100e3)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "second grade", c.Second.DryKg/c.Cleaned.DryKg, 0.9*0.5*0.08+0.9*0.1*0.02, 1e-9)
}

// Screening does not change a kernel: the dry mass of those of a fraction is the
// same in the lot as received and as steeped.
func TestScreeningLeavesTheKernelsAlone(t *testing.T) {
	lot := sieved(0.12, 0.55, 0.30, 0.10, 0.05)
	lot.Capacity, lot.Dormant = odds.Exact(0.99, odds.Measured), odds.Exact(0, odds.Measured)
	c, err := Clean(constants(t), plant.Cleaning{ScreenMM: 2.4}, lot, 0.12, 1000)
	if err != nil {
		t.Fatal(err)
	}
	was, err := barley.Classes(&lot, 1)
	if err != nil {
		t.Fatal(err)
	}
	is, err := barley.Classes(&c.Lot, 1)
	if err != nil {
		t.Fatal(err)
	}
	for i := range was {
		near(t, "kernel, mg", is[i].KernelDryMg, was[i].KernelDryMg, 1e-9)
	}
	if !(c.Lot.KernelMassMg.Mid > lot.KernelMassMg.Mid) {
		t.Errorf("the mean kernel goes from %g to %g mg", lot.KernelMassMg.Mid, c.Lot.KernelMassMg.Mid)
	}
}

// Nothing is made or lost between pit and steep, dry matter or water.
func TestCleaningAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := &Constants{Screens: rapid.Float64Range(0, 1).Draw(t, "takes")}
		p := plant.Cleaning{
			ScreenMM: rapid.Float64Range(0, 2.6).Draw(t, "screen"), GradeMM: rapid.Float64Range(0, 2.7).Draw(t, "grade"),
			DustShare: rapid.Float64Range(0, 0.05).Draw(t, "dust"), ForeignShare: rapid.Float64Range(0, 0.1).Draw(t, "foreign"),
		}
		lot := sieved(rapid.Float64Range(0.09, 0.16).Draw(t, "moisture"), 0.6, 0.25, 0.1, 0.05)
		lot.Sieving = rapid.SampledFrom([]barley.Sieving{barley.SieveEBC, barley.SieveUS}).Draw(t, "sieves")
		at := rapid.Float64Range(0.09, 0.24).Draw(t, "received at")
		out, err := Clean(c, p, lot, unit.WetBasis(at), 60e3)
		if err != nil {
			t.Fatal(err)
		}
		parts := []Stream{out.Dust, out.Foreign, out.Screened, out.Second, out.Steeped}
		dryKg, kg := 0.0, out.DriedKg
		for _, s := range parts {
			dryKg += s.DryKg
			kg += s.Kg()
			if s.DryKg < 0 {
				t.Fatalf("a part of %g kg", s.DryKg)
			}
		}
		if math.Abs(dryKg-out.Received.DryKg) > 1e-9*dryKg || math.Abs(kg-out.Received.Kg()) > 1e-9*kg {
			t.Fatalf("%g of %g kg of dry matter, %g of %g kg", dryKg, out.Received.DryKg, kg, out.Received.Kg())
		}
		sum := 0.0
		for _, share := range out.Lot.Sieve {
			sum += share
		}
		if math.Abs(sum-1) > 1e-9 {
			t.Fatalf("the fractions left sum to %g", sum)
		}
	})
}

func TestScreensThatLeaveNothing(t *testing.T) {
	if _, err := Clean(&Constants{Screens: 1}, plant.Cleaning{ScreenMM: 4}, sieved(0.13, 1), 0.13, 1000); err == nil {
		t.Error("a screen that takes all is accepted")
	}
	if _, err := Clean(constants(t), plant.Cleaning{}, sieved(0.13, 1), 0.13, 0); err == nil {
		t.Error("no barley is accepted")
	}
}

func TestMuchScreenedIsTold(t *testing.T) {
	for thin, told := range map[float64]int{0.02: 0, 0.12: 1} {
		c, err := Clean(constants(t), plant.Cleaning{ScreenMM: 2.2}, sieved(0.13, 0.9-thin, 0.1, 0, thin), 0.13, 1000)
		if err != nil {
			t.Fatal(err)
		}
		if f := c.Findings(nil); len(f) != told {
			t.Errorf("%g of thin corns: %v", thin, f)
		}
	}
}

package dress

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"awn/odds"
	"awn/plant"

	"pgregory.net/rapid"
)

func constants(t testing.TB) *Constants {
	t.Helper()
	var c Constants
	if err := odds.Fill(&c, Parameters, nil); err != nil {
		t.Fatal(err)
	}
	return &c
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %.6g, want %.6g within %.3g", what, got, want, tolerance)
	}
}

// A tonne of barley of 13 % that loses 9 % of its dry matter.
func ExampleAsIsYield() {
	y := AsIsYield(0.09, 0.13, 0.045)
	fmt.Printf("%.0f kg of malt, %.3f t of barley per t\n", 1000*y, 1/y)
	// Output:
	// 829 kg of malt, 1.206 t of barley per t
}

func TestYieldTable(t *testing.T) {
	text, err := os.ReadFile("testdata/yield.csv")
	if err != nil {
		t.Fatal(err)
	}
	rows := 0
	for line := range strings.Lines(string(text)) {
		var loss, yield, per, asIs float64
		if n, _ := fmt.Sscanf(line, "%g,%g,%g,%g", &loss, &yield, &per, &asIs); n != 4 {
			continue
		}
		rows++
		got := AsIsYield(loss, 0.13, 0.045)
		near(t, "yield", got, yield, 0.00005)
		near(t, "barley per malt", 1/got, per, 0.0005)
		near(t, "as-is loss", AsIsLoss(1000, 1000*got), asIs, 0.00005)
		near(t, "dry loss", DryLoss(1000, 0.13, 1000*got, 0.045), loss, 1e-12)
	}
	if rows != 3 {
		t.Errorf("%d rows", rows)
	}
}

// UK Malt undated: the trade association of the United Kingdom counts 830 kg of malt of 5 % from
// a tonne of barley of 12 %, and feed of 4 % of the malt. A piece that leaches
// 1 %, respires 4.6 % in growth and 0.4 % on the kiln and grows culms by the
// default should come to it. Tolerances: 10 kg, as the page itself rounds to
// tens and gives 1.3 t of barley per t elsewhere; 1 point of feed.
func TestTradeFigure(t *testing.T) {
	const barley = 880.0
	y, err := Dress(constants(t), plant.Dressing{}, Charge{
		SteepedKg: 1000, Barley: 0.12, Malt: 0.05,
		LeachedKg: 0.010 * barley, RespiredKg: 0.046 * barley, RespiredKilnKg: 0.004 * barley,
		KilnedDryKg: 0.94 * barley,
	})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "malt, kg", y.Malt.Kg(), 830, 10)
	near(t, "feed over malt", y.Feed.Kg()/y.Malt.Kg(), 0.04, 0.01)
	near(t, "loss", y.Malting, 0.099, 0.001)
}

// Nothing is made or lost in dressing, whatever its settings.
func TestDressingAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := &Constants{rapid.Float64Range(0.6, 1.2).Draw(t, "ratio"), rapid.Float64Range(0, 0.01).Draw(t, "dust"), 0.9, 0.001, 20}
		d := plant.Dressing{BrokenShare: rapid.Float64Range(0, 0.05).Draw(t, "broken"), CulmMoistureW: rapid.Float64Range(0, 0.1).Draw(t, "culms at")}
		in := Charge{
			ReceivedKg: 1100, CleanedKg: 1050, SteepedKg: 1000, Barley: 0.12, Malt: 0.045,
			LeachedKg:      rapid.Float64Range(0, 20).Draw(t, "leached"),
			RespiredKg:     rapid.Float64Range(0, 90).Draw(t, "respired"),
			RespiredKilnKg: rapid.Float64Range(0, 10).Draw(t, "on the kiln"),
		}
		in.KilnedDryKg = 880 - in.LeachedKg - in.RespiredKg - in.RespiredKilnKg
		y, err := Dress(c, d, in)
		if err != nil {
			t.Fatal(err)
		}
		if out := y.Malt.DryKg + y.Culms.DryKg + y.Screens.DryKg + y.Dust.DryKg; math.Abs(out-in.KilnedDryKg) > 1e-9*in.KilnedDryKg {
			t.Fatalf("%g kg in, %g kg out", in.KilnedDryKg, out)
		}
		if math.Abs(y.All+y.PerDry-1) > 1e-12 {
			t.Fatalf("losses of %g and a yield of %g", y.All, y.PerDry)
		}
		if math.Abs(y.Feed.Kg()-y.Culms.Kg()-y.Screens.Kg()-y.Dust.Kg()) > 1e-9*y.Feed.Kg() {
			t.Fatal("feed is not the sum of its parts")
		}
		if !(y.PerReceived < y.PerCleaned && y.PerCleaned < y.PerSteeped) {
			t.Fatalf("yields %g, %g, %g", y.PerReceived, y.PerCleaned, y.PerSteeped)
		}
		if math.Abs(1-DryLoss(in.SteepedKg, in.Barley, y.Malt.Kg(), in.Malt)-y.PerDry) > 1e-12 {
			t.Fatal("the yield on dry matter is not what the weights say")
		}
	})
}

func TestHighLossIsTold(t *testing.T) {
	for respired, told := range map[float64]int{45: 0, 60: 1} {
		y, err := Dress(constants(t), plant.Dressing{}, Charge{SteepedKg: 1000, Barley: 0.12, Malt: 0.05, LeachedKg: 9, RespiredKg: respired, KilnedDryKg: 871 - respired})
		if err != nil {
			t.Fatal(err)
		}
		if f := y.Findings(nil); len(f) != told {
			t.Errorf("%g kg respired: %v", respired, f)
		}
	}
}

func TestBadInputIsRefused(t *testing.T) {
	good := Charge{SteepedKg: 1000, Barley: 0.12, Malt: 0.05, RespiredKg: 40, KilnedDryKg: 830}
	for name, spoil := range map[string]func(*Charge){
		"no barley":         func(c *Charge) { c.SteepedKg = 0 },
		"no malt":           func(c *Charge) { c.KilnedDryKg = 0 },
		"wet beyond reason": func(c *Charge) { c.Malt = 1 },
		"unknown moisture":  func(c *Charge) { c.Barley = 2 },
		"negative loss":     func(c *Charge) { c.RespiredKg = -1 },
		"all culms":         func(c *Charge) { c.RespiredKg = 1000 },
	} {
		c := good
		spoil(&c)
		if _, err := Dress(constants(t), plant.Dressing{}, c); err == nil {
			t.Errorf("%s is accepted", name)
		}
	}
	y, err := Dress(constants(t), plant.Dressing{}, good)
	if err != nil || !math.IsNaN(y.PerReceived) {
		t.Errorf("yield on barley that was not weighed: %g, %v", y.PerReceived, err)
	}
}

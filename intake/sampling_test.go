package intake

import (
	"math"
	"testing"

	"awn/odds"
)

// Whitaker 2000: at 5 mg/kg, a sample of 0.454 kg, 25 g and one analysis the
// three steps have coefficients of variation of 6.3, 10.0 and 6.3 %, 13.4 %
// together. Tolerance: half of the last digit.
func TestToxinVariance(t *testing.T) {
	const c, huge = 5e-6, 1e12
	near(t, "all", (ToxinPlan{454, 25, 1}).Deviation(c)/c, 0.134, 0.0005)
	for name, p := range map[string]struct {
		plan ToxinPlan
		want float64
	}{
		"sampling": {ToxinPlan{454, 454, huge}, 0.063}, // a portion of all leaves little else
		"analysis": {ToxinPlan{huge, huge, 1}, 0.063},
	} {
		got := p.plan.Deviation(c) / c
		if name == "sampling" { // less what a portion of 454 g leaves
			got = math.Sqrt(got*got - 0.066*25/454*math.Pow(5, 0.833)/25)
		}
		near(t, name, got, p.want, 0.0005)
	}
	near(t, "portion", math.Sqrt(0.066*math.Pow(5, 0.833))/5, 0.100, 0.0005)
}

func TestToxinOperatingCurve(t *testing.T) {
	plans := map[string]ToxinPlan{"A_0.454kg_25g_1": {454, 25, 1}, "B_2.27kg_50g_1": {2270, 50, 1}, "C_4.54kg_100g_2": {4540, 100, 2}}
	n := 0
	for _, row := range rows(t, "don_oc.csv") {
		truth, limit := num(t, row["true_DON_ppm"])*1e-6, num(t, row["limit_ppm"])*1e-6
		for name, p := range plans {
			// Tolerances: half of the last digit printed.
			near(t, name+" CV at "+row["true_DON_ppm"], 100*p.Deviation(truth)/truth, num(t, row[name+"_CVpct"]), 0.0501)
			near(t, name+" accepts "+row["true_DON_ppm"]+" at "+row["limit_ppm"], p.AcceptChance(truth, limit), num(t, row[name+"_Paccept"]), 0.000051)
			n++
		}
	}
	t.Logf("%d points", n)
}

// The limits on a reading are those contents at which a reading as low or as
// high has one chance in twenty: read back off the operating curve.
func TestToxinTrue(t *testing.T) {
	p := ToxinPlan{454, 25, 1}
	v := p.True(0.9e-6)
	near(t, "as low", p.AcceptChance(v.High, 0.9e-6), 0.05, 1e-6)
	near(t, "as high", 1-p.AcceptChance(v.Low, 0.9e-6), 0.05, 1e-6)
	if !(v.Low < 0.9e-6 && v.High > 1e-6) {
		t.Errorf("0.9 mg/kg is no pass of a limit of 1: %+v", v)
	}
	if (ToxinPlan{}).True(1e-6).Banded() || p.True(math.NaN()).Banded() {
		t.Error("a band without a plan")
	}
	if !math.IsNaN(p.Deviation(-1)) || !math.IsNaN(p.AcceptChance(1e-6, math.NaN())) {
		t.Error("an answer outside the range")
	}
}

func TestSampleFor(t *testing.T) {
	p, ok := (ToxinPlan{454, 50, 1}).SampleFor(1.5e-6, 1e-6, 0.05)
	if !ok || p.AcceptChance(1.5e-6, 1e-6) > 0.05 || (ToxinPlan{p.SampleG - 454, 50, 1}).AcceptChance(1.5e-6, 1e-6) <= 0.05 {
		t.Errorf("%+v %v", p, ok)
	}
	if _, ok := (ToxinPlan{454, 25, 1}).SampleFor(1.1e-6, 1e-6, 0.05); ok {
		t.Error("no sample makes up for a small portion")
	}
}

// Against a search over every plan up to 200 kernels.
func TestSmallestPlan(t *testing.T) {
	p, ok := SmallestPlan(0.01, 0.05, 0.05, 0.10)
	if !ok {
		t.Fatal("no plan")
	}
	for n := 1; n <= p.N; n++ {
		for c := range n {
			q := odds.Plan{N: n, C: c}
			if fits := q.AcceptChance(0.01) >= 0.95 && q.AcceptChance(0.05) <= 0.10; fits && n < p.N {
				t.Fatalf("%+v is smaller than %+v", q, p)
			}
		}
	}
	if p.AcceptChance(0.01) < 0.95 || p.AcceptChance(0.05) > 0.10 {
		t.Errorf("%+v does not keep its risks", p)
	}
	if _, ok := SmallestPlan(0.05, 0.01, 0.05, 0.1); ok {
		t.Error("a plan that accepts the worse lot")
	}
}

// Student's deviates from the printed table, recalled.
func TestProbes(t *testing.T) {
	if n, ok := ProbesFor(1, 1, 0.95); !ok || n != 7 {
		t.Errorf("%d %v, want 7", n, ok)
	}
	if _, ok := ProbesFor(1, 0, 0.95); ok {
		t.Error("no number of probes leaves no error")
	}
	v := MeanOfProbes([]float64{0.135, 0.141, 0.138, 0.146})
	near(t, "mean", v.Mid, 0.14, 1e-12)
	near(t, "half width", v.High-v.Mid, 2.3534*math.Sqrt(22e-6)/2, 1e-6)
	if MeanOfProbes([]float64{1}).Banded() || MeanOfProbes(nil).Known() {
		t.Error("a band from one probe, or a mean of none")
	}
	near(t, "sieve", SieveDeviation(0.9, 45, 100), 0.0064, 0.00005)
	if n, _ := Schemes[0].Number(29e3); n != 8 {
		t.Errorf("29 t: %d probes, want 8 (as growers are told of a lorry of 29 t)", n)
	}
	if _, ok := Schemes[0].Number(math.NaN()); ok || len(EvenPoints(8)) != 8 || EvenPoints(-1) == nil {
		t.Error("probes of no load")
	}
}

// The band of what a lot may truly hold decides: wholly on one side of the
// limit, or across it.
func TestToxinAgainstLimit(t *testing.T) {
	plan := ToxinPlan{SampleG: 2270, PortionG: 50, Analyses: 1}
	for want, read := range map[string]float64{"intake.toxin.below": 0.3e-6, "intake.toxin.unsure": 0.9e-6, "intake.toxin.above": 3e-6} {
		if got := plan.AgainstLimit(read, 1e-6); len(got) != 1 || got[0].Code != want {
			t.Errorf("%g: %v, want %s", read, got, want)
		}
	}
	if got := plan.AgainstLimit(0.9e-6, math.NaN()); got != nil {
		t.Errorf("without a limit: %v", got)
	}
}

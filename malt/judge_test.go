package malt

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"awn/odds"
)

func found(mid, deviation float64, basis Basis) Result {
	return Result{Value: odds.WithDeviation(mid, deviation, odds.Measured), Basis: basis}
}

// pale is an analysis of a pale malt as a laboratory of the EBC prints it.
func pale() Analysis {
	return Analysis{
		Moisture:       found(0.045, 0.001, WetBasis),
		ExtractFine:    found(0.7977, 0.003, Dry),
		Colour:         found(3.94, 0.2, ScaleEBC),
		Protein:        found(0.1040, 0.0015, Dry),
		SolubleProtein: found(0.0402, 0.001, Dry),
		FAN:            found(150, 6, InWort),
		DiastaticPower: found(334, 12, ScaleWK),
	}
}

func ExampleJudge() {
	buyer := Specification{Name: "pale two-row", Buyer: "Wennemark Brewing", Limits: []Limit{
		AtMost(Moisture, 0.045, WetBasis),
		AtLeast(ExtractFine, 0.765, AsIs),
		Between(Colour, 1.6, 1.9, ScaleSRM),
		AtLeast(Friability, 0.80, NoBasis),
	}}
	for _, v := range Judge(buyer, pale()) {
		fmt.Printf("%s: %s, margin %.3f, converted %v, by %v, reason %q\n", v.Limit.Parameter, v.Word, v.Margin, v.Converted, v.Found.From, v.Reason)
	}
	// Output:
	// moisture: passes, margin 0.000, converted false, by [], reason ""
	// extract_fine: fails, margin -0.003, converted true, by [moisture], reason ""
	// colour: fails, margin -0.102, converted true, by [], reason ""
	// friability: cannot-say, margin NaN, converted false, by [], reason "missing"
}

// The worked conversions again, through the judgement: 76.18 % as-is at 4.5 %
// is 79.77 % dm, 150 mg/L is 134 mg per 100 g, 38.6 % Kolbach, 334 WK is 100
// Lintner.
func TestBasesThroughTheAnalysis(t *testing.T) {
	a := pale()
	for _, c := range []struct {
		parameter       Parameter
		basis           Basis
		want, tolerance float64
		from            []Parameter
	}{
		{ExtractFine, AsIs, 0.7618, 0.5e-4, []Parameter{Moisture}},
		{ExtractFine, Dry, 0.7977, 0, nil},
		{FAN, Per100g, 134.0, 0.1, []Parameter{Moisture, ExtractFine}},
		{KolbachIndex, NoBasis, 0.3865, 0.5e-4, []Parameter{SolubleProtein, Protein}},
		{DiastaticPower, ScaleLintner, 100, 1e-9, nil},
		{Colour, ScaleSRM, 2.0, 0.005, nil},
		{Protein, AsIs, 0.09932, 1e-9, []Parameter{Moisture}},
	} {
		f, reason := a.On(c.parameter, c.basis)
		if reason != Given {
			t.Errorf("%s on %s: %s", c.parameter, c.basis, reason)
			continue
		}
		near(t, fmt.Sprint(c.parameter, " on ", c.basis), f.Value.Mid, c.want, c.tolerance)
		if !slices.Equal(f.From, c.from) {
			t.Errorf("%s on %s came from %v, want %v", c.parameter, c.basis, f.From, c.from)
		}
		if !(f.Value.Low < f.Value.Mid && f.Value.Mid < f.Value.High) {
			t.Errorf("%s on %s lost its band: %+v", c.parameter, c.basis, f.Value)
		}
	}
}

// Whatever can be converted comes back to itself.
func TestBasisRoundTrips(t *testing.T) {
	for _, p := range Parameters() {
		for _, from := range p.Bases() {
			for _, to := range p.Bases() {
				a := pale()
				if p != Moisture {
					a[p] = found(40, 1, from)
					if p == ExtractFine {
						a[p] = found(0.78, 0.01, from)
					}
				}
				want := a[p].Value.Mid
				there, reason := a.On(p, to)
				if reason != Given {
					t.Errorf("%s from %s to %s: %s", p, from, to, reason)
					continue
				}
				a[p] = Result{Value: there.Value, Basis: to}
				back, reason := a.On(p, from)
				if reason != Given {
					t.Errorf("%s back from %s to %s: %s", p, to, from, reason)
					continue
				}
				// The lines to and from the glasses are published apart.
				tolerance := 1e-9 * want
				if (from == ScaleLovibond) != (to == ScaleLovibond) {
					tolerance = 0.02 * want
				}
				near(t, fmt.Sprint(p, " ", from, " to ", to, " and back"), back.Value.Mid, want, tolerance)
			}
		}
	}
}

func TestNeverSilent(t *testing.T) {
	for name, c := range map[string]struct {
		limit  Limit
		change func(Analysis)
		want   Reason
	}{
		"not found":          {AtLeast(Friability, 0.8, NoBasis), nil, Missing},
		"no basis stated":    {AtLeast(ExtractFine, 0.8, NoBasis), nil, BasisMissing},
		"basis of another":   {AtLeast(ExtractFine, 0.8, ScaleEBC), nil, BasisMissing},
		"found on no basis":  {AtLeast(ExtractFine, 0.8, Dry), func(a Analysis) { a[ExtractFine] = found(0.8, 0, NoBasis) }, BasisMissing},
		"no moisture":        {AtLeast(ExtractFine, 0.8, AsIs), func(a Analysis) { delete(a, Moisture) }, MoistureMissing},
		"moisture dry basis": {AtLeast(ExtractFine, 0.8, AsIs), func(a Analysis) { a[Moisture] = found(0.045, 0, Dry) }, BasisMissing},
		"no extract":         {AtLeast(FAN, 130, Per100g), func(a Analysis) { delete(a, ExtractFine) }, ExtractMissing},
		"absurd moisture":    {AtLeast(ExtractFine, 0.8, AsIs), func(a Analysis) { a[Moisture] = found(1.2, 0, WetBasis) }, OutsideScale},
		"off the glasses":    {AtMost(Colour, 4, ScaleEBC), func(a Analysis) { a[Colour] = found(0.1, 0, ScaleLovibond) }, OutsideScale},
		"no ends":            {Limit{Parameter: Colour, Min: math.NaN(), Max: math.NaN(), Basis: ScaleEBC}, nil, LimitEmpty},
		"unheard of":         {AtLeast("glow", 1, NoBasis), nil, UnknownParameter},
		"NaN found":          {AtLeast(Colour, 1, ScaleEBC), func(a Analysis) { a[Colour] = found(math.NaN(), 0, ScaleEBC) }, Missing},
		"part missing":       {AtLeast(KolbachIndex, 0.3, NoBasis), func(a Analysis) { delete(a, Protein) }, Missing},
	} {
		a := pale()
		if c.change != nil {
			c.change(a)
		}
		v := Judge(Specification{Limits: []Limit{c.limit}}, a)[0]
		if v.Word != CannotSay || v.Reason != c.want {
			t.Errorf("%s: %s %q, want %q", name, v.Word, v.Reason, c.want)
		}
		if !math.IsNaN(v.Margin) || !math.IsNaN(v.Chance) || v.Found.Value.Known() {
			t.Errorf("%s: figures beside what cannot be said: %+v", name, v)
		}
	}
}

func TestMargins(t *testing.T) {
	a := Analysis{Colour: found(4, 0.5, ScaleEBC), ExtractFine: Result{Value: odds.Alone(0.80*0.955, odds.Measured), Basis: AsIs}, Moisture: found(0.045, 0, WetBasis)}
	for _, c := range []struct {
		limit        Limit
		word         Word
		margin, room float64
	}{
		{Between(Colour, 3, 4.5, ScaleEBC), Passes, 0.5, 1e-12},
		{Between(Colour, 3.8, 6, ScaleEBC), Passes, 0.2, 1e-12},
		{AtMost(Colour, 3.5, ScaleEBC), Fails, -0.5, 1e-12},
		{AtLeast(Colour, 5, ScaleEBC), Fails, -1, 1e-12},
		{AtMost(Colour, 4, ScaleEBC), Passes, 0, 0},
		// 80 % as-is over 95.5 % is 80 % again only to rounding; it passes.
		{AtLeast(ExtractFine, 0.80, Dry), Passes, 0, 0},
	} {
		v := Judge(Specification{Limits: []Limit{c.limit}}, a)[0]
		if v.Word != c.word {
			t.Errorf("%+v: %s, want %s", c.limit, v.Word, c.word)
		}
		near(t, fmt.Sprint(c.limit), v.Margin, c.margin, c.room)
	}
}

// Chances of a normal distribution, from any printed table; recalled.
func TestChance(t *testing.T) {
	a := Analysis{Colour: found(4, 0.5, ScaleEBC), Viscosity: Result{Value: odds.Alone(1.5, odds.Measured)}}
	s := Specification{Limits: []Limit{
		AtMost(Colour, 4, ScaleEBC), AtMost(Colour, 4.5, ScaleEBC), Between(Colour, 3, 5, ScaleEBC), AtLeast(Colour, 3.5, ScaleEBC), AtMost(Viscosity, 1.6, NoBasis),
	}}
	for i, want := range []float64{0.5, 0.8413, 0.9545, 0.8413} {
		near(t, fmt.Sprint(s.Limits[i]), Judge(s, a)[i].Chance, want, 1e-4)
	}
	if v := Judge(s, a)[4]; v.Word != Passes || !math.IsNaN(v.Chance) {
		t.Errorf("without a band there is a verdict but no chance: %+v", v)
	}
}

// The published precision: about 8.6 points of Kolbach index between two
// laboratories at 1.66 % nitrogen.
func TestGuard(t *testing.T) {
	s := Specification{Limits: []Limit{
		AtLeast(KolbachIndex, 0.36, NoBasis), AtMost(Protein, 0.115, Dry), AtLeast(DiastaticPower, 200, ScaleWK), AtLeast(ExtractFine, 0.79, Dry), AtMost(Protein, 0.115, AsIs),
	}}
	v := Judge(s, pale())
	near(t, "Kolbach", v[0].Guard, 0.086, 0.0005)
	near(t, "protein", v[1].Guard, 6.25*0.00116, 1e-9)
	near(t, "power", v[2].Guard, 51+(110-51)*134./400, 1e-9)
	if !math.IsNaN(v[3].Guard) || !math.IsNaN(v[4].Guard) {
		t.Error("no precision of extract, nor of protein as-is, is published")
	}
}

func TestOverall(t *testing.T) {
	p, f, c := Verdict{Word: Passes}, Verdict{Word: Fails}, Verdict{Word: CannotSay}
	for _, x := range []struct {
		in   []Verdict
		want Word
	}{{[]Verdict{p, p}, Passes}, {[]Verdict{p, c}, CannotSay}, {[]Verdict{c, f, p}, Fails}, {nil, CannotSay}} {
		if got := Overall(x.in); got != x.want {
			t.Errorf("%v: %s, want %s", x.in, got, x.want)
		}
	}
}

func TestOtherMethodIsSaid(t *testing.T) {
	a := Analysis{ExtractFine: {Value: odds.Alone(0.8, odds.Measured), Basis: Dry, Method: "EBC 4.5.1"}}
	same, other := AtLeast(ExtractFine, 0.79, Dry), AtLeast(ExtractFine, 0.79, Dry)
	same.Method, other.Method = "EBC 4.5.1", "EBC 4.6.1"
	v := Judge(Specification{Limits: []Limit{same, other}}, a)
	if v[0].OtherMethod || !v[1].OtherMethod {
		t.Errorf("%v %v, want only the second", v[0].OtherMethod, v[1].OtherMethod)
	}
}

func TestCheckSpecification(t *testing.T) {
	s := Specification{Limits: []Limit{
		AtMost(Moisture, 0.05, WetBasis), AtLeast("glow", 1, NoBasis), AtLeast(Colour, 3, NoBasis),
		Between(Colour, 5, 4, ScaleEBC), AtMost(Colour, -1, ScaleEBC), {Parameter: FAN, Min: math.NaN(), Max: math.NaN(), Basis: InWort},
	}}
	want := []LimitProblem{LimitUnknown, LimitBasis, LimitCrossed, LimitNegative, LimitOpen}
	faults := s.Check()
	if len(faults) != len(want) {
		t.Fatalf("%d faults, want %d: %v", len(faults), len(want), faults)
	}
	for i, f := range faults {
		if f.Index != i+1 || f.Problem != want[i] || f.Error() == "" {
			t.Errorf("fault %d: %v, want %s", i, f, want[i])
		}
	}
}

// A figure without a band, half of what two laboratories may differ by within
// its limit: z = 0.98·√2 = 1.386, Φ = 0.917 (table of the normal law).
func TestOddsBetweenLaboratories(t *testing.T) {
	a := Analysis{Moisture: {Value: odds.Alone(0.048, odds.Measured), Basis: WetBasis}}
	v := Judge(Specification{Limits: []Limit{AtMost(Moisture, 0.050, WetBasis)}}, a)[0]
	v.Guard = 0.004
	if got := v.Odds(); math.Abs(got-0.917) > 0.002 {
		t.Errorf("%g, want 0.917", got)
	}
	if v.Guard = math.NaN(); !math.IsNaN(v.Odds()) {
		t.Error("odds without a band and without a precision")
	}
}

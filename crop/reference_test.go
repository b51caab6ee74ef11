package crop

import (
	"math"
	"slices"
	"testing"

	"awn/intake"
)

// Tolerances: means and errors are plain sums, which agree to rounding; limits
// of t and beta to what two libraries of special functions agree; the likelihood
// to where the searches stop.
const (
	sums     = 1e-9
	tails    = 1e-7
	searched = 1e-5
)

// columns of the reference, with what one of its units is inside.
var qualities = map[string]struct {
	key intake.Key
	one float64
}{
	"protein": {intake.Of(intake.Protein), 0.01}, "plump": {intake.Key{Factor: intake.Held, SlotM: plumpSlotM}, 0.01},
	"germination": {intake.Of(intake.Energy), 0.01},
}

// named is a domain by its name in the reference.
func named(s *Survey, name string) Domain {
	switch {
	case name == "overall":
		return s.All()
	case slices.Contains(s.Districts(), name):
		return s.InDistrict(name)
	}
	return s.OfVariety(name)
}

func TestCountsOfTheReference(t *testing.T) {
	s, ref := dev(t), reference(t).at("counts")
	d := s.Design(Options{})
	seen, unseen := s.Tonnes(func(Stratum) bool { return true })
	for key, got := range map[string]float64{
		"samples": float64(len(s.Samples)), "psu": float64(d.Farms()), "strata": float64(len(d.farms)),
		"weight_sum": d.total(s.All()), "frame_tonnes": seen + unseen, "unsampled_tonnes": unseen,
	} {
		ref.at(key).like(got, sums)
	}
}

func TestMeansOfTheReference(t *testing.T) {
	s, ref := dev(t), reference(t).at("means")
	d := s.Design(Options{})
	for _, name := range ref.keys() {
		for quality, q := range qualities {
			want := ref.at(name, quality)
			e := d.Mean(s.Column(s.Quality(q.key)), named(s, name))
			for key, got := range map[string]int{"n": e.Samples, "farms": e.Farms, "strata": e.Strata, "df": e.Freedom} {
				want.at(key).near(float64(got), 0)
			}
			want.at("mean").like(e.Value/q.one, sums)
			want.at("se").like(e.SE/q.one, sums)
			want.at("deff").like(e.DesignEffect, sums)
			want.at("kish_deff").like(e.WeightEffect, sums)
			low, high := e.Interval(confidence)
			want.at("lo95").near(low/q.one, tails)
			want.at("hi95").near(high/q.one, tails)
		}
	}
}

func TestErrorsUnderOtherDesigns(t *testing.T) {
	s, ref := dev(t), reference(t)
	for key, o := range map[string]Options{
		"adjust": {}, "remove": {Lonely: Remove}, "average": {Lonely: Average}, "collapsed": {Lonely: Collapse},
		"strata_district_psu_farm": {Clusters: FarmInDistrict},
	} {
		d := s.Design(o)
		variants := ref.at("se_variants")
		for _, name := range variants.keys() {
			for _, quality := range variants.at(name).keys() {
				q := qualities[quality]
				variants.at(name, quality, key).like(d.Mean(s.Column(s.Quality(q.key)), named(s, name)).SE/q.one, sums)
			}
		}
	}
	for key, rest := range map[string]Rest{"no_fpc": NoRest, "first_stage_fpc": FarmsRest, "two_stage_fpc": BinsRest} {
		d := s.Design(Options{Rest: rest})
		for quality, q := range qualities {
			ref.at("fpc", quality, key).like(d.Mean(s.Column(s.Quality(q.key)), s.All()).SE/q.one, sums)
		}
	}
}

// Points of a distribution are figures of samples and agree exactly; so do the
// ends of their intervals, short of a share that falls on a step.
func TestQuantilesOfTheReference(t *testing.T) {
	s, ref := dev(t), reference(t).at("quantiles")
	d := s.Design(Options{})
	for _, name := range ref.keys() {
		for _, quality := range ref.at(name).keys() {
			q, want := qualities[quality], ref.at(name, quality, "mean")
			f := d.Distribution(s.Column(s.Quality(q.key)), named(s, name))
			for i := range want.len() {
				one := want.at(i)
				got := f.Quantile(one.at("p").x(), confidence)
				one.at("q").like(got.Value/q.one, 1e-12)
				for _, end := range []struct {
					key    string
					x      float64
					beyond bool
				}{{"lo", got.Low, got.Below}, {"hi", got.High, got.Above}} {
					if v, number := one.at(end.key).v.(float64); !number {
						if !end.beyond {
							t.Errorf("%s: %s is %v, and should lie beyond all samples", one.path, end.key, end.x)
						}
					} else if math.Abs(end.x/q.one-v) > 1e-9 {
						t.Errorf("%s: %s is %v, want %v", one.path, end.key, end.x/q.one, v)
					}
				}
			}
		}
	}
}

func TestTracesOfTheReference(t *testing.T) {
	s, ref := dev(t), reference(t).at("don")
	d, q := s.Design(Options{}), s.Quality(intake.Of(intake.DON))
	const one = 1e-6 // mg/kg
	readings := make([]Reading, len(s.Samples))
	for i, x := range s.Samples {
		readings[i] = x.Readings[q]
	}
	for _, name := range ref.keys() {
		want, got := ref.at(name), d.Trace(readings, named(s, name))
		want.at("n").near(float64(got.Samples), 0)
		want.at("below").near(float64(got.Under), 0)
		want.at("below_share_weighted").like(got.UnderShare, sums)
		want.at("mu").near(got.Mu-math.Log(one), 1e-6)
		want.at("sigma").near(got.Sigma, 1e-6)
		want.at("se_mu").like(got.MuSE, searched)
		want.at("se_logsigma").like(got.LogSigmaSE, searched)
		want.at("mean").like(got.Mean.Value/one, searched)
		want.at("p90").like(got.P90.Value/one, searched)
		want.at("se_mean").like(got.Mean.SE/one, searched)
		want.at("se_p90").like(got.P90.SE/one, searched)
		low, high := got.Mean.LogInterval(confidence)
		want.at("mean_ci_log", 0).like(low/one, searched)
		want.at("mean_ci_log", 1).like(high/one, searched)
		t.Logf("%s: %v", name, want.keys())
	}
}

func TestPlansOfTheReference(t *testing.T) {
	s, ref := dev(t), reference(t).at("neyman_protein")
	d := s.Design(Options{})
	strata, pooled := s.PlanStrata(d, s.Column(s.Quality(intake.Of(intake.Protein))))
	const one = 0.01
	ref.at("S2_pooled").like(pooled/(one*one), sums)
	for i, p := range strata {
		if want := ref.at("strata", i).text(); p.District+"/"+p.Variety != want {
			t.Fatalf("stratum %d is %s/%s, want %s", i, p.District, p.Variety, want)
		}
		ref.at("W", i).like(p.Weight, sums)
		ref.at("S2_used", i).like(p.S2/(one*one), sums)
	}
	for i := range ref.at("targets").len() {
		want := ref.at("targets", i)
		se := one * want.at("target_se").x()
		want.at("n_real_no_fpc").like(Wanted(strata, se, false), 1e-8)
		want.at("n_real_fpc").like(Wanted(strata, se, true), 1e-8)
		for key, rest := range map[string]bool{"integer_no_fpc": false, "integer_fpc": true} {
			plan := Allocate(strata, se, rest)
			want.at(key, "total").near(float64(plan.Total), 0)
			want.at(key, "se").like(plan.SE/one, sums)
			for h, n := range plan.Farms {
				want.at(key, "n_h", h).near(float64(n), 0)
			}
		}
	}
}

// areasOf lays out the strata for one of the models of the reference.
func areasOf(t *testing.T, s *Survey, model node, raw bool) []Area {
	strata, pooled := s.PlanStrata(s.Design(Options{}), s.Column(s.Quality(intake.Of(intake.Protein))))
	beta := model.at("beta").keys()
	var out []Area
	for _, p := range strata {
		a := Area{Direct: math.NaN(), X: []float64{1}}
		if p.Now > 0 {
			a.Direct, a.Variance = p.Mean, pooled/float64(p.Now)
			if raw {
				a.Variance = p.S2 / float64(p.Now)
				if p.Pooled {
					a.Direct = math.NaN()
				}
			}
		}
		for _, set := range []struct {
			prefix, own string
			levels      []string
		}{{"district", p.District, s.Districts()[1:]}, {"variety", p.Variety, s.Varieties()[1:]}} {
			for _, l := range set.levels {
				if slices.Contains(beta, set.prefix+l) {
					a.X = append(a.X, map[bool]float64{true: 1}[set.own == l])
				}
			}
		}
		out = append(out, a)
	}
	return out
}

func TestAreasOfTheReference(t *testing.T) {
	s, ref := dev(t), reference(t).at("fay_herriot")
	const one = 0.01
	for _, name := range []string{"smoothed_main_effects", "smoothed_intercept", "smoothed_variety", "raw_variety"} {
		want := ref.at(name)
		areas := areasOf(t, s, want, name == "raw_variety")
		got, err := Borrow(areas)
		if err != nil {
			t.Fatal(err)
		}
		want.at("sigma2_v").near(got.Between/(one*one), 1e-7)
		own, other := 0, 0
		for i, a := range areas {
			b := got.Area[i]
			if !math.IsNaN(a.Direct) {
				want.at("gamma", own).near(b.Own, 1e-6)
				want.at("eblup", own).near(b.Value/one, 1e-6)
				want.at("mse", own).like(b.MSE/(one*one), 1e-6)
				own++
				continue
			}
			want.at("synthetic", other).near(b.Value/one, 1e-6)
			want.at("mse_synthetic", other).like(b.MSE/(one*one), 1e-6)
			other++
		}
		if own != want.at("eblup").len() || other != want.at("synthetic").len() {
			t.Errorf("%s: %d areas with samples and %d without", name, own, other)
		}
	}
}

func TestChangesOfTheReference(t *testing.T) {
	s, ref := dev(t), reference(t).at("change")
	s.Add(sound(t, rows(t, public(t, "crop", "dev_prev.csv"))))
	for quality, q := range qualities {
		want, got := ref.at(quality), s.Change(s.Quality(q.key), 2026, 2025, Options{}, nil)
		want.at("now").like(got.Now.Value/q.one, sums)
		want.at("before").like(got.Before.Value/q.one, sums)
		want.at("change").near(got.Value/q.one, sums)
		want.at("se_now").like(got.Now.SE/q.one, sums)
		want.at("se_before").like(got.Before.SE/q.one, sums)
		want.at("se_stacked_survey").like(got.SE/q.one, sums)
		want.at("overlap_psu").near(float64(got.Shared), 0)
	}
}

package reckon

import (
	"errors"
	"fmt"
	"math"

	"awn/intake"
	"awn/lab"
	"awn/odds"
)

// kernels is a count of so many kernels, or the fault that it cannot be one.
func kernels(hits, of float64) (odds.Proportion, error) {
	p := odds.Proportion{Hits: int(hits), Of: int(of)}
	if !p.Valid() || float64(p.Hits) != hits || float64(p.Of) != of {
		return p, &Fault{Code: "reckon.count.impossible", Got: plain(hits) + " of " + plain(of)}
	}
	return p, nil
}

// banded gives a bare number its band, shown with the same factor and decimals.
func banded(r Result, low, high, factor float64, decimals int) Result {
	if math.IsNaN(low) || math.IsNaN(high) {
		return r
	}
	r.Low, r.High = low, high
	r.Band = fixed(low*factor, decimals) + " to " + fixed(high*factor, decimals)
	return r
}

// share is a counted share with its limits.
func share(key, name string, p odds.Proportion, sure float64) Result {
	low, high := p.ClopperPearson(sure)
	r := shareScale.result(key, name, p.Fraction(), "odds.Proportion.ClopperPearson",
		fmt.Sprintf("%s: %d/%d = %s", name, p.Hits, p.Of, figures(p.Fraction(), 4)))
	return shareScale.between(r, low, high)
}

// apart is the share of one count less that of another, with its limits.
func apart(key, name string, a, b odds.Proportion, sure float64) Result {
	low, high := odds.DifferenceLimits(a, b, sure)
	d := a.Fraction() - b.Fraction()
	r := shareScale.result(key, name, d, "odds.DifferenceLimits",
		fmt.Sprintf("%s: %s - %s = %s", name, figures(a.Fraction(), 4), figures(b.Fraction(), 4), figures(d, 4)))
	return shareScale.between(r, low, high)
}

func life(g *given) ([]Result, error) {
	sure, of := g.at("confidence"), g.at("of")
	load := &intake.Load{Readings: map[intake.Factor]intake.Reading{}}
	counts := map[string]odds.Proportion{}
	for _, c := range []struct {
		key    string
		factor intake.Factor
	}{{"ge4", intake.Energy}, {"ge8", intake.Energy8}, {"gc", intake.Capacity}} {
		if !g.has(c.key) {
			continue
		}
		p, err := kernels(g.at(c.key), of)
		if err != nil {
			return nil, err
		}
		counts[c.key], load.Readings[c.factor] = p, intake.Counted(p.Hits, p.Of)
	}
	if len(counts) == 0 {
		return nil, &Fault{Code: "reckon.input.missing", Got: "a count", Allowed: []string{"GE4 96", "GC 98"}}
	}
	if g.has("rvu") {
		load.Readings[intake.Viscosity] = intake.Read(g.at("rvu"))
	}
	if g.has("falling") {
		load.Readings[intake.FallingNumber] = intake.Read(g.at("falling"))
	}
	g.say(intake.Diagnose(load).Findings...)
	return lifeResults(counts, sure), nil
}

// lifeResults are the shares that the counts at hand tell.
func lifeResults(counts map[string]odds.Proportion, sure float64) (out []Result) {
	ge, hasGE := counts["ge4"]
	ge8, hasGE8 := counts["ge8"]
	gc, hasGC := counts["gc"]
	if hasGE {
		out = append(out, share("energy", "germinative energy", ge, sure))
	}
	if hasGE8 {
		out = append(out, share("energy_8ml", "energy in 8 mL", ge8, sure))
	}
	if hasGC {
		out = append(out, share("capacity", "capacity", gc, sure), share("dead", "dead", lab.Dead(gc), sure))
	}
	if hasGC && hasGE {
		out = append(out, apart("dormant", "dormant", gc, ge, sure))
	}
	if hasGE && hasGE8 {
		out = append(out, apart("water_sensitive", "sensitive to water", ge, ge8, sure))
	}
	return out
}

func vigour(g *given) ([]Result, error) {
	counts := make([]lab.Count, g.parts)
	for i := range counts {
		p := g.part(i)
		k, err := kernels(p.at("count"), p.at("of"))
		if err != nil {
			return nil, err
		}
		counts[i] = lab.Count{AtH: p.at("at") / perHour, Germinated: k.Hits, Of: k.Of}
	}
	if g.get("counting").Word == fresh {
		counts = lab.Sums(counts)
	}
	var e *lab.CountError
	if err := lab.CheckCounts(counts); errors.As(err, &e) {
		return nil, &Fault{Code: "reckon.count.looks", Got: fmt.Sprintf("Look %d", e.Look+1)}
	}
	return vigourResults(counts), nil
}

// vigourResults are the figures of one germination test.
func vigourResults(counts []lab.Count) []Result {
	energy := shareScale.result("energy", "germinative energy", math.NaN(), "odds.Proportion.ClopperPearson", "")
	if p, ok := lab.Energy(counts); ok {
		v := p.Value(odds.Measured)
		energy = shareScale.between(shareScale.result("energy", "germinative energy", v.Mid, "odds.Proportion.ClopperPearson",
			fmt.Sprintf("GE = %d/%d = %s", p.Hits, p.Of, figures(v.Mid, 4))), v.Low, v.High)
	}
	hours := func(key, name string, v odds.Value, formula string) Result {
		return banded(bare(key, name, v.Mid, 1, 1, "h", formula, ""), v.Low, v.High, 1, 1)
	}
	index, alike := lab.IndexValue(counts), lab.HomogeneityValue(counts)
	return []Result{
		energy,
		banded(bare("index", "germination index", index.Mid, 1, 2, "", "lab.Index", ""), index.Low, index.High, 1, 2),
		hours("mean_time_h", "mean germination time", lab.MeanTimeValue(counts), "lab.MeanTimeH"),
		hours("half_time_h", "half of them by", lab.T50Value(counts), "lab.T50H"),
		banded(bare("homogeneity", "homogeneity", alike.Mid, 1, 2, "", "lab.Homogeneity", ""), alike.Low, alike.High, 1, 2),
	}
}

// fresh is the word for looks that count the newly germinated corns only.
const fresh = "fresh"

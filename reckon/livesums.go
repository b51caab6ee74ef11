package reckon

import (
	"errors"
	"fmt"
	"math"

	"awn/air"
	"awn/germinate"
	"awn/intake"
	"awn/lab"
	"awn/odds"
	"awn/programme"
	"awn/silo"
	"awn/unit"
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

// secondsPerDay turns the time of a line into days.
const secondsPerDay = 86400

func bin(g *given) ([]Result, error) {
	spells := make([]silo.Spell, g.parts)
	for i := range spells {
		p := g.part(i)
		spells[i] = silo.Spell{Moisture: p.at("moisture"), TempC: p.at("t")}
		if p.has("days") {
			spells[i].Days = p.at("days") / secondsPerDay
		}
	}
	used := silo.Used(silo.FraserMuir{}, spells)
	now := spells[len(spells)-1]
	w, t := unit.WetBasis(now.Moisture), unit.Celsius(now.TempC)
	left := silo.Left(silo.FraserMuir{}, used, 1, w, t)
	plan := silo.Left(silo.FraserMuir{}, used, silo.PlanShare, w, t)
	out := append([]Result{
		shareScale.result("used", "safe time used", used, "silo.Used", spent(silo.FraserMuir{}, spells, used)),
		clockBand(bare("left_d", "days left as it lies", left, 1, 0, "d", "silo.FraserMuir.SafeDays",
			fmt.Sprintf("left = %s d × (1 - %s) = %s d", figures(silo.FraserMuir{}.SafeDays(w, t), 4), figures(used, 4), figures(left, 4))), used, w, t),
		bare("plan_d", "a plan may count on", plan, 1, 0, "d", "silo.Left", ""),
	}, printedClock(spells, w, t)...)
	if g.has("cooled") {
		c := unit.Celsius(g.at("cooled"))
		out = append(out, clockBand(bare("cooled_left_d", "left if cooled", silo.Left(silo.FraserMuir{}, used, 1, w, c), 1, 0, "d", "silo.Left", ""), used, w, c))
	}
	if g.has("keep") {
		keep := g.at("keep") / secondsPerDay
		deg := scale{unit.Temperature, []string{"°C:1", "°F:0"}}
		if c := silo.TempFor(keep, used, silo.PlanShare, w); c < t {
			out = append(out, deg.result("warmest_c", "a plan would cool it to", float64(c), "silo.TempFor",
				fmt.Sprintf("t = (6.234 - 0.2118 × %s - log10(%s/(%s - %s)))/0.0527 = %s °C", figures(100*float64(w), 4), figures(keep, 4), plain(silo.PlanShare), figures(used, 4), figures(float64(c), 3))))
		}
		g.say(silo.Keeps(used, left, plan, keep)...)
	} else {
		g.say(silo.Keeps(used, left, plan, 0)...)
	}
	return out, nil
}

// spent is the clock's sum with its numbers.
func spent(law silo.Law, spells []silo.Spell, used float64) string {
	sum := ""
	for _, s := range spells {
		if s.Days > 0 {
			if sum != "" {
				sum += " + "
			}
			sum += figures(s.Days, 4) + "/" + figures(law.SafeDays(unit.WetBasis(s.Moisture), unit.Celsius(s.TempC)), 4)
		}
	}
	if sum == "" {
		return ""
	}
	return "used = " + sum + " = " + figures(used, 4)
}

// clockBand gives days left the band of the clock's own factor.
func clockBand(r Result, used float64, w unit.WetBasis, t unit.Celsius) Result {
	days := silo.FraserMuir{}.SafeDays(w, t)
	for _, p := range silo.Parameters {
		if p.Key == "silo.clock.factor" {
			low, high := max(0, days*p.Low-days*used), max(0, days*p.High-days*used)
			return banded(r, low, high, 1, 0)
		}
	}
	return r
}

// printedClock is the same by the chart of an extension service, where it
// holds.
func printedClock(spells []silo.Spell, w unit.WetBasis, t unit.Celsius) []Result {
	long, short := silo.Used(silo.NDSU2019, spells), silo.Used(silo.NDSU2019Short, spells)
	left := silo.Left(silo.NDSU2019, long, 1, w, t)
	if math.IsNaN(left) {
		return nil
	}
	const of = "silo.Chart.SafeDays"
	return []Result{
		shareScale.result("chart_used", "used, printed chart", long, of, spent(silo.NDSU2019, spells, long)),
		bare("chart_left_d", "left, printed chart", left, 1, 0, "d", of, ""),
		bare("chart_short_left_d", "left, its shorter figure", silo.Left(silo.NDSU2019Short, short, 1, w, t), 1, 0, "d", of, spent(silo.NDSU2019Short, spells, short)),
	}
}

func germinating(g *given) ([]Result, error) {
	pa, _, err := pressureOf(g)
	if err != nil {
		return nil, err
	}
	w := unit.WetBasis(g.at("moisture"))
	heat := g.at("heat")
	if g.get("heat").Quantity.Kind == unit.KindAsIs {
		heat /= float64(1 - w)
	}
	on := air.State{TempC: unit.Celsius(g.at("on")), PressurePa: pa}
	on.W = air.HumidityRatio(on.TempC, unit.RelativeHumidity(g.at("rh")), pa)
	top, limit, rise := unit.Celsius(g.at("top")), unit.Celsius(g.at("limit")), g.at("rise")
	kg := germinate.BedAir(heat, rise, on, top, w.DryBasis())
	perKg := kg * (1 - g.at("barley")) / programme.ReferenceAirKgM3 // m³/s for each kg as cast
	still := germinate.StillRise(heat, w.DryBasis())
	tell := germinate.Tell{
		PassingM3HT: perKg * perHour * perTon, AskedM3HT: g.at("asked") * perHour * perTon, RiseKH: rise, LimitC: float64(limit),
		Hours: germinate.HoursTo(limit, top, rise), StillHours: germinate.HoursTo(limit, top, still),
	}
	g.say(tell.Findings()...)
	return bedResults(g, tell, kg, perKg, still), nil
}

// bedResults are what a bed tells, as numbers.
func bedResults(g *given, tell germinate.Tell, kg, perKg, still float64) []Result {
	var out []Result
	if !math.IsNaN(perKg) {
		passing := scale{perTonne, []string{"m3/h/t~3", "cfm/bu~3"}}.result("airflow_m3_s_kg", "air that must be passing", perKg, "germinate.BedAir",
			fmt.Sprintf("G = %s kg/(s kg dm) × (1 - %s)/%s kg/m³ = %s m³/h/t", figures(kg, 4), figures(g.at("barley"), 3), plain(programme.ReferenceAirKgM3), figures(tell.PassingM3HT, 3)))
		out = append(out, passing)
		if g.has("asked") {
			out = append(out, shareScale.result("passing_share", "of what the fan is asked for", perKg/g.at("asked"), "germinate.BedAir", ""))
		}
	}
	if !math.IsNaN(tell.Hours) {
		out = append(out, bare("to_limit_h", "to the limit as it warms", tell.Hours, 1, 1, "h", "germinate.HoursTo",
			fmt.Sprintf("τ = (%s - %s)/%s = %s h", figures(g.at("limit"), 4), figures(g.at("top"), 4), figures(tell.RiseKH, 4), figures(tell.Hours, 3))))
	}
	return append(out,
		scale{unit.Warming, []string{"K/h~3", "°F/h~3"}}.result("still_k_h", "rise if no air passed", still, "germinate.StillRise", ""),
		bare("still_h", "to the limit without air", tell.StillHours, 1, 1, "h", "germinate.HoursTo", ""))
}

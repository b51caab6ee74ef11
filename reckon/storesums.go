package reckon

import (
	"fmt"
	"math"

	"awn/silo"
	"awn/unit"
)

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
	left, plan := silo.Left(silo.FraserMuir{}, used, 1, w, t), silo.Left(silo.FraserMuir{}, used, silo.PlanShare, w, t)
	out := append([]Result{
		shareScale.result("used", "safe time used", used, "silo.Used", spent(silo.FraserMuir{}, spells, used)),
		clockBand(bare("left_d", "days left as it lies", left, 1, 0, "d", "silo.FraserMuir.SafeDays",
			fmt.Sprintf("left = %s d × (1 - %s) = %s d", figures(silo.FraserMuir{}.SafeDays(w, t), 4), figures(used, 4), figures(left, 4))), used, w, t),
		bare("plan_d", "a plan may count on", plan, 1, 0, "d", "silo.Left", ""),
	}, printedClock(spells, w, t)...)
	if c := unit.Celsius(g.at("cooled")); g.has("cooled") {
		out = append(out, clockBand(bare("cooled_left_d", "left if cooled", silo.Left(silo.FraserMuir{}, used, 1, w, c), 1, 0, "d", "silo.Left", ""), used, w, c))
	}
	keep := 0.0
	if g.has("keep") {
		keep = g.at("keep") / secondsPerDay
		out = append(out, coolTo(keep, used, w, t)...)
	}
	g.say(silo.Keeps(used, left, plan, keep)...)
	return out, nil
}

// coolTo is how cold a plan would have the grain to keep it so long; nothing if
// it is cold enough, or if no cold would do.
func coolTo(keep, used float64, w unit.WetBasis, t unit.Celsius) []Result {
	c := silo.TempFor(keep, used, silo.PlanShare, w)
	if !(c < t) {
		return nil
	}
	return []Result{scale{unit.Temperature, []string{"°C:1", "°F:0"}}.result("warmest_c", "a plan would cool it to", float64(c), "silo.TempFor",
		fmt.Sprintf("t = (6.234 - 0.2118 × %s - log10(%s/(%s - %s)))/0.0527 = %s °C",
			figures(100*float64(w), 4), figures(keep, 4), plain(silo.PlanShare), figures(used, 4), figures(float64(c), 3)))}
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

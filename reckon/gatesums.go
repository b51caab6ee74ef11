package reckon

import (
	"fmt"

	"awn/finding"
	"awn/intake"
	"awn/odds"
	"awn/unit"
)

// written is a mass in the unit of another that was given, for a worked line.
func written(kg float64, like Filled) string {
	x, err := unit.Mass.In(kg, like.Quantity.Symbol)
	if err != nil {
		return "n/a"
	}
	return figures(x, 7)
}

func ticket(g *given) ([]Result, error) {
	net, perPoint := g.get("mass"), g.at("rule")
	w, b := g.at("moisture"), g.at("basis")
	rule := intake.DockageHalfDown
	if g.get("taken").Word == "exact" {
		rule = intake.DockageExact
	}
	m := intake.Weigh(net.Value, g.at("dockage"), w, rule, intake.Shrink{Basis: b, PerPoint: perPoint, Handling: g.at("handling")})
	if g.has("rule") {
		g.say(m.Findings()...)
	}
	in := func(kg float64) string { return written(kg, net) }
	on := massScale.like(net)
	gap := m.ByDryKg - m.PayableKg
	dry := fmt.Sprintf("m2 = %s × (1 - %s)/(1 - %s) = %s %s", in(m.CleanKg), figures(w, 5), figures(b, 5), in(m.ByDryKg), net.Quantity.Symbol)
	out := []Result{
		ruled(g, m, in),
		on.result("by_dry_kg", "by dry matter", m.ByDryKg, "barley.WeightAt", dry),
		on.result("gap_kg", "dry matter less payable", gap, "", fmt.Sprintf("%s - %s = %s %s", in(m.ByDryKg), in(m.PayableKg), in(gap), net.Quantity.Symbol)),
		shareScale.result("gap_share", "the same of the clean mass", gap/m.CleanKg, "", ""),
		shareScale.result("taken_off", "taken off for moisture", 1-m.PayableKg/m.CleanKg, "", ""),
		on.result("clean_kg", "clean, dockage taken off", m.CleanKg, "", fmt.Sprintf("%s × (1 - %s) = %s %s", in(m.NetKg), figures(m.Dockage, 5), in(m.CleanKg), net.Quantity.Symbol)),
	}
	taken := shareScale.result("dockage", "dockage taken", m.Dockage, "", "")
	if rule == intake.DockageHalfDown {
		taken.Formula, taken.Worked = "intake.HalfPercentDown", recorded(g.at("dockage"), m.Dockage)
	}
	return append(out, taken), nil
}

// ruled is what is paid for: by the posted rule, or by dry matter without one.
func ruled(g *given, m intake.Mass, in func(float64) string) Result {
	net := g.get("mass")
	of, off := "intake.PostedShrink", intake.PostedShrink(g.at("rule"), g.at("moisture"), g.at("basis"))
	worked := fmt.Sprintf("s = 100 × %s × (%s - %s) = %s", figures(g.at("rule"), 5), figures(g.at("moisture"), 5), figures(g.at("basis"), 5), figures(off, 5))
	switch {
	case !g.has("rule"):
		of, worked = "barley.WeightAt", "by dry matter"
	case m.ShrinkKg == 0:
		worked = "no wetter than the basis: nothing is taken off"
	}
	worked += fmt.Sprintf("; %s - %s - %s = %s %s", in(m.CleanKg), in(m.ShrinkKg), in(m.HandlingKg), in(m.PayableKg), net.Quantity.Symbol)
	return massScale.like(net).result("payable_kg", "payable", m.PayableKg, of, worked)
}

// recorded is the working of a dockage that drops to half per cents.
func recorded(read, taken float64) string {
	return fmt.Sprintf("floor(200 × %s)/200 = %s", figures(read, 6), figures(taken, 4))
}

func dockage(g *given) ([]Result, error) {
	read, mass := g.at("dockage"), g.get("mass")
	taken := intake.HalfPercentDown(read)
	out := []Result{shareScale.result("dockage", "recorded", taken, "intake.HalfPercentDown", recorded(read, taken))}
	if g.has("mass") {
		on := massScale.like(mass)
		out = append(out,
			on.result("dockage_kg", "taken off", mass.Value*taken, "", fmt.Sprintf("%s × %s = %s %s", written(mass.Value, mass), figures(taken, 4), written(mass.Value*taken, mass), mass.Quantity.Symbol)),
			on.result("clean_kg", "left", mass.Value*(1-taken), "", ""))
	}
	return out, nil
}

func factor(g *given) ([]Result, error) {
	x := 100 * g.at("factor")
	tenths, whole := intake.HalfUp(x, 1), intake.HalfUp(x, 0)
	return []Result{
		bare("factor_tenths", "to tenths", tenths/100, 100, 1, "%", "intake.HalfUp", fmt.Sprintf("floor(10 × %s + 1/2)/10 = %s", figures(x, 6), fixed(tenths, 1))),
		bare("factor_whole", "to whole per cents", whole/100, 100, 0, "%", "intake.HalfUp", fmt.Sprintf("floor(%s + 1/2) = %s", figures(x, 6), fixed(whole, 0))),
	}, nil
}

func plump(g *given) ([]Result, error) {
	x := g.at("plump")
	whole := intake.HalfUp(100*x, 0) / 100
	low, high := intake.PlumpBand(x)
	on := scale{unit.Percent, []string{"%:0"}}
	r := on.result("plump", "plump, in whole per cents", whole, "intake.PlumpBand", fmt.Sprintf("floor(%s + 1/2) = %s, in the band %s to %s", figures(100*x, 5), fixed(100*whole, 0), fixed(100*low, 0), fixed(100*high, 0)))
	return []Result{on.between(r, low, high)}, nil
}

func sieves(g *given) ([]Result, error) {
	fine := intake.Sieve{SlotM: g.at("slot"), Held: odds.Alone(g.at("held"), odds.Measured)}
	coarse := intake.Sieve{SlotM: g.at("slot2"), Held: odds.Alone(g.at("held2"), odds.Measured)}
	if fine.SlotM > coarse.SlotM {
		fine, coarse = coarse, fine
	}
	wanted := g.at("wanted")
	load := intake.Load{Sieves: []intake.Sieve{fine, coarse}}
	guess, ok := load.HeldBetween(wanted)
	switch {
	case !ok:
		return nil, &Fault{Code: "reckon.sieves.between", Got: g.get("wanted").Written, Allowed: []string{g.get("slot").Written, g.get("slot2").Written}}
	case fine.Held.Mid < coarse.Held.Mid:
		return nil, &Fault{Code: "reckon.sieves.order", Got: plain(round(100*coarse.Held.Mid, 6)) + " %"}
	}
	key := intake.Key{Factor: intake.Held, SlotM: wanted}
	if g.has("least") {
		limit := intake.Limit{Column: intake.Column{Key: key, Least: true, In: intake.PerCent, Decimals: 1}, At: 100 * g.at("least")}
		g.say(intake.OtherSieve(&load, key, limit))
	} else {
		f := finding.New("intake.sieve.guessed", finding.Caution, "intake", finding.Figure{Name: "slot_m", Value: wanted})
		f.Act, f.Source = "act.intake.sieve-again", "common practice, no source"
		g.say(f)
	}
	u := (wanted - fine.SlotM) / (coarse.SlotM - fine.SlotM)
	p1, p2 := 100*fine.Held.Mid, 100*coarse.Held.Mid
	mm := scale{unit.Length, []string{"mm~5", "/64 in~4"}}
	return []Result{
		shareScale.result("held_normal", "expected, thickness normal", guess.Normal, "intake.HeldNormal",
			fmt.Sprintf("u = %s; z from %s to %s; p = %s %%", figures(u, 4), figures(odds.NormalQuantile(p1/100), 4), figures(odds.NormalQuantile(p2/100), 4), figures(100*guess.Normal, 4))),
		shareScale.result("held_linear", "expected, thickness even", guess.Linear, "intake.HeldLinear",
			fmt.Sprintf("p = %s + (%s - %s) × %s = %s %%", figures(p1, 5), figures(p2, 5), figures(p1, 5), figures(u, 4), figures(100*guess.Linear, 4))),
		mm.result("wanted_m", "slot wanted", wanted, "", ""),
		mm.result("fine_m", "finer slot used", fine.SlotM, "", ""),
		mm.result("coarse_m", "coarser slot used", coarse.SlotM, "", ""),
	}, nil
}

package report

import "math"

// costItem is one line of the cost: what was used and what it comes to.
type costItem struct{ Name, Amount, Money string }

// costItems are the lines of the cost.
func (r Report) costItems() []costItem {
	c, u := r.Outcome.Cost, r.Units
	items := []costItem{
		{u.Say("cost.barley"), r.weight(1000 * c.BarleyT), r.money(c.BarleyCost)},
		{u.Say("cost.water"), r.figure("m3", c.WaterM3), r.money(c.WaterCost)},
		{u.Say("cost.effluent"), r.figure("m3", c.EffluentM3), ""},
		{u.Say("cost.cod"), r.figure("kg", c.CODKg), ""},
		{u.Say("cost.heat"), r.figure("kwh", c.HeatToAirKWh), ""},
		{u.Say("cost.heat-water"), r.figure("kwh", c.HeatToWaterKWh), ""},
		{u.Say("cost.cold-water"), r.figure("kwh", c.ColdToWaterKWh), ""},
		{u.Say("cost.fuel-lhv"), r.figure("kwh", c.FuelLHVKWh), ""},
		{u.Say("cost.fuel-hhv"), r.figure("kwh", c.FuelHHVKWh), r.money(c.HeatCost)},
		{u.Say("cost.power"), r.figure("kwh", c.PowerKWh), r.money(c.PowerCost)},
		{u.Say("cost.hours"), u.Span(c.Hours), r.money(c.VesselCost)},
		{u.Say("cost.co2e"), r.figure("kg", c.CO2eKg), ""},
		{u.Say("cost.by-product"), "", r.money(-c.ByProductValue)},
		{u.Say("cost.per-tonne"), "", r.money(c.PerTonneMalt)},
	}
	out := items[:0]
	for _, i := range items {
		if (i.Amount != "" && i.Amount != "–") || (i.Money != "" && i.Money != "–") {
			out = append(out, i)
		}
	}
	return out
}

// money writes a sum in the currency of the house.
func (r Report) money(x float64) string {
	if math.IsNaN(x) || r.Outcome.Cost.Currency == "" {
		return ""
	}
	return r.Outcome.Cost.Currency + "\u00a0" + r.Units.Number(x, 0)
}

// costLine is the cost in one sentence.
func (r Report) costLine() string {
	c, u := r.Outcome.Cost, r.Units
	line := u.Say("cost.line",
		"water", r.figure("m3", c.WaterM3), "heat", r.figure("kwh", c.HeatToAirKWh),
		"fuel", r.figure("kwh", c.FuelHHVKWh), "power", r.figure("kwh", c.PowerKWh), "span", u.Span(c.Hours))
	if money := r.money(c.PerTonneMalt); money != "" {
		line += " " + u.Say("cost.line-money", "money", money)
	}
	return line
}

package report

import "math"

// costItem is one line of the cost: what was used and what it comes to.
type costItem struct{ Name, Amount, Money string }

// costItems are the lines of the cost.
func (r Report) costItems() []costItem {
	c, u := r.Outcome.Cost, r.Units
	items := []costItem{
		{u.Say("cost.barley"), r.weight(1000 * c.BarleyT), r.money(c.BarleyCost)},
		{u.Say("cost.water"), r.told("cost.water_m3", "m3", c.WaterM3), r.toldMoney("cost.water_cost", c.WaterCost)},
		{u.Say("cost.effluent"), r.told("cost.effluent_m3", "m3", c.EffluentM3), ""},
		{u.Say("cost.cod"), r.told("cost.cod_kg", "kg", c.CODKg), ""},
		{u.Say("cost.heat"), r.told("cost.heat_to_air_kwh", "kwh", c.HeatToAirKWh), ""},
		{u.Say("cost.heat-water"), r.told("cost.heat_to_water_kwh", "kwh", c.HeatToWaterKWh), ""},
		{u.Say("cost.cold-water"), r.told("cost.cold_to_water_kwh", "kwh", c.ColdToWaterKWh), ""},
		{u.Say("cost.fuel-lhv"), r.told("cost.fuel_lhv_kwh", "kwh", c.FuelLHVKWh), ""},
		{u.Say("cost.fuel-hhv"), r.told("cost.fuel_hhv_kwh", "kwh", c.FuelHHVKWh), r.toldMoney("cost.heat_cost", c.HeatCost)},
		{u.Say("cost.power"), r.told("cost.power_kwh", "kwh", c.PowerKWh), r.toldMoney("cost.power_cost", c.PowerCost)},
		{u.Say("cost.hours"), u.Span(c.Hours), r.toldMoney("cost.vessel_cost", c.VesselCost)},
		{u.Say("cost.co2e"), r.told("cost.co2e_kg", "kg", c.CO2eKg), ""},
		{u.Say("cost.by-product"), "", r.money(-c.ByProductValue)},
		{u.Say("cost.per-tonne"), "", r.toldMoney("cost.per_tonne_cost", c.PerTonneMalt)},
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
		"water", r.told("cost.water_m3", "m3", c.WaterM3), "heat", r.told("cost.heat_to_air_kwh", "kwh", c.HeatToAirKWh),
		"fuel", r.told("cost.fuel_hhv_kwh", "kwh", c.FuelHHVKWh), "power", r.told("cost.power_kwh", "kwh", c.PowerKWh), "span", u.Span(c.Hours))
	if money := r.toldMoney("cost.per_tonne_cost", c.PerTonneMalt); money != "" {
		line += " " + u.Say("cost.line-money", "money", money)
	}
	return line
}

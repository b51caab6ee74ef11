package course

import (
	"math"

	"awn/plant"
)

const (
	jPerKWh   = 3.6e6
	kgPerT    = 1000.0
	waterKgM3 = 1000.0
)

// cost adds up what the piece took. The compressed air and the suction of the
// steep are not counted: the house does not say what they cost to blow.
func (r *runner) cost() Cost {
	h := &r.piece.House
	p := &h.Prices
	c := Cost{
		Currency:       p.Currency,
		BarleyT:        r.paidT(),
		WaterM3:        r.steeped.UsedM3 - r.out.Water.ReusedM3 + (r.grown.HumidifierKg+r.grown.SprayedKg)/waterKgM3,
		EffluentM3:     r.steeped.DrainM3 - r.out.Water.ReusedM3,
		CODKg:          r.steeped.CODKg,
		Hours:          r.atH,
		CycleH:         r.cycleH(),
		PowerKWh:       (r.kilned.FanJ + r.grown.FanJ + r.grown.CoolingWorkJ + r.out.Water.CoolWorkJ) / jPerKWh,
		ByProductValue: r.out.Yield.FeedFor + r.out.Cleaned.For,
	}
	r.fuel(&c, &h.Kilns)
	for _, s := range r.out.Stages {
		c.WorkH += r.c.own.HoursPerStep * float64(len(s.Steps))
	}
	c.BarleyCost = c.BarleyT * p.BarleyT
	c.WaterCost = c.WaterM3*p.WaterM3 + c.EffluentM3*p.EffluentM3 + c.CODKg*p.EffluentCOD
	c.HeatCost = onBasis(c.FuelLHVKWh, c.FuelHHVKWh, p.HeatOnHHV) * p.HeatKWh
	c.PowerCost = c.PowerKWh * p.PowerKWh
	c.WorkCost = c.WorkH * p.LabourH
	c.VesselCost = c.CycleH * p.VesselH
	c.CO2eKg = r.carbon(&c, &h.Factors)
	spent := c.BarleyCost + c.WaterCost + c.HeatCost + c.PowerCost + c.WorkCost + c.VesselCost - c.ByProductValue
	c.PerTonneMalt = math.NaN()
	if kg := r.out.Yield.Malt.Kg(); kg > 0 {
		c.PerTonneMalt = spent / kg * kgPerT
	}
	return c
}

// fuel adds the heat of the kiln, of the winter heater, which burns the kiln's
// fuel as the kiln does, and of the steep water, which burns it in its own way.
func (r *runner) fuel(c *Cost, kilns *[]plant.Kiln) {
	burner := (*kilns)[r.piece.Kiln].Burner
	grown := r.grown.HeatJ/burner.Efficiency + r.out.Water.HeatFuelJ
	c.HeatToWaterKWh, c.ColdToWaterKWh = r.out.Water.WarmedJ/jPerKWh, r.out.Water.CooledJ/jPerKWh
	c.HeatToAirKWh = (r.kilned.HeatJ + r.grown.HeatJ) / jPerKWh
	c.FuelLHVKWh = (r.kilned.FuelLHVJ + grown) / jPerKWh
	c.FuelHHVKWh = (r.kilned.FuelHHVJ + grown*burner.HHVOverLHV) / jPerKWh
}

// onBasis is an amount of fuel on the heating value that a price or factor counts.
func onBasis(lhv, hhv float64, onHHV bool) float64 {
	if onHHV {
		return hhv
	}
	return lhv
}

// carbon is the greenhouse gas of barley, fuel and power; NaN where the house
// gives no factor.
func (r *runner) carbon(c *Cost, f *plant.EmissionFactors) float64 {
	if f.FuelKWh == 0 && f.PowerKWh == 0 && f.BarleyT == 0 {
		return math.NaN()
	}
	return c.BarleyT*f.BarleyT + onBasis(c.FuelLHVKWh, c.FuelHHVKWh, f.FuelOnHHV)*f.FuelKWh + c.PowerKWh*f.PowerKWh
}

// cycleH is how often such pieces can follow each other: the longest of the
// stages' hours over how many vessels the house has for them.
func (r *runner) cycleH() float64 {
	h := &r.piece.House
	vessels := [...]int{Steep: len(h.Steeps), Germinate: len(h.Germinators), Kiln: floors(h.Kilns)}
	cycle := 0.0
	for _, s := range r.out.Stages {
		cycle = max(cycle, (s.ToH-s.FromH)/float64(vessels[s.Stage]))
	}
	return cycle
}

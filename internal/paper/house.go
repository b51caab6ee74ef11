package paper

import (
	"math"

	"awn/course"
	"awn/plant"
	"awn/unit"
)

// House is the malthouse that the document describes. What it leaves out is
// not there, or costs nothing.
func (p Plant) House() plant.House {
	h := plant.House{
		Name: p.Name, Place: p.Place, Zone: p.Zone, AltitudeM: p.Altitude.In("m"),
		Weather: p.Weather.weather(), Parameters: p.Params,
	}
	for _, s := range p.Steeps {
		h.Steeps = append(h.Steeps, s.steep())
	}
	for _, g := range p.Germinators {
		h.Germinators = append(h.Germinators, g.germinator())
	}
	for _, k := range p.Kilns {
		h.Kilns = append(h.Kilns, k.kiln())
	}
	if c := p.Cleaning; c != nil {
		h.Cleaning = plant.Cleaning{
			ScreenMM: c.Screen.Or("mm", 0), GradeMM: c.Grade.Or("mm", 0), DustShare: c.Dust.Or("%", 0) / 100, ForeignShare: c.Foreign.Or("%", 0) / 100,
			FeedPriceT: c.FeedPrice.Or("¤/t", 0), SecondPriceT: c.Second.Or("¤/t", 0),
		}
	}
	if d := p.Dressing; d != nil {
		h.Dressing = plant.Dressing{
			ScreenMM: d.Screen.Or("mm", 0), BrokenShare: d.Broken.Or("%", 0) / 100,
			CulmsPriceT: d.CulmsPrice.Or("¤/t", 0), ScreenPriceT: d.ScreeningPrice.Or("¤/t", 0),
			CulmMoistureW: d.CulmMoisture.Or("% wb", 0) / 100,
		}
	}
	h.Water = p.SteepWater.water()
	if m := p.MaltStore; m != nil {
		h.MaltStore = plant.MaltStore{AirM3HT: m.Air.Or("m3/h/t", 0)}
	}
	h.Prices, h.Factors = p.prices(), p.factors()
	return h
}

func (s Steep) steep() plant.Steep {
	return plant.Steep{
		Name: s.Name, CapacityT: s.Capacity.In("t"), VolumeM3: s.Volume.In("m3"), DepthM: s.Depth.In("m"), Conical: s.Bottom == "conical",
		FillH: s.Fill.In("h"), DrainH: s.Drain.In("h"), TransferH: s.Transfer.In("h"),
		AerationM3H: s.Aeration.Or("m3/h", 0), SuctionM3H: s.Suction.Or("m3/h", 0),
		WaterM3T: s.Water.In("m3/t"), LossWM2K: s.WallLoss.Or("W/m2/K", 0), Columns: s.Uneven.columns(),
	}
}

// usualWaterEfficiency is the heat given to water per lower heating value.
//
// Assumed: common practice, no source.
const usualWaterEfficiency = 85 // %

func (w *SteepWater) water() plant.Water {
	if w == nil {
		w = &SteepWater{}
	}
	return plant.Water{
		HeatKW: w.Heating.Or("kW", 0), CoolKW: w.Cooling.Or("kW", 0), Efficiency: w.Efficiency.Or("%", usualWaterEfficiency) / 100, COP: orElse(w.COP, usualCOP),
		PH: orElse(w.PH, math.NaN()), HardnessMgL: w.Hardness.In("mg/L"), IronMgL: w.Iron.In("mg/L"),
	}
}

var builds = map[string]plant.GerminatorKind{
	"box": plant.Box, "round": plant.Round, "combined": plant.Combined, "floor": plant.Floor, "drum": plant.Drum,
}

var fanPlaces = map[string]plant.FanPlace{
	"before conditioning": plant.FanBeforeConditioning, "after conditioning": plant.FanAfterConditioning, "air-off": plant.FanAirOff,
}

// usualTurnMix is the share of unevenness that a turn removes.
//
// Assumed: common practice, no source.
const usualTurnMix = 80 // %

// usualCOP is heat taken out per electrical work of a chiller.
//
// Assumed: common practice, no source.
const usualCOP = 3.5

func (g Germinator) germinator() plant.Germinator {
	out := plant.Germinator{
		Name: g.Name, Kind: builds[g.Build], AreaM2: g.Area.In("m2"), CapacityT: g.Capacity.In("t"),
		MixesTurn: g.TurnMix.Or("%", usualTurnMix) / 100, LossWM2K: g.WallLoss.Or("W/m2/K", 0),
		Columns: g.Uneven.columns(),
	}
	if a := g.Air; a != nil {
		out.Air = plant.AirHandler{
			Fan: a.Fan.fan(), FanPlace: fanPlaces[a.FanPlace], LeastFresh: a.LeastFresh.Or("%", 0) / 100,
			Humidifier: a.Humidifier.Or("%", 0) / 100, CoolingKW: a.Cooling.Or("kW", 0), COP: orElse(a.COP, usualCOP), HeatingKW: a.Heating.Or("kW", 0),
		}
	}
	return out
}

func (f Fan) fan() plant.Fan {
	return plant.Fan{
		ShutOffPa: f.ShutOff.In("Pa"), FreeM3S: f.Free.In("m3/s"), Efficiency: f.Efficiency.In("%") / 100, LossPa: f.DuctLoss.Or("Pa", 0),
	}
}

// usualHHVOverLHV is that of natural gas.
//
// Assumed: common practice, no source.
const usualHHVOverLHV = 1.11

func (k Kiln) kiln() plant.Kiln {
	b := k.Burner
	burner := plant.Burner{
		Fuel: b.Fuel, MostKW: b.Most.In("kW"), TurnDown: b.TurnDown.Or("%", 0) / 100,
		Efficiency: b.Efficiency.In("%") / 100, HHVOverLHV: orElse(b.HHVOverLHV, usualHHVOverLHV), RampKPerH: b.Ramp.Or("K", 0),
	}
	if b.Firing == "direct" {
		burner.Firing = plant.Direct
	}
	return plant.Kiln{
		Name: k.Name, AreaM2: k.Area.In("m2"), CapacityT: k.Capacity.In("t"), Fan: k.Fan.fan(), FanPush: k.FanPlace == "push",
		Burner: burner, HeatRecovery: k.HeatRecovery.Or("%", 0) / 100, MostRecirc: k.Recirculation.Or("%", 0) / 100,
		LeakShare: k.Leakage.Or("%", 0) / 100, LossWK: k.Loss.Or("W/K", 0), DampersOpenKg: k.Draught.Or("kg/m2/s", 0),
		Columns: k.Uneven.columns(), Decks: k.Decks.decks(),
	}
}

func (d *Decks) decks() *plant.Decks {
	if d == nil {
		return nil
	}
	out := &plant.Decks{DropH: d.Drop.Or("h", 0), DropMixes: d.Build == "two decks", BetweenShare: d.Between.Or("%", 0) / 100, BetweenC: d.Warmed.In("°C")}
	if d.Mixes != nil {
		out.DropMixes = *d.Mixes
	}
	return out
}

func (w Weather) weather() plant.Weather {
	out := plant.Weather{SwingK: w.Swing.In("K")}
	for i := range w.Air {
		out.AirC[i], out.RH[i], out.WaterC[i] = w.Air[i].In("°C"), w.Humidity[i].In("%")/100, w.Water[i].In("°C")
	}
	return out
}

func (p Plant) prices() plant.Prices {
	out := plant.Prices{}
	if currencies := p.currencies(); len(currencies) > 0 {
		out.Currency = currencies[0].code
	}
	if q := p.Prices; q != nil {
		out.BarleyT, out.MaltT = q.Barley.Or("¤/t", 0), q.Malt.Or("¤/t", 0)
		out.WaterM3, out.EffluentM3, out.EffluentCOD = q.Water.Or("¤/m3", 0), q.Effluent.Or("¤/m3", 0), q.EffluentCOD.Or("¤/kg", 0)
		out.HeatOnHHV = q.Fuel != nil && q.Fuel.Kind == unit.KindHHV
		out.HeatKWh = q.Fuel.Or("¤/kWh "+heatingValue(out.HeatOnHHV), 0)
		out.PowerKWh, out.LabourH, out.VesselH = q.Power.Or("¤/kWh", 0), q.Labour.Or("¤/h", 0), q.Vessel.Or("¤/h", 0)
	}
	return out
}

func (p Plant) factors() plant.EmissionFactors {
	e := p.Emissions
	if e == nil {
		return plant.EmissionFactors{}
	}
	out := plant.EmissionFactors{FuelOnHHV: e.Fuel != nil && e.Fuel.Kind == unit.KindHHV, Source: e.Source}
	out.FuelKWh = e.Fuel.Or("kg CO2e/kWh "+heatingValue(out.FuelOnHHV), 0)
	out.PowerKWh, out.BarleyT = e.Power.Or("kg CO2e/kWh", 0), e.Barley.Or("kg CO2e/t", 0)
	return out
}

func heatingValue(higher bool) string {
	if higher {
		return "HHV"
	}
	return "LHV"
}

// currency is the currency of one price.
type currency struct{ path, code string }

// currencies lists those of all prices that are given.
func (p Plant) currencies() (list []currency) {
	add := func(path, code string) {
		if code != "" {
			list = append(list, currency{path, code})
		}
	}
	if q := p.Prices; q != nil {
		add("prices.barley", codeOf(q.Barley))
		add("prices.malt", codeOf(q.Malt))
		add("prices.water", codeOf(q.Water))
		add("prices.effluent", codeOf(q.Effluent))
		add("prices.effluent_cod", codeOf(q.EffluentCOD))
		add("prices.fuel", codeOf(q.Fuel))
		add("prices.power", codeOf(q.Power))
		add("prices.labour", codeOf(q.Labour))
		add("prices.vessel", codeOf(q.Vessel))
	}
	if c := p.Cleaning; c != nil {
		add("cleaning.feed_price", codeOf(c.FeedPrice))
	}
	if d := p.Dressing; d != nil {
		add("dressing.culms_price", codeOf(d.CulmsPrice))
		add("dressing.screenings_price", codeOf(d.ScreeningPrice))
	}
	return list
}

func codeOf[D dimension](q *quantity[D]) string {
	if q == nil {
		return ""
	}
	return q.Currency
}

// checkCurrency finds prices in a second currency.
func (p Plant) checkCurrency() (faults []Fault) {
	list := p.currencies()
	for _, c := range list {
		if c.code != list[0].code {
			faults = append(faults, Fault{Code: "plant.prices.two-currencies", Path: c.path, Got: c.code, Allowed: []string{list[0].code}})
		}
	}
	return faults
}

// parameterKeys lists the keys of the parameter table.
func parameterKeys() []string {
	var keys []string
	for _, p := range course.Parameters() {
		keys = append(keys, p.Key)
	}
	return keys
}

func orElse(x *float64, missing float64) float64 {
	if x == nil {
		return missing
	}
	return *x
}

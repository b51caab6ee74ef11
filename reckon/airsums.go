package reckon

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"awn/air"
	"awn/bed"
	"awn/programme"
	"awn/unit"
)

// properties are the inputs of moist air by the property that each gives.
var properties = []struct {
	key  string
	kind air.Kind
}{
	{"t", air.DryBulb}, {"rh", air.RelHumidity}, {"wb", air.WetBulbTemp}, {"dp", air.DewPointTemp},
	{"w", air.HumRatio}, {"h", air.EnthalpyJKg}, {"v", air.VolumeM3Kg},
}

func moistAir(g *given) ([]Result, error) {
	var two []air.Given
	var written []string
	for _, p := range properties {
		if f := g.get(p.key); f.Input != nil {
			two = append(two, air.Is(p.kind, f.Value))
			written = append(written, f.Input.Doc+" "+f.Written)
		}
	}
	if len(two) != 2 {
		if len(two) == 0 {
			written = []string{"none"}
		}
		return nil, &Fault{Code: "reckon.air.two", Got: strings.Join(written, ", "), Allowed: []string{"t", "rh", "wb", "dp", "w", "h", "v"}}
	}
	pa, pressure, err := pressureOf(g)
	if err != nil {
		return nil, err
	}
	s, err := air.From(pa, two[0], two[1])
	if err != nil {
		return nil, ofAir(err, written)
	}
	out := append(stateResults(s), pressure)
	if !g.has("t") {
		out[0].Formula, out[0].Worked = "air.HumidityRatio", "t is where the air has both properties, found by halving"
	}
	return out, nil
}

// pressureOf is the pressure given, or that of the altitude.
func pressureOf(g *given) (float64, Result, error) {
	if g.has("altitude") && g.has("pressure") {
		return 0, Result{}, &Fault{Code: "reckon.air.pressure"}
	}
	hPa := scale{unit.Pressure, []string{"hPa:1"}}
	if pa := g.at("pressure"); g.has("pressure") {
		return pa, hPa.result("pressure_pa", "pressure", pa, "", ""), nil
	}
	z := g.at("altitude")
	if !g.has("altitude") {
		z = 0
	}
	pa := air.StandardPressure(z)
	return pa, hPa.result("pressure_pa", "pressure", pa, "air.StandardPressure",
		fmt.Sprintf("p = 101325 × (1 - 2.25577e-5 × %s)^5.2559 = %s Pa", plain(round(z, 1)), figures(pa, 6))), nil
}

// stateResults are the properties of air with the lines that work them out.
func stateResults(s air.State) []Result {
	p := s.Properties()
	t, w, pa := float64(s.TempC), float64(s.W), s.PressurePa
	deg, ratio := scale{unit.Temperature, []string{"°C:2", "°F:2"}}, figures(w, 5)
	vapour := figures(p.VapourPa, 5)
	return []Result{
		deg.result("dry_bulb_c", "dry bulb", t, "", ""),
		deg.result("wet_bulb_c", "wet bulb", float64(p.WetBulbC), "air.WetBulb", ""),
		deg.result("dew_point_c", "dew point", float64(p.DewPointC), "air.DewPoint", "ps(td) = "+vapour+" Pa"),
		shareScale.result("relative_humidity", "relative humidity", float64(p.RelHumidity), "air.RelativeHumidity",
			fmt.Sprintf("RH = %s/%s = %s", vapour, figures(p.SaturationPa, 5), figures(float64(p.RelHumidity), 4))),
		bare("humidity_ratio_kg_kg", "humidity ratio", w, 1000, 3, "g/kg dry air", "air.HumidityRatio",
			fmt.Sprintf("W = 0.621945 × %s/(%s - %s) = %s", vapour, figures(pa, 6), vapour, ratio)),
		bare("enthalpy_j_kg", "enthalpy", p.EnthalpyJKg, 1e-3, 2, "kJ/kg dry air", "air.Enthalpy",
			fmt.Sprintf("h = 1006 × %s + %s × (2.501e6 + 1860 × %s) = %s J/kg", figures(t, 5), ratio, figures(t, 5), figures(p.EnthalpyJKg, 6))),
		bare("volume_m3_kg", "volume", p.VolumeM3Kg, 1, 4, "m³/kg dry air", "air.SpecificVolume",
			fmt.Sprintf("v = 287.042 × %s × (1 + 1.607858 × %s)/%s = %s", figures(t+273.15, 6), ratio, figures(pa, 6), figures(p.VolumeM3Kg, 4))),
		bare("density_kg_m3", "density", p.DensityKgM3, 1, 4, "kg/m³ moist air", "air.Density",
			fmt.Sprintf("ρ = (1 + %s)/%s = %s", ratio, figures(p.VolumeM3Kg, 5), figures(p.DensityKgM3, 5))),
		bare("vapour_pressure_pa", "vapour pressure", p.VapourPa, 1, 1, "Pa", "air.VapourPressure", ""),
	}
}

// ofAir turns a fault of a pair of properties into one of the line.
func ofAir(err error, written []string) error {
	var e *air.Error
	if !errors.As(err, &e) {
		return err
	}
	f := &Fault{Code: e.Code, Got: strings.Join(written, " and ")}
	switch e.Code {
	case air.PressureRange:
		f.Got, f.Allowed = plain(round(e.A.Value, 0))+" Pa", []string{"20 000 to 200 000 Pa"}
	case air.GivenRange:
		f.Got, f.Allowed = e.A.Kind.String(), []string{plain(e.Low) + " to " + plain(e.High) + " in SI units"}
	}
	return f
}

// perHour turns m³/s into m³/h, and with kg into tonnes, m³/s/kg into m³/h/t.
const (
	perHour = 3600
	perTon  = 1000
)

func airflow(g *given) ([]Result, error) {
	flow, kg, area := g.get("flow"), g.at("load"), g.at("area")
	m3s, err := wholeFlow(flow, kg, area)
	if err != nil {
		return nil, err
	}
	perKg, velocity := m3s/kg, m3s/area
	flux := programme.Airflow{Value: m3s * perHour, Per: programme.PerVessel}.KgM2S(math.NaN(), area)
	switch flow.Quantity.Kind { // what was given stands even without load or area
	case unit.KindPerTonne:
		perKg = flow.Value
	case unit.KindVelocity:
		velocity, flux = flow.Value, fluxPerVelocity()*flow.Value
	case unit.KindFlux:
		velocity, flux = flow.Value/fluxPerVelocity(), flow.Value
	}
	const of = "programme.Airflow.KgM2S"
	all := []Result{
		scale{unit.Airflow, []string{"m3/h/t~4", "cfm/bu~4"}}.result("airflow_m3_s_kg", "for each tonne as cast", perKg, "",
			fmt.Sprintf("%s m³/h / %s t = %s m³/h/t", figures(m3s*perHour, 5), figures(kg/perTon, 5), figures(perKg*perHour*perTon, 4))),
		scale{unit.Airflow, []string{"m/s~4", "ft/min~4"}}.result("velocity_m_s", "through the floor", velocity, "",
			fmt.Sprintf("%s m³/h / (3600 × %s m²) = %s m/s", figures(m3s*perHour, 5), figures(area, 5), figures(velocity, 4))),
		scale{unit.Airflow, []string{"kg/m2/s~4"}}.result("flux_kg_m2_s", "dry air on the floor", flux, of,
			fmt.Sprintf("G = %s m/s × %s kg/m³ = %s kg/m2/s", figures(velocity, 4), figures(fluxPerVelocity(), 5), figures(flux, 4))),
		scale{unit.Airflow, []string{"m3/h~5", "cfm~5"}}.result("airflow_m3_s", "through the vessel", m3s, "", ""),
	}
	var known []Result
	for _, r := range all {
		if !math.IsNaN(r.Value) {
			known = append(known, r)
		}
	}
	if len(known) > 0 && math.IsNaN(m3s) {
		for i := range known {
			known[i].Worked = ""
		}
	}
	return known, nil
}

// fluxPerVelocity is the mass of dry air in a m³ as airflows count it.
func fluxPerVelocity() float64 {
	return programme.Airflow{Value: perHour, Per: programme.PerVessel}.KgM2S(math.NaN(), 1)
}

// wholeFlow is the air through the vessel, m³/s; NaN if load or area is
// wanted and not known.
func wholeFlow(flow Filled, kg, area float64) (float64, error) {
	if kg == 0 || area == 0 {
		return 0, &Fault{Code: "reckon.airflow.needs", Got: "nothing", Allowed: []string{"a load and an area above 0"}}
	}
	switch flow.Quantity.Kind {
	case unit.KindPerTonne:
		return flow.Value * kg, nil
	case unit.KindVelocity:
		return flow.Value * area, nil
	case unit.KindFlux:
		return flow.Value / fluxPerVelocity() * area, nil
	}
	return flow.Value, nil
}

func resistance(g *given) ([]Result, error) {
	s := bed.Spot{Share: 1, DepthM: g.at("depth"), Factor: g.at("factor")}
	v := g.at("velocity")
	gradient, drop := bed.Gradient(v), s.Drop(v)
	perM := bare("gradient_pa_m", "for each metre", gradient*s.Factor, 1, 0, "Pa/m", "bed.Gradient",
		fmt.Sprintf("ΔP/L = 2.14e4 × %s²/ln(1 + 13.2 × %s) = %s Pa/m", figures(v, 4), figures(v, 4), figures(gradient, 4)))
	all := pressureScale.result("drop_pa", "pressure lost", drop, "bed.Spot.Drop",
		fmt.Sprintf("ΔP = %s × %s m × %s = %s Pa", plain(s.Factor), figures(s.DepthM, 4), figures(gradient, 4), figures(drop, 4)))
	return []Result{all, perM}, nil
}

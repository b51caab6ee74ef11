package unit

import "slices"

// Exact values of the units outside the SI.
//
// Recalled: NIST SP 811, appendix B; "inH2O" is its conventional inch of water,
// "Btu" the International Table value, "therm" the United States therm.
const (
	inchM     = 0.0254
	footM     = 0.3048
	poundKg   = 0.45359237
	gallonM3  = 231 * inchM * inchM * inchM
	gravity   = 9.80665
	btuJ      = 1055.05585262
	thermJ    = 105480400.0
	kwhJ      = 3.6e6
	cfmM3S    = footM * footM * footM / 60
	winchM3   = 2150.42 * inchM * inchM * inchM // the United States bushel, a volume
	imperBuM3 = 8 * 4.54609e-3                  // the imperial bushel, a volume
	barleyBu  = 48 * poundKg                    // the bushel that barley is traded by, a mass
	maltBu    = 34 * poundKg                    // the bushel that malt is traded by, a mass
)

// Kinds of quantities that share a dimension but need more than a factor to be
// turned into each other: the area, the tonnage or the moisture.
const (
	KindDM        = "per dry matter"
	KindAsIs      = "as is"
	KindPerMass   = "per mass"
	KindPerVolume = "per volume"

	KindVolumePerMass = "volume per mass"

	KindFlux     = "mass flux of dry air"
	KindVelocity = "face velocity"
	KindVolume   = "volume flow"
	KindPerTonne = "volume flow per tonne of barley as cast, as is, air at 20 °C and 1013 hPa"
	KindLHV      = "on lower heating value"
	KindHHV      = "on higher heating value"
)

// Temperature is held in °C. A difference of temperatures is TemperatureDifference.
var Temperature = Dimension{Name: "temperature", Units: kind("", "°C", -100, 1500,
	scaled(1, "°C", "degC", "C"),
	shifted(5./9, -32, "°F", "degF", "F"),
	shifted(1, -zeroCelsius, "K"))}

// TemperatureDifference is held in K. In Fahrenheit degrees it says so,
// "4 °F diff", for 4 °F is a frosty day and not a difference.
var TemperatureDifference = Dimension{Name: "temperature difference", Units: kind("", "K", -500, 500,
	scaled(1, "K"),
	scaled(5./9, "°F diff", "degF diff", "F diff"))}

// Moisture is held as kg of water per kg of moist grain.
var Moisture = Dimension{Name: "moisture", Units: kind("", "kg/kg wb", 0, 0.95,
	scaled(0.01, "% wb"),
	curved(
		func(x float64) float64 { return float64(DryBasis(x / 100).WetBasis()) },
		func(v float64) float64 { return 100 * float64(WetBasis(v).DryBasis()) },
		"% db"))}

// MassFraction is a share of the dry matter or of the grain as it is.
var MassFraction = Dimension{Name: "mass fraction", Units: slices.Concat(
	kind(KindDM, "kg/kg dm", 0, 1, scaled(0.01, "% dm")),
	kind(KindAsIs, "kg/kg as-is", 0, 1, scaled(0.01, "% asis", "% as-is")))}

// Percent is a share of what the field names, held as a fraction.
var Percent = Dimension{Name: "share", Units: kind("", "1", 0, 1, scaled(0.01, "%"))}

// Mass is held in kg. "bu" is the 48 lb of barley, "bu malt" the 34 lb of malt.
var Mass = Dimension{Name: "mass", Units: kind("", "kg", 0, 1e9,
	scaled(1, "kg"), scaled(1000, "t"), scaled(0.001, "g"), scaled(poundKg, "lb"),
	scaled(2000*poundKg, "ston"), scaled(barleyBu, "bu"), scaled(maltBu, "bu malt"))}

// KernelWeight is the weight of a thousand kernels, held in kg.
var KernelWeight = Dimension{Name: "thousand-kernel weight", Units: slices.Concat(
	kind(KindDM, "kg dm", 0.005, 0.1, scaled(0.001, "g dm")),
	kind(KindAsIs, "kg as-is", 0.005, 0.1, scaled(0.001, "g asis", "g as-is")))}

// Length is held in m; slots of sieves are written "7/64 in" or "2.5 mm".
var Length = Dimension{Name: "length", Units: kind("", "m", 0, 1e5,
	scaled(1, "m"), scaled(0.01, "cm"), scaled(0.001, "mm"),
	scaled(footM, "ft"), scaled(inchM, "in"), scaled(inchM/64, "/64 in"))}

// Altitude is held in m above the sea.
var Altitude = Dimension{Name: "altitude", Units: kind("", "m", -500, 6000, scaled(1, "m"), scaled(footM, "ft"))}

// Area is held in m2.
var Area = Dimension{Name: "area", Units: kind("", "m2", 0, 1e6,
	scaled(1, "m2", "m²"), scaled(footM*footM, "ft2", "ft²"))}

// Volume is held in m3.
var Volume = Dimension{Name: "volume", Units: kind("", "m3", 0, 1e6,
	scaled(1, "m3", "m³"), scaled(0.1, "hL", "hl"), scaled(0.001, "L", "l"), scaled(gallonM3, "gal"))}

// Duration is held in s; "1 d 6 h" and "6 h 30 min" are read too.
var Duration = Dimension{Name: "duration", composite: true, Units: kind("", "s", 0, 366*86400,
	scaled(3600, "h"), scaled(60, "min"), scaled(86400, "d"), scaled(1, "s"))}

// Speed is held in m/s.
var Speed = Dimension{Name: "speed", Units: kind("", "m/s", 0, 100,
	scaled(1, "m/s"), scaled(1./60, "m/min"), scaled(1./3600, "m/h"), scaled(footM/60, "ft/min"))}

// TestWeight is held in kg/m3; a bushel without a name is the Winchester.
var TestWeight = Dimension{Name: "test weight", Units: kind("", "kg/m3", 100, 1200,
	scaled(10, "kg/hL", "kg/hl"), scaled(poundKg/winchM3, "lb/bu", "lb/bu winchester"),
	scaled(poundKg/imperBuM3, "lb/bu imperial"), scaled(1, "g/L", "g/l"))}

// Density is held in kg/m3.
var Density = Dimension{Name: "density", Units: kind("", "kg/m3", 0, 25000,
	scaled(1, "kg/m3", "kg/m³"), scaled(poundKg/(footM*footM*footM), "lb/ft3", "lb/ft³"))}

// SpecificEnthalpy is the heat content of moist air per its dry air, held in
// J/kg above dry air and liquid water at 0 °C, whatever the unit.
var SpecificEnthalpy = Dimension{Name: "enthalpy of air", Units: kind("", "J/kg", -150e3, 30e6,
	scaled(1000, "kJ/kg"), scaled(1, "J/kg"))}

// SpecificVolume is the volume of moist air per its dry air, held in m3/kg.
var SpecificVolume = Dimension{Name: "specific volume", Units: kind("", "m3/kg", 0.1, 100,
	scaled(1, "m3/kg", "m³/kg"), scaled(footM*footM*footM/poundKg, "ft3/lb", "ft³/lb"))}

// Airflow is written as it was measured or rated; its four kinds turn into each
// other only with the area and the tonnage.
var Airflow = Dimension{Name: "airflow", Units: slices.Concat(
	kind(KindPerTonne, "m3/s/kg", 0, 20./3.6, scaled(1/3.6e6, "m3/h/t", "m³/h/t"), scaled(cfmM3S/barleyBu, "cfm/bu")),
	kind(KindFlux, "kg/m2/s", 0, 10, scaled(1, "kg/m2/s", "kg/m²/s")),
	kind(KindVelocity, "m/s", 0, 10, scaled(1, "m/s"), scaled(footM/60, "ft/min")),
	volumeFlow())}

// VolumeFlow is held in m3/s of the fluid as it is.
var VolumeFlow = Dimension{Name: "volume flow", Units: volumeFlow()}

func volumeFlow() []Unit {
	return kind(KindVolume, "m3/s", 0, 1000,
		scaled(1./3600, "m3/h", "m³/h"), scaled(1, "m3/s", "m³/s"), scaled(cfmM3S, "cfm"))
}

// Pressure is held in Pa.
var Pressure = Dimension{Name: "pressure", Units: kind("", "Pa", -1e5, 1e7,
	scaled(1, "Pa"), scaled(1000, "kPa"), scaled(100, "hPa"), scaled(100, "mbar"), scaled(1e5, "bar"),
	scaled(25.4*gravity, "inH2O"), scaled(poundKg*gravity/(inchM*inchM), "psi"))}

// Power is held in W.
var Power = Dimension{Name: "power", Units: kind("", "W", 0, 1e9,
	scaled(1000, "kW"), scaled(1, "W"), scaled(1e6, "MW"), scaled(btuJ/3600, "Btu/h"), scaled(550*footM*poundKg*gravity, "hp"))}

// Energy is held in J.
var Energy = Dimension{Name: "energy", Units: kind("", "J", 0, 1e15,
	scaled(kwhJ, "kWh"), scaled(1000*kwhJ, "MWh"), scaled(1e6, "MJ"), scaled(1e9, "GJ"),
	scaled(thermJ, "therm"), scaled(1e6*btuJ, "MMBtu"))}

// Conductance is the heat lost per degree of difference, held in W/K.
var Conductance = Dimension{Name: "conductance", Units: kind("", "W/K", 0, 1e6,
	scaled(1, "W/K"), scaled(1000, "kW/K"), scaled(btuJ/3600*9/5, "Btu/h/°F", "Btu/h/F"))}

// Transmittance is the heat lost per area and degree, held in W/m2/K.
var Transmittance = Dimension{Name: "transmittance", Units: kind("", "W/m2/K", 0, 1e4,
	scaled(1, "W/m2/K", "W/m²/K"), scaled(btuJ/3600*9/5/(footM*footM), "Btu/h/ft2/°F", "Btu/h/ft2/F"))}

// Concentration is held in kg per kg or in kg per m3.
var Concentration = Dimension{Name: "concentration", Units: slices.Concat(
	kind(KindPerMass, "kg/kg", 0, 1,
		scaled(1e-6, "mg/kg", "ppm"), scaled(1e-9, "ug/kg", "µg/kg", "μg/kg", "ppb"), scaled(1e-3, "g/kg"),
		scaled(1e-6, "g/t"), scaled(1e-3, "kg/t")),
	kind(KindPerVolume, "kg/m3", 0, 1000, scaled(1e-3, "mg/L", "mg/l"), scaled(1, "g/L", "g/l")))}

// Dose is what is added to water or grain, by mass or by volume.
var Dose = Dimension{Name: "dose", Units: slices.Concat(Concentration.Units, waterDose(KindVolumePerMass))}

// WaterDose is water per barley as cast, held in m3 per kg.
var WaterDose = Dimension{Name: "water dose", Units: waterDose("")}

func waterDose(name string) []Unit {
	return kind(name, "m3/kg", 0, 0.1,
		scaled(1e-6, "L/t", "l/t"), scaled(1e-3, "m3/t", "m³/t"), scaled(gallonM3/barleyBu, "gal/bu"))
}

// Colour is held in EBC. EBC and SRM are 25 and 12.7 times the absorbance at
// 430 nm in 1 cm; the line from Lovibond to SRM is the trade's, of unknown
// origin.
var Colour = Dimension{Name: "colour", Units: kind("", "EBC", 0, 5000,
	scaled(1, "EBC"), scaled(25/12.7, "SRM"), shifted(25/12.7*1.3546, -0.76/1.3546, "°L", "Lovibond"))}

// DiastaticPower is held in degrees Windisch-Kolbach; WK = 3.5 Lintner - 16 is
// the trade's conversion, of unknown origin.
var DiastaticPower = Dimension{Name: "diastatic power", Units: kind("", "WK", 0, 2000,
	scaled(1, "WK", "°WK"), shifted(3.5, -16/3.5, "Lintner", "°Lintner", "°ASBC"))}

// AlphaAmylase is held in dextrinising units.
var AlphaAmylase = Dimension{Name: "alpha-amylase", Units: slices.Concat(
	kind(KindDM, "DU dm", 0, 500, scaled(1, "DU dm")),
	kind(KindAsIs, "DU as-is", 0, 500, scaled(1, "DU asis", "DU as-is")))}

// AminoNitrogen is free amino nitrogen in the wort or in the malt.
var AminoNitrogen = Dimension{Name: "free amino nitrogen", Units: slices.Concat(
	kind(KindPerVolume, "kg/m3", 0, 2, scaled(1e-3, "mg/L", "mg/l")),
	kind(KindDM, "kg/kg dm", 0, 0.02, scaled(1e-5, "mg/100g dm", "mg/100 g dm")))}

// Trace is a small content of malt, held in kg per kg.
var Trace = Dimension{Name: "trace", Units: slices.Concat(
	kind(KindDM, "kg/kg dm", 0, 0.01, scaled(1e-6, "mg/kg dm")),
	kind(KindAsIs, "kg/kg as-is", 0, 0.01, scaled(1e-6, "mg/kg asis", "mg/kg as-is")))}

// SpiritYield is pure alcohol per malt, held in m3 per kg.
var SpiritYield = Dimension{Name: "spirit yield", Units: slices.Concat(
	kind(KindDM, "m3/kg dm", 0, 0.001, scaled(1e-6, "L/t dm")),
	kind(KindAsIs, "m3/kg as-is", 0, 0.001, scaled(1e-6, "L/t asis", "L/t as-is")))}

// AreaLoad is dry matter per floor area, held in kg/m2.
var AreaLoad = Dimension{Name: "load of a floor", Units: kind("", "kg/m2", 0, 5000,
	scaled(1, "kg/m2", "kg/m²"), scaled(poundKg/(footM*footM), "lb/ft2", "lb/ft²"))}

// Ratio is a number without unit.
var Ratio = Dimension{Name: "ratio", Units: kind("", "1", 0, 1e6, scaled(1, ""))}

// Gravity is held in degrees Plato.
var Gravity = Dimension{Name: "gravity", Units: kind("", "°P", 0, 40, scaled(1, "°P", "P", "Plato"))}

// Viscosity is held in Pa.s.
var Viscosity = Dimension{Name: "viscosity", Units: kind("", "Pa.s", 0, 1, scaled(0.001, "mPa.s", "mPas", "cP"))}

// Prices are held in the currency they are written in, per kg, J, m3 or s.
var (
	GrainPrice  = Dimension{Name: "price of grain", Units: kind("", "¤/kg", 0, 1e5, scaled(0.001, "¤/t"), scaled(1, "¤/kg"), scaled(1/barleyBu, "¤/bu"), scaled(1/(2000*poundKg), "¤/ston"), scaled(1/poundKg, "¤/lb"))}
	PowerPrice  = Dimension{Name: "price of power", Units: kind("", "¤/J", -1e-4, 1e-4, scaled(1/kwhJ, "¤/kWh"), scaled(0.001/kwhJ, "¤/MWh"))}
	WaterPrice  = Dimension{Name: "price of water", Units: kind("", "¤/m3", 0, 1e6, scaled(1, "¤/m3", "¤/m³"), scaled(0.001/gallonM3, "¤/kgal"))}
	LabourPrice = Dimension{Name: "price of labour", Units: kind("", "¤/s", 0, 100, scaled(1./3600, "¤/h"))}
)

// FuelPrice is held per J of the heating value that it names.
var FuelPrice = Dimension{Name: "price of fuel", Units: slices.Concat(fuelPrice(KindLHV, " LHV"), fuelPrice(KindHHV, " HHV"))}

func fuelPrice(name, basis string) []Unit {
	return kind(name, "¤/J", 0, 1e-4,
		scaled(1/kwhJ, "¤/kWh"+basis), scaled(0.001/kwhJ, "¤/MWh"+basis), scaled(1e-9, "¤/GJ"+basis),
		scaled(1/thermJ, "¤/therm"+basis), scaled(1e-6/btuJ, "¤/MMBtu"+basis))
}

// PowerEmission is carbon dioxide equivalent per electric power drawn, held in kg/J.
var PowerEmission = Dimension{Name: "emission factor of power", Units: kind("", "kg CO2e/J", 0, 1e-6, emission("")...)}

// FuelEmission is carbon dioxide equivalent per heating value of a fuel, held in kg/J.
var FuelEmission = Dimension{Name: "emission factor of fuel", Units: slices.Concat(
	kind(KindLHV, "kg CO2e/J", 0, 1e-6, emission(" LHV")...),
	kind(KindHHV, "kg CO2e/J", 0, 1e-6, emission(" HHV")...))}

func emission(basis string) []Unit {
	return []Unit{
		scaled(1/kwhJ, "kg CO2e/kWh"+basis), scaled(0.001/kwhJ, "g CO2e/kWh"+basis),
		scaled(1e-9, "kg CO2e/GJ"+basis), scaled(poundKg*1e-6/btuJ, "lb CO2e/MMBtu"+basis),
	}
}

// GoodsEmission is carbon dioxide equivalent per mass of goods bought, held in kg/kg.
var GoodsEmission = Dimension{Name: "emission factor of goods", Units: kind("", "kg CO2e/kg", -100, 1000,
	scaled(0.001, "kg CO2e/t"), scaled(poundKg/barleyBu, "lb CO2e/bu"))}

// Dimensions lists them all.
var Dimensions = []Dimension{
	Temperature, TemperatureDifference, Moisture, MassFraction, Percent, Mass, KernelWeight, Length, Altitude, Area,
	Volume, Duration, Speed, TestWeight, Density, SpecificEnthalpy, SpecificVolume, Airflow, VolumeFlow, Pressure, Power, Energy, Conductance,
	Transmittance, Concentration, Dose, AminoNitrogen, Trace, SpiritYield, AreaLoad, Ratio, WaterDose, Colour, DiastaticPower, AlphaAmylase, Gravity, Viscosity, GrainPrice,
	PowerPrice, FuelPrice, WaterPrice, LabourPrice, PowerEmission, FuelEmission,
	GoodsEmission,
	GrainVolume, Ground, Vapour, Acidity, Turbidity, CupWeight, PointShrink, Extract, GrowthHeat, Warming,
}

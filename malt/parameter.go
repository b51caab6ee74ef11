package malt

import "slices"

// Parameter names a figure of a malt analysis. The set is closed.
type Parameter string

// The parameters.
const (
	Moisture         Parameter = "moisture"           // kg water per kg malt
	ExtractFine      Parameter = "extract_fine"       // Congress mash, fine grist
	ExtractCoarse    Parameter = "extract_coarse"     // Congress mash, coarse grist
	ExtractGap       Parameter = "extract_difference" // fine less coarse
	Colour           Parameter = "colour"             // of the Congress wort
	ColourBoiled     Parameter = "colour_boiled"      // of the boiled wort
	Protein          Parameter = "protein"            // total, 6.25 times nitrogen
	SolubleProtein   Parameter = "soluble_protein"    // of the Congress wort
	KolbachIndex     Parameter = "kolbach"            // soluble over total protein, S/T
	FAN              Parameter = "fan"                // free amino nitrogen
	DiastaticPower   Parameter = "diastatic_power"
	AlphaAmylase     Parameter = "alpha_amylase"    // dextrinizing units, DU
	WortBetaGlucan   Parameter = "wort_beta_glucan" // mg per litre of Congress wort
	Viscosity        Parameter = "viscosity"        // mPa·s at 8.6 °P and 20 °C
	Friability       Parameter = "friability"
	PartlyUnmodified Parameter = "pug" // partly unmodified grains
	WhollyUnmodified Parameter = "wug" // wholly unmodified grains
	DMSPrecursor     Parameter = "smm" // S-methylmethionine, mg/kg
	AttenuationLimit Parameter = "attenuation_limit"
	Screenings       Parameter = "screenings"   // under the slot of 2.2 mm
	SpiritYield      Parameter = "spirit_yield" // litres of pure alcohol per tonne
)

// Basis says on what a figure counts, or on which rival scale it is.
type Basis string

// The bases and scales.
const (
	NoBasis       Basis = ""           // the figure has but one
	WetBasis      Basis = "wb"         // moisture, per mass of malt
	AsIs          Basis = "asis"       // per mass of malt as it stands
	Dry           Basis = "dm"         // per mass of dry matter
	ScaleEBC      Basis = "ebc"        // colour
	ScaleSRM      Basis = "srm"        // colour
	ScaleLovibond Basis = "lovibond"   // colour, against glasses
	ScaleWK       Basis = "wk"         // diastatic power, Windisch-Kolbach
	ScaleLintner  Basis = "lintner"    // diastatic power
	InWort        Basis = "mg_l"       // mg per litre of Congress wort
	Per100g       Basis = "mg_100g_dm" // mg per 100 g of dry matter of malt
)

// bases lists what each parameter may stand on, the usual one first.
var bases = map[Parameter][]Basis{
	Moisture:         {WetBasis},
	ExtractFine:      {Dry, AsIs},
	ExtractCoarse:    {Dry, AsIs},
	ExtractGap:       {Dry, AsIs},
	Colour:           {ScaleEBC, ScaleSRM, ScaleLovibond},
	ColourBoiled:     {ScaleEBC, ScaleSRM, ScaleLovibond},
	Protein:          {Dry, AsIs},
	SolubleProtein:   {Dry, AsIs},
	KolbachIndex:     {NoBasis},
	FAN:              {InWort, Per100g},
	DiastaticPower:   {ScaleWK, ScaleLintner},
	AlphaAmylase:     {Dry, AsIs},
	WortBetaGlucan:   {InWort},
	Viscosity:        {NoBasis},
	Friability:       {NoBasis},
	PartlyUnmodified: {NoBasis},
	WhollyUnmodified: {NoBasis},
	DMSPrecursor:     {Dry, AsIs},
	AttenuationLimit: {NoBasis},
	Screenings:       {NoBasis},
	SpiritYield:      {AsIs, Dry},
}

// Parameters returns the closed set in the order of the alphabet.
func Parameters() []Parameter {
	out := make([]Parameter, 0, len(bases))
	for p := range bases {
		out = append(out, p)
	}
	slices.Sort(out)
	return out
}

// Known reports whether p is one of the set.
func (p Parameter) Known() bool { return bases[p] != nil }

// Bases returns what the parameter may stand on, the usual one first; nil for
// an unknown parameter.
func (p Parameter) Bases() []Basis { return slices.Clone(bases[p]) }

// Takes reports whether the parameter may stand on that basis.
func (p Parameter) Takes(b Basis) bool { return slices.Contains(bases[p], b) }

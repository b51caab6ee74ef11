package intake

import "slices"

// Factor names what is looked at in a load. The set is closed.
type Factor string

// The factors. All but Moisture, HeatDamaged and InjuredByHeat count on grain
// from which the dockage has been taken; those two are judged on pearled grain.
const (
	Moisture   Factor = "moisture"    // kg water per kg grain
	Protein    Factor = "protein"     // 6.25 times nitrogen, of dry matter
	TestWeight Factor = "test_weight" // kg/hL
	Held       Factor = "held"        // by a slot that the Key names
	Through    Factor = "through"     // through a slot that the Key names

	Suitable        Factor = "suitable_type" // of a suitable malting type
	Sound           Factor = "sound"
	Damaged         Factor = "damaged"
	HeatDamaged     Factor = "heat_damaged"
	InjuredByHeat   Factor = "injured_by_heat"
	FrostDamaged    Factor = "frost_damaged"
	InjuredByFrost  Factor = "injured_by_frost"
	MouldDamaged    Factor = "mould_damaged"
	InjuredByMould  Factor = "injured_by_mould"
	FungusDamaged   Factor = "fungus_damaged" // fungus or mould, as blight is judged
	WildOats        Factor = "wild_oats"
	ForeignMaterial Factor = "foreign_material"
	OtherGrains     Factor = "other_grains"
	SkinnedBroken   Factor = "skinned_broken"
	Broken          Factor = "broken"
	Ergot           Factor = "ergot"
	SmutBalls       Factor = "smut_balls"
	Bulblets        Factor = "garlic_bulblets" // green, in 500 g
	Stones          Factor = "stones"          // in the working sample
	StonesMass      Factor = "stones_mass"
	Glass           Factor = "glass"    // pieces in the working sample
	Infested        Factor = "infested" // 1 if live insects were found, 0 if not
	Odour           Factor = "odour"    // 1 or 0
	Heating         Factor = "heating"  // 1 or 0

	Fireburnt       Factor = "fireburnt"
	FrostCanada     Factor = "frost"
	FusariumDamaged Factor = "fusarium_damaged"
	Heated          Factor = "heated"
	Mildewed        Factor = "rotted_mildewed" // rotted and severely mildewed
	SmallSeeds      Factor = "small_seeds"
	SeedsAndDust    Factor = "seeds_and_dust" // small seeds, attrition, dust and chaff together

	NotSound        Factor = "not_sound_cereal" // all that is not the basic cereal of unimpaired quality
	BrokenGrains    Factor = "broken_grains"
	GrainImpurities Factor = "grain_impurities"
	OtherCereals    Factor = "other_cereals"
	Overheated      Factor = "overheated" // in drying
	Sprouted        Factor = "sprouted"
	MiscImpurities  Factor = "miscellaneous_impurities"
	NoxiousSeeds    Factor = "noxious_seeds"

	Admixture        Factor = "admixture"
	Energy           Factor = "germination_energy" // 4 mL, 72 h
	Energy8          Factor = "germination_8ml"    // 8 mL, 72 h
	Capacity         Factor = "capacity"           // living kernels
	GerminationIndex Factor = "germination_index"
	VarietyPurity    Factor = "variety_purity"
	Skinned          Factor = "skinned"
	DON              Factor = "don"            // deoxynivalenol, kg/kg
	Ochratoxin       Factor = "ochratoxin"     // ochratoxin A, kg/kg
	T2HT2            Factor = "t2_ht2"         // T-2 and HT-2 toxin, kg/kg
	FallingNumber    Factor = "falling_number" // s
	Viscosity        Factor = "rva_viscosity"  // rapid visco analyser units
)

// factors lists the closed set; the order is that in which a sheet has them.
var factors = []Factor{
	Moisture, Protein, TestWeight, Held, Through, Suitable, Sound, Damaged, HeatDamaged, InjuredByHeat,
	FrostDamaged, InjuredByFrost, MouldDamaged, InjuredByMould, FungusDamaged, WildOats, ForeignMaterial,
	OtherGrains, SkinnedBroken, Broken, Ergot, SmutBalls, Bulblets, Stones, StonesMass, Glass, Infested,
	Odour, Heating, Fireburnt, FrostCanada, FusariumDamaged, Heated, Mildewed, SmallSeeds, SeedsAndDust,
	NotSound, BrokenGrains, GrainImpurities, OtherCereals, Overheated, Sprouted, MiscImpurities, NoxiousSeeds,
	Admixture, Energy, Energy8, Capacity, GerminationIndex, VarietyPurity, Skinned, DON, Ochratoxin, T2HT2,
	FallingNumber, Viscosity,
}

// Factors returns the closed set.
func Factors() []Factor { return slices.Clone(factors) }

// Known reports whether f is one of the set.
func (f Factor) Known() bool { return slices.Contains(factors, f) }

// Sieved reports whether the factor needs a slot.
func (f Factor) Sieved() bool { return f == Held || f == Through }

// noted are the factors that a ticket names only where something was found.
var noted = []Factor{
	HeatDamaged, InjuredByHeat, FrostDamaged, InjuredByFrost, MouldDamaged, InjuredByMould, FungusDamaged,
	Ergot, SmutBalls, Bulblets, Stones, StonesMass, Glass, Infested, Odour, Heating,
}

// Key is a factor with the slot it turns on, in metres; 0 where it has none.
type Key struct {
	Factor Factor
	SlotM  float64
}

// Of is the key of a factor without a slot.
func Of(f Factor) Key { return Key{Factor: f} }

package kernel

// Masses of the atoms, g/mol. Definition: the conventional atomic weights.
const (
	carbon   = 12.011
	hydrogen = 1.008
	oxygen   = 15.999

	starchMol  = 6*carbon + 10*hydrogen + 5*oxygen // C6H10O5, one glucose residue
	waterMol   = 2*hydrogen + oxygen
	dioxideMol = carbon + 2*oxygen
	ethanolMol = 2*carbon + 6*hydrogen + oxygen
)

// What burning one kg of dry matter takes and gives, the dry matter counted as
// starch: C6H10O5 + 6 O2 = 6 CO2 + 5 H2O.
const (
	OxygenPerKg  = 6 * 2 * oxygen / starchMol
	DioxidePerKg = 6 * dioxideMol / starchMol
	WaterPerKg   = 5 * waterMol / starchMol
)

// What fermenting one kg gives: C6H10O5 + H2O = 2 C2H5OH + 2 CO2. The water is
// taken up.
const (
	FermentDioxidePerKg = 2 * dioxideMol / starchMol
	FermentEthanolPerKg = 2 * ethanolMol / starchMol
	FermentWaterPerKg   = -waterMol / starchMol
)

// Heats of combustion, J/kg. Starch: Foodmechanics undated (read). Ethanol:
// 1 367 kJ/mol, recalled from any table of the standard heat of combustion.
const (
	CombustionJKg        = 17.39e6
	ethanolCombustionJKg = 1367e6 / ethanolMol
	FermentJKg           = CombustionJKg - FermentEthanolPerKg*ethanolCombustionJKg
)

// Burn is what the life of a cell took and gave in one step. Ethanol leaves
// with the water and the air; the oven of the moisture method would not find
// it either, so it counts as dry matter gone.
type Burn struct {
	DryKg       float64 // dry matter gone, fermented included
	FermentedKg float64 // the part of DryKg that was fermented
	OxygenKg    float64 // taken up
	CO2Kg       float64 // given off
	WaterKg     float64 // metabolic water, net of what fermentation takes up
	HeatJ       float64 // given off
}

// burned is the account of dry matter respired and fermented.
func burned(respiredKg, fermentedKg float64) Burn {
	return Burn{
		DryKg:       respiredKg + fermentedKg,
		FermentedKg: fermentedKg,
		OxygenKg:    respiredKg * OxygenPerKg,
		CO2Kg:       respiredKg*DioxidePerKg + fermentedKg*FermentDioxidePerKg,
		WaterKg:     respiredKg*WaterPerKg + fermentedKg*FermentWaterPerKg,
		HeatJ:       respiredKg*CombustionJKg + fermentedKg*FermentJKg,
	}
}

// Add adds another account.
func (b *Burn) Add(o Burn) {
	b.DryKg += o.DryKg
	b.FermentedKg += o.FermentedKg
	b.OxygenKg += o.OxygenKg
	b.CO2Kg += o.CO2Kg
	b.WaterKg += o.WaterKg
	b.HeatJ += o.HeatJ
}

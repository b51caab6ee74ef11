package brew

// EthanolKg is the ethanol that fermented extract becomes.
//
//	m = X / 2.0665
//
// Recalled: Balling 1865.
// Check: 2.0665 kg give 1 kg.
func EthanolKg(fermentedKg float64) float64 { return fermentedKg / extractPerAlcohol }

// CarbonDioxideKg is the carbon dioxide that fermented extract becomes.
//
//	m = 0.9565 X / 2.0665
//
// Recalled: Balling 1865.
// Check: 2.0665 kg give 0.9565 kg; the molar masses say 0.9553 for 1 kg of ethanol.
// Note: 1.054 in place of 0.9565 is told too and does not close the mass.
func CarbonDioxideKg(fermentedKg float64) float64 {
	return gasPerAlcohol * EthanolKg(fermentedKg)
}

// YeastKg is the yeast that fermented extract becomes, as dry matter.
//
//	m = 0.11 X / 2.0665
//
// Recalled: Balling 1865.
// Check: 2.0665 kg give 0.11 kg; the three add up to the extract.
func YeastKg(fermentedKg float64) float64 { return yeastPerAlcohol * EthanolKg(fermentedKg) }

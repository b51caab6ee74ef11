package dress

import "awn/odds"

// Constants are the uncertain constants of dressing.
type Constants struct {
	// CulmsPerRespired is the dry matter of the culms over that which was
	// respired in steep and germination: rootlets grow as the corn burns.
	CulmsPerRespired float64 `param:"dress.culms.ratio"`
	// Dust is what the air of the deculmer carries off, of malt.
	Dust float64 `param:"dress.dust.share"`
	// Screens is what a screen takes of the barley that could pass its slot.
	Screens float64 `param:"dress.screen.takes"`
	// StoreBreath is the air that a closed silo of malt breathes; StoreCools how
	// long malt takes to cool to the outside through its walls.
	StoreBreath float64 `param:"dress.store.breath"`
	StoreCools  float64 `param:"dress.store.cools"`
}

const practice = "common practice, no source"

// Parameters is the table behind Constants.
var Parameters = []odds.Parameter{
	{Key: "dress.culms.ratio", Unit: "1", Default: 0.85, Low: 0.6, High: 1.2, Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak},
	{Key: "dress.dust.share", Unit: "1", Default: 0.002, Low: 0.0005, High: 0.005, Distribution: odds.LogNormal, Source: practice, Mark: odds.Practice},
	{Key: "dress.store.breath", Unit: "m3/(h t)", Default: 0.001, Low: 0.0002, High: 0.01, Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak},
	{Key: "dress.store.cools", Unit: "d", Default: 20, Low: 7, High: 60, Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak},
	{Key: "dress.screen.takes", Unit: "1", Default: 0.90, Low: 0.75, High: 0.98, Distribution: odds.Uniform, Source: practice, Mark: odds.Practice},
}

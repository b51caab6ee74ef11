package germinate

import "awn/odds"

// Constants are the uncertain constants of germination. Zero is not a default:
// fill them from Parameters with odds.Fill.
type Constants struct {
	// The bed and its air.
	VoidShare     float64 `param:"germinate.bed.void"`
	DraughtM3HTK  float64 `param:"germinate.draught"`      // dampers open
	DraughtShut   float64 `param:"germinate.draught.shut"` // what shut dampers let through, m3/(h t K)
	BreathlessH   float64 `param:"germinate.breathless.vigour"`
	FloorLossWM2K float64 `param:"germinate.floor.loss"`
	RoomHeightM   float64 `param:"germinate.room.height"`
	WetCastDip    float64 `param:"germinate.wet-cast.dip"`
	WetCastH      float64 `param:"germinate.wet-cast.hours"`

	// What growth does to the corn.
	GlucanRate    float64 `param:"germinate.glucan.rate"`
	GlucanLagD    float64 `param:"germinate.glucan.lag"`
	GlucanInWort  float64 `param:"germinate.glucan.wort"`
	FriablePower  float64 `param:"germinate.friability.power"`
	KolbachEnd    float64 `param:"germinate.kolbach.end"`
	KolbachBarley float64 `param:"germinate.kolbach.barley"`
	KolbachDays   float64 `param:"germinate.kolbach.days"`
	AminoShare    float64 `param:"germinate.fan.share"`
	AlphaEnd      float64 `param:"germinate.alpha.end"`
	AlphaDays     float64 `param:"germinate.alpha.days"`
	PowerEnd      float64 `param:"germinate.power.end"`
	PowerBarley   float64 `param:"germinate.power.barley"`
	PowerDays     float64 `param:"germinate.power.days"`
	DextrinaseMid float64 `param:"germinate.dextrinase.middle"`
	ExtractBase   float64 `param:"germinate.extract.base"`
	ExtractShort  float64 `param:"germinate.extract.short"`
	ExtractDays   float64 `param:"germinate.extract.days"`
	CoarseGap     float64 `param:"germinate.coarse.gap"`
	WortThickness float64 `param:"germinate.viscosity.base"`
	AcrospireRate float64 `param:"germinate.acrospire.rate"`
	AcrospireLagD float64 `param:"germinate.acrospire.lag"`
	WholeBelow    float64 `param:"germinate.unmodified.whole"`
	PartlyBelow   float64 `param:"germinate.unmodified.partly"`
}

const practice = "common practice, no source"

// Parameters is the table of germination's uncertain constants.
var Parameters = []odds.Parameter{
	{Key: "germinate.bed.void", Unit: "1", Default: 0.45, Low: 0.40, High: 0.50, Distribution: odds.Normal, Source: practice, Mark: odds.Practice},
	{Key: "germinate.draught", Unit: "m3/(h t K)", Default: 0.2, Low: 0, High: 0.4, Distribution: odds.Uniform, Source: practice, Mark: odds.Weak},
	{Key: "germinate.draught.shut", Unit: "m3/(h t K)", Default: 0.02, Low: 0, High: 0.06, Distribution: odds.Uniform, Source: practice, Mark: odds.Weak},
	{Key: "germinate.breathless.vigour", Unit: "h", Default: 24, Low: 8, High: 72, Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak},
	{Key: "germinate.floor.loss", Unit: "W/(m2 K)", Default: 11, Low: 8, High: 15, Distribution: odds.Normal, Source: practice, Mark: odds.Weak},
	{Key: "germinate.wet-cast.dip", Unit: "1", Default: 0.26, Low: 0.15, High: 0.35, Distribution: odds.Normal, Source: "Davidson 1978", Mark: odds.Sourced},
	{Key: "germinate.wet-cast.hours", Unit: "h", Default: 28, Low: 12, High: 28, Distribution: odds.Uniform, Source: "Davidson 1978", Mark: odds.Sourced},
	{Key: "germinate.room.height", Unit: "m", Default: 3, Low: 1.5, High: 5, Distribution: odds.Uniform, Source: practice, Mark: odds.Practice},

	{Key: "germinate.glucan.rate", Unit: "1/d", Default: 1.16, Low: 1.0, High: 1.6, Distribution: odds.LogNormal, Source: "Lee 2008", Mark: odds.Weak},
	{Key: "germinate.glucan.lag", Unit: "d", Default: 1.73, Low: 1.3, High: 2.2, Distribution: odds.Normal, Source: "Lee 2008", Mark: odds.Weak},
	{Key: "germinate.glucan.wort", Unit: "1", Default: 0.5, Low: 0.3, High: 0.7, Distribution: odds.Normal, Source: practice, Mark: odds.Practice},
	{Key: "germinate.friability.power", Unit: "1", Default: 0.85, Low: 0.7, High: 1.0, Distribution: odds.Normal, Source: practice, Mark: odds.Weak},
	{Key: "germinate.kolbach.end", Unit: "1", Default: 0.50, Low: 0.42, High: 0.58, Distribution: odds.Normal, Source: practice, Mark: odds.Weak},
	{Key: "germinate.kolbach.barley", Unit: "1", Default: 0.15, Low: 0.12, High: 0.18, Distribution: odds.Normal, Source: practice, Mark: odds.Practice},
	{Key: "germinate.kolbach.days", Unit: "d", Default: 2.7, Low: 2.2, High: 3.3, Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak},
	{Key: "germinate.fan.share", Unit: "1", Default: 0.21, Low: 0.19, High: 0.23, Distribution: odds.Normal, Source: practice, Mark: odds.Recalled},
	{Key: "germinate.alpha.end", Unit: "DU", Default: 77, Low: 45, High: 85, Distribution: odds.Normal, Source: "AMBA 2002", Mark: odds.Weak},
	{Key: "germinate.alpha.days", Unit: "d", Default: 3.3, Low: 2.6, High: 4.1, Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak},
	{Key: "germinate.power.end", Unit: "°ASBC", Default: 100, Low: 70, High: 160, Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak},
	{Key: "germinate.power.barley", Unit: "1", Default: 0.4, Low: 0.3, High: 0.5, Distribution: odds.Normal, Source: practice, Mark: odds.Practice},
	{Key: "germinate.power.days", Unit: "d", Default: 2.2, Low: 1.6, High: 3.0, Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak},
	{Key: "germinate.dextrinase.middle", Unit: "d", Default: 4.5, Low: 3, High: 6.5, Distribution: odds.Normal, Source: practice, Mark: odds.Weak},
	{Key: "germinate.extract.base", Unit: "1", Default: 0.845, Low: 0.835, High: 0.855, Distribution: odds.Normal, Source: practice, Mark: odds.Recalled},
	{Key: "germinate.extract.short", Unit: "1", Default: 0.10, Low: 0.07, High: 0.13, Distribution: odds.Normal, Source: practice, Mark: odds.Weak},
	{Key: "germinate.extract.days", Unit: "d", Default: 1.3, Low: 1.0, High: 1.7, Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak},
	{Key: "germinate.coarse.gap", Unit: "1", Default: 0.06, Low: 0.04, High: 0.08, Distribution: odds.Normal, Source: practice, Mark: odds.Practice},
	{Key: "germinate.viscosity.base", Unit: "mPa s", Default: 1.43, Low: 1.38, High: 1.48, Distribution: odds.Normal, Source: practice, Mark: odds.Practice},
	{Key: "germinate.acrospire.rate", Unit: "1/d", Default: 0.16, Low: 0.13, High: 0.19, Distribution: odds.Normal, Source: practice, Mark: odds.Weak},
	{Key: "germinate.acrospire.lag", Unit: "d", Default: 0.2, Low: 0, High: 0.5, Distribution: odds.Uniform, Source: practice, Mark: odds.Weak},
	{Key: "germinate.unmodified.whole", Unit: "1", Default: 0.10, Low: 0.05, High: 0.20, Distribution: odds.Uniform, Source: practice, Mark: odds.Weak},
	{Key: "germinate.unmodified.partly", Unit: "1", Default: 0.60, Low: 0.45, High: 0.75, Distribution: odds.Uniform, Source: practice, Mark: odds.Weak},
}

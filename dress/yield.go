package dress

import (
	"fmt"
	"math"

	"awn/finding"
	"awn/plant"
	"awn/unit"
)

// Charge is a kilned piece on its way to the deculmer, with what it came from.
type Charge struct {
	// Barley as-is. What was not weighed is 0, and has no yield.
	ReceivedKg, CleanedKg, SteepedKg float64
	Pit                              unit.WetBasis // as received and cleaned
	Barley                           unit.WetBasis // as steeped

	LeachedKg      float64 // dry matter gone into the steep water
	RespiredKg     float64 // dry matter gone in steep and germination
	RespiredKilnKg float64 // dry matter gone in cool wet layers of the kiln

	KilnedDryKg float64 // dry matter off the kiln, culms on
	Malt        unit.WetBasis
}

// Yield is what dressing leaves and what a piece has come to.
type Yield struct {
	Malt    Stream
	Culms   Stream
	Screens Stream // broken corns and thin ones
	Dust    Stream
	Feed    Stream // culms, screenings and dust together, as sold
	FeedFor float64

	// Malt as-is per barley as-is; NaN where the barley was not weighed.
	PerReceived, PerCleaned, PerSteeped float64
	// The same of dry matter on dry matter.
	PerReceivedDry, PerCleanedDry float64
	PerDry                        float64 // dry matter of malt per dry matter of barley steeped
	BarleyPerMalt                 float64 // t of barley steeped per t of malt, as-is

	// Shares of the dry matter steeped.
	Leached, Respired, RespiredKiln, CulmsShare, ScreensShare, DustShare float64
	// Malting is leached, respired and culms; All counts screenings and dust too.
	Malting, All float64
}

// Stream is one product.
type Stream struct {
	DryKg    float64
	Moisture unit.WetBasis
}

// Kg is the product as it stands.
//
//	M = m/(1 - w)
//
// Definition.
func (s Stream) Kg() float64 { return s.DryKg / dry(s.Moisture) }

// Dress deculms and screens a piece. Culms are counted on the dry matter that
// was respired in growth, whatever the kiln did later.
func Dress(c *Constants, d plant.Dressing, in Charge) (Yield, error) {
	for _, v := range []struct {
		name string
		is   float64
	}{{"barley steeped (kg)", in.SteepedKg}, {"kilned dry matter (kg)", in.KilnedDryKg},
		{"dry share of barley", dry(in.Barley)}, {"dry share of malt", dry(in.Malt)}} {
		if !(v.is > 0) {
			return Yield{}, fmt.Errorf("dress: %s is %g, and must be above 0", v.name, v.is)
		}
	}
	if !(in.RespiredKg >= 0 && in.RespiredKilnKg >= 0 && in.LeachedKg >= 0) {
		return Yield{}, fmt.Errorf("dress: losses of %g, %g and %g kg cannot be", in.LeachedKg, in.RespiredKg, in.RespiredKilnKg)
	}
	culms := c.CulmsPerRespired * in.RespiredKg
	malt := in.KilnedDryKg - culms
	screens, dust := malt*d.BrokenShare, malt*c.Dust
	malt -= screens + dust
	if !(malt > 0) {
		return Yield{}, fmt.Errorf("dress: %.3g kg of culms and screenings leave nothing of %.3g kg", culms+screens+dust, in.KilnedDryKg)
	}
	culmsAt := in.Malt
	if d.CulmMoistureW > 0 {
		culmsAt = unit.WetBasis(d.CulmMoistureW)
	}
	y := Yield{
		Malt: Stream{malt, in.Malt}, Culms: Stream{culms, culmsAt},
		Screens: Stream{screens, in.Malt}, Dust: Stream{dust, in.Malt},
	}
	y.Feed = together(y.Culms, y.Screens, y.Dust)
	y.FeedFor = (y.Culms.Kg()*d.CulmsPriceT + (y.Screens.Kg()+y.Dust.Kg())*d.ScreenPriceT) / kgPerT
	y.compare(in)
	return y, nil
}

const kgPerT = 1000.0

// together is several streams in one bag.
func together(streams ...Stream) Stream {
	dryKg, kg := 0.0, 0.0
	for _, s := range streams {
		dryKg += s.DryKg
		kg += s.Kg()
	}
	if kg == 0 {
		return Stream{Moisture: streams[0].Moisture}
	}
	return Stream{dryKg, unit.WetBasis(1 - dryKg/kg)}
}

// compare sets what was made against what it was made from.
func (y *Yield) compare(in Charge) {
	malt := y.Malt.Kg()
	y.PerReceived, y.PerCleaned, y.PerSteeped = per(malt, in.ReceivedKg), per(malt, in.CleanedKg), per(malt, in.SteepedKg)
	y.BarleyPerMalt = in.SteepedKg / malt
	barley := in.SteepedKg * dry(in.Barley)
	y.PerDry = y.Malt.DryKg / barley
	y.PerReceivedDry = per(y.Malt.DryKg, in.ReceivedKg*dry(in.Pit))
	y.PerCleanedDry = per(y.Malt.DryKg, in.CleanedKg*dry(in.Pit))
	y.Leached, y.Respired, y.RespiredKiln = in.LeachedKg/barley, in.RespiredKg/barley, in.RespiredKilnKg/barley
	y.CulmsShare, y.ScreensShare, y.DustShare = y.Culms.DryKg/barley, y.Screens.DryKg/barley, y.Dust.DryKg/barley
	y.Malting = y.Leached + y.Respired + y.RespiredKiln + y.CulmsShare
	y.All = y.Malting + y.ScreensShare + y.DustShare
}

// highLoss is the share of dry matter lost in malting beyond which a piece is
// told to be dear. Assumed: common practice, no source: 8 to 11 %.
const highLoss = 0.115

// Findings appends what the yield has to say.
func (y *Yield) Findings(dst []finding.Finding) []finding.Finding {
	if !(y.Malting > highLoss) {
		return dst
	}
	f := finding.New("dress.loss.high", finding.Caution, "dress",
		finding.Figure{Name: "loss_dm", Value: y.Malting},
		finding.Figure{Name: "respired_dm", Value: y.Respired + y.RespiredKiln},
		finding.Figure{Name: "culms_dm", Value: y.CulmsShare},
		finding.Figure{Name: "leached_dm", Value: y.Leached})
	f.Act, f.Chance, f.Cost, f.Source = "act.germinate.shorter-or-colder", 0.8, y.Malting-highLoss, practice
	return append(dst, f)
}

// per is malt over barley; NaN where the barley was not weighed.
func per(maltKg, barleyKg float64) float64 {
	if !(barleyKg > 0) {
		return math.NaN()
	}
	return maltKg / barleyKg
}

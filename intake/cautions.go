package intake

import "awn/finding"

// Act is something a person does at intake.
type Act string

// The acts that carry a caution.
const (
	Tipping Act = "tipping" // dust
	Probing Act = "probing" // on top of the load
)

// The limit for grain dust at work, kg/m³ of air as mg/m³.
const dustMgM3 = 10

// Cautions are what an act asks to be minded, with limit and source. They
// clear nobody to do anything: measure with a calibrated meter.
func Cautions(a Act) []finding.Finding {
	switch a {
	case Tipping:
		f := finding.New("intake.dust.limit", finding.Caution, stage, figure("dust_mg_m3", dustMgM3))
		f.Source, f.Chance, f.Cost = "29 CFR 1910.1000", 1, 0
		return []finding.Finding{f}
	case Probing:
		f := finding.New("intake.probe.do-not-climb", finding.Caution, stage)
		f.Source, f.Chance, f.Cost = "29 CFR 1910.272", 1, 0
		return []finding.Finding{f}
	}
	return nil
}

package silo

import (
	"awn/finding"
)

// stage is what the findings of this package name as theirs.
const stage = "silo"

func figure(name string, x float64) finding.Figure { return finding.Figure{Name: name, Value: x} }

// Act is something a person does at a silo.
type Act string

// The acts that carry a caution.
const (
	Entering  Act = "entering"  // to inspect, to break a crust
	Unloading Act = "unloading" // dust
)

// Limits for people at work, with their sources in Cautions.
const (
	dioxidePPM   = 5000
	dustMgM3     = 10
	oxygenLeast  = 0.195
	flammableLFL = 0.10
)

// Cautions are what an act asks to be minded, with limit and source. They
// clear nobody to enter: measure with a calibrated meter.
func Cautions(a Act) []finding.Finding {
	one := func(f finding.Finding, source string) finding.Finding {
		f.Source, f.Chance = source, 1
		return f
	}
	switch a {
	case Entering:
		return []finding.Finding{
			one(finding.New("silo.entry.permit", finding.Caution, stage), "29 CFR 1910.272"),
			one(finding.New("silo.entry.oxygen", finding.Caution, stage, figure("oxygen_least_tenths", oxygenLeast), figure("flammable", flammableLFL)), "29 CFR 1910.146"),
			one(finding.New("silo.entry.dioxide", finding.Caution, stage, figure("dioxide_ppm", dioxidePPM)), "29 CFR 1910.1000"),
		}
	case Unloading:
		return []finding.Finding{one(finding.New("silo.dust.limit", finding.Caution, stage, figure("dust_mg_m3", dustMgM3)), "29 CFR 1910.1000")}
	}
	return nil
}

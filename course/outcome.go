package course

import (
	"awn/barley"
	"awn/brew"
	"awn/dress"
	"awn/finding"
	"awn/germinate"
	"awn/kiln"
	"awn/malt"
	"awn/programme"
)

// Outcome is the answer to a Piece.
type Outcome struct {
	Piece *Piece
	// Lot is the piece's lot with what its own tests tell and what had to be
	// assumed filled in.
	Lot barley.Lot
	// Cleaned is what lies before the steep; nothing where nobody says.
	Cleaned dress.Cleaned

	Stages []StageOutcome // those that were run, in grain order
	Curve  Curve
	Bed    []Field // germination and kiln, one for each column

	Water SteepWater
	Made  MadeAir
	Stops []Stop // of the fan in germination, each as foreseen

	Growth germinate.Modification // of the finished malt
	Kilned Kilned
	Spots  []Spot        // of an uneven bed; none of a level one
	Decks  *kiln.Settled // nil unless the kiln has two decks
	Rested dress.Rested
	Yield  dress.Yield
	Route  Recorded
	// Extract in kg per tonne of dry matter of barley: what is sold.
	ExtractSteeped, ExtractReceived float64
	Malt                            malt.Analysis
	// Judged is the specification's lines, each with its verdict.
	Judged []malt.Verdict
	Brewed brew.Prospect
	Cost   Cost

	// Findings are all there are, weightiest first.
	Findings []finding.Finding
}

// StageOutcome is one stage as it went.
type StageOutcome struct {
	Stage      Stage
	FromH, ToH float64 // hours since the piece began
	Steps      []StepOutcome
	Start, End programme.Values
	Balance    Balance
}

// StepOutcome is one step of a programme as it went.
type StepOutcome struct {
	Name       string // a code for steep and germination steps, the house's own word on the kiln
	FromH, ToH float64
	// Ended says what ended it: its time, its condition, or its latest time
	// with the condition unmet.
	Ended Ended
	Until programme.Until
	End   programme.Values
}

// Ended is what ended a step.
type Ended int

// The ways a step ends.
const (
	ByTime Ended = iota
	ByReading
	AtLatest // the reading was never met
)

// Balance is one stage's account. Closure is |in - out - change in store| over
// what passed, for each good, from an inventory of the grain taken
// independently of the lines.
type Balance struct {
	Lines   []barley.Line
	Closure [barley.HeatJ + 1]float64
}

// Curve is the whole course on one time axis.
type Curve struct {
	TimeH []float64
	At    []programme.Values
}

// Field is a bed over time: layer by layer, row after row of moments.
type Field struct {
	Stage    Stage
	Column   int
	Layers   int
	TimeH    []float64
	Moisture []float64 // wet basis, len(TimeH)*Layers
	TempC    []float64 // len(TimeH)*Layers
}

// Kilned is what the kiln left, worst layer beside mean.
type Kilned struct {
	MoistureMean, MoistureWettest, MoistureDriest float64 // wet basis
	SpreadSD                                      float64 // of moisture by layer and column, wet basis
	BreakH                                        float64 // hours since the kiln began; NaN if no break was seen
	BreakWettest                                  float64 // wettest layer at break, wet basis
	ColourMean, ColourLeast, ColourMost           float64 // EBC
	Left                                          barley.Heat
}

// Cost is what a piece took and what that comes to.
type Cost struct {
	Currency string
	// Amounts, of the whole piece.
	BarleyT, WaterM3, EffluentM3, CODKg            float64
	HeatToAirKWh, FuelLHVKWh, FuelHHVKWh, PowerKWh float64
	HeatToWaterKWh, ColdToWaterKWh                 float64
	Hours                                          float64 // from casting in to stripping
	CycleH                                         float64 // between pieces, of the vessels that hold them up
	WorkH                                          float64 // of people
	CO2eKg                                         float64 // NaN without factors

	// What they come to.
	BarleyCost, WaterCost, HeatCost, PowerCost, WorkCost, VesselCost float64
	ByProductValue                                                   float64 // what is earned by them
	PerTonneMalt                                                     float64 // NaN if no malt was made
}

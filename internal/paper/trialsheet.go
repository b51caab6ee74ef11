package paper

import (
	"math"
	"strconv"

	"awn/variety"
)

// TrialStage is a step on the way of a candidate.
type TrialStage struct {
	Name       string `key:"name" doc:"Name of the stage."`
	From       int    `key:"from_year" min:"0" max:"40" doc:"First year after the cross."`
	To         int    `key:"to_year" min:"0" max:"40" doc:"Last year after the cross."`
	Sites      int    `key:"sites" min:"0" max:"1000" doc:"Sites a year."`
	EntriesIn  int    `key:"entries_in" min:"0" max:"1000000" doc:"Candidates that come in."`
	EntriesOut int    `key:"entries_out" min:"0" max:"1000000" doc:"Candidates that go on."`
	Sample     *Mass  `key:"sample" min:"0 kg" doc:"Grain of each for malting."`
	Crops      *int   `key:"crops" min:"1" max:"10" doc:"Separate crop years that its gate wants. One, if it is not given."`
	Rule       string `key:"gate?" doc:"Rule of the gate, in words."`
}

// Check finds a stage that ends before it begins.
func (s TrialStage) Check() []Fault {
	if s.To < s.From {
		return []Fault{{Code: "trial.stage.years", Path: "to_year", Got: strconv.Itoa(s.To)}}
	}
	return nil
}

// CandidateLine is a candidate from its cross on.
type CandidateLine struct {
	Name  string          `key:"name" doc:"As the table names it."`
	Cross string          `key:"cross?" doc:"Its parents."`
	Year  int             `key:"year" min:"1900" max:"2200" doc:"Year of the cross."`
	Steps []CandidateStep `key:"steps?" max:"40" doc:"What was decided, year by year."`
}

// Check finds years that run backwards.
func (c CandidateLine) Check() (faults []Fault) {
	last := c.Year - 1
	for i, s := range c.Steps {
		if s.Year <= last {
			faults = append(faults, Fault{Code: "trial.candidate.years", Path: "steps[" + strconv.Itoa(i) + "].year", Got: strconv.Itoa(s.Year)})
		}
		last = s.Year
	}
	return faults
}

// CandidateStep is a candidate's year.
type CandidateStep struct {
	Year      int             `key:"year" min:"1900" max:"2200" doc:"Year of the decision."`
	Stage     string          `key:"stage" doc:"Name of the stage."`
	Decision  string          `key:"decision" one:"advance|hold|drop|release" doc:"What was decided. To hold is another year in the same stage."`
	Reason    string          `key:"reason?" doc:"Why."`
	ThisTrial bool            `key:"this_trial?" doc:"Put what this trial says of the candidate among the evidence."`
	Evidence  []CandidateFact `key:"evidence?" max:"100" doc:"Figures that the decision rests on, from other trials, pilot malting or plant trials."`
}

// CandidateFact is one figure that a decision rests on.
type CandidateFact struct {
	Trait      string   `key:"trait" doc:"What was measured."`
	Difference *float64 `key:"difference" doc:"Candidate less check, in the unit of the trait."`
	Found      *float64 `key:"found" doc:"Figure of the candidate, where no difference is given."`
	OfCheck    *float64 `key:"of_check" doc:"Figure of the check in the same malting or trial."`
	SE         *float64 `key:"se" min:"0" doc:"Standard error of the difference."`
	Better     *Percent `key:"better" doc:"Chance that it is truly better than the check."`
	Crops      []int    `key:"crops?" max:"40" doc:"Crop years that it rests on."`
	From       string   `key:"from" one:"trial|pilot malting|plant trial" doc:"Where it was found."`

	_ struct{} `rule:"one of difference found"`
}

// Check finds a figure that stands without the check's beside it.
func (f CandidateFact) Check() []Fault {
	if (f.Found == nil) != (f.OfCheck == nil) {
		return []Fault{{Code: "trial.fact.check-missing", Path: "of_check"}}
	}
	return nil
}

// difference is candidate less check.
func (f CandidateFact) difference() float64 {
	if f.Difference == nil {
		return *f.Found - *f.OfCheck
	}
	return *f.Difference
}

func (s TrialStage) stage() variety.Stage {
	out := variety.Stage{Name: s.Name, From: s.From, To: s.To, Sites: s.Sites, EntriesIn: s.EntriesIn, EntriesOut: s.EntriesOut, Rule: s.Rule}
	if s.Sample != nil {
		out.SampleKg = s.Sample.In("kg")
	}
	if s.Crops != nil {
		out.Years = *s.Crops
	}
	return out
}

func (c CandidateLine) candidate() variety.Candidate {
	out := variety.Candidate{Name: c.Name, Cross: c.Cross, Year: c.Year}
	for _, s := range c.Steps {
		step := variety.Step{Year: s.Year, Stage: s.Stage, Decision: variety.Decision(s.Decision), Reason: s.Reason, ThisTrial: s.ThisTrial}
		for _, f := range s.Evidence {
			e := variety.Evidence{Trait: f.Trait, Difference: f.difference(), SE: orUnknown(f.SE), Beats: math.NaN(), Years: f.Crops, From: f.From}
			if f.Better != nil {
				e.Beats = f.Better.In("%") / 100
			}
			step.Evidence = append(step.Evidence, e)
		}
		out.Steps = append(out.Steps, step)
	}
	return out
}

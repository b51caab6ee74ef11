package paper

// Trial says how a table of field trials is to be read and what is asked of it.
type Trial struct {
	Name      string              `key:"name?" doc:"Name of the trial."`
	Table     string              `key:"table" doc:"The table beside this document, CSV or XLSX: a row for each plot or mean."`
	Sheet     string              `key:"sheet?" doc:"Which sheet of a workbook."`
	Columns   map[string]string   `key:"columns?" match:".+" one:"entry|site|year|environment|rep|block|row|column|plots|check|ignored" doc:"What a column holds, by its header, where the usual headers do not say it."`
	Checks    []string            `key:"checks?" max:"20" doc:"Varieties that all are compared with, the first above all."`
	Traits    map[string]Measured `key:"traits?" match:".+" doc:"Traits by the header of their column. What is not said of one is as usual."`
	Only      bool                `key:"only_these_traits?" doc:"No column is a trait but those named."`
	Customers map[string]Buyer    `key:"customers?" match:".+" doc:"For whom varieties are scored: grower, maltster, brewer, or others. With the usual weights for the first three, if none is given."`
	EqualAt   string              `key:"quality_at_equal?" doc:"Trait at equal figures of which quality is compared once more. Protein, if it is not given."`
	Drought   *DroughtPlaces      `key:"drought" doc:"Environments that drought held back, and others that it did not."`
	Further   *Further            `key:"further" doc:"How many more years and sites a year are weighed up."`
	Stages    []TrialStage        `key:"stages?" max:"20" doc:"Steps on the way of a candidate from the cross to the list. As usual, if none is given."`
	Lines     []CandidateLine     `key:"candidates?" max:"60" doc:"Candidates with what was decided of them so far."`
}

// Measured is what is to be known of a trait.
type Measured struct {
	Direction string   `key:"direction?" one:"higher|lower|window|neither" doc:"Which way it is wanted."`
	Low       *float64 `key:"low" doc:"Where the window begins, in the unit of the trait."`
	High      *float64 `key:"high" doc:"Where the window ends."`
	Unit      string   `key:"unit?" doc:"Unit of the column. One in its header is taken first."`
	Scale     string   `key:"scale?" one:"measure|percent|graded" doc:"A quantity with a unit, a share of 0 to 100, or a score by eye."`
}

// Check finds a window without ends, or with its ends crossed.
func (m Measured) Check() []Fault {
	switch {
	case m.Direction == "window" && m.Low == nil && m.High == nil:
		return []Fault{{Code: "trial.trait.window", Path: "direction"}}
	case m.Direction != "" && m.Direction != "window" && (m.Low != nil || m.High != nil):
		return []Fault{{Code: "trial.trait.ends", Path: "direction", Got: m.Direction}}
	case m.Low != nil && m.High != nil && *m.High <= *m.Low:
		return []Fault{{Code: "trial.trait.crossed", Path: "high", Got: plainFigure(*m.High)}}
	}
	return nil
}

// Buyer is what a customer makes of the traits.
type Buyer struct {
	Weights map[string]float64   `key:"weights" match:".+" min:"0" max:"1000" doc:"Weight of each trait: of one standard deviation between varieties, in its good direction."`
	Limits  map[string]HardLimit `key:"limits?" match:".+" doc:"Hard limits by trait. A variety that misses one is culled whatever else it is worth."`
	Sure    *Percent             `key:"sure" min:"1 %" max:"99.9 %" doc:"With what chance each limit must hold. A half, if it is not given."`
}

// HardLimit is a limit on the mean of a variety, in the unit of the trait.
type HardLimit struct {
	AtLeast *float64 `key:"at_least" doc:"Least mean."`
	AtMost  *float64 `key:"at_most" doc:"Greatest mean."`

	_ struct{} `rule:"some of at_least at_most"`
}

// Check finds crossed limits.
func (h HardLimit) Check() []Fault {
	if h.AtLeast != nil && h.AtMost != nil && *h.AtMost < *h.AtLeast {
		return []Fault{{Code: "trial.limit.crossed", Path: "at_most", Got: plainFigure(*h.AtMost)}}
	}
	return nil
}

// DroughtPlaces are environments with and without stress.
type DroughtPlaces struct {
	Stressed []string `key:"stressed" min:"1" max:"100" doc:"Environments that drought held back, named as the account names them, such as Stane 2025."`
	Free     []string `key:"free" min:"1" max:"100" doc:"Environments that it did not."`
}

// Further is how far the account looks ahead.
type Further struct {
	Years int `key:"years" min:"0" max:"10" doc:"Most further years."`
	Sites int `key:"sites" min:"0" max:"20" doc:"Most further sites in each year."`
}

// Kind is the word behind the first key.
func (Trial) Kind() string { return "trial/1" }

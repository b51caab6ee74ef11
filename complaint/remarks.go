package complaint

import (
	"awn/finding"
	"awn/lab"
)

// stage is where in the chain a complaint stands.
const stage = "complaint"

// Remark is a finding about one quality, with the names of what it is about.
type Remark struct {
	finding.Finding
	Quality           int
	Term, Name, Other string
}

func figure(name string, x float64) finding.Figure { return finding.Figure{Name: name, Value: x} }

func about(code string, severity finding.Severity, quality int, chance, cost float64, act string, figures ...finding.Figure) Remark {
	f := finding.New(code, severity, stage, figures...)
	f.Chance, f.Cost, f.Act, f.Source = chance, cost, act, "Henderson 1975"
	return Remark{Finding: f, Quality: quality}
}

// Remarks says of a comparison whether it is the barley, the vessel or the test.
func (c Comparison) Remarks(r lab.Results) []Remark {
	if c.Few || c.Failed != nil {
		x := about("complaint.pieces.too-few", finding.Caution, c.Quality, 1, 0.2, "act.complaint.more-pieces", figure("figures_n", float64(c.Figures)), figure("least_n", leastFigures))
		return []Remark{x}
	}
	out := []Remark{c.answer()}
	for _, l := range c.Left {
		x := about("complaint.term.mingled", finding.Note, c.Quality, 1, 0.1, "act.complaint.cross")
		switch l.Why {
		case OneLevel:
			x.Code = "complaint.term.one-level"
		case Alone:
			x.Code = "complaint.term.alone"
		}
		x.Term, x.Other = l.Term, l.With
		out = append(out, x)
	}
	few := 0
	for _, l := range c.Levels {
		if l.Term == Barley {
			continue
		}
		if l.Few {
			few++
		}
		if c.surely(l.Term) && l.PHolm < 1-confidence && !c.saidOfOther(l) {
			out = append(out, c.differs(l))
		}
	}
	if few > 0 {
		out = append(out, about("complaint.levels.few", finding.Note, c.Quality, 1, 0.1, "act.complaint.more-pieces", figure("levels_n", float64(few)), figure("least_n", leastPieces)))
	}
	return out
}

// surely reports whether a term takes part of the differences, all having been looked at.
func (c Comparison) surely(term string) bool {
	for _, p := range c.Parts {
		if p.Term == term {
			return p.PHolm < 1-confidence
		}
	}
	return false
}

// saidOfOther reports whether a level is the lower of two, of which the other says it all.
func (c Comparison) saidOfOther(l Level) bool {
	n := 0
	for _, x := range c.Levels {
		if x.Term == l.Term {
			n++
		}
	}
	return n == 2 && l.Difference.Value < 0
}

// differs is what is said of a vessel or test that stands apart from the others.
func (c Comparison) differs(l Level) Remark {
	code, act := "complaint.level.differs", "act.complaint.look-there"
	if l.Term == Test {
		code, act = "complaint.test.differs", "act.lab.calibrate"
	}
	x := about(code, finding.Caution, c.Quality, 1-l.PHolm, 0.3, act,
		figure("size", l.Difference.Value), figure("low", l.Low), figure("high", l.High), figure("chance", 1-l.PHolm), figure("figures_n", float64(l.Figures)))
	x.Term, x.Name = l.Term, l.Name
	return x
}

// answer is the sentence that is asked for.
func (c Comparison) answer() Remark {
	for _, p := range c.Parts {
		if p.Term == c.Cause && c.Cause != "" {
			code := "complaint.cause.vessel"
			switch c.Cause {
			case Barley:
				code = "complaint.cause.barley"
			case Test:
				code = "complaint.cause.test"
			}
			x := about(code, finding.Caution, c.Quality, 1-p.PHolm, 0.4, "", figure("share", p.Share), figure("chance", 1-p.PHolm), figure("sd", p.SD), figure("pieces_n", float64(c.Pieces)))
			x.Term = p.Term
			return x
		}
	}
	return about("complaint.cause.open", finding.Note, c.Quality, 0.5, 0.2, "act.complaint.more-pieces", figure("pieces_n", float64(c.Pieces)))
}

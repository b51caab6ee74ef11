package course

// Odds is an ensemble with all that follows from it at a risk.
type Odds struct {
	*Ensemble
	Inputs  []Input
	Drivers []Driver
	Totals  []Total // none unless they were asked for
	Next    []Measuring
	Advice  Release
	Guards  []float64 // by line: how far within its limit the middle of a line must lie
}

// Weigh says what follows from the ensemble: what drives each figure, what to
// measure next, and what to do with the piece at a risk of a wrong release.
func (e *Ensemble) Weigh(risk float64) *Odds {
	o := &Odds{Ensemble: e, Inputs: e.inputs(), Drivers: e.drivers(), Next: e.measureNext(), Advice: e.advise(risk)}
	for i := range e.Lines {
		o.Guards = append(o.Guards, e.guard(i, risk))
	}
	return o
}

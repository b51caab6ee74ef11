package intake

// Assessment is what can be said of a load at the gate. Grade and Judgement
// are nil where no table or contract was named.
type Assessment struct {
	Diagnosis Diagnosis // what its counts say of life in it
	Grade     *Grade
	Contract  *Contract
	Judgement *Judgement
	Fits      []Fit
}

// Assess grades a load under a table, judges it by a contract and looks for a
// bin that takes it; each of them may be missing.
func Assess(l *Load, t *Table, c *Contract, bins []Bin) Assessment {
	a := Assessment{Diagnosis: Diagnose(l), Contract: c}
	if t != nil {
		g := t.Grade(l)
		a.Grade = &g
	}
	if c != nil {
		j := c.Judge(l)
		a.Judgement = &j
	}
	if len(bins) > 0 {
		a.Fits = Fits(l, bins)
	}
	return a
}

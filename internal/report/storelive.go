package report

// Live is how long the silo keeps, how it stands, and the time to come with and
// without the fan.
func (a StoreAccount) Live() *Live {
	p := Stores{a}.page()
	l := &Live{Verdict: p.Verdict, Lines: p.Lines, Findings: p.Findings, Rest: p.Rest, Sections: p.Sections, units: a.Units}
	return l.numbered()
}

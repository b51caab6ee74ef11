package report

import (
	"io"

	"awn/finding"
	"awn/internal/house"
	"awn/internal/words"
)

// Text writes the account for a terminal.
func (a LoadAccount) Text(w io.Writer) error {
	p, u := &printer{}, a.Units
	p.pair(join([]string{u.Say("load.title", "code", a.Load.Code), a.Load.Variety}), stamp(a.Version, u))
	p.rule()
	p.part(u.Say("load.grade"), a.graded(), nil)
	if a.Judgement != nil {
		p.fit(a.limits())
		p.part(a.Contract.Name, []string{a.decision()}, a.limits())
	}
	if a.priced() {
		price := append(a.masses(), a.prices()...)
		p.fit(price)
		p.part(u.Say("load.price"), nil, price)
	}
	var fits []string
	for _, f := range a.Fits {
		fits = append(fits, a.fit(f))
	}
	p.part(u.Say("load.silo"), fits, nil)
	where, told := a.sampled()
	p.fit(told)
	p.part(u.Say("load.sample"), []string{where}, told)
	p.rule()
	sayAll(p, a.findings(), u)
	_, err := io.WriteString(w, p.String())
	return err
}

// sayAll writes findings with their sources.
func sayAll(p *printer, all []finding.Finding, u words.Units) {
	if len(all) == 0 {
		p.line(u.Say("findings.none"))
	}
	for i, f := range all {
		p.wrapped(u.Number(float64(i+1), 0)+"  ", words.Capital(u.Severity(f.Severity))+". "+words.Sentence(f, u)+" ["+f.Source+"]")
	}
}

// stamp is the program and the model.
func stamp(v house.Version, u words.Units) string {
	return u.Say("stamp", "release", v.Release, "model", u.Number(float64(v.Model), 0))
}

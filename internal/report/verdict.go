package report

import (
	"awn/finding"
	"awn/malt"
)

// verdict is the first sentence of every account: what comes out, against the
// specification.
func (r Report) verdict() string {
	o, u := r.Outcome, r.Units
	if len(o.Judged) == 0 {
		return u.Say("verdict.none") + r.alarmed()
	}
	var misses, unsaid []string
	for _, v := range o.Judged {
		name := u.Parameter(v.Limit.Parameter)
		switch v.Word {
		case malt.Fails:
			key := v.Limit.Parameter.Key(v.Limit.Basis)
			misses = append(misses, u.Say("verdict.miss", "name", name, "margin", r.margin(key, v.Margin)))
		case malt.CannotSay:
			unsaid = append(unsaid, name)
		}
	}
	spec := r.specName()
	count := u.Number(float64(len(o.Judged)), 0)
	met := u.Number(float64(len(o.Judged)-len(misses)-len(unsaid)), 0)
	var said string
	switch {
	case len(misses) > 0:
		said = u.Say("verdict.fails", "spec", spec, "met", met, "count", count, "misses", u.List(misses))
	case len(unsaid) > 0:
		said = u.Say("verdict.partly", "spec", spec, "met", met, "count", count)
	default:
		said = u.Say("verdict.passes", "spec", spec, "count", count)
	}
	if len(unsaid) > 0 {
		said += " " + u.Say("verdict.unsaid", "names", u.List(unsaid))
	}
	said += r.alarmed()
	if r.Odds != nil {
		said += " " + u.Say("verdict.drawn", "odds", r.inHundred(r.Odds.All.Share()))
	}
	return said
}

// alarmed says that there are alarms, which no limit of a malt tells of.
func (r Report) alarmed() string {
	n := 0
	for _, f := range r.Outcome.Findings {
		if f.Severity == finding.Alarm {
			n++
		}
	}
	switch n {
	case 0:
		return ""
	case 1:
		return " " + r.Units.Say("verdict.alarm")
	}
	return " " + r.Units.Say("verdict.alarms", "count", r.Units.Number(float64(n), 0))
}

// makes is the second sentence: how much comes out, and how dry.
func (r Report) makes() string {
	o, u := r.Outcome, r.Units
	if !r.dressed() {
		return ""
	}
	return u.Say("verdict.makes", "malt", r.weight(o.Yield.Malt.Kg()), "moisture", r.figure("wb", o.Kilned.MoistureMean),
		"worst", r.figure("wb", o.Kilned.MoistureWettest))
}

// stamp is the program and the model that computed an outcome.
func (r Report) stamp() string {
	return stamp(r.Version, r.Units)
}

// specName is what the specification is called.
func (r Report) specName() string {
	s := r.Outcome.Piece.Specification
	if s.Name == "" {
		return r.Units.Say("spec.unnamed")
	}
	return s.Name
}

// heading is the piece, and where and when it is made.
func (r Report) heading() (title string, lines []string) {
	p, u := r.Outcome.Piece, r.Units
	title = u.Say("title.unnamed")
	if p.Code != "" {
		title = u.Say("title", "code", p.Code)
	}
	what := []string{r.weight(p.CastKg)}
	if r.Outcome.Lot.Variety != "" {
		what = append(what, r.Outcome.Lot.Variety)
	}
	if r.Outcome.Lot.CropYear != 0 {
		what = append(what, u.Say("crop", "year", u.Number(float64(r.Outcome.Lot.CropYear), 0)))
	}
	if r.Outcome.Lot.Code != "" {
		what = append(what, u.Say("lot", "code", r.Outcome.Lot.Code))
	}
	return title, []string{
		join([]string{p.House.Name, p.House.Place}),
		join(what),
		join([]string{p.Programme.Name, u.Moment(p.StartMs, p.OffsetMin), u.Span(r.hours())}),
	}
}

// hours is how long the piece takes from its start to its last stage's end.
func (r Report) hours() float64 {
	end := 0.0
	for _, s := range r.Outcome.Stages {
		end = max(end, s.ToH)
	}
	return end
}

// join sets what is known behind one another with middle dots.
func join(parts []string) string {
	out := ""
	for _, p := range parts {
		switch {
		case p == "":
		case out == "":
			out = p
		default:
			out += " · " + p
		}
	}
	return out
}

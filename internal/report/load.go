package report

import (
	"cmp"
	"io"
	"math"
	"slices"
	"strings"

	"awn/finding"
	"awn/intake"
	"awn/internal/house"
	"awn/internal/words"
)

// LoadAccount is a load with what was made of it, and the reader it is written
// for. Grade and Judgement are nil where no table or contract was named.
type LoadAccount struct {
	Load      intake.Load
	Grade     *intake.Grade
	Contract  *intake.Contract
	Judgement *intake.Judgement
	Fits      []intake.Fit

	Units   words.Units
	Version house.Version
	Inputs  []Input
}

// findings are all that is to be said of the load, each once, weightiest
// first.
func (a LoadAccount) findings() []finding.Finding {
	var all []finding.Finding
	if a.Grade != nil {
		all = append(all, a.Grade.Findings...)
	}
	if j := a.Judgement; j != nil {
		all = append(all, j.Findings...)
		if j.Decision == intake.Accept || j.Decision == intake.AcceptDiscount {
			all = append(all, intake.Cautions(intake.Tipping)...)
		}
	}
	if len(a.Fits) > 0 {
		all = append(all, intake.Placed(a.Fits)...)
	}
	for _, f := range all {
		if f.Act == "act.intake.sample-more" {
			all = append(all, intake.Cautions(intake.Probing)...)
			break
		}
	}
	return once(all, a.Units)
}

// once keeps each finding once, weightiest first.
func once(all []finding.Finding, u words.Units) (out []finding.Finding) {
	seen := map[string]bool{}
	for _, f := range all {
		if said := f.Code + words.Reason(f, u); !seen[said] {
			seen[said] = true
			out = append(out, f)
		}
	}
	slices.SortStableFunc(out, func(a, b finding.Finding) int { return cmp.Compare(b.Weight(), a.Weight()) })
	return out
}

// Text writes the account for a terminal.
func (a LoadAccount) Text(w io.Writer) error {
	p, u := &printer{}, a.Units
	p.pair(join([]string{u.Say("load.title", "code", a.Load.Code), a.Load.Variety}), stamp(a.Version, u))
	p.rule()
	if a.Grade != nil {
		a.gradeText(p)
	}
	if a.Judgement != nil {
		a.judgementText(p)
	}
	for i, f := range a.Fits {
		head := ""
		if i == 0 {
			head = u.Say("load.silo")
		}
		p.wrapped(pad(head, groupText), a.fit(f))
	}
	p.rule()
	sayAll(p, a.findings(), u)
	_, err := io.WriteString(w, p.String())
	return err
}

// gradeText writes the grade, what decides it, and its odds.
func (a LoadAccount) gradeText(p *printer) {
	g, u := a.Grade, a.Units
	head := pad(u.Say("load.grade"), groupText)
	name := u.Say("load.withheld", "best", g.Best, "worst", g.Worst)
	if g.Name != "" {
		name = strings.Join(append([]string{g.Name}, g.Words...), ", ")
	}
	p.wrapped(head, u.Say("load.graded", "name", name, "table", g.Table.Name, "edition", g.Table.Edition))
	head = pad("", groupText)
	if len(g.Deciding) > 0 {
		p.wrapped(head, u.Say("load.deciding", "factors", u.List(a.verdictNames(g.Deciding))))
	}
	if len(g.Missing) > 0 {
		p.wrapped(head, u.Say("load.missing", "factors", u.List(a.names(g.Missing))))
	}
	var odds []string
	for _, o := range g.Odds {
		if o.Chance >= leastOdds && o.Chance <= 1-leastOdds {
			odds = append(odds, u.Say("load.odds", "name", o.Name, "odds", u.Number(100*o.Chance, 0)))
		}
	}
	p.wrapped(head, u.List(odds))
}

// leastOdds is the chance below which a grade is not named.
const leastOdds = 0.01

// judgementText writes the decision, each limit and the price line by line.
func (a LoadAccount) judgementText(p *printer) {
	j, u := a.Judgement, a.Units
	decision := words.Capital(u.Decision(j.Decision))
	if !math.IsNaN(j.Confidence) {
		decision = u.Say("load.sure", "decision", decision, "odds", u.Number(100*j.Confidence, 0))
	}
	if names := a.names(j.Deciding); len(names) > 0 {
		decision = u.Say("load.because", "decision", decision, "factors", u.List(names))
	}
	p.wrapped(pad(a.Contract.Name, groupText), decision)
	for _, v := range j.Verdicts {
		p.columns("", u.Factor(v.Limit.Key), a.read(v), a.against(v))
	}
	s := j.Settlement
	if math.IsNaN(a.Contract.PriceT) {
		return
	}
	m := s.Mass
	head := u.Say("load.price")
	for _, row := range []struct {
		name string
		kg   float64
		note string
	}{
		{"load.net", m.NetKg, ""}, {"load.dockage", m.CleanKg - m.NetKg, words.Figure("tenths", m.Dockage, u)}, {"load.shrink", -m.ShrinkKg, ""},
		{"load.handling", -m.HandlingKg, ""}, {"load.payable", m.PayableKg, a.otherMass(m.PayableKg)},
	} {
		if row.kg != 0 && !math.IsNaN(row.kg) {
			p.columns(head, u.Say(row.name), words.Figure("kg", row.kg, u), row.note)
			head = ""
		}
	}
	for _, l := range s.Lines {
		name := u.Say("load.base")
		if l.Key != (intake.Key{}) {
			name = u.Factor(l.Key)
		}
		p.columns("", name, a.perTonne(l.PriceT), a.money(l.Amount))
	}
	p.columns("", u.Say("load.total"), a.perTonne(s.PriceT), a.money(s.Total))
}

// read is what was read against a limit.
func (a LoadAccount) read(v intake.Verdict) string {
	f := v.Limit.In.Figure("read", v.Rounded)
	return words.Figure(f.Name, f.Value, a.Units)
}

// against is the limit and whether it is met, with its odds where it is close.
func (a LoadAccount) against(v intake.Verdict) string {
	f, u := v.Limit.In.Figure("limit", v.Limit.At), a.Units
	limit := words.Figure(f.Name, f.Value, u)
	if v.Limit.Least {
		limit = u.Say("limit.least", "least", limit)
	} else {
		limit = u.Say("limit.most", "most", limit)
	}
	word := u.Say([...]string{intake.Unsaid: "load.not-read", intake.Meets: "load.meets", intake.Misses: "load.misses"}[v.Outcome])
	if v.Banded && v.Outcome != intake.Unsaid {
		word = u.Say("load.chance", "word", word, "odds", u.Number(100*v.Chance, 0))
	}
	return limit + "  " + word
}

// perTonne writes a price of a tonne.
func (a LoadAccount) perTonne(x float64) string {
	if math.IsNaN(x) {
		return a.money(x)
	}
	return a.Units.Say("load.per-tonne", "money", a.money(x))
}

// money writes a sum to the cent.
func (a LoadAccount) money(x float64) string {
	if math.IsNaN(x) {
		return a.Units.Number(x, 2)
	}
	return a.Judgement.Settlement.Currency + "\u00a0" + a.Units.Number(x, 2)
}

// otherMass is a mass in the units of the other party: bushels of 48 lb, or
// tonnes.
func (a LoadAccount) otherMass(kg float64) string {
	const bushelKg = 48 * 0.45359237
	if a.Units.Pounds {
		return a.Units.Say("load.tonnes", "t", a.Units.Number(kg/1000, 3))
	}
	return a.Units.Say("load.bushels", "bu", a.Units.Number(kg/bushelKg, 2))
}

// fit says whether a silo takes the load, and why not.
func (a LoadAccount) fit(f intake.Fit) string {
	u := a.Units
	if len(f.Bars) == 0 {
		return u.Say("load.fits", "silo", f.Bin.Name, "protein", words.Figure("dm", f.MeanProtein, u))
	}
	var why []string
	for _, b := range f.Bars {
		why = append(why, u.Bar(b))
	}
	return u.Say("load.no-fit", "silo", f.Bin.Name, "why", u.List(why))
}

func (a LoadAccount) names(keys []intake.Key) (out []string) {
	for _, k := range keys {
		if k != (intake.Key{}) {
			out = append(out, a.Units.Factor(k))
		}
	}
	return out
}

func (a LoadAccount) verdictNames(vs []intake.Verdict) (out []string) {
	for _, v := range vs {
		out = append(out, a.Units.Factor(v.Limit.Key)+" "+a.read(v))
	}
	return out
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

// JSON writes the account, in SI units and fractions.
func (a LoadAccount) JSON(w io.Writer) error {
	out := object{}.text("load", a.Load.Code).text("variety", a.Load.Variety)
	if g := a.Grade; g != nil {
		grade := object{
			"table": g.Table.Key, "edition": g.Table.Edition, "best": g.Best, "worst": g.Worst, "missing": each(g.Missing, key),
			"deciding": each(g.Deciding, limitVerdict),
			"odds":     each(g.Odds, func(o intake.GradeOdds) object { return object{"grade": o.Name}.num("chance", o.Chance) }),
		}
		out["grade"] = grade.text("name", g.Name)
	}
	if j := a.Judgement; j != nil {
		s := j.Settlement
		out["judgement"] = object{
			"decision": j.Decision, "deciding": each(j.Deciding, key), "missing": each(j.Missing, key), "limits": each(j.Verdicts, limitVerdict),
			"settlement": object{
				"currency": s.Currency, "lines": each(s.Lines, func(l intake.Line) object { return key(l.Key).num("price_per_t", l.PriceT).num("amount", l.Amount) }),
			}.num("net_kg", s.Mass.NetKg).num("clean_kg", s.Mass.CleanKg).num("shrink_kg", s.Mass.ShrinkKg).num("handling_kg", s.Mass.HandlingKg).
				num("payable_kg", s.Mass.PayableKg).num("by_dry_matter_kg", s.Mass.ByDryKg).num("price_per_t", s.PriceT).num("amount", s.Total),
		}.num("confidence", j.Confidence)
	}
	out["silos"] = each(a.Fits, func(f intake.Fit) object {
		return object{"name": f.Bin.Name, "bars": f.Bars}.num("mean_protein_dm", f.MeanProtein)
	})
	return envelope(w, "load-account/1", a.Version, a.Inputs, nil, out, a.findings())
}

func key(k intake.Key) object {
	o := object{}.text("factor", string(k.Factor))
	if k.SlotM > 0 {
		o.num("slot_mm", 1000*k.SlotM)
	}
	return o
}

func limitVerdict(v intake.Verdict) object {
	read, limit := v.Limit.In.Figure("read", v.Rounded), v.Limit.In.Figure("limit", v.Limit.At)
	word := [...]string{intake.Unsaid: "not-read", intake.Meets: "meets", intake.Misses: "misses"}[v.Outcome]
	o := key(v.Limit.Key).num(read.Name, read.Value).num(limit.Name, limit.Value)
	if v.Banded {
		o.num("chance", v.Chance)
	}
	o["least"], o["outcome"] = v.Limit.Least, word
	return o
}

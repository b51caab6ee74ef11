package report

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"awn/finding"
	"awn/intake"
	"awn/internal/house"
	"awn/internal/words"
)

// LoadAccount is a load with what was made of it, and the reader it is written
// for.
type LoadAccount struct {
	Load intake.Load
	intake.Assessment

	Units   words.Units
	Version house.Version
	Inputs  []Input
}

// findings are all that is to be said of the load, each once, weightiest
// first.
func (a LoadAccount) findings() []finding.Finding {
	all := slices.Clone(a.Diagnosis.Findings)
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

// leastOdds is the chance below which a grade is not named.
const leastOdds = 0.01

// graded says the grade, what decides it, what could not be applied, and its
// odds.
func (a LoadAccount) graded() []string {
	g, u := a.Grade, a.Units
	switch {
	case g == nil && a.Judgement == nil:
		return []string{u.Say("load.unasked")}
	case g == nil:
		return nil
	}
	name := u.Say("load.withheld", "best", g.Best, "worst", g.Worst)
	if g.Name != "" {
		name = strings.Join(append([]string{g.Name}, g.Words...), ", ")
	}
	out := []string{u.Say("load.graded", "name", name, "table", g.Table.Name, "edition", g.Table.Edition)}
	if len(g.Deciding) > 0 {
		out = append(out, u.Say("load.deciding", "factors", u.List(a.verdictNames(g.Deciding))))
	}
	if len(g.Missing) > 0 {
		out = append(out, u.Say("load.missing", "factors", u.List(a.names(g.Missing))))
	}
	var odds []string
	for _, o := range g.Odds {
		if o.Chance >= leastOdds && o.Chance <= 1-leastOdds {
			odds = append(odds, u.Say("load.odds", "name", o.Name, "odds", u.Number(100*o.Chance, 0)))
		}
	}
	if len(odds) > 0 {
		out = append(out, u.List(odds))
	}
	return out
}

// decision says what to do with the load, how sure that is, and why.
func (a LoadAccount) decision() string {
	j, u := a.Judgement, a.Units
	decision := words.Capital(u.Decision(j.Decision))
	if !math.IsNaN(j.Confidence) {
		decision = u.Say("load.sure", "decision", decision, "odds", u.Number(100*j.Confidence, 0))
	}
	if names := a.names(j.Deciding); len(names) > 0 {
		decision = u.Say("load.because", "decision", decision, "factors", u.List(names))
	}
	return decision
}

// limits are the limits of the contract, one in each row.
func (a LoadAccount) limits() (out []entry) {
	for _, v := range a.Judgement.Verdicts {
		out = append(out, entry{name: a.Units.Factor(v.Limit.Key), figure: a.read(v), note: a.against(v)})
	}
	return out
}

// masses lead from the mass on the weighbridge to the mass that is paid for.
func (a LoadAccount) masses() (out []entry) {
	m, u := a.Judgement.Settlement.Mass, a.Units
	for _, row := range []struct {
		name string
		kg   float64
		note string
	}{
		{"load.net", m.NetKg, ""}, {"load.dockage", m.CleanKg - m.NetKg, words.Figure("tenths", m.Dockage, u)}, {"load.shrink", -m.ShrinkKg, ""},
		{"load.handling", -m.HandlingKg, ""}, {"load.payable", m.PayableKg, a.otherMass(m.PayableKg)},
	} {
		if row.kg != 0 && !math.IsNaN(row.kg) {
			out = append(out, entry{name: u.Say(row.name), figure: words.Figure("barley_kg", row.kg, u), note: row.note})
		}
	}
	return out
}

// priced reports whether the contract has a price.
func (a LoadAccount) priced() bool { return a.Judgement != nil && !math.IsNaN(a.Contract.PriceT) }

// prices build the price up, with the sum of each line.
func (a LoadAccount) prices() (out []entry) {
	s := a.Judgement.Settlement
	for _, l := range s.Lines {
		name := a.Units.Say("load.base")
		if l.Key != (intake.Key{}) {
			name = a.Units.Factor(l.Key)
		}
		out = append(out, entry{name: name, figure: a.perTonne(l.PriceT), note: a.money(l.Amount)})
	}
	return append(out, entry{name: a.Units.Say("load.total"), figure: a.perTonne(s.PriceT), note: a.money(s.Total)})
}

// sampled says where to probe, and what each reading can say of the load.
func (a LoadAccount) sampled() (where string, told []entry) {
	u := a.Units
	if p, ok := a.Load.Pattern(); ok {
		n := u.Number(float64(len(p.Points)), 0)
		where = u.Say("load.probes", "count", n, "scheme", p.Scheme.Source)
		if p.Scheme.Name == "" {
			where = u.Say("load.own-probes", "count", n)
		}
		if v := p.Vehicle; v.LengthM > 0 {
			where += " " + u.Say("load.places", "places", u.List(a.places(p)))
		}
	}
	for _, t := range a.Load.Told() {
		why := u.Say("load.between-laboratories")
		switch {
		case t.Count.Of > 0:
			why = u.Say("load.counted", "count", u.Number(float64(t.Count.Of), 0))
		case t.Key == intake.Of(intake.DON):
			why = u.Say("load.drawn")
		}
		told = append(told, entry{name: u.Factor(t.Key), figure: u.Doubt(t.Name, t.Value), note: why})
	}
	return where, told
}

// places are where the probes go in, from the front and from the left.
func (a LoadAccount) places(p intake.Pattern) (out []string) {
	for _, q := range p.Points {
		along, across := words.Figure("m", q.Along*p.Vehicle.LengthM, a.Units), words.Figure("m", q.Across*p.Vehicle.WidthM, a.Units)
		out = append(out, a.Units.Say("load.place", "along", along, "across", across))
	}
	return out
}

// read is what was read against a limit.
func (a LoadAccount) read(v intake.Verdict) string {
	f := v.Limit.In.Figure("read", v.Rounded)
	return words.Figure(f.Name, f.Value, a.Units)
}

// against is the limit and whether it is met, with its odds where it is close.
func (a LoadAccount) against(v intake.Verdict) string {
	limit, word := a.againstParts(v)
	return limit + "  " + word
}

// againstParts are the limit, and the word for whether it is met.
func (a LoadAccount) againstParts(v intake.Verdict) (limit, word string) {
	f, u := v.Limit.In.Figure("limit", v.Limit.At), a.Units
	limit = words.Figure(f.Name, f.Value, u)
	if v.Limit.Least {
		limit = u.Say("limit.least", "least", limit)
	} else {
		limit = u.Say("limit.most", "most", limit)
	}
	word = u.Say([...]string{intake.Unsaid: "load.not-read", intake.Meets: "load.meets", intake.Misses: "load.misses"}[v.Outcome])
	if v.Banded && v.Outcome != intake.Unsaid {
		word = u.Say("load.chance", "word", word, "odds", u.Number(100*v.Chance, 0))
	}
	return limit, word
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
	if a.Units.Mass != words.Tonnes {
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

package paper

import (
	"math"
	"reflect"

	"awn/intake"
	"awn/lab"
	"awn/unit"
)

// Contract is what a buyer of barley asks and pays.
type Contract struct {
	Name    string     `key:"name" doc:"Name of the contract."`
	Buyer   string     `key:"buyer?" doc:"Who buys."`
	Variety string     `key:"variety?" doc:"The variety it is for. Any, if it is not given."`
	Price   GrainPrice `key:"price" doc:"Base price of what is paid for."`

	Dockage  string   `key:"dockage?" one:"as read|whole and half per cent" doc:"How dockage is taken off."`
	Shrink   *Shrink  `key:"shrink" doc:"How moisture is settled. Nothing is taken off for it, if it is not given."`
	Boundary string   `key:"boundary?" one:"seller|buyer" doc:"Whom a reading favours that falls on the line between two rows of a price rule."`
	Wanted   *Percent `key:"wanted_chance" min:"50 %" max:"99 %" doc:"Hold a load for a test if a limit is met with less than this chance. Readings are taken as they are, if it is not given."`
	Terms    Terms    `key:"terms" doc:"Limits and price rules by factor."`
}

// Shrink is how mass is brought to the moisture of the contract.
type Shrink struct {
	Basis    Moisture `key:"basis" min:"8 % wb" max:"20 % wb" doc:"Moisture at which mass is paid for."`
	PerPoint *Percent `key:"per_point" max:"5 %" doc:"Share of the mass taken off for each point above it. By dry matter, if it is not given."`
	Handling *Percent `key:"handling" max:"5 %" doc:"Share of the mass taken off a load that has to be dried."`
	Credit   bool     `key:"credit?" doc:"A drier load is paid as if it held the basis."`
}

// Terms are the factors that a contract can turn on.
type Terms struct {
	Moisture      *Term[moisture]      `key:"moisture" doc:"Moisture."`
	Protein       *Term[massFraction]  `key:"protein" doc:"Protein. Of dry matter or as is, and it must say which."`
	Nitrogen      *Term[massFraction]  `key:"nitrogen" doc:"Nitrogen, turned to protein with 6.25. Of dry matter or as is."`
	TestWeight    *Term[testWeight]    `key:"test_weight" doc:"Test weight."`
	Held          []SieveTerm          `key:"held?" max:"10" doc:"What slots must hold, coarser fractions included."`
	Through       []SieveTerm          `key:"through?" max:"10" doc:"What may fall through slots."`
	Admixture     *Term[percent]       `key:"admixture" doc:"Admixture."`
	Foreign       *Term[percent]       `key:"foreign_material" doc:"Foreign material."`
	OtherGrains   *Term[percent]       `key:"other_grains" doc:"Other grains."`
	Broken        *Term[percent]       `key:"broken" doc:"Broken kernels."`
	Skinned       *Term[percent]       `key:"skinned" doc:"Skinned kernels."`
	SkinnedBroken *Term[percent]       `key:"skinned_broken" doc:"Skinned and broken kernels."`
	Sprouted      *Term[percent]       `key:"sprouted" doc:"Sprouted kernels."`
	Ergot         *Term[percent]       `key:"ergot" doc:"Ergot."`
	Energy        *Term[percent]       `key:"germination_energy" doc:"Germinated in 4 mL at 72 h."`
	Energy8       *Term[percent]       `key:"germination_8ml" doc:"Germinated in 8 mL at 72 h."`
	Capacity      *Term[percent]       `key:"capacity" doc:"Living kernels."`
	Purity        *Term[percent]       `key:"variety_purity" doc:"Purity of the variety."`
	DON           *Term[concentration] `key:"don" doc:"Deoxynivalenol, per mass."`
	Ochratoxin    *Term[concentration] `key:"ochratoxin" doc:"Ochratoxin A, per mass."`
	T2HT2         *Term[concentration] `key:"t2_ht2" doc:"T-2 and HT-2 toxin together, per mass."`
	FallingNumber *Term[duration]      `key:"falling_number" doc:"Falling number."`
}

// Term is one factor of a contract.
type Term[D dimension] struct {
	AtLeast   *quantity[D] `key:"at_least" doc:"Least value."`
	AtMost    *quantity[D] `key:"at_most" doc:"Greatest value."`
	Tolerance *quantity[D] `key:"tolerance" doc:"By how much a limit may be missed and the load still be taken."`
	Call      bool         `key:"call?" doc:"Beyond the limit the buyer is called, and the load not refused."`
	Optional  bool         `key:"optional?" doc:"A load without this reading is taken all the same."`
	Decimals  *int         `key:"decimals" min:"0" max:"3" doc:"Decimals to which a reading is rounded, a half upwards. As it was read, if it is not given."`

	PerStep *StepRule[D]   `key:"per_step" doc:"So much for each step beyond a threshold."`
	Tiers   []TierRule[D]  `key:"tiers?" max:"20" doc:"Bands that add up, each with its own rate, the first from where it begins."`
	Ranges  []RangeRule[D] `key:"ranges?" max:"50" doc:"Bands of which one applies."`
	Scale   *ScaleRule[D]  `key:"premium_and_discount" doc:"So much for each step on either side of a base."`

	_ struct{} `rule:"some of at_least at_most per_step tiers ranges premium_and_discount"`
}

// SieveTerm is a term on one slot.
type SieveTerm struct {
	Slot Length `key:"slot" min:"1 mm" max:"4 mm" doc:"Width of the slot, in mm or in 64ths of an inch as the sieve is made. The two are never turned into each other."`
	Term[percent]
}

// Change is what a rule does to the price of a tonne.
type Change struct {
	Premium  *GrainPrice `key:"premium" doc:"Paid on top."`
	Discount *GrainPrice `key:"discount" doc:"Taken off."`

	_ struct{} `rule:"one of premium discount"`
}

// StepRule is a change for each step.
type StepRule[D dimension] struct {
	Above *quantity[D] `key:"above" doc:"Steps count from here upwards."`
	Below *quantity[D] `key:"below" doc:"Steps count from here downwards."`
	Step  quantity[D]  `key:"step" doc:"One step."`
	Part  string       `key:"part_steps?" one:"nothing|whole|share" doc:"What a step counts that is only begun. Nothing, if it is not given."`
	Change

	_ struct{} `rule:"one of above below"`
}

// TierRule is one band of several that add up.
type TierRule[D dimension] struct {
	From *quantity[D] `key:"from" doc:"Where the first band begins. Given there, and only there."`
	To   *quantity[D] `key:"to" doc:"Where the band ends. Not given in a last band without end."`
	Step quantity[D]  `key:"step" doc:"One step."`
	Part string       `key:"part_steps?" one:"nothing|whole|share" doc:"What a step counts that is only begun."`
	Change
}

// RangeRule is one band of which one applies.
type RangeRule[D dimension] struct {
	From   quantity[D] `key:"from" doc:"Lower end, which belongs to the band."`
	To     quantity[D] `key:"to" doc:"Upper end, which belongs to the band."`
	Change *Change     `key:"change" doc:"What it does to the price. Nothing, if it is not given."`
}

// ScaleRule pays on both sides of a base.
type ScaleRule[D dimension] struct {
	Base      quantity[D] `key:"base" doc:"Where nothing changes."`
	Step      quantity[D] `key:"step" doc:"One step."`
	Below     Change      `key:"below" doc:"For each step below the base."`
	Above     Change      `key:"above" doc:"For each step above the base."`
	MostBelow *int        `key:"most_steps_below" min:"1" max:"1000" doc:"Steps that count at most below the base."`
	MostAbove *int        `key:"most_steps_above" min:"1" max:"1000" doc:"Steps that count at most above it."`
	Part      string      `key:"part_steps?" one:"nothing|whole|share" doc:"What a step counts that is only begun. Nothing, if it is not given."`
}

// Kind is the word behind the first key.
func (Contract) Kind() string { return "contract/1" }

// Check finds a contract whose prices stand in several currencies, and one
// that asks nothing.
func (c Contract) Check() (faults []Fault) {
	for _, code := range currenciesIn(reflect.ValueOf(c)) {
		if code != c.Price.Currency {
			faults = append(faults, Fault{Code: "contract.prices.two-currencies", Path: "terms", Got: code, Allowed: []string{c.Price.Currency}})
			break
		}
	}
	if len(c.Contract().Terms) == 0 {
		faults = append(faults, Fault{Code: "contract.terms.none", Path: "terms"})
	}
	return faults
}

// currenciesIn lists the currencies of all prices in a value.
func currenciesIn(v reflect.Value) (codes []string) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			return currenciesIn(v.Elem())
		}
	case reflect.Slice:
		for i := range v.Len() {
			codes = append(codes, currenciesIn(v.Index(i))...)
		}
	case reflect.Struct:
		if p, ok := v.Interface().(GrainPrice); ok {
			return []string{p.Currency}
		}
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				codes = append(codes, currenciesIn(v.Field(i))...)
			}
		}
	}
	return codes
}

// Check finds limits that cross or stand on two bases, and more than one price
// rule.
func (t Term[D]) Check() (faults []Fault) {
	add := func(code, path string) { faults = append(faults, Fault{Code: code, Path: path, Got: path}) }
	if t.AtLeast != nil && t.AtMost != nil && t.AtLeast.Kind == t.AtMost.Kind && t.AtLeast.Value > t.AtMost.Value {
		add("contract.term.crossed", "at_most")
	}
	rules := 0
	for _, given := range []bool{t.PerStep != nil, len(t.Tiers) > 0, len(t.Ranges) > 0, t.Scale != nil} {
		if given {
			rules++
		}
	}
	if rules > 1 {
		add("contract.term.two-rules", "")
	}
	for i, tier := range t.Tiers {
		if (tier.From == nil) != (i > 0) || tier.To == nil && i+1 < len(t.Tiers) {
			add("contract.term.tiers", "tiers")
			break
		}
	}
	kinds := map[string]bool{}
	t.each(func(q quantity[D]) { kinds[q.Kind] = true })
	if len(kinds) > 1 || kinds[unit.KindPerVolume] {
		add("contract.term.two-bases", "")
	}
	return faults
}

// each calls f with every quantity of the term.
func (t Term[D]) each(f func(quantity[D])) {
	list := []*quantity[D]{t.AtLeast, t.AtMost, t.Tolerance}
	if r := t.PerStep; r != nil {
		list = append(list, r.Above, r.Below, &r.Step)
	}
	for i := range t.Tiers {
		list = append(list, t.Tiers[i].From, t.Tiers[i].To, &t.Tiers[i].Step)
	}
	for i := range t.Ranges {
		list = append(list, &t.Ranges[i].From, &t.Ranges[i].To)
	}
	if r := t.Scale; r != nil {
		list = append(list, &r.Base, &r.Step)
	}
	for _, q := range list {
		if q != nil {
			f(*q)
		}
	}
}

// Contract is the contract that the document describes.
func (c Contract) Contract() intake.Contract {
	out := intake.Contract{
		Name: c.Name, Buyer: c.Buyer, Variety: c.Variety, Currency: c.Price.Currency, PriceT: c.Price.In("¤/t"),
		Shrink: intake.Shrink{Basis: math.NaN(), PerPoint: math.NaN()}, Wanted: c.Wanted.Or("%", 0) / 100,
	}
	if c.Dockage == "whole and half per cent" {
		out.Dockage = intake.DockageHalfDown
	}
	if c.Boundary == "buyer" {
		out.Boundary = intake.ForBuyer
	}
	if s := c.Shrink; s != nil {
		out.Shrink = intake.Shrink{Basis: s.Basis.In("% wb") / 100, PerPoint: s.PerPoint.In("%") / 100, Handling: s.Handling.Or("%", 0) / 100, Credit: s.Credit}
	}
	out.Terms = c.Terms.terms()
	return out
}

// terms lists the terms that are given, in the order of the document.
func (t Terms) terms() (out []intake.Term) {
	take := func(term *intake.Term) {
		if term != nil {
			out = append(out, *term)
		}
	}
	take(t.Moisture.term(intake.Moisture, intake.PerCent, "% wb", 1))
	take(t.Protein.ofDry(intake.PerCent, 1))
	take(t.Nitrogen.ofDry(intake.PerCent, lab.ProteinPerNitrogen))
	take(t.TestWeight.term(intake.TestWeight, intake.KgPerHL, "kg/hL", 1))
	for _, s := range t.Held {
		take(s.on(intake.Held))
	}
	for _, s := range t.Through {
		take(s.on(intake.Through))
	}
	for _, p := range []struct {
		f    intake.Factor
		term *Term[percent]
	}{
		{intake.Admixture, t.Admixture}, {intake.ForeignMaterial, t.Foreign}, {intake.OtherGrains, t.OtherGrains}, {intake.Broken, t.Broken},
		{intake.Skinned, t.Skinned}, {intake.SkinnedBroken, t.SkinnedBroken}, {intake.Sprouted, t.Sprouted}, {intake.Ergot, t.Ergot},
		{intake.Energy, t.Energy}, {intake.Energy8, t.Energy8}, {intake.Capacity, t.Capacity}, {intake.VarietyPurity, t.Purity},
	} {
		take(p.term.term(p.f, intake.PerCent, "%", 1))
	}
	take(t.DON.term(intake.DON, intake.MgPerKg, "mg/kg", 1))
	take(t.Ochratoxin.term(intake.Ochratoxin, intake.MicroG, "ug/kg", 1))
	take(t.T2HT2.term(intake.T2HT2, intake.MicroG, "ug/kg", 1))
	take(t.FallingNumber.term(intake.FallingNumber, intake.Seconds, "s", 1))
	return out
}

// on is the term on its slot.
func (s SieveTerm) on(f intake.Factor) *intake.Term {
	out := s.Term.term(f, intake.PerCent, "%", 1)
	out.SlotM = s.Slot.In("m")
	return out
}

// ofDry is a term on protein, on the basis that its quantities say.
func (t *Term[D]) ofDry(in intake.In, times float64) *intake.Term {
	if t == nil {
		return nil
	}
	symbol := "% dm"
	t.each(func(q quantity[D]) {
		if q.Symbol == "% asis" {
			symbol = "% asis"
		}
	})
	out := t.term(intake.Protein, in, symbol, times)
	out.AsIs = symbol == "% asis"
	return out
}

// term is the term in the unit of its column; figures are taken so many times.
func (t *Term[D]) term(f intake.Factor, in intake.In, symbol string, times float64) *intake.Term {
	if t == nil {
		return nil
	}
	x := func(q *quantity[D]) float64 { return times * q.In(symbol) }
	out := &intake.Term{
		Column: intake.Column{Key: intake.Of(f), In: in, Decimals: -1}, Least: x(t.AtLeast), Most: x(t.AtMost),
		Tolerance: times * t.Tolerance.Or(symbol, 0), Call: t.Call, Optional: t.Optional,
	}
	if t.Decimals != nil {
		out.Decimals = *t.Decimals
	}
	switch {
	case t.PerStep != nil:
		r := t.PerStep
		rule := intake.PerStep{From: x(r.Above), Step: x(&r.Step), Amount: r.amount(), Part: part(r.Part)}
		if r.Below != nil {
			rule.From, rule.Below = x(r.Below), true
		}
		out.Rule = rule
	case len(t.Tiers) > 0:
		rule := intake.Tiers{From: x(t.Tiers[0].From), Part: part(t.Tiers[0].Part)}
		for _, tier := range t.Tiers {
			to := math.Inf(1)
			if tier.To != nil {
				to = x(tier.To)
			}
			rule.Tier = append(rule.Tier, intake.Tier{To: to, Step: x(&tier.Step), Amount: tier.amount()})
		}
		out.Rule = rule
	case len(t.Ranges) > 0:
		var rule intake.Ranges
		for _, r := range t.Ranges {
			amount := 0.0
			if r.Change != nil {
				amount = r.Change.amount()
			}
			rule = append(rule, intake.Range{From: x(&r.From), To: x(&r.To), Amount: amount})
		}
		out.Rule = rule
	case t.Scale != nil:
		r := t.Scale
		rule := intake.Scale{Base: x(&r.Base), Step: x(&r.Step), Below: r.Below.amount(), Above: r.Above.amount(), Part: part(r.Part)}
		rule.MostBelow, rule.MostAbove = steps(r.MostBelow), steps(r.MostAbove)
		out.Rule = rule
	}
	return out
}

// amount is the change of the price of a tonne.
func (c Change) amount() float64 {
	if c.Premium != nil {
		return c.Premium.In("¤/t")
	}
	return -c.Discount.In("¤/t")
}

func part(word string) intake.Part {
	return map[string]intake.Part{"whole": intake.PartWhole, "share": intake.PartShare}[word]
}

func steps(n *int) float64 {
	if n == nil {
		return 0
	}
	return float64(*n)
}

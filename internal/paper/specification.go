package paper

import (
	"math"
	"reflect"

	"awn/malt"
)

// Specification is what a buyer asks of a malt.
type Specification struct {
	Name   string `key:"name" doc:"Name of the malt or of the specification."`
	Buyer  string `key:"buyer?" doc:"Who asks for it."`
	Limits Limits `key:"limits" doc:"Limits by parameter."`
}

// Limits are the parameters that can be limited.
type Limits struct {
	Moisture         *Limit[moisture]       `key:"moisture" doc:"Moisture of the malt."`
	ExtractFine      *Limit[massFraction]   `key:"extract_fine" doc:"Extract of the fine grist in the Congress mash."`
	ExtractCoarse    *Limit[massFraction]   `key:"extract_coarse" doc:"Extract of the coarse grist in the Congress mash."`
	ExtractGap       *Limit[massFraction]   `key:"extract_difference" doc:"Fine less coarse extract."`
	Colour           *Limit[colour]         `key:"colour" doc:"Colour of the Congress wort."`
	ColourBoiled     *Limit[colour]         `key:"colour_boiled" doc:"Colour of the boiled wort."`
	Protein          *Limit[massFraction]   `key:"protein" doc:"Total protein, nitrogen times 6.25."`
	SolubleProtein   *Limit[massFraction]   `key:"soluble_protein" doc:"Soluble protein in the Congress wort."`
	Kolbach          *Limit[percent]        `key:"kolbach" doc:"Soluble over total protein, S/T."`
	FAN              *Limit[aminoNitrogen]  `key:"fan" doc:"Free amino nitrogen, in mg/L of wort or mg/100g dm of malt."`
	DiastaticPower   *Limit[diastaticPower] `key:"diastatic_power" doc:"Diastatic power, in WK or Lintner."`
	AlphaAmylase     *Limit[alphaAmylase]   `key:"alpha_amylase" doc:"Alpha-amylase in dextrinising units."`
	WortBetaGlucan   *Limit[concentration]  `key:"wort_beta_glucan" doc:"Beta-glucan of the Congress wort, in mg/L."`
	Viscosity        *Limit[viscosity]      `key:"viscosity" doc:"Viscosity of the wort at 8.6 °P and 20 °C."`
	Friability       *Limit[percent]        `key:"friability" doc:"Friability."`
	PartlyUnmodified *Limit[percent]        `key:"pug" doc:"Partly unmodified grains."`
	WhollyUnmodified *Limit[percent]        `key:"wug" doc:"Wholly unmodified grains."`
	SMM              *Limit[trace]          `key:"smm" doc:"S-methylmethionine, the precursor of dimethyl sulphide."`
	Attenuation      *Limit[percent]        `key:"attenuation_limit" doc:"Apparent attenuation limit."`
	Screenings       *Limit[percent]        `key:"screenings" doc:"Through the 2.2 mm slot."`
	SpiritYield      *Limit[spiritYield]    `key:"spirit_yield" doc:"Pure alcohol that a distiller gets."`
}

// Limit is one line of a specification.
type Limit[D dimension] struct {
	AtLeast *quantity[D] `key:"at_least" doc:"Least value."`
	AtMost  *quantity[D] `key:"at_most" doc:"Greatest value."`
	Method  string       `key:"method?" doc:"Method of analysis, body and number, such as EBC 4.5.1."`

	_ struct{} `rule:"some of at_least at_most"`
}

// Kind is the word behind the first key.
func (Specification) Kind() string { return "specification/1" }

// Check finds two bases in one limit, and a least value above the greatest.
func (l Limit[D]) Check() []Fault {
	switch {
	case l.AtLeast == nil || l.AtMost == nil:
		return nil
	case basisOf(l.AtLeast) != basisOf(l.AtMost):
		return []Fault{{Code: "specification.limit.two-bases", Path: "at_most", Got: l.AtMost.Symbol, Allowed: []string{l.AtLeast.Symbol}}}
	case l.AtLeast.Value > l.AtMost.Value:
		return []Fault{{Code: "specification.limit.crossed", Path: "at_most", Got: l.AtMost.Symbol}}
	}
	return nil
}

// Check finds a specification without limits, and a basis that a parameter
// cannot stand on.
func (l Limits) Check() (faults []Fault) {
	given := 0
	l.each(func(p malt.Parameter, limit limit) {
		given++
		if m := limit.limit(p); !p.Takes(m.Basis) {
			faults = append(faults, Fault{Code: "specification.limit.basis", Path: string(p), Got: string(p)})
		}
	})
	if given == 0 {
		faults = append(faults, Fault{Code: "specification.limits.none"})
	}
	return faults
}

// limit is a Limit of any dimension.
type limit interface {
	limit(malt.Parameter) malt.Limit
}

// each calls f with the limits that are given, in the order of the document.
func (l Limits) each(f func(malt.Parameter, limit)) {
	v := reflect.ValueOf(l)
	for i := range v.NumField() {
		if !v.Field(i).IsNil() {
			f(malt.Parameter(v.Type().Field(i).Tag.Get("key")), v.Field(i).Elem().Interface().(limit))
		}
	}
}

// Specification is what the document asks for.
func (s Specification) Specification() malt.Specification {
	out := malt.Specification{Name: s.Name, Buyer: s.Buyer}
	s.Limits.each(func(p malt.Parameter, l limit) { out.Limits = append(out.Limits, l.limit(p)) })
	return out
}

func (l Limit[D]) limit(p malt.Parameter) malt.Limit {
	given := l.AtLeast
	if given == nil {
		given = l.AtMost
	}
	b := basisOf(given)
	return malt.Limit{Parameter: p, Min: b.value(l.AtLeast.In(b.symbol)), Max: b.value(l.AtMost.In(b.symbol)), Basis: b.basis, Method: l.Method}
}

// basis is what a unit of a specification says of its figure: the unit in
// which the figure is kept there, over how much, and on which basis.
type basis struct {
	symbol string
	over   float64
	basis  malt.Basis
}

func (b basis) value(written float64) float64 { return written / b.over }

// bases are the units that specifications are written in.
var bases = map[string]basis{
	"% wb": {"% wb", 100, malt.WetBasis}, "% db": {"% wb", 100, malt.WetBasis},
	"% dm": {"% dm", 100, malt.Dry}, "% asis": {"% asis", 100, malt.AsIs}, "%": {"%", 100, malt.NoBasis},
	"EBC": {"EBC", 1, malt.ScaleEBC}, "SRM": {"SRM", 1, malt.ScaleSRM}, "°L": {"°L", 1, malt.ScaleLovibond},
	"WK": {"WK", 1, malt.ScaleWK}, "Lintner": {"Lintner", 1, malt.ScaleLintner},
	"DU dm": {"DU dm", 1, malt.Dry}, "DU asis": {"DU asis", 1, malt.AsIs},
	"mg/L": {"mg/L", 1, malt.InWort}, "g/L": {"mg/L", 1, malt.InWort}, "mg/100g dm": {"mg/100g dm", 1, malt.Per100g},
	"mg/kg dm": {"mg/kg dm", 1, malt.Dry}, "mg/kg asis": {"mg/kg asis", 1, malt.AsIs},
	"L/t dm": {"L/t dm", 1, malt.Dry}, "L/t asis": {"L/t asis", 1, malt.AsIs}, "mPa.s": {"mPa.s", 1, malt.NoBasis},
}

// basisOf is the basis of a quantity; one of a unit that no specification
// is written in stands on a basis that no parameter takes.
func basisOf[D dimension](q *quantity[D]) basis {
	if b, ok := bases[q.Symbol]; ok {
		return b
	}
	return basis{q.Symbol, math.NaN(), malt.Basis(q.Symbol)}
}

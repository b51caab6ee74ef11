// Package certificate is what a house says of malt that it ships: what it is,
// where it comes from, what was measured and by which method, what was agreed,
// and the signature by which anybody can see that nothing has been changed
// since. It needs no database and no network to be read and checked.
package certificate

import (
	"fmt"
	"math"
	"slices"

	"awn/malt"
)

// Kind is the first key of a certificate.
const Kind = "certificate/1"

// Certificate is one certificate as it is issued. Masses are in kg, moments in
// milliseconds since 1970 UTC, all figures in SI and fractions.
type Certificate struct {
	Awn       string `json:"awn"` // Kind
	Number    string `json:"number"`
	Replaces  string `json:"replaces,omitempty"` // number of the certificate that this one takes the place of
	IssuedMs  int64  `json:"issued_ms"`
	OffsetMin int    `json:"offset_min"` // of the house from UTC

	House    Party  `json:"house"`
	Buyer    Party  `json:"buyer"`
	Order    string `json:"order,omitempty"`
	Shipment string `json:"shipment"`
	Vehicle  string `json:"vehicle,omitempty"`
	Seal     string `json:"seal,omitempty"`

	Product   string   `json:"product"`
	NetKg     float64  `json:"net_kg"`
	Lots      []Lot    `json:"lots"`
	Varieties []Share  `json:"varieties,omitempty"`
	Origins   []Origin `json:"origins,omitempty"` // as far as the house allows

	Specification string           `json:"specification,omitempty"`
	Values        []Value          `json:"values"`
	Unmeasured    []malt.Parameter `json:"unmeasured,omitempty"` // agreed, and not among the values
	Residues      []Residue        `json:"residues,omitempty"`
	Additions     []Addition       `json:"additions,omitempty"`
	Deviations    []Deviation      `json:"deviations,omitempty"`
	Statements    []string         `json:"statements,omitempty"` // on allergens, audits, practices
	Changes       string           `json:"changes,omitempty"`    // since the last load to this buyer
	Sample        *KeptSample      `json:"sample,omitempty"`
	Released      *Release         `json:"released,omitempty"`
	Record        *RecordedHead    `json:"record,omitempty"`
}

// Party is the house or the buyer.
type Party struct {
	Name    string `json:"name"`
	Address string `json:"address,omitempty"`
	Contact string `json:"contact,omitempty"`
}

// Lot is one lot of malt in the load. More than one is a blend, and said to be
// one.
type Lot struct {
	Code     string  `json:"code"`
	Share    float64 `json:"share"`               // of the load's mass
	CropYear int     `json:"crop_year,omitempty"` // harvest
	KilnedMs int64   `json:"kilned_ms,omitempty"` // end of kilning
}

// Share is a part of the whole by name.
type Share struct {
	Name  string  `json:"name"`
	Share float64 `json:"share"`
}

// Origin is where barley of the load grew: its share, and the least and the
// most that it can be, for silos mix what goes into them.
type Origin struct {
	Share
	Least float64 `json:"least"`
	Most  float64 `json:"most"`
}

// Of says what a value was found on.
type Of string

// What a value may be of.
const (
	OfLoad    Of = "load"    // a sample of this load
	OfLot     Of = "lot"     // a sample of the lot, or worked out from those of the lots by their shares
	OfTypical Of = "typical" // the house's usual figure: not of this malt
)

// Value is one figure of the analysis.
type Value struct {
	Parameter malt.Parameter `json:"parameter"`
	Basis     malt.Basis     `json:"basis,omitempty"`
	Value     float64        `json:"value"`
	Low       *float64       `json:"low,omitempty"` // its band: nineteen in twenty, by the method's own scatter
	High      *float64       `json:"high,omitempty"`
	Method    string         `json:"method"`
	Of        Of             `json:"of"`
	Lab       string         `json:"lab,omitempty"`
	SampledMs int64          `json:"sampled_ms,omitempty"`
	Least     *float64       `json:"least,omitempty"` // what was agreed
	Most      *float64       `json:"most,omitempty"`
}

// Residue is a contaminant or residue that was looked for.
type Residue struct {
	Name    string   `json:"name"`
	KgKg    float64  `json:"kg_kg"` // what was found, or what the method can see
	Below   bool     `json:"below,omitempty"`
	MostKgK *float64 `json:"most_kg_kg,omitempty"`
	Law     string   `json:"law,omitempty"` // that sets the most
	Method  string   `json:"method,omitempty"`
	Of      Of       `json:"of"`
}

// Addition is what was put on the grain besides water.
type Addition struct {
	Name      string  `json:"name"`
	KgKg      float64 `json:"kg_kg"`
	Permitted string  `json:"permitted,omitempty"` // by whom or what
}

// Deviation is a limit that is missed and how the buyer took it.
type Deviation struct {
	Parameter malt.Parameter `json:"parameter"`
	Offered   string         `json:"offered"`
	Agreed    string         `json:"agreed,omitempty"` // by whom and when; empty is not agreed
}

// KeptSample is where the sample of the load lies.
type KeptSample struct {
	Code    string `json:"code"`
	Where   string `json:"where,omitempty"`
	UntilMs int64  `json:"until_ms,omitempty"`
}

// Release is who let the malt go, and why.
type Release struct {
	By     string `json:"by"`
	AtMs   int64  `json:"at_ms"`
	Reason string `json:"reason,omitempty"`
}

// RecordedHead is the end of the house's record when the certificate was
// issued: a record that was restored and went on another way shows by it.
type RecordedHead struct {
	House string `json:"house"`
	Seq   int64  `json:"seq"`
	Hash  string `json:"hash"` // in hexadecimal
}

// Blend reports whether the load holds more than one lot.
func (c *Certificate) Blend() bool { return len(c.Lots) > 1 }

// Word is whether a value meets what was agreed.
func (v Value) Word() malt.Word {
	switch {
	case v.Least == nil && v.Most == nil:
		return ""
	case v.Of == OfTypical:
		return malt.CannotSay
	case v.Least != nil && v.Value < *v.Least || v.Most != nil && v.Value > *v.Most:
		return malt.Fails
	}
	return malt.Passes
}

// Key is the parameter with its basis, as in "extract_fine_dm".
func (v Value) Key() string { return v.Parameter.Key(v.Basis) }

// sumTo is how far shares may miss 1: they are written with four digits.
const sumTo = 5e-4

// Check returns what a certificate cannot go out with; nil if it can. Every
// value names its method and basis; shares add up; nothing is missed in
// silence.
func (c *Certificate) Check() (problems []string) {
	bad := func(is bool, format string, a ...any) {
		if is {
			problems = append(problems, fmt.Sprintf(format, a...))
		}
	}
	bad(c.Awn != Kind, "awn is %q, and must be %q", c.Awn, Kind)
	bad(c.Number == "", "number is missing")
	bad(c.House.Name == "", "house.name is missing")
	bad(c.Buyer.Name == "", "buyer.name is missing")
	bad(c.Shipment == "", "shipment is missing")
	bad(!(c.NetKg > 0) || math.IsInf(c.NetKg, 0), "net_kg is %g, and must be above 0", c.NetKg)
	bad(len(c.Lots) == 0, "lots is empty")
	total := 0.0
	for i, l := range c.Lots {
		bad(l.Code == "", "lots[%d].code is missing", i)
		bad(!(l.Share > 0 && l.Share <= 1), "lots[%d].share is %g", i, l.Share)
		total += l.Share
	}
	bad(len(c.Lots) > 0 && math.Abs(total-1) > sumTo, "the shares of the lots add up to %g", total)
	for i, o := range c.Origins {
		bad(!(o.Least >= 0 && o.Least <= o.Share.Share+sumTo && o.Share.Share <= o.Most+sumTo && o.Most <= 1+sumTo), "origins[%d]: %g is not within %g to %g", i, o.Share.Share, o.Least, o.Most)
	}
	bad(len(c.Values) == 0, "values is empty")
	for i, v := range c.Values {
		c.checkValue(fmt.Sprintf("values[%d]", i), v, bad)
	}
	return problems
}

func (c *Certificate) checkValue(at string, v Value, bad func(bool, string, ...any)) {
	bad(!v.Parameter.Takes(v.Basis), "%s: %s on the basis %q is unknown", at, v.Parameter, v.Basis)
	bad(v.Method == "", "%s: %s names no method", at, v.Parameter)
	bad(!slices.Contains([]Of{OfLoad, OfLot, OfTypical}, v.Of), "%s: %s is of %q, and must be of load, lot or typical", at, v.Parameter, v.Of)
	bad(v.Low != nil && v.High != nil && !(*v.Low <= v.Value && v.Value <= *v.High), "%s: %s does not lie in its own band", at, v.Parameter)
	told := func(d Deviation) bool { return d.Parameter == v.Parameter }
	bad(v.Word() == malt.Fails && !slices.ContainsFunc(c.Deviations, told), "%s: %s misses what was agreed, and deviations says nothing of it", at, v.Parameter)
}

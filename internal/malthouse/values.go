package malthouse

import (
	"context"
	"math"
	"slices"
	"strings"

	"awn/certificate"
	"awn/ledger"
	"awn/malt"
)

// measured is a result with the fact it stands in.
type measured struct {
	ledger.Figure
	lab  string
	atMs int64
	fact ledger.FactID
}

// resultsOf are the last results in force of a thing, by quantity.
func (d *desk) resultsOf(ctx context.Context, thing ledger.Ref) (map[ledger.Quantity]measured, error) {
	all, facts, err := bodies[*ledger.Analysis](ctx, d, thing, ledger.Analysed)
	out := map[ledger.Quantity]measured{}
	for i, a := range all {
		if a.Of != thing {
			continue
		}
		for _, f := range a.Results {
			out[f.Quantity] = measured{f, a.Lab, facts[i].At, ledger.FactID(facts[i].ID)}
		}
	}
	return out, err
}

// additive are the figures that a blend has in proportion to its parts. Of
// others a blend must be analysed itself.
var additive = []malt.Parameter{
	malt.Moisture, malt.ExtractFine, malt.ExtractCoarse, malt.Protein, malt.SolubleProtein, malt.Friability,
	malt.PartlyUnmodified, malt.WhollyUnmodified, malt.DMSPrecursor, malt.Screenings,
}

// values fills in the analysis: what was found on the load itself, else on its
// lots by their shares, else what is usual for the house. It returns the facts
// that the certificate then rests on.
func (d *desk) values(ctx context.Context, c *certificate.Certificate, in Issue, load ledger.Ref, lots []LotShare) (rests []ledger.FactID, err error) {
	own, err := d.resultsOf(ctx, load)
	if err != nil {
		return nil, err
	}
	byLot := make([]map[ledger.Quantity]measured, len(lots))
	for i, l := range lots {
		if byLot[i], err = d.resultsOf(ctx, ledger.To(ledger.LotKind, l.Lot)); err != nil {
			return nil, err
		}
	}
	rest := func(id ledger.FactID) {
		if !slices.Contains(rests, id) {
			rests = append(rests, id)
		}
	}
	for _, q := range d.named(in, own, byLot) {
		m, of, found := own[q], certificate.OfLoad, true
		if _, is := own[q]; !is {
			m, found = ofLots(q, lots, byLot)
			of = certificate.OfLot
			for _, b := range byLot {
				if x, is := b[q]; is && found {
					rest(x.fact)
				}
			}
		} else {
			rest(m.fact)
		}
		if !found {
			if m, found = typical(q, in.Typical); !found {
				continue
			}
			of = certificate.OfTypical
		}
		d.put(c, in, q, m, of)
	}
	if in.Specification != nil {
		c.Specification = in.Specification.Name
		d.missing(c, in.Specification)
	}
	return rests, nil
}

// named are the quantities that may stand on the certificate: first those of
// the specification in its order, then all others in the order of their names.
func (d *desk) named(in Issue, own map[ledger.Quantity]measured, byLot []map[ledger.Quantity]measured) (out []ledger.Quantity) {
	var others []ledger.Quantity
	for _, set := range append([]map[ledger.Quantity]measured{own}, byLot...) {
		for q := range set {
			others = append(others, q)
		}
	}
	for _, f := range in.Typical {
		others = append(others, f.Quantity)
	}
	slices.Sort(others)
	if in.Specification != nil {
		for _, l := range in.Specification.Limits {
			out = append(out, ledger.Quantity(l.Parameter.Key(l.Basis)))
		}
	}
	for _, q := range others {
		if !slices.Contains(out, q) {
			out = append(out, q)
		}
	}
	return out
}

// ofLots works a figure out from those of the lots, if all have it and it is
// one that adds up. Of what nobody wants in malt the worst lot speaks for all.
func ofLots(q ledger.Quantity, lots []LotShare, byLot []map[ledger.Quantity]measured) (measured, bool) {
	var out measured
	var shares, values []float64
	for i, l := range lots {
		m, found := byLot[i][q]
		if !found {
			return out, false
		}
		if residues[q] != "" && len(values) > 0 && m.Value < out.Value {
			m = out
		}
		out = m
		shares, values = append(shares, l.Share), append(values, m.Value)
	}
	p, _, isMalt := Parameter(q)
	switch {
	case len(values) == 0:
		return out, false
	case len(values) > 1 && isMalt:
		if !slices.Contains(additive, p) {
			return out, false
		}
		out.Value = malt.Blended(shares, values)
		for i := range lots {
			if byLot[i][q].Method != out.Method {
				return out, false // two methods do not make one figure
			}
		}
	}
	return out, true
}

func typical(q ledger.Quantity, usual []ledger.Figure) (measured, bool) {
	for _, f := range usual {
		if f.Quantity == q {
			return measured{Figure: f}, true
		}
	}
	return measured{}, false
}

// residues are what nobody wants in malt, by its name.
var residues = map[ledger.Quantity]string{
	"don_mg_kg_asis": "deoxynivalenol", "ochratoxin_mg_kg_asis": "ochratoxin A", "ndma_mg_kg_asis": "NDMA",
}

// kgOfMg is a kilogram per kilogram in milligrams per kilogram.
const kgOfMg = 1e-6

// put writes a figure where it belongs.
func (d *desk) put(c *certificate.Certificate, in Issue, q ledger.Quantity, m measured, of certificate.Of) {
	if name := residues[q]; name != "" {
		c.Residues = append(c.Residues, certificate.Residue{Name: name, KgKg: m.Value * kgOfMg, Below: m.Less, Method: m.Method, Of: of})
		return
	}
	p, basis, isMalt := Parameter(q)
	if !isMalt {
		return
	}
	v := certificate.Value{Parameter: p, Basis: basis, Value: m.Value, Method: m.Method, Of: of, Lab: m.lab, SampledMs: m.atMs}
	if m.U != nil {
		low, high := m.Value-coverage**m.U, m.Value+coverage**m.U
		v.Low, v.High = &low, &high
	}
	if in.Specification != nil {
		for _, l := range in.Specification.Limits {
			if l.Parameter == p && l.Basis == basis {
				v.Least, v.Most = bound(l.Min), bound(l.Max)
			}
		}
	}
	c.Values = append(c.Values, v)
}

// coverage is how many standard uncertainties a band of nineteen in twenty is
// wide to each side, of normal errors.
const coverage = 1.96

func bound(x float64) *float64 {
	if math.IsNaN(x) {
		return nil
	}
	return &x
}

// missing says what was agreed and is not on the certificate, on it too.
func (d *desk) missing(c *certificate.Certificate, spec *malt.Specification) {
	var names []string
	for _, l := range spec.Limits {
		there := func(v certificate.Value) bool { return v.Parameter == l.Parameter && v.Basis == l.Basis }
		if !slices.ContainsFunc(c.Values, there) {
			names = append(names, string(l.Parameter))
			c.Unmeasured = append(c.Unmeasured, l.Parameter)
		}
	}
	if names != nil {
		d.note(say("not-measured", "parameters", strings.Join(names, " ")))
	}
}

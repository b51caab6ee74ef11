package malthouse

import (
	"context"
	"math"
	"slices"
	"strings"

	"awn/finding"
	"awn/lab"
	"awn/ledger"
	"awn/malt"
)

// Complaint is what the record has to say when somebody who received malt says
// that it is not what it should be.
type Complaint struct {
	Lot     ledger.Code
	Claims  []Claim
	Kept    []Entered[*ledger.Sampling] // samples of the lot that were kept
	Holders []Holder                    // who else has some of it
	Made    []Neighbour                 // lots of the same vessels, made before and after
}

// Claim is one figure that is complained of, beside what was found here.
type Claim struct {
	ledger.Figure
	Found []ledger.Result // of the lot, by whatever laboratory
	Moved *lab.Remark     // that a bench of that laboratory had moved; nil where its check samples say nothing of it
	// ByTest is how often two laboratories that read the same sample differ by
	// as much as the claim does from the first figure found; NaN where the
	// precision of the method is not known.
	ByTest float64
}

// Neighbour is a lot that shares a vessel with the one complained of.
type Neighbour struct {
	Lot     ledger.Code
	Vessel  string
	Kind    string // steep, germination, kiln
	Results []ledger.Result
}

// near is how many lots before and after are shown for each vessel.
const near = 2

// Complain gathers the evidence on a complaint about a lot. The record decides
// nothing: whose figure is right the sample that was kept can tell.
func (h *House) Complain(ctx context.Context, a Actor, lot ledger.Code, claims []ledger.Figure) (Complaint, error) {
	c := Complaint{Lot: lot}
	t, err := h.Trace(ctx, a, ledger.To(ledger.LotKind, lot), ledger.AsEntered)
	if err != nil {
		return c, err
	}
	c.Holders = t.Holders
	samples, err := list[*ledger.Sampling](ctx, h, a, ledger.Sampled)
	if err != nil {
		return c, err
	}
	for _, s := range samples {
		if s.Body.Of == ledger.To(ledger.LotKind, lot) && s.Body.Kept != "" {
			c.Kept = append(c.Kept, s)
		}
	}
	r := h.Store.Read(h.Code)
	found, err := r.Results(ctx, ledger.To(ledger.LotKind, lot))
	if err != nil {
		return c, err
	}
	results, err := h.Laboratory(ctx, a)
	if err != nil {
		return c, err
	}
	remarks := results.Control(lab.Options{Base: usualBase, Limits: lab.House}).Remarks
	for _, f := range claims {
		c.Claims = append(c.Claims, claimed(f, found, results, remarks))
	}
	c.Made, err = h.neighbours(ctx, a, lot)
	return c, err
}

// usualBase is how many first readings of a check sample its limits rest on.
const usualBase = 20

// claimed holds one figure against what was found of the lot.
func claimed(f ledger.Figure, found []ledger.Result, results lab.Results, remarks []lab.Remark) Claim {
	c := Claim{Figure: f, ByTest: math.NaN()}
	for _, x := range found {
		if x.Quantity != f.Quantity {
			continue
		}
		c.Found = append(c.Found, x)
		who := bench(x.Lab)
		for i := range remarks {
			m := &remarks[i]
			ours := m.Bench.Laboratory == who.Laboratory && (who.Instrument == "" || m.Bench.Instrument == who.Instrument)
			if c.Moved == nil && ours && m.Severity == finding.Alarm && m.Quality >= 0 && results.Qualities[m.Quality].Name == string(f.Quantity) {
				c.Moved = m
			}
		}
	}
	if len(c.Found) > 0 {
		c.ByTest = differs(f, c.Found[0])
	}
	return c
}

// differs is how often two laboratories that read the same sample differ by as
// much as two figures do.
//
//	p = erfc(1.96 |a − b| / (R √2))
//
// Recalled: ISO 5725-6 (R is passed by one difference in twenty).
// Valid: where a precision of the method that the found figure names was published, and within its range.
func differs(f ledger.Figure, x ledger.Result) float64 {
	p, _, ok := Parameter(f.Quantity)
	if !ok {
		return math.NaN()
	}
	analyte, per := string(p), 1.0
	if p == malt.Protein {
		analyte, per = "nitrogen", lab.ProteinPerNitrogen
	}
	for _, known := range lab.Precisions {
		if known.Analyte == analyte && known.Matrix == "malt" && strings.EqualFold(known.Method, x.Method) {
			r := known.Reproducibility(x.Value/per) * per
			return math.Erfc(1.96 * math.Abs(f.Value-x.Value) / (r * math.Sqrt2))
		}
	}
	return math.NaN()
}

// neighbours are the lots made in the same vessels next before and after.
func (h *House) neighbours(ctx context.Context, a Actor, lot ledger.Code) (out []Neighbour, err error) {
	made, err := h.origins(ctx, a)
	if err != nil {
		return nil, err
	}
	all, err := h.Lots(ctx, a)
	if err != nil {
		return nil, err
	}
	own := made[lot]
	for k, kind := range vesselKinds {
		var same []Lot
		for _, l := range all {
			if vessel := made[l.Code].vessels[k]; vessel != "" && vessel == own.vessels[k] {
				same = append(same, l)
			}
		}
		at := slices.IndexFunc(same, func(l Lot) bool { return l.Code == lot })
		if at < 0 {
			continue
		}
		for i := max(0, at-near); i <= min(len(same)-1, at+near); i++ {
			if i != at {
				out = append(out, Neighbour{same[i].Code, own.vessels[k], kind, same[i].Results})
			}
		}
	}
	return out, nil
}

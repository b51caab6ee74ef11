package malthouse

import (
	"context"
	"slices"
	"time"

	"awn/ledger"
)

// ControlPoint is a point at which the house controls a hazard, with the limit
// of a figure.
type ControlPoint struct {
	Name, Hazard string
	Of           string // kind of thing: delivery, piece, lot, shipment
	Quantity     ledger.Quantity
	Least, Most  *float64 // nil where there is no such limit
	Act          string   // when it is beyond
}

// beyond reports whether a value is outside the limits. A figure that is below
// what a method can see is within a limit above it.
func (p ControlPoint) beyond(r ledger.Result) bool {
	return p.Least != nil && !r.Less && r.Value < *p.Least || p.Most != nil && r.Value > *p.Most
}

// Assured is what the record shows of one control point for one thing.
type Assured struct {
	Point     ControlPoint
	Thing     ledger.Ref
	Readings  []ledger.Result
	Beyond    []ledger.Result
	Decisions []Told // hold, release, decision about the thing after a reading beyond its limit
}

// Missing reports whether nobody measured it.
func (a Assured) Missing() bool { return len(a.Readings) == 0 }

// Open reports whether a reading lies beyond its limit and nobody decided.
func (a Assured) Open() bool { return len(a.Beyond) > 0 && len(a.Decisions) == 0 }

// Assurance is the account of a house's control points for one piece: of the
// barley behind it, the piece, its malt and the loads that hold some of it.
type Assurance struct {
	Piece  ledger.Code
	Rows   []Assured
	Head   ledger.Head
	Leaves []LotLeave
}

// LotLeave is a lot of the piece and how it stands.
type LotLeave struct {
	Lot   ledger.Code
	Leave ledger.Leave
}

// Complete reports whether every point was measured, and every reading beyond
// its limit decided on.
func (a Assurance) Complete() bool {
	return !slices.ContainsFunc(a.Rows, func(r Assured) bool { return r.Missing() || r.Open() })
}

// Assure goes through the control points for a piece.
func (h *House) Assure(ctx context.Context, a Actor, piece ledger.Code, points []ControlPoint) (Assurance, error) {
	out := Assurance{Piece: piece}
	t, err := h.Trace(ctx, a, ledger.In(ledger.Piece, piece).Ref(), ledger.AsEntered)
	if err != nil {
		return out, err
	}
	out.Head = t.Head
	things := map[string][]ledger.Ref{ledger.Piece: {t.Thing}}
	for _, s := range t.Sources {
		if ref := ledger.Ref(s.Origin); ledger.Account(ref).Kind() == ledger.DeliveryKind {
			things[ledger.DeliveryKind] = append(things[ledger.DeliveryKind], ref)
		}
	}
	r := h.Store.Read(h.Code)
	dressed, _, err := bodies[*ledger.Dressing](ctx, r, t.Thing, ledger.Dressed)
	if err != nil {
		return out, err
	}
	for _, d := range dressed {
		for _, m := range d.Malt {
			ref := ledger.To(ledger.LotKind, m.Lot)
			things[ledger.LotKind] = append(things[ledger.LotKind], ref)
			s, _, err := r.Subject(ctx, ref)
			if err != nil {
				return out, err
			}
			out.Leaves = append(out.Leaves, LotLeave{m.Lot, s.Leave})
		}
	}
	for _, x := range t.Holders {
		if x.Place.Kind() == ledger.Shipment {
			things[ledger.Shipment] = append(things[ledger.Shipment], x.Place.Ref())
		}
	}
	for _, p := range points {
		for _, of := range things[p.Of] {
			row, err := h.assured(ctx, r, p, of)
			if err != nil {
				return out, err
			}
			out.Rows = append(out.Rows, row)
		}
	}
	return out, nil
}

// assured is what the record shows of one point for one thing.
func (h *House) assured(ctx context.Context, r ledger.Reader, p ControlPoint, of ledger.Ref) (Assured, error) {
	row := Assured{Point: p, Thing: of}
	found, err := r.Results(ctx, of)
	if err != nil {
		return row, err
	}
	for _, x := range found {
		if x.Quantity != p.Quantity {
			continue
		}
		row.Readings = append(row.Readings, x)
		if p.beyond(x) {
			row.Beyond = append(row.Beyond, x)
		}
	}
	if p.Of == ledger.DeliveryKind && p.Quantity == "moisture_wb" {
		if err := received(ctx, r, &row); err != nil {
			return row, err
		}
	}
	if len(row.Beyond) == 0 {
		return row, nil
	}
	told, err := h.told(ctx, r, of)
	for _, t := range told {
		switch t.Body.(type) {
		case *ledger.Hold, *ledger.Release, *ledger.Decision:
			if !t.Struck {
				row.Decisions = append(row.Decisions, t)
			}
		}
	}
	return row, err
}

// received takes the moisture that a load was weighed in with for a reading.
func received(ctx context.Context, r ledger.Reader, row *Assured) error {
	all, _, err := bodies[*ledger.Receipt](ctx, r, row.Thing, ledger.Received)
	for _, b := range all {
		if b.Amount.MoistureWB == nil {
			continue
		}
		x := ledger.Result{Of: row.Thing, Quantity: row.Point.Quantity, Value: float64(*b.Amount.MoistureWB), Lab: "gate"}
		row.Readings = append(row.Readings, x)
		if row.Point.beyond(x) {
			row.Beyond = append(row.Beyond, x)
		}
	}
	return err
}

// PiecesOf are the pieces that were cast in a stretch of time, the first first.
func (h *House) PiecesOf(ctx context.Context, a Actor, from, to time.Time) (out []ledger.Code, err error) {
	all, err := h.Pieces(ctx, a)
	for _, p := range slices.Backward(all) {
		if at := time.UnixMilli(p.Cast.Fact.At); !at.Before(from) && at.Before(to) {
			out = append(out, p.Code)
		}
	}
	return out, err
}

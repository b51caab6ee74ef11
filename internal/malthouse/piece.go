package malthouse

import (
	"context"

	"awn/ledger"
)

// Plan is what a piece is expected to give, worked out before it was cast.
type Plan struct {
	Awn          string  `json:"awn"` // PlanKind
	CastKg       float64 `json:"cast_kg"`
	MaltKg       float64 `json:"malt_kg"`
	MoistureWB   float64 `json:"moisture_wb"` // of the malt
	CulmsKg      float64 `json:"culms_kg"`
	ScreeningsKg float64 `json:"screenings_kg"`
	RespiredDM   float64 `json:"respired_dm"` // share of the dry matter cast
	LeachedDM    float64 `json:"leached_dm"`
	RestD        float64 `json:"rest_d,omitempty"` // between stripping and dispatch
	Model        int     `json:"model"`

	Stages []PlanStage `json:"stages,omitempty"`
	Inputs []PlanInput `json:"inputs,omitempty"` // the documents it was worked out from, that of the piece first
	Curve  *PlanCurve  `json:"curve,omitempty"`
}

// PlanStage is one stage of a plan, and the vessel that the plant has for it.
type PlanStage struct {
	Stage  string  `json:"stage"`
	FromH  float64 `json:"from_h"`
	ToH    float64 `json:"to_h"`
	Vessel string  `json:"vessel,omitempty"`
}

// PlanInput is a document that a plan was worked out from. Its text is kept
// beside the plan, so that the plan can be worked out again.
type PlanInput struct {
	Kind   string `json:"kind"`
	File   string `json:"file"`
	SHA256 string `json:"sha256"`
	Text   []byte `json:"-"` // when a piece is started
}

// PlanCurve is the course that was expected, at equal steps of time; nothing
// stands for a reading that a stage does not have.
type PlanCurve struct {
	EveryMin int                   `json:"every_min"`
	Readings map[string][]*float64 `json:"readings"` // by their keys, as in moisture_wb
}

// PlanKind is the first key of a plan in a record.
const PlanKind = "plan/1"

// Start casts a piece. With a plan, what comes of it can be held against what
// was expected.
func (h *House) Start(ctx context.Context, a Actor, e Entry, in *ledger.Casting, plan *Plan) (Done, error) {
	return h.enter(ctx, a, UseStart, e, in, steps{
		complete: func(ctx context.Context, d *desk) error {
			var was ledger.Casting
			if b, ok := before[*ledger.Casting](d); ok {
				was = *b
			}
			if err := d.number(ctx, &in.Piece, was.Piece, letterPiece, ledger.Piece); err != nil {
				return err
			}
			if err := d.castHeld(ctx, in.From); err != nil {
				return err
			}
			if err := d.carriesOut(ctx, in); err != nil {
				return err
			}
			return d.moistenDraws(ctx, in.From, was.From)
		},
		after: func(ctx context.Context, d *desk, f ledger.Fact) error {
			if err := d.overdrawn(ctx, places(in.From)...); err != nil || plan == nil {
				return err
			}
			return d.plan(ctx, f, in.Piece, *plan)
		},
		said: func() Said {
			return say("cast", "piece", string(in.Piece), "vessel", in.Vessel).with("cast_kg", kg(total(in.From)))
		},
	})
}

// castHeld notes places on hold that a piece is cast from. It is cast already.
func (d *desk) castHeld(ctx context.Context, from []ledger.Draw) error {
	for _, p := range places(from) {
		s, _, err := d.Subject(ctx, p.Ref())
		if err != nil {
			return err
		}
		if s.Leave == ledger.OnHold {
			d.note(say("cast-held", "place", string(p)))
		}
	}
	return nil
}

// planned marks the decision that a plan hangs on.
const planned = "planned"

// plan keeps a plan as a document and hangs it on the piece.
func (d *desk) plan(ctx context.Context, f ledger.Fact, piece ledger.Code, p Plan) error {
	sha, err := d.shelve(ctx, p)
	if err != nil {
		return err
	}
	_, err = d.append(ctx, followID(f.ID, planned), &ledger.Decision{
		Of: ledger.In(ledger.Piece, piece).Ref(), Decision: planned, Document: sha,
	})
	return err
}

// Act is one thing that is done to a piece.
type Act string

// The acts.
const (
	Immerse Act = "immerse"
	DrainIt Act = "drain"
	Couch   Act = "couch"
	Turn    Act = "turn"
	Spray   Act = "spray"
	Kiln    Act = "kiln"
	Strip   Act = "strip"
)

// Acts lists them in the order in which a piece meets them.
func Acts() []Act { return []Act{Immerse, DrainIt, Couch, Turn, Spray, Kiln, Strip} }

// Deed is an act with what belongs to it.
type Deed struct {
	Piece  ledger.Code
	Act    Act
	Water  *ledger.Water // put on or let off
	TempC  *float64      // of the water
	Vessel string
	Note   string
}

// body is the fact of a deed, and what it is called when it is said.
func (d Deed) body() (ledger.Body, error) {
	switch d.Act {
	case Immerse:
		return &ledger.Watering{Piece: d.Piece, Water: d.Water, TempC: d.TempC, Note: d.Note}, nil
	case DrainIt:
		return &ledger.Draining{Piece: d.Piece, Water: d.Water, Note: d.Note}, nil
	case Couch:
		return &ledger.Couching{Piece: d.Piece, Vessel: d.Vessel, Note: d.Note}, nil
	case Turn:
		return &ledger.Turning{Piece: d.Piece, Note: d.Note}, nil
	case Spray:
		return &ledger.Spraying{Piece: d.Piece, Water: d.Water, Note: d.Note}, nil
	case Kiln:
		return &ledger.Kilning{Piece: d.Piece, Vessel: d.Vessel, Note: d.Note}, nil
	case Strip:
		return &ledger.Stripping{Piece: d.Piece, Note: d.Note}, nil
	}
	var all []string
	for _, a := range Acts() {
		all = append(all, string(a))
	}
	return nil, refuse("use.act.unknown", string(d.Act), all...)
}

// usual is the state that a piece is in when an act is due.
var usual = map[Act][]ledger.State{
	Immerse: {ledger.InSteep}, DrainIt: {ledger.InSteep}, Couch: {ledger.InSteep},
	Turn: {ledger.Germinating}, Spray: {ledger.Germinating}, Kiln: {ledger.Germinating}, Strip: {ledger.OnKiln},
}

// Act records what was done to a piece. One that is out of the usual order is
// said, and recorded all the same: it has happened.
func (h *House) Act(ctx context.Context, a Actor, e Entry, in Deed) (Done, error) {
	body, err := in.body()
	if err != nil {
		return Done{}, err
	}
	return h.enter(ctx, a, UseAct, e, body, steps{
		complete: func(ctx context.Context, d *desk) error {
			s, err := known(ctx, d, ledger.In(ledger.Piece, in.Piece).Ref())
			if err != nil || d.was != nil {
				return err
			}
			for _, u := range usual[in.Act] {
				if s.State == u {
					return nil
				}
			}
			d.note(say("out-of-order", "piece", string(in.Piece), "state", string(s.State)))
			return nil
		},
		said: func() Said {
			s := say("act-"+string(in.Act), "piece", string(in.Piece), "vessel", in.Vessel)
			if in.Water != nil {
				s.What += "-water"
				s = s.with("water_kg", kg(in.Water.WaterKg))
			}
			return s
		},
	})
}

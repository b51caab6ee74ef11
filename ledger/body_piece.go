package ledger

import "fmt"

// Casting begins a piece.
type Casting struct {
	Piece  Code   `json:"piece"`
	Vessel string `json:"vessel,omitempty"`
	From   []Draw `json:"from"`
	Note   string `json:"note,omitempty"`
	Does   FactID `json:"does,omitempty"` // the intention that it carries out
}

// Kind is cast.
func (*Casting) Kind() Kind { return Cast }

func (b *Casting) check(found *Faults) { checkDraws(b.From, In(Piece, b.Piece), found) }

func (b *Casting) effect(e *Effect) {
	to := In(Piece, b.Piece)
	e.draws(b.From, to)
	e.touch(to.Ref(), InSteep)
}

// Water is a mass of water as it was read or worked out.
type Water struct {
	WaterKg  Grams    `json:"water_kg"`
	UWaterKg Grams    `json:"u_water_kg,omitempty"` // its standard uncertainty
	Standing Standing `json:"standing"`
}

func (w *Water) mass() Mass {
	if w == nil {
		return Mass{}
	}
	return Mass{Water: w.WaterKg, UWater: w.UWaterKg, Standing: w.Standing}
}

// Watering puts a piece under water. The water is what the grain will hold of
// it and what will be let off again.
type Watering struct {
	Piece Code     `json:"piece"`
	Water *Water   `json:"water,omitempty"`
	TempC *float64 `json:"water_c,omitempty"`
	Note  string   `json:"note,omitempty"`
}

// Kind is immersed.
func (*Watering) Kind() Kind    { return Immersed }
func (*Watering) check(*Faults) {}

func (b *Watering) effect(e *Effect) {
	piece := In(Piece, b.Piece)
	e.flow(Mains, piece, b.Water.mass())
	e.touch(piece.Ref(), InSteep)
}

// Draining lets water off a piece, with what it leached.
type Draining struct {
	Piece      Code   `json:"piece"`
	Water      *Water `json:"water,omitempty"`
	LeachedKg  Grams  `json:"leached_kg_dm,omitempty"`
	ULeachedKg Grams  `json:"u_leached_kg_dm,omitempty"`
	Note       string `json:"note,omitempty"`
}

// Kind is drained.
func (*Draining) Kind() Kind    { return Drained }
func (*Draining) check(*Faults) {}

func (b *Draining) effect(e *Effect) {
	piece := In(Piece, b.Piece)
	e.flow(piece, Drain, b.Water.mass())
	e.flow(piece, Drain, Mass{Dry: b.LeachedKg, UDry: b.ULeachedKg, Standing: Computed}).Alike = true
	e.touch(piece.Ref(), "")
}

// Spraying puts water on a piece in germination.
type Spraying struct {
	Piece Code   `json:"piece"`
	Water *Water `json:"water,omitempty"`
	Note  string `json:"note,omitempty"`
}

// Kind is sprayed.
func (*Spraying) Kind() Kind    { return Sprayed }
func (*Spraying) check(*Faults) {}

func (b *Spraying) effect(e *Effect) {
	piece := In(Piece, b.Piece)
	e.flow(Mains, piece, b.Water.mass())
	e.touch(piece.Ref(), "")
}

// Couching brings a piece to its germination vessel.
type Couching struct {
	Piece  Code   `json:"piece"`
	Vessel string `json:"vessel,omitempty"`
	Note   string `json:"note,omitempty"`
}

// Kind is couched.
func (*Couching) Kind() Kind         { return Couched }
func (*Couching) check(*Faults)      {}
func (b *Couching) effect(e *Effect) { e.touch(In(Piece, b.Piece).Ref(), Germinating) }

// Turning turns a piece.
type Turning struct {
	Piece Code   `json:"piece"`
	Note  string `json:"note,omitempty"`
}

// Kind is turned.
func (*Turning) Kind() Kind         { return Turned }
func (*Turning) check(*Faults)      {}
func (b *Turning) effect(e *Effect) { e.touch(In(Piece, b.Piece).Ref(), "") }

// Kilning brings a piece to the kiln.
type Kilning struct {
	Piece  Code   `json:"piece"`
	Vessel string `json:"vessel,omitempty"`
	Note   string `json:"note,omitempty"`
}

// Kind is kilned.
func (*Kilning) Kind() Kind         { return Kilned }
func (*Kilning) check(*Faults)      {}
func (b *Kilning) effect(e *Effect) { e.touch(In(Piece, b.Piece).Ref(), OnKiln) }

// Losses are what left a piece into the air, and the water the corn made.
type Losses struct {
	RespiredKg    Grams    `json:"respired_kg_dm,omitempty"`
	URespiredKg   Grams    `json:"u_respired_kg_dm,omitempty"`
	MetabolicKg   Grams    `json:"metabolic_water_kg,omitempty"`
	UMetabolicKg  Grams    `json:"u_metabolic_water_kg,omitempty"`
	EvaporatedKg  Grams    `json:"evaporated_water_kg,omitempty"`
	UEvaporatedKg Grams    `json:"u_evaporated_water_kg,omitempty"`
	Standing      Standing `json:"standing"`
}

func (l *Losses) effect(piece Account, e *Effect) {
	if l == nil {
		return
	}
	e.flow(piece, Respired, Mass{Dry: l.RespiredKg, UDry: l.URespiredKg, Standing: l.Standing}).Alike = true
	e.flow(Metabolic, piece, Mass{Water: l.MetabolicKg, UWater: l.UMetabolicKg, Standing: l.Standing})
	e.flow(piece, Air, Mass{Water: l.EvaporatedKg, UWater: l.UEvaporatedKg, Standing: l.Standing})
}

// Stripping takes a piece off the kiln.
type Stripping struct {
	Piece  Code    `json:"piece"`
	Losses *Losses `json:"losses,omitempty"`
	Note   string  `json:"note,omitempty"`
}

// Kind is stripped.
func (*Stripping) Kind() Kind    { return Stripped }
func (*Stripping) check(*Faults) {}

func (b *Stripping) effect(e *Effect) {
	piece := In(Piece, b.Piece)
	b.Losses.effect(piece, e)
	e.touch(piece.Ref(), OffKiln)
}

// Dressing parts malt from culms and screenings.
type Dressing struct {
	Piece  Code     `json:"piece"`
	Losses *Losses  `json:"losses,omitempty"` // those not written down before
	Malt   []Malted `json:"malt"`
	Beside []Beside `json:"byproducts,omitempty"`
	Note   string   `json:"note,omitempty"`
}

// Malted is malt of one lot that went to one place.
type Malted struct {
	Lot    Code    `json:"lot"`
	To     Account `json:"to"`
	Amount Amount  `json:"amount"`
}

// Beside is what came off beside the malt.
type Beside struct {
	What   What    `json:"what"`
	To     Account `json:"to"`
	Amount Amount  `json:"amount"`
}

// What is a kind of by-product.
type What string

// The by-products. Culms grow on every corn alike; screenings and dust are
// some corns, or parts of some.
const (
	Culms      What = "culms"
	Screenings What = "screenings"
	DustOff    What = "dust"
)

func (w *What) read(v any, path string, found *Faults) {
	choose(w, v, path, found, []What{Culms, Screenings, DustOff})
}

// Kind is dressed.
func (*Dressing) Kind() Kind { return Dressed }

func (b *Dressing) check(found *Faults) {
	piece := In(Piece, b.Piece)
	for i, m := range b.Malt {
		checkDressed(fmt.Sprintf("malt[%d]", i), piece, m.To, m.Amount, found)
	}
	for i, s := range b.Beside {
		checkDressed(fmt.Sprintf("byproducts[%d]", i), piece, s.To, s.Amount, found)
	}
}

func checkDressed(path string, piece, to Account, a Amount, found *Faults) {
	a.check(path+".amount", found)
	if to == piece {
		found.add("record.place.same", path+".to", to)
	}
}

// effect lets go first what every corn loses alike, then the corns themselves.
func (b *Dressing) effect(e *Effect) {
	piece := In(Piece, b.Piece)
	b.Losses.effect(piece, e)
	for _, s := range b.Beside {
		if s.What == Culms {
			e.flow(piece, s.To, s.Amount.mass()).Alike = true
			e.touch(s.To.Ref(), "")
		}
	}
	for _, s := range b.Beside {
		if s.What != Culms {
			e.flow(piece, s.To, s.Amount.mass())
			e.touch(s.To.Ref(), "")
		}
	}
	for _, m := range b.Malt {
		e.flow(piece, m.To, m.Amount.mass())
		e.touch(m.To.Ref(), "")
		e.touch(To(LotKind, m.Lot), Open)
	}
	e.touch(piece.Ref(), Done)
}

package ledger

import "fmt"

// Draw is an amount taken from one place.
type Draw struct {
	Place  Account `json:"place"`
	Amount Amount  `json:"amount"`
}

func checkDraws(draws []Draw, to Account, found *Faults) {
	for i, d := range draws {
		path := fmt.Sprintf("from[%d]", i)
		d.Amount.check(path+".amount", found)
		if d.Place == to {
			found.add("record.place.same", path+".place", to)
		}
	}
}

// Receipt is a load of barley, weighed in.
type Receipt struct {
	Lot     Code    `json:"lot"`
	To      Account `json:"to"`
	Amount  Amount  `json:"amount"`
	GrossKg *Grams  `json:"gross_kg,omitempty"` // the vehicle full
	TareKg  *Grams  `json:"tare_kg,omitempty"`  // and empty
	Grower  string  `json:"grower,omitempty"`
	Grown   string  `json:"grown,omitempty"` // field and place
	Variety string  `json:"variety,omitempty"`
	Crop    int64   `json:"crop_year,omitempty"`
	Ticket  string  `json:"ticket,omitempty"`
	Vehicle string  `json:"vehicle,omitempty"`
	Note    string  `json:"note,omitempty"`
}

// Kind is received.
func (*Receipt) Kind() Kind { return Received }

func (b *Receipt) check(found *Faults) {
	b.Amount.check("amount", found)
	if b.GrossKg != nil && b.TareKg != nil && *b.GrossKg-*b.TareKg != b.Amount.FreshKg {
		net, _ := (*b.GrossKg - *b.TareKg).MarshalJSON()
		found.add("record.net.differs", "amount.fresh_kg", string(net))
	}
}

func (b *Receipt) effect(e *Effect) {
	e.flow(Field, b.To, b.Amount.mass()).Lot = b.Lot
	e.touch(To(DeliveryKind, b.Lot), Open)
	e.touch(b.To.Ref(), "")
}

// Move takes grain or malt from one place to another.
type Move struct {
	From   Account `json:"from"`
	To     Account `json:"to"`
	Amount Amount  `json:"amount"`
	Note   string  `json:"note,omitempty"`
}

// Kind is moved.
func (*Move) Kind() Kind { return Moved }

func (b *Move) check(found *Faults) { checkDraws([]Draw{{b.From, b.Amount}}, b.To, found) }

func (b *Move) effect(e *Effect) {
	e.draws([]Draw{{b.From, b.Amount}}, b.To)
	e.touch(b.To.Ref(), "")
}

// Blending makes one lot of several.
type Blending struct {
	Lot  Code    `json:"lot"`
	To   Account `json:"to"`
	From []Draw  `json:"from"`
	Note string  `json:"note,omitempty"`
}

// Kind is blended.
func (*Blending) Kind() Kind { return Blended }

func (b *Blending) check(found *Faults) { checkDraws(b.From, b.To, found) }

func (b *Blending) effect(e *Effect) {
	e.draws(b.From, b.To)
	e.touch(b.To.Ref(), "")
	e.touch(To(LotKind, b.Lot), Open)
}

// Shipping sends a load out. A shipment may be loaded by several facts.
type Shipping struct {
	Shipment Code   `json:"shipment"`
	Receiver string `json:"receiver"`
	From     []Draw `json:"from"`
	Vehicle  string `json:"vehicle,omitempty"`
	Seal     string `json:"seal,omitempty"`
	Note     string `json:"note,omitempty"`
}

// Kind is shipped.
func (*Shipping) Kind() Kind { return Shipped }

func (b *Shipping) check(found *Faults) { checkDraws(b.From, In(Shipment, b.Shipment), found) }

func (b *Shipping) effect(e *Effect) {
	to := In(Shipment, b.Shipment)
	e.draws(b.From, to)
	e.touch(to.Ref(), Gone)
}

// Return takes a load, or part of it, back.
type Return struct {
	Shipment Code    `json:"shipment"`
	To       Account `json:"to"`
	Amount   Amount  `json:"amount"`
	Reason   string  `json:"reason"`
}

// Kind is returned.
func (*Return) Kind() Kind { return Returned }

func (b *Return) check(found *Faults) {
	checkDraws([]Draw{{In(Shipment, b.Shipment), b.Amount}}, b.To, found)
}

func (b *Return) effect(e *Effect) {
	from := In(Shipment, b.Shipment)
	e.draws([]Draw{{from, b.Amount}}, b.To)
	e.touch(from.Ref(), BackAgain)
	e.touch(b.To.Ref(), "")
}

// Cleaning says that a place was emptied and cleaned.
type Cleaning struct {
	Place Account `json:"place"`
	How   string  `json:"how,omitempty"`
}

// Kind is cleaned.
func (*Cleaning) Kind() Kind         { return Cleaned }
func (*Cleaning) check(*Faults)      {}
func (b *Cleaning) effect(e *Effect) { e.touch(b.Place.Ref(), "") }

// Adjustment sets the book of a place to what was counted. What the book said
// was read in the same transaction, so that the difference is the fact's own.
type Adjustment struct {
	Place     Account `json:"place"`
	Counted   Amount  `json:"counted"`
	BookDryKg Signed  `json:"book_kg_dm"`    // dry matter before
	BookWater Signed  `json:"book_water_kg"` // water before
	Against   Against `json:"against"`
	Month     Month   `json:"month"`
	Lot       Code    `json:"lot,omitempty"` // what an opening stock is called
	Reason    string  `json:"reason"`
}

// Against is where a difference goes.
type Against string

// The two accounts of differences, and dust, which is one with a name.
const (
	AgainstUnexplained Against = "unexplained"
	AgainstAdjustment  Against = "adjustment"
	AgainstDust        Against = "dust"
)

func (a *Against) read(v any, path string, found *Faults) {
	choose(a, v, path, found, []Against{AgainstUnexplained, AgainstAdjustment, AgainstDust})
}

// Kind is adjusted.
func (*Adjustment) Kind() Kind { return Adjusted }

func (b *Adjustment) check(found *Faults) { b.Counted.check("counted", found) }

// Other is the account the difference goes to.
func (b *Adjustment) Other() Account {
	if b.Against == AgainstUnexplained {
		return Unexplained(b.Place, string(b.Month))
	}
	return Account(b.Against)
}

func (b *Adjustment) effect(e *Effect) {
	counted := b.Counted.mass()
	counted.Dry -= Grams(b.BookDryKg)
	counted.Water -= Grams(b.BookWater)
	// What is there too much came from the other account; what is missing went
	// there. The two goods may differ in sign, so each has its own flow.
	for _, m := range []Mass{
		{Dry: counted.Dry, UDry: counted.UDry, Standing: counted.Standing},
		{Water: counted.Water, UWater: counted.UWater, Standing: counted.Standing},
	} {
		from, to := b.Other(), b.Place
		if m.Dry < 0 || m.Water < 0 {
			from, to, m.Dry, m.Water = to, from, -m.Dry, -m.Water
		}
		e.flow(from, to, m).Lot = b.Lot
	}
	if b.Lot != "" {
		e.touch(To(LotKind, b.Lot), Open)
	}
	e.touch(b.Place.Ref(), "")
}

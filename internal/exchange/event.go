package exchange

import (
	"net/url"
	"strings"
	"time"

	"awn/ledger"
)

// name is the URI of a thing of the record.
func (p Partner) name(r ledger.Ref) string {
	a := ledger.Account(r)
	if gtin := p.GTIN[a.Kind()]; gtin != "" {
		return "https://id.gs1.org/01/" + gtin + "/10/" + a.Code()
	}
	return p.own(a.Kind(), a.Code())
}

// own is a name that the house gives. Words of people are written so that a
// URI can hold them.
func (p Partner) own(kind, code string) string {
	return strings.TrimSuffix(p.Base, "/") + "/" + kind + "/" + url.PathEscape(code)
}

// amount is a mass of a thing; kgm is the kilogram in the codes of UN/ECE
// recommendation 20.
func (p Partner) amount(r ledger.Ref, a ledger.Amount) quantity {
	x := float64(a.FreshKg) / 1000
	return quantity{p.name(r), &x, "KGM"}
}

func (p Partner) draws(from []ledger.Draw) []quantity {
	out := make([]quantity, len(from))
	for i, d := range from {
		out[i] = p.amount(d.Place.Ref(), d.Amount)
	}
	return out
}

func (p Partner) at(r ledger.Ref) *where { return &where{p.name(r)} }

// step is how one kind of fact is told.
type step struct{ kind, action, step, disposition string }

// Kinds of event.
const (
	object         = "ObjectEvent"
	transformation = "TransformationEvent"
)

// steps are the kinds of fact that give events, in words of the Core Business
// Vocabulary 2.0.
//
// Assumed: which word fits which deed of a malthouse is common practice.
var steps = map[ledger.Kind]step{
	ledger.Received: {object, "OBSERVE", "receiving", "in_progress"},
	ledger.Sampled:  {object, "OBSERVE", "sampling", "in_progress"},
	ledger.Analysed: {object, "OBSERVE", "inspecting", "in_progress"},
	ledger.Moved:    {object, "OBSERVE", "storing", "in_progress"},
	ledger.Cast:     {transformation, "", "commissioning", "in_progress"},
	ledger.Dressed:  {transformation, "", "commissioning", "in_progress"},
	ledger.Blended:  {transformation, "", "creating_class_instance", "in_progress"},
	ledger.Released: {object, "OBSERVE", "inspecting", "conformant"},
	ledger.Held:     {object, "OBSERVE", "holding", "non_conformant"},
	ledger.Shipped:  {object, "OBSERVE", "shipping", "in_transit"},
	ledger.Returned: {object, "OBSERVE", "receiving", "returned"},
	ledger.Adjusted: {object, "OBSERVE", "stock_taking", "active"},
}

// event tells a fact, nil if its kind is not told.
func (p Partner) event(t told) (*event, error) {
	s, ok := steps[t.Kind]
	if !ok {
		return nil, nil
	}
	b, err := ledger.Decode(t.Kind, t.Schema, t.Body)
	if err != nil {
		return nil, err
	}
	wall := onTheWall(t.At, t.OffsetMin)
	e := &event{
		Type: s.kind, ID: "urn:uuid:" + t.ID, Time: wall, Offset: offset(t.OffsetMin),
		Action: s.action, Step: s.step, Disposition: s.disposition,
	}
	p.fill(e, b)
	return e, nil
}

// offset writes minutes as "+01:00"; UTC itself is "+00:00".
func offset(minutes int) string {
	return time.Unix(0, 0).In(time.FixedZone("", minutes*60)).Format("-07:00")
}

// fill says of an event what its fact says.
func (p Partner) fill(e *event, b ledger.Body) {
	switch b := b.(type) {
	case *ledger.Receipt:
		e.Quantities = []quantity{p.amount(ledger.To(ledger.DeliveryKind, b.Lot), b.Amount)}
		e.Location = p.at(b.To.Ref())
		if b.Ticket != "" {
			e.Papers = []paperOf{{"recadv", p.own("ticket", b.Ticket)}}
		}
		if b.Grower != "" {
			e.Sources = []source{{"possessing_party", p.own("party", b.Grower)}}
		}
	case *ledger.Sampling:
		e.EPCs, e.Point = []string{p.name(ledger.To(ledger.SampleKind, b.Sample))}, p.at(b.Of)
	case *ledger.Analysis:
		e.Quantities = []quantity{{Class: p.name(b.Of)}}
		e.Papers = []paperOf{{"testres", e.ID}}
	case *ledger.Move:
		e.Quantities = p.draws([]ledger.Draw{{Place: b.From, Amount: b.Amount}})
		e.Point, e.Location = p.at(b.From.Ref()), p.at(b.To.Ref())
	case *ledger.Casting:
		e.Inputs, e.Made = p.draws(b.From), p.name(ledger.In(ledger.Piece, b.Piece).Ref())
	case *ledger.Dressing:
		for _, m := range b.Malt {
			e.Outputs = append(e.Outputs, p.amount(ledger.To(ledger.LotKind, m.Lot), m.Amount))
		}
		for _, s := range b.Beside {
			e.Outputs = append(e.Outputs, p.amount(s.To.Ref(), s.Amount))
		}
		e.Made = p.name(ledger.In(ledger.Piece, b.Piece).Ref())
	case *ledger.Blending:
		e.Inputs, e.Location = p.draws(b.From), p.at(b.To.Ref())
		e.Outputs = []quantity{p.amount(ledger.To(ledger.LotKind, b.Lot), sum(b.From))}
	default:
		p.fillOut(e, b)
	}
}

// fillOut is fill for what keeps grain in or sends it out.
func (p Partner) fillOut(e *event, b ledger.Body) {
	const good, bad = "conformant", "non_conformant"
	switch b := b.(type) {
	case *ledger.Release:
		e.Quantities = []quantity{{Class: p.name(b.Of)}}
		e.Persistent = map[string][]string{"set": {good}, "unset": {bad}}
	case *ledger.Hold:
		e.Quantities = []quantity{{Class: p.name(b.Of)}}
		e.Persistent = map[string][]string{"set": {bad}, "unset": {good}}
	case *ledger.Shipping:
		e.Quantities = p.draws(b.From)
		e.Papers = []paperOf{{"desadv", p.name(ledger.In(ledger.Shipment, b.Shipment).Ref())}}
		e.Goals = []goal{{"possessing_party", p.own("party", b.Receiver)}}
	case *ledger.Return:
		shipment := ledger.In(ledger.Shipment, b.Shipment).Ref()
		e.Quantities, e.Location = []quantity{p.amount(shipment, b.Amount)}, p.at(b.To.Ref())
		e.Papers = []paperOf{{"rma", p.name(shipment)}}
	case *ledger.Adjustment:
		e.Quantities, e.Location = []quantity{p.amount(b.Place.Ref(), b.Counted)}, p.at(b.Place.Ref())
	}
}

// sum is the fresh mass of several draws.
func sum(from []ledger.Draw) (a ledger.Amount) {
	for _, d := range from {
		a.FreshKg += d.Amount.FreshKg
	}
	return a
}

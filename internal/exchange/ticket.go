package exchange

import (
	"iter"
	"math"
	"strconv"
	"strings"

	"awn/ledger"
	"awn/unit"
)

// ticket reads a row of the weighbridge.
func (r *row) ticket() ledger.Body {
	b := &ledger.Receipt{
		Lot: ledger.Code(r.needed("lot")), To: place(ledger.Silo, r.needed("to")),
		Grower: r.text("grower"), Grown: r.text("grown"), Variety: r.text("variety"),
		Ticket: r.text("ticket"), Vehicle: r.text("vehicle"), Note: r.text("note"),
	}
	if year := r.text("crop_year"); year != "" {
		if r.in.workbook {
			year = shortNumber(year)
		}
		n, err := strconv.ParseInt(year, 10, 64)
		if err != nil {
			r.in.fault(r.line, r.header("crop_year"), Fault{Code: "import.cell.whole", Got: year})
		}
		b.Crop = n
	}
	r.weights(b)
	r.moisture(&b.Amount)
	if b.Lot == "" {
		return b
	}
	r.once("lot", string(b.Lot))
	if id, in := r.in.by.Known[b.Lot]; in && id != r.in.id(r.line) {
		r.in.fault(r.line, r.header("lot"), Fault{Code: "import.row.entered", Got: string(b.Lot)})
	}
	return b
}

// place is a place inside: a bare code is one of the kind.
func place(kind, text string) ledger.Account {
	if text == "" || strings.Contains(text, ":") {
		return ledger.Account(text)
	}
	return ledger.In(kind, ledger.Code(text))
}

// ownRounding is what three weights, each rounded to the gram from another
// unit, can differ by.
const ownRounding ledger.Grams = 1

// weights reads gross, tare and net.
func (r *row) weights(b *ledger.Receipt) {
	before := len(r.in.faults)
	gross, hasGross := r.grams("gross")
	tare, hasTare := r.grams("tare")
	net, hasNet := r.grams("net")
	u, _ := r.grams("u_net")
	b.Amount.Standing, b.Amount.FreshKg, b.Amount.UFreshKg = ledger.Weighed, net, u
	if len(r.in.faults) > before {
		return
	}
	both := hasGross && hasTare
	if both {
		b.GrossKg, b.TareKg = &gross, &tare
	}
	switch difference := gross - tare; {
	case both && difference < 0:
		r.in.fault(r.line, r.header("tare"), Fault{Code: "import.weight.tare", Got: kilograms(tare) + " kg and " + kilograms(gross) + " kg"})
	case !hasNet && both:
		b.Amount.FreshKg = difference
	case !hasNet:
		r.in.fault(r.line, r.header("net"), Fault{Code: "import.weight.missing"})
	case both && net != difference && max(net-difference, difference-net) <= ownRounding:
		b.Amount.FreshKg = difference
	}
}

// moisture reads the moisture of a load. One that the map fixes was measured
// by nobody.
func (r *row) moisture(a *ledger.Amount) {
	r.needed("moisture")
	if x := r.quantity("moisture", unit.Moisture); !math.IsNaN(x) {
		wb := ledger.Fraction(figures(x))
		a.MoistureWB = &wb
	}
	if x := r.quantity("u_moisture", unit.Percent); !math.IsNaN(x) {
		a.UMoistureWB = ledger.Fraction(figures(x))
	}
	if _, measured := r.find("moisture"); !measured {
		a.MoistureStanding = ledger.Estimated
	}
}

// Deliveries gathers the receipt in force of each delivery, for [Entry.Known].
func Deliveries(facts iter.Seq2[ledger.Fact, error]) (map[ledger.Code]string, error) {
	known, lotOf := map[ledger.Code]string{}, map[string]ledger.Code{}
	for f, err := range facts {
		if err != nil {
			return nil, err
		}
		if f.Kind != ledger.Received && f.Kind != ledger.Struck {
			continue
		}
		b, err := ledger.Decode(f.Kind, f.Schema, f.Body)
		if err != nil {
			return nil, err
		}
		switch b := b.(type) {
		case *ledger.Receipt:
			known[b.Lot], lotOf[f.ID] = f.ID, b.Lot
		case *ledger.Strike:
			if lot := lotOf[string(b.Fact)]; known[lot] == string(b.Fact) {
				delete(known, lot)
			}
		}
	}
	return known, nil
}

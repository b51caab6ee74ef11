package slip

import (
	"context"
	"strconv"

	"awn/intake"
	"awn/internal/malthouse"
	"awn/ledger"
)

// Receive is a load of barley that came in.
type Receive struct {
	Weighing
	Net     string `placeholder:"MASS" help:"Net weight, as in 28.1 t."`
	Gross   string `placeholder:"MASS" help:"The vehicle full, in place of the net weight."`
	Tare    string `placeholder:"MASS" help:"And empty."`
	Silo    string `placeholder:"SILO" required:"" help:"Where it goes: B7."`
	Lot     string `placeholder:"CODE" help:"The house's own code; the next of the year without it."`
	Grower  string `placeholder:"NAME" help:"Who grew it."`
	Grown   string `placeholder:"WHERE" help:"Field and place."`
	Variety string `placeholder:"NAME" help:"Variety."`
	Crop    int64  `placeholder:"YEAR" help:"Year of harvest."`
	Ticket  string `placeholder:"NUMBER" help:"Number of the weighbridge ticket."`
	Vehicle string `placeholder:"NAME" help:"Number plate or name."`
	Note    string `placeholder:"TEXT" help:"Anything else."`

	found []ledger.Figure // of it at the gate
}

// Use is to receive.
func (*Receive) Use() malthouse.Use { return malthouse.UseReceive }

// Take fills in what the document of a load says, where nothing else was
// typed, and keeps what was found of it.
func (s *Receive) Take(l *intake.Load) {
	if s.Lot == "" {
		s.Lot = l.Code
	}
	if s.Variety == "" {
		s.Variety = l.Variety
	}
	if s.Net == "" && s.Gross == "" && l.NetKg > 0 {
		s.Net = decimal(l.NetKg) + " kg"
	}
	for _, k := range []struct {
		factor   intake.Factor
		quantity ledger.Quantity
		over     float64
	}{
		{intake.Moisture, "moisture_wb", 1}, {intake.Protein, "protein_dm", 1}, {intake.TestWeight, "test_weight_kg_hl", 1},
		{intake.FallingNumber, "falling_number_s", 1}, {intake.DON, "don_mg_kg_asis", 1e6},
	} {
		r, ok := l.Readings[k.factor]
		if !ok || !r.Value.Known() {
			continue
		}
		s.found = append(s.found, ledger.Figure{Quantity: k.quantity, Value: Tidy(r.Value.Mid * k.over)})
		if k.factor == intake.Moisture && s.Moisture == "" {
			s.Moisture = decimal(100*Tidy(r.Value.Mid)) + " % wb"
		}
	}
}

// decimal is a number as it can be read back.
func decimal(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// Enter receives the load.
func (s *Receive) Enter(ctx context.Context, h *malthouse.House, a malthouse.Actor, e malthouse.Entry) (malthouse.Done, error) {
	var r reader
	in := &ledger.Receipt{
		Lot: Code(s.Lot), To: Place(s.Silo, ledger.Silo), Grower: s.Grower, Grown: s.Grown, Variety: s.Variety,
		Crop: s.Crop, Ticket: s.Ticket, Vehicle: s.Vehicle, Note: s.Note,
	}
	net := s.Net
	switch {
	case s.Gross != "" && s.Tare != "":
		gross, tare := r.grams("gross", s.Gross), r.grams("tare", s.Tare)
		if tare > gross && r.faults == nil {
			r.faults.add("tare", "slip.tare.heavy", "")
		}
		in.GrossKg, in.TareKg = &gross, &tare
		if net == "" && r.faults == nil {
			net = decimal(float64(gross-tare)/1000) + " kg"
		}
	case s.Gross != "" || s.Tare != "":
		r.faults.add("gross", "slip.gross.alone", "")
	case net == "":
		r.faults.add("net", "slip.net.missing", "")
	}
	if net != "" {
		in.Amount = r.amount("net", net, s.Weighing)
	}
	if err := r.faults.orNil(); err != nil {
		return malthouse.Done{}, err
	}
	return h.Receive(ctx, a, e, in, s.found...)
}

// Move is grain or malt that went from one place to another.
type Move struct {
	From string `arg:"" placeholder:"FROM" help:"Where it lies: B7, malt:M1."`
	To   string `arg:"" placeholder:"TO" help:"Where it goes."`
	Mass string `arg:"" placeholder:"MASS" help:"How much, as in “12 t”."`
	Weighing
	Note string `placeholder:"TEXT" help:"Anything else."`
}

// Use is to move.
func (*Move) Use() malthouse.Use { return malthouse.UseMove }

// Enter moves it.
func (s *Move) Enter(ctx context.Context, h *malthouse.House, a malthouse.Actor, e malthouse.Entry) (malthouse.Done, error) {
	var r reader
	in := &ledger.Move{Amount: r.amount("mass", s.Mass, s.Weighing), Note: s.Note}
	err := r.faults.orNil()
	if err == nil {
		in.From, err = placed(ctx, h, s.From, ledger.Silo)
	}
	if err == nil {
		in.To, err = placed(ctx, h, s.To, in.From.Kind())
	}
	if err != nil {
		return malthouse.Done{}, err
	}
	return h.Move(ctx, a, e, in)
}

// Count is what was counted in a place.
type Count struct {
	Place string `arg:"" placeholder:"PLACE" help:"What was counted: B7, malt:M1."`
	Mass  string `arg:"" placeholder:"MASS" help:"What is there, as in “12 t”."`
	Weighing
	Reason  string `required:"" placeholder:"TEXT" help:"Why it was counted."`
	Against string `enum:"unexplained,adjustment,dust" default:"unexplained" placeholder:"WHICH" help:"Where the difference goes: unexplained, adjustment (the cause is known) or dust."`
	Lot     string `placeholder:"CODE" help:"What opening stock is called, so that it can be traced."`
}

// Use is to count.
func (*Count) Use() malthouse.Use { return malthouse.UseCount }

// Enter sets the book of the place.
func (s *Count) Enter(ctx context.Context, h *malthouse.House, a malthouse.Actor, e malthouse.Entry) (malthouse.Done, error) {
	var r reader
	in := malthouse.Count{
		Counted: r.amount("mass", s.Mass, s.Weighing), Against: ledger.Against(s.Against), Lot: Code(s.Lot), Reason: s.Reason,
	}
	err := r.faults.orNil()
	if err == nil {
		in.Place, err = placed(ctx, h, s.Place, ledger.Silo)
	}
	if err != nil {
		return malthouse.Done{}, err
	}
	return h.Count(ctx, a, e, in)
}

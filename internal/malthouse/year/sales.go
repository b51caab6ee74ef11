package year

import (
	"context"
	"fmt"

	"awn/examples"
	"awn/internal/malthouse"
	"awn/ledger"
)

// When and how often loads go out.
const (
	firstLoadDay = 55
	lastLoadDay  = 362
	loadDays     = 6.5
	loadT        = 26
)

// When lots are blended, a load comes back, and a wrong figure is struck.
var blendDays = []float64{120, 240}

const (
	returnDay = 150
	reworkDay = 153
	strikeDay = 205
)

// selling sends the loads out.
func (m *maker) selling() {
	for d := float64(firstLoadDay); d < lastLoadDay; d += loadDays {
		m.at(d, 14, m.ship)
	}
	for _, d := range blendDays {
		m.at(d, 9, m.blend)
	}
	m.at(returnDay, 11, m.takeBack)
	m.at(reworkDay, 7, m.rework)
	m.at(strikeDay, 16, m.correct)
}

// ship sends a load to the next brewer and certifies it.
func (m *maker) ship(ctx context.Context) error {
	from, most, err := m.fullest(ctx, m.released("malt:M5")...)
	if err != nil || most < weigh(loadT) {
		return err // not enough malt; the next load goes when there is
	}
	buyer := m.brewers[m.shipped%len(m.brewers)]
	m.shipped++
	in := &ledger.Shipping{
		Receiver: buyer.Name, From: []ledger.Draw{drawn(from, weigh(m.near(loadT, 0.4)))},
		Vehicle: fmt.Sprintf("WN %d", 3300+m.shipped%5), Seal: fmt.Sprint(88_400 + m.shipped),
	}
	in.From[0].Amount.FreshKg = min(in.From[0].Amount.FreshKg, most/scale*scale)
	if _, err := m.house.Ship(ctx, m.as(malthouse.Sales), m.entry(), in, ""); err != nil {
		return err
	}
	return m.certify(ctx, in.Shipment, "")
}

// released are the stores in which every lot has been released.
func (m *maker) released(others ...ledger.Account) (out []ledger.Account) {
	for _, s := range append(others, m.stores...) {
		if m.waiting[s] == 0 {
			out = append(out, s)
		}
	}
	return out
}

// certify issues the certificate of a load.
func (m *maker) certify(ctx context.Context, shipment, replaces ledger.Code) error {
	_, _, err := m.house.Certify(ctx, m.as(malthouse.Laboratory), m.entry(), malthouse.Issue{
		Shipment: shipment, Replaces: replaces, Product: "Pale malt", Statements: []string{"Contains gluten (barley)."},
	})
	return err
}

// blend makes one lot of what the two fullest stores hold.
func (m *maker) blend(ctx context.Context) error {
	first, most, err := m.fullest(ctx, m.released()...)
	if err != nil {
		return err
	}
	var rest []ledger.Account
	for _, s := range m.released() {
		if s != first {
			rest = append(rest, s)
		}
	}
	second, more, err := m.fullest(ctx, rest...)
	if err != nil {
		return err
	}
	in := &ledger.Blending{To: "malt:M5", From: []ledger.Draw{
		drawn(first, min(weigh(16), most/scale*scale)), drawn(second, min(weigh(12), more/scale*scale)),
	}}
	if _, err := m.house.Blend(ctx, m.as(malthouse.Floor), m.entry(), in); err != nil {
		return err
	}
	_, err = m.house.Release(ctx, m.as(malthouse.Laboratory), m.entry(), &ledger.Release{Of: ledger.To(ledger.LotKind, in.Lot), Reason: "both parts are released"})
	return err
}

// latest is the shipment that went out last.
func (m *maker) latest(ctx context.Context) (ledger.Code, error) {
	all, err := m.house.Store.Read(m.house.Code).Subjects(ctx, ledger.Shipment)
	if err != nil || len(all) == 0 {
		return "", err
	}
	last := all[0]
	for _, s := range all {
		if s.Opened > last.Opened {
			last = s
		}
	}
	return ledger.Code(ledger.Account(last.Ref).Code()), nil
}

// takeBack has the last load come back wet.
func (m *maker) takeBack(ctx context.Context) error {
	load, err := m.latest(ctx)
	if err != nil {
		return err
	}
	held, err := m.held(ctx, ledger.In(ledger.Shipment, load))
	if err != nil {
		return err
	}
	if _, err := m.house.Return(ctx, m.as(malthouse.Sales), m.entry(), &ledger.Return{
		Shipment: load, To: "malt:M9", Amount: ledger.Amount{FreshKg: held, Standing: ledger.Weighed}, Reason: "rain through an open hatch",
	}); err != nil {
		return err
	}
	certified, err := m.inForce(ctx, load)
	if err != nil || certified == "" {
		return err
	}
	_, err = m.house.Withdraw(ctx, m.as(malthouse.Laboratory), m.entry(), &ledger.Withdrawal{Certificate: certified, Reason: "the load came back"})
	return err
}

// inForce is the certificate of a load that was not taken back.
func (m *maker) inForce(ctx context.Context, load ledger.Code) (ledger.Code, error) {
	r := m.house.Store.Read(m.house.Code)
	for f, err := range r.Facts(ctx, ledger.Query{About: ledger.In(ledger.Shipment, load).Ref(), Kind: ledger.Certified}) {
		if err != nil {
			return "", err
		}
		body, err := ledger.Decode(f.Kind, f.Schema, f.Body)
		if err != nil {
			return "", err
		}
		if c, ok := body.(*ledger.Certificate); ok {
			s, _, err := r.Subject(ctx, ledger.To(ledger.CertificateKind, c.Certificate))
			if err != nil || s.State == ledger.Issued {
				return c.Certificate, err
			}
		}
	}
	return "", nil
}

// rework kilns what came back a second time.
func (m *maker) rework(ctx context.Context) error {
	wet, err := m.held(ctx, "malt:M9")
	if err != nil || wet == 0 {
		return err
	}
	in := &ledger.Casting{Piece: "R-0001", Vessel: "kiln 1", From: []ledger.Draw{drawn("malt:M9", wet)}, Note: "kilned again"}
	if _, err := m.house.Start(ctx, m.as(malthouse.Floor), m.entry(), in, nil); err != nil {
		return err
	}
	for i, act := range []malthouse.Act{malthouse.Kiln, malthouse.Strip} {
		m.later(float64(1+12*i), func(ctx context.Context) error {
			_, err := m.house.Act(ctx, m.as(malthouse.Floor), m.entry(), malthouse.Deed{Piece: in.Piece, Act: act, Vessel: "kiln 1"})
			return err
		})
	}
	m.later(16, func(ctx context.Context) error { return m.bookAgain(ctx, in.Piece) })
	return nil
}

// bookAgain books malt that was only dried: nothing was breathed away.
func (m *maker) bookAgain(ctx context.Context, piece ledger.Code) error {
	b, err := m.house.Store.Read(m.house.Code).Balance(ctx, ledger.In(ledger.Piece, piece))
	if err != nil {
		return err
	}
	const moisture = 0.040
	out := weigh(float64(b.Dry) / 1e6 / (1 - moisture))
	in := &ledger.Dressing{Piece: piece, Malt: []ledger.Malted{{To: "malt:M9", Amount: amount(out, moisture)}}}
	in.Losses = &ledger.Losses{EvaporatedKg: max(0, b.Dry+b.Water-out), Standing: ledger.Computed}
	if _, _, err := m.house.Book(ctx, m.as(malthouse.Floor), m.entry(), in); err != nil {
		return err
	}
	return m.analyse(ctx, in.Malt[0].Lot, moisture)
}

// correct strikes a figure that was read off the wrong line, and gives the
// certificate that rested on it anew.
func (m *maker) correct(ctx context.Context) error {
	r := m.house.Store.Read(m.house.Code)
	load, err := m.latest(ctx)
	if err != nil {
		return err
	}
	old, err := m.inForce(ctx, load)
	if err != nil {
		return err
	}
	lot, fact, err := m.protein(ctx, r)
	if err != nil || old == "" || fact == "" {
		return err
	}
	if _, err := m.house.Strike(ctx, m.as(malthouse.Laboratory), m.entry(), &ledger.Strike{Fact: fact, Reason: "read off the line of another lot"}); err != nil {
		return err
	}
	if _, err := m.house.Analyse(ctx, m.as(malthouse.Laboratory), m.entry(), &ledger.Analysis{
		Of: lot, Lab: "house", Results: []ledger.Figure{{Quantity: "protein_dm", Value: 0.109, Method: "combustion"}},
	}); err != nil {
		return err
	}
	return m.certify(ctx, load, old)
}

// protein is the last protein that the laboratory found in malt.
func (m *maker) protein(ctx context.Context, r ledger.Reader) (lot ledger.Ref, fact ledger.FactID, err error) {
	for f, err := range r.Facts(ctx, ledger.Query{Kind: ledger.Analysed}) {
		if err != nil {
			return "", "", err
		}
		body, err := ledger.Decode(f.Kind, f.Schema, f.Body)
		if err != nil {
			return "", "", err
		}
		if a, ok := body.(*ledger.Analysis); ok && a.Results[0].Quantity == "protein_dm" && ledger.Account(a.Of).Kind() == ledger.LotKind {
			lot, fact = a.Of, ledger.FactID(f.ID)
		}
	}
	return lot, fact, nil
}

// counting counts two silos at the end of the year: one that agrees with its
// book as far as scales can say, and one that does not.
func (m *maker) counting() {
	m.at(363, 9, func(ctx context.Context) error { return m.count(ctx, "silo:B1", -0.4) })
	m.at(363, 10, func(ctx context.Context) error { return m.count(ctx, "byproduct:FEED", -1.9) })
}

// count sets a place to its book and so many tonnes more or less.
func (m *maker) count(ctx context.Context, place ledger.Account, gapT float64) error {
	held, err := m.held(ctx, place)
	if err != nil {
		return err
	}
	counted := max(0, held+ledger.Grams(gapT*1e6))
	_, err = m.house.Count(ctx, m.as(malthouse.Planning), m.entry(), malthouse.Count{
		Place: place, Counted: ledger.Amount{FreshKg: counted, Standing: ledger.Measured, UFreshKg: 300_000}, Reason: "count at the end of the year",
	})
	return err
}

// asked is what one of the brewers asks of malt.
const asked = `awn: specification/1
name: Skerry pale
buyer: Skerry Ales
limits:
  moisture: {at_most: 4.9 % wb}
  extract_fine: {at_least: 80.8 % dm}
  protein: {at_least: 9.5 % dm, at_most: 11.2 % dm}
  friability: {at_least: 86 %}
`

// agree keeps what is agreed with brewers and growers.
func (m *maker) agree(ctx context.Context, head malthouse.Actor) error {
	pale, err := examples.Files.ReadFile("specification-pale.yaml")
	if err != nil {
		return err
	}
	contract, err := examples.Files.ReadFile("contract.yaml")
	if err != nil {
		return err
	}
	for _, x := range []struct {
		kind, name string
		text       []byte
	}{
		{malthouse.SpecificationKind, "Skerry pale", []byte(asked)}, {malthouse.SpecificationKind, "Pale base malt", pale}, {malthouse.ContractKind, "Spring 2026", contract},
	} {
		if _, err := m.house.Agree(ctx, head, m.entry(), x.kind, x.name, x.text); err != nil {
			return err
		}
	}
	return nil
}

package year

import (
	"context"
	"fmt"
	"math"

	"awn/internal/malthouse"
	"awn/ledger"
)

// castT is what a piece is made of.
const castT = 38

// firstPieceDay is when malting of the new barley begins, and pieceDays how far
// pieces are apart.
const (
	firstPieceDay = 40
	pieceDays     = 7.8
)

// malting casts the pieces.
func (m *maker) malting() {
	for i := range Pieces {
		m.at(firstPieceDay+float64(i)*pieceDays, 6, m.cast)
	}
}

// fullest is the place that holds most.
func (m *maker) fullest(ctx context.Context, among ...ledger.Account) (best ledger.Account, most ledger.Grams, err error) {
	for _, p := range among {
		g, err := m.held(ctx, p)
		if err != nil {
			return "", 0, err
		}
		if best == "" || g > most {
			best, most = p, g
		}
	}
	return best, most, nil
}

// cast starts a piece from the fullest silo, and sees it through.
func (m *maker) cast(ctx context.Context) error {
	var all []ledger.Account
	for _, variety := range []string{"Ellerdine Gold", "Saltmarsh"} {
		for _, s := range silos[variety] {
			if s != m.closed {
				all = append(all, s)
			}
		}
	}
	from, most, err := m.fullest(ctx, all...)
	if err != nil {
		return err
	}
	m.pieces++
	in := &ledger.Casting{Vessel: fmt.Sprintf("steep %d", 1+m.pieces/3%2), From: []ledger.Draw{drawn(from, min(weigh(castT), most/scale*scale))}}
	if _, err := m.house.Start(ctx, m.as(malthouse.Floor), m.entry(), in, nil); err != nil {
		return err
	}
	m.course(in.Piece, total(in.From))
	return nil
}

func total(from []ledger.Draw) (g ledger.Grams) {
	for _, d := range from {
		g += d.Amount.FreshKg
	}
	return g
}

// course is what happens to a piece in its week.
func (m *maker) course(piece ledger.Code, cast ledger.Grams) {
	box := fmt.Sprintf("box %d", 1+m.pieces%4)
	water := func(perTonne float64) *ledger.Water {
		return &ledger.Water{WaterKg: ledger.Grams(math.Round(perTonne*float64(cast)/1e5) * 1e5), UWaterKg: 200_000, Standing: ledger.Measured}
	}
	warm := round(m.near(14.5, 0.8), 1)
	type done struct {
		afterH float64
		deed   malthouse.Deed
	}
	deeds := []done{
		{0.2, malthouse.Deed{Act: malthouse.Immerse, Water: water(1.3), TempC: &warm}},
		{8, malthouse.Deed{Act: malthouse.DrainIt, Water: water(0.9)}},
		{18, malthouse.Deed{Act: malthouse.Immerse, Water: water(1.2), TempC: &warm}},
		{26, malthouse.Deed{Act: malthouse.DrainIt, Water: water(1.0)}},
		{32, malthouse.Deed{Act: malthouse.Couch, Vessel: box}},
		{80, malthouse.Deed{Act: malthouse.Spray, Water: water(0.03)}},
		{130, malthouse.Deed{Act: malthouse.Kiln, Vessel: fmt.Sprintf("kiln %d", 1+m.pieces/5%2)}},
		{156, malthouse.Deed{Act: malthouse.Strip}},
	}
	for h := 44.0; h < 130; h += 12 {
		deeds = append(deeds, done{h, malthouse.Deed{Act: malthouse.Turn}})
	}
	for _, d := range deeds {
		d.deed.Piece = piece
		m.later(d.afterH, func(ctx context.Context) error {
			_, err := m.house.Act(ctx, m.as(malthouse.Floor), m.entry(), d.deed)
			return err
		})
	}
	m.later(31, func(ctx context.Context) error {
		_, err := m.house.Read(ctx, m.as(malthouse.Floor), m.entry(), &ledger.Analysis{
			Of: ledger.In(ledger.Piece, piece).Ref(),
			Results: []ledger.Figure{
				{Quantity: "moisture_wb", Value: round(m.near(0.445, 0.006), 3)}, {Quantity: "chit", Value: round(min(m.near(0.92, 0.03), 0.99), 2)},
			},
		})
		return err
	})
	m.later(162, func(ctx context.Context) error { return m.book(ctx, piece) })
}

// Shares of the dry matter cast, invented but of the usual size.
const (
	lossMean, lossSpread = 0.060, 0.003
	culmsShare           = 0.038
	screeningsShare      = 0.006
)

// book ends a piece and has its malt analysed and released.
func (m *maker) book(ctx context.Context, piece ledger.Code) error {
	b, err := m.house.Store.Read(m.house.Code).Balance(ctx, ledger.In(ledger.Piece, piece))
	if err != nil {
		return err
	}
	dryT := float64(b.Dry) / 1e6
	culms, screenings := culmsShare*dryT, screeningsShare*dryT
	moisture := m.near(0.043, 0.003)
	malt := dryT*(1-m.near(lossMean, lossSpread)) - culms - screenings
	to, _, err := m.emptiest(ctx)
	if err != nil {
		return err
	}
	in := &ledger.Dressing{
		Piece: piece, Malt: []ledger.Malted{{To: to, Amount: amount(weigh(malt/(1-moisture)), moisture)}},
		Beside: []ledger.Beside{
			{What: ledger.Culms, To: "byproduct:FEED", Amount: amount(weigh(culms/0.94), 0.06)},
			{What: ledger.Screenings, To: "byproduct:FEED", Amount: amount(weigh(screenings/0.95), 0.05)},
		},
	}
	if _, _, err := m.house.Book(ctx, m.as(malthouse.Floor), m.entry(), in); err != nil {
		return err
	}
	m.waiting[to]++
	m.later(20, func(ctx context.Context) error {
		m.waiting[to]--
		return m.analyse(ctx, in.Malt[0].Lot, moisture)
	})
	return nil
}

// emptiest is the malt store that holds least.
func (m *maker) emptiest(ctx context.Context) (best ledger.Account, least ledger.Grams, err error) {
	for _, p := range m.stores {
		g, err := m.held(ctx, p)
		if err != nil {
			return "", 0, err
		}
		if best == "" || g < least {
			best, least = p, g
		}
	}
	return best, least, nil
}

// analyse has the laboratory look at a lot, and lets it go.
func (m *maker) analyse(ctx context.Context, lot ledger.Code, moisture float64) error {
	of := ledger.To(ledger.LotKind, lot)
	for _, f := range []ledger.Figure{
		{Quantity: "moisture_wb", Value: round(moisture, 3), Method: "EBC 4.2"},
		{Quantity: "extract_fine_dm", Value: round(m.near(0.812, 0.004), 3), Method: "EBC 4.5.1"},
		{Quantity: "protein_dm", Value: round(m.near(0.105, 0.004), 3), Method: "combustion"},
		{Quantity: "friability", Value: round(m.near(0.89, 0.02), 2), Method: "EBC 4.15"},
	} {
		if _, err := m.house.Analyse(ctx, m.as(malthouse.Laboratory), m.entry(), &ledger.Analysis{Of: of, Lab: "house", Results: []ledger.Figure{f}}); err != nil {
			return err
		}
	}
	if _, err := m.house.Analyse(ctx, m.as(malthouse.Laboratory), m.entry(), &ledger.Analysis{Of: of, Lab: "Saltcoast Laboratory", Results: []ledger.Figure{
		{Quantity: "ndma_mg_kg_asis", Value: 0.001, Less: true, Method: "gas chromatography"},
	}}); err != nil {
		return err
	}
	if _, err := m.house.Sample(ctx, m.as(malthouse.Laboratory), m.entry(), &ledger.Sampling{
		Sample: "K-" + lot, Of: of, MassKg: 1000, How: "stream sampler", Kept: "sample room",
	}); err != nil {
		return err
	}
	_, err := m.house.Release(ctx, m.as(malthouse.Laboratory), m.entry(), &ledger.Release{Of: of, Reason: "meets the house standard"})
	return err
}

// round leaves so many decimals.
func round(x float64, decimals int) float64 {
	p := math.Pow10(decimals)
	return math.Round(x*p) / p
}

// The check samples of the laboratory: how often they are read, and the
// instrument that begins to drift.
const (
	checkDays  = 5.0
	driftsFrom = 200.0  // days
	driftADay  = 0.0001 // of extract
)

// checking has the laboratory read a sample that is kept for that, on both of
// its balances, and now and then in another laboratory.
func (m *maker) checking() {
	const sample = "CHECK-1"
	first := firstPieceDay + 12.0
	m.at(first, 9, func(ctx context.Context) error {
		_, err := m.house.Sample(ctx, m.as(malthouse.Laboratory), m.entry(), &ledger.Sampling{
			Sample: sample, Of: "malt:M1", MassKg: 20_000, How: checkSample, Kept: "laboratory, cold store",
		})
		return err
	})
	for i := range 60 {
		days := first + 1 + float64(i)*checkDays
		m.at(days, 9, func(ctx context.Context) error {
			drift := max(0, days-driftsFrom) * driftADay
			benches := []struct {
				lab    string
				offset float64
			}{{"house / mash bath 1", 0}, {"house / mash bath 2", drift}}
			if i%6 == 0 {
				benches = append(benches, struct {
					lab    string
					offset float64
				}{"Saltcoast Laboratory", 0.001})
			}
			for _, b := range benches {
				if _, err := m.house.Analyse(ctx, m.as(malthouse.Laboratory), m.entry(), &ledger.Analysis{
					Of: ledger.To(ledger.SampleKind, sample), Lab: b.lab, Results: []ledger.Figure{
						{Quantity: "extract_fine_dm", Value: round(0.812+b.offset+m.near(0, 0.0012), 4), Method: "EBC 4.5.1"},
					},
				}); err != nil {
					return err
				}
			}
			return nil
		})
	}
}

// checkSample is how a sample is taken that is read again and again.
const checkSample = "check sample, divided"

package year

import (
	"context"
	"fmt"

	"awn/internal/malthouse"
	"awn/ledger"
)

// field is one grower's field.
type field struct {
	grower, place, variety string
	protein                float64
	silo                   ledger.Account
}

// silos are where each variety lies.
var silos = map[string][]ledger.Account{
	"Ellerdine Gold": {"silo:B1", "silo:B2", "silo:B3", "silo:B4"},
	"Saltmarsh":      {"silo:B5", "silo:B6"},
}

// growFields makes the fields up.
func (m *maker) growFields() {
	farms := []string{"Upper Farm", "Mill Field", "Sandhead", "Crooked Oak", "Long Acre", "Ness Farm", "Withy Bank", "Dunnock", "Hoarstone", "Beacon End"}
	parishes := []string{"Wenn", "Carrow", "Eastings", "Hallow", "Thrift"}
	for i := range Fields {
		f := field{
			grower: farms[i%len(farms)], place: fmt.Sprintf("field %d, %s", 1+i/len(farms), parishes[i%len(parishes)]),
			variety: "Ellerdine Gold", protein: m.near(0.105, 0.005),
		}
		if i%3 == 2 {
			f.variety = "Saltmarsh"
		}
		some := silos[f.variety]
		f.silo = some[i%len(some)]
		m.fields = append(m.fields, f)
	}
}

// harvestDays is how long barley comes in.
const harvestDays = 65

// recalled is which load turns out to be worth a recall, and when that is
// found out, in days from the start.
const (
	recalled     = 22
	recalledDays = 190
)

// harvest brings the loads in.
func (m *maker) harvest() {
	for i := range Deliveries {
		f := m.fields[i%Fields]
		m.at(float64(i)*harvestDays/Deliveries, 8+float64(i%8), func(ctx context.Context) error {
			in := &ledger.Receipt{
				To: f.silo, Amount: amount(weigh(m.near(28, 1)), m.near(0.13, 0.006)), Grower: f.grower, Grown: f.place,
				Variety: f.variety, Crop: int64(m.start.Year()), Ticket: fmt.Sprint(40_100 + i), Vehicle: fmt.Sprintf("WN %d", 2200+i%7),
			}
			_, err := m.house.Receive(ctx, m.as(malthouse.Intake), m.entry(), in,
				ledger.Figure{Quantity: "protein_dm", Value: round(m.near(f.protein, 0.002), 4), Method: "bench analyser"},
				ledger.Figure{Quantity: "don_mg_kg_asis", Value: round(max(0.1, m.near(0.45, 0.2)), 2), Method: "strip test"},
				ledger.Figure{Quantity: "germination_energy", Value: round(min(m.near(0.975, 0.008), 0.995), 3), Method: "4 mL"})
			if err != nil || i != recalled {
				return err
			}
			m.bad, m.badAt = in.Lot, in.To
			_, err = m.house.Sample(ctx, m.as(malthouse.Intake), m.entry(), &ledger.Sampling{
				Sample: "K-" + in.Lot, Of: ledger.To(ledger.DeliveryKind, in.Lot), MassKg: 1000, How: "probe, 8 places", Kept: "sample room",
			})
			return err
		})
	}
	m.at(recalledDays, 10, m.findOut)
}

// findOut has the laboratory look at a sample that was kept, and holds what is
// left of it.
func (m *maker) findOut(ctx context.Context) error {
	of := ledger.To(ledger.DeliveryKind, m.bad)
	if _, err := m.house.Analyse(ctx, m.as(malthouse.Laboratory), m.entry(), &ledger.Analysis{
		Of: of, Sample: "K-" + m.bad, Lab: "Carrow Grain Laboratory",
		Results: []ledger.Figure{{Quantity: "don_mg_kg_asis", Value: 2.4, Method: "LC-MS/MS"}}, Note: "kept sample, after a letter from the grower",
	}); err != nil {
		return err
	}
	for _, thing := range []ledger.Ref{of, m.badAt.Ref()} {
		if _, err := m.house.Hold(ctx, m.as(malthouse.Laboratory), m.entry(), &ledger.Hold{Of: thing, Reason: "DON 2.4 mg/kg in " + string(m.bad)}); err != nil {
			return err
		}
	}
	m.closed = m.badAt
	m.later(3*24, m.reopen)
	return nil
}

// reopen lets the silo go again when its own sample is back.
func (m *maker) reopen(ctx context.Context) error {
	of := m.badAt.Ref()
	if _, err := m.house.Analyse(ctx, m.as(malthouse.Laboratory), m.entry(), &ledger.Analysis{
		Of: of, Lab: "Carrow Grain Laboratory", Results: []ledger.Figure{{Quantity: "don_mg_kg_asis", Value: 0.6, Method: "LC-MS/MS"}},
	}); err != nil {
		return err
	}
	m.closed = ""
	_, err := m.house.Release(ctx, m.as(malthouse.Laboratory), m.entry(), &ledger.Release{Of: of, Reason: "sampled through its depth: DON 0.6 mg/kg"})
	return err
}

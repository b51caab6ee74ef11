package year

import (
	"context"
	"crypto/sha256"
	"fmt"
	"time"

	"awn/internal/malthouse"
	"awn/ledger"
)

// coming is what the house intends when the year ends: three pieces, of which
// the last wants a steep that another is still in.
func (m *maker) coming(ctx context.Context, plan *malthouse.Plan) error {
	kept := malthouse.Entry{At: m.now, ID: m.apart("kept")}
	if _, err := m.house.KeepPlan(ctx, m.as(malthouse.Planning), kept, "Pale two-row", *plan); err != nil {
		return err
	}
	for _, p := range []struct {
		afterH           float64
		steep, box, kiln int
		order            string
		dueD             int
	}{
		{10, 1, 3, 2, "Tern Rock, spring", 31}, {58, 2, 4, 1, "Tern Rock, spring", 31}, {82, 2, 1, 2, "Skerry Ales 7", 40},
	} {
		in := &ledger.Intention{
			Begin: ledger.Time(m.now.Add(time.Duration(p.afterH * float64(time.Hour))).Truncate(time.Hour).UnixMilli()), Name: "Pale two-row",
			Vessel: fmt.Sprintf("steep %d", p.steep), Box: fmt.Sprintf("box %d", p.box), Kiln: fmt.Sprintf("kiln %d", p.kiln), Order: p.order, Due: m.day(p.dueD),
		}
		if _, err := m.intend(ctx, in, plan); err != nil {
			return err
		}
	}
	return nil
}

// intend enters an intention.
func (m *maker) intend(ctx context.Context, in *ledger.Intention, plan *malthouse.Plan) (ledger.FactID, error) {
	id := m.apart(fmt.Sprint(in.Begin, in.Vessel))
	_, err := m.house.Intend(ctx, m.as(malthouse.Planning), malthouse.Entry{At: m.now, ID: id}, in, plan)
	return ledger.FactID(id), err
}

// day is the end of a day so many days from now.
func (m *maker) day(days int) ledger.Time {
	return ledger.Time(time.Date(m.now.Year(), m.now.Month(), m.now.Day()+days, 18, 0, 0, 0, m.now.Location()).UnixMilli())
}

// apart is an id that takes nothing from the random numbers of the year.
func (m *maker) apart(what string) string {
	sum := sha256.Sum256([]byte(what))
	return ledger.ID(m.now.UnixMilli(), [10]byte(sum[:10]))
}

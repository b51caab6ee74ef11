package year

import (
	"context"
	"fmt"
	"time"

	"awn/course"
	"awn/examples"
	"awn/internal/expect"
	"awn/internal/malthouse"
	"awn/internal/paper"
	"awn/ledger"
	"awn/programme"
)

// Days is how long the year is, and Underway how many pieces are not done when
// it ends.
const (
	Days     = 364
	Underway = 2
)

// keeping looks after the barley in store, and closes each day.
func (m *maker) keeping() {
	for _, round := range []struct {
		from, every float64
		do          func(context.Context, ledger.Account) error
	}{{10, 13, m.probe}, {20, 28, m.germinate}, {30, 45, m.resample}, {60, 85, m.recount}} {
		for day := round.from; day < Days-1; day += round.every {
			m.at(day, 7, func(ctx context.Context) error { return m.eachSilo(ctx, round.do) })
		}
	}
	for day := 1.0; day < Days; day++ {
		m.at(day, 0.1, func(ctx context.Context) error {
			date := m.now.AddDate(0, 0, -1).Format(time.DateOnly)
			_, err := m.house.CloseDay(ctx, m.as(malthouse.Planning), m.entry(), date, fmt.Appendf(nil, "%s, closed.\n", date))
			return err
		})
	}
	m.at(300, 14, func(ctx context.Context) error {
		_, err := m.house.Decide(ctx, m.as(malthouse.Manager), m.entry(), &ledger.Decision{Decision: "recall drill", Reason: "two loads named in nine minutes"})
		return err
	})
}

// eachSilo does something to every silo that holds barley.
func (m *maker) eachSilo(ctx context.Context, do func(context.Context, ledger.Account) error) error {
	for _, variety := range []string{"Ellerdine Gold", "Saltmarsh"} {
		for _, s := range silos[variety] {
			held, err := m.held(ctx, s)
			if err != nil {
				return err
			}
			if held > 0 {
				if err := do(ctx, s); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

func (m *maker) probe(ctx context.Context, s ledger.Account) error {
	_, err := m.house.Read(ctx, m.as(malthouse.Intake), m.entry(), &ledger.Analysis{
		Of: s.Ref(), Results: []ledger.Figure{{Quantity: "temperature_c", Value: round(m.near(12, 2), 1)}},
	})
	return err
}

func (m *maker) germinate(ctx context.Context, s ledger.Account) error {
	_, err := m.house.Analyse(ctx, m.as(malthouse.Laboratory), m.entry(), &ledger.Analysis{
		Of: s.Ref(), Lab: "house", Results: []ledger.Figure{{Quantity: "germination_energy", Value: round(min(m.near(0.97, 0.008), 0.995), 3), Method: "4 mL"}},
	})
	return err
}

func (m *maker) resample(ctx context.Context, s ledger.Account) error {
	_, err := m.house.Sample(ctx, m.as(malthouse.Intake), m.entry(), &ledger.Sampling{
		Sample: ledger.Code(fmt.Sprintf("%s-%s", s.Code(), m.now.Format("060102"))), Of: s.Ref(), MassKg: 1000, How: "spear, 6 places",
	})
	return err
}

func (m *maker) recount(ctx context.Context, s ledger.Account) error { return m.count(ctx, s, 0) }

// underway has two pieces on the floor when the year ends, by the plan of the
// example: one in its steep, one germinating.
func (m *maker) underway(ctx context.Context) error {
	piece, inputs, faults := paper.Load(examples.Files, examples.First)
	if len(faults) > 0 {
		return faults
	}
	plan, err := expect.Plan(&piece, inputs)
	if err != nil {
		return err
	}
	o, err := course.Run(&piece)
	if err != nil {
		return err
	}
	for i, hours := range []float64{100, 31} {
		m.at(Days, 6-hours, func(ctx context.Context) error { return m.begin(ctx, i, hours, plan, o) })
	}
	m.at(Days, 5.9, func(ctx context.Context) error { return m.coming(ctx, plan) })
	return nil
}

// begin casts a piece, and lets happen what its programme asks for until the
// year ends.
func (m *maker) begin(ctx context.Context, number int, hours float64, plan *malthouse.Plan, o *course.Outcome) error {
	from, err := m.gather(ctx, ledger.Grams(1000*plan.CastKg))
	if err != nil {
		return err
	}
	meant, err := m.intend(ctx, &ledger.Intention{
		Begin: ledger.Time(m.now.UnixMilli()), Vessel: fmt.Sprintf("steep %d", 1+number), Box: fmt.Sprintf("box %d", 1+number), Kiln: "kiln 1",
		Order: "Nine Bollards, winter", Due: m.day(30),
	}, plan)
	if err != nil {
		return err
	}
	in := &ledger.Casting{Vessel: fmt.Sprintf("steep %d", 1+number), From: from, Does: meant}
	if _, err := m.house.Start(ctx, m.as(malthouse.Floor), m.entry(), in, plan); err != nil {
		return err
	}
	act := func(afterH float64, a malthouse.Act, vessel string) {
		if afterH < hours {
			m.later(afterH, func(ctx context.Context) error {
				_, err := m.house.Act(ctx, m.as(malthouse.Floor), m.entry(), malthouse.Deed{Piece: in.Piece, Act: a, Vessel: vessel})
				return err
			})
		}
	}
	for _, s := range o.Stages {
		for k, step := range s.Steps {
			switch {
			case s.Stage == course.Steep && step.Name == "immersion":
				act(step.FromH+0.1, malthouse.Immerse, "")
				act(step.ToH, malthouse.DrainIt, "")
			case s.Stage == course.Germinate && k == 0:
				act(s.FromH, malthouse.Couch, fmt.Sprintf("box %d", 1+number))
			}
			if every := turnsOf(o, s.Stage, k); every > 0 {
				for h := step.FromH + every; h < step.ToH; h += every {
					act(h, malthouse.Turn, "")
				}
			}
		}
	}
	for h := 7.5; h < hours; h += 12 {
		m.later(h, func(ctx context.Context) error { return m.look(ctx, in.Piece, o, h) })
	}
	return nil
}

// turnsOf is how often a step turns the bed, in h; 0 is never.
func turnsOf(o *course.Outcome, stage course.Stage, k int) float64 {
	if stage != course.Germinate {
		return 0
	}
	return o.Piece.Programme.Germinate[k].TurnEvH
}

// look is a reading by hand, near what was expected.
func (m *maker) look(ctx context.Context, piece ledger.Code, o *course.Outcome, h float64) error {
	var found []ledger.Figure
	for _, q := range []struct {
		quantity ledger.Quantity
		of       programme.Reading
		spread   float64
		decimals int
	}{{"moisture_wb", programme.Moisture, 0.004, 3}, {"temperature_c", programme.TempMean, 0.4, 1}, {"acrospire_x", programme.Acrospire, 0.03, 2}} {
		if x := at(o, h, q.of); x > 0.1 {
			found = append(found, ledger.Figure{Quantity: q.quantity, Value: round(m.near(x, q.spread), q.decimals)})
		}
	}
	_, err := m.house.Read(ctx, m.as(malthouse.Floor), m.entry(), &ledger.Analysis{Of: ledger.In(ledger.Piece, piece).Ref(), Results: found})
	return err
}

// at is a reading of a course at an hour.
func at(o *course.Outcome, h float64, r programme.Reading) (x float64) {
	for i, t := range o.Curve.TimeH {
		if t <= h {
			x = o.Curve.At[i][r]
		}
	}
	return x
}

// gather takes so much barley from the fullest silos.
func (m *maker) gather(ctx context.Context, mass ledger.Grams) (out []ledger.Draw, err error) {
	err = m.eachSilo(ctx, func(ctx context.Context, s ledger.Account) error {
		held, err := m.held(ctx, s)
		if take := min(mass, held/scale*scale); err == nil && s != m.closed && take > 0 {
			out, mass = append(out, drawn(s, take)), mass-take
		}
		return err
	})
	return out, err
}

// Package year makes up a year of an invented malthouse, Hallow Sound on the
// coast of Wennemark, by the same uses that people take: sixty loads from
// twenty-five growers' fields, forty pieces, six brewers, two blends, one load
// taken back and kilned again, and one load of barley that turns out, after its
// malt was shipped, to be worth a recall. Everybody and everything in it is
// made up.
package year

import (
	"context"
	"encoding/binary"
	"math"
	"math/rand/v2"
	"slices"
	"time"

	"awn/examples"
	"awn/internal/malthouse"
	"awn/ledger"
)

// How large the year is.
const (
	Deliveries = 60
	Fields     = 25
	Pieces     = 40
	Brewers    = 6
)

// event is what happens at a moment.
type event struct {
	at time.Time
	do func(context.Context) error
}

// maker makes the year up.
type maker struct {
	house  *malthouse.House
	rand   *rand.Rand
	now    time.Time
	start  time.Time
	events []event

	fields  []field
	brewers []malthouse.Person
	people  map[malthouse.Role]malthouse.Actor
	pieces  int         // cast so far
	bad     ledger.Code // the load worth a recall
	badAt   ledger.Account
	closed  ledger.Account // the silo on hold
	stores  []ledger.Account
	shipped int
	waiting map[ledger.Account]int // lots in a store that the laboratory has not released yet
}

// Make enters a year into an empty record, whole or not at all once its people
// are known. The same seed and the same start make the same year; the clock and
// the random numbers of the house follow the year while it is made.
func Make(ctx context.Context, house *malthouse.House, seed uint64, start time.Time) error {
	own := *house
	m := &maker{house: &own, rand: rand.New(rand.NewPCG(seed, seed)), start: start, now: start}
	own.Clock = func() time.Time { return m.now.Add(3 * time.Minute) }
	own.Random = source{rand.New(rand.NewPCG(seed, seed+1))} // a stream of its own: what is invented does not hang on how many entries there are
	if err := m.hire(ctx); err != nil {
		return err
	}
	m.waiting = map[ledger.Account]int{}
	m.stores = []ledger.Account{"malt:M1", "malt:M2", "malt:M3", "malt:M4"}
	m.growFields()
	m.harvest()
	m.malting()
	m.checking()
	m.selling()
	m.counting()
	m.keeping()
	if err := m.underway(ctx); err != nil {
		return err
	}
	return house.Store.Write(ctx, house.Code, func(w ledger.Writer) error {
		own.Store = batch{w}
		return m.run(ctx)
	})
}

// batch is a store whose uses all fall in one transaction. One that fails ends
// the whole.
type batch struct{ ledger.Writer }

// Write takes a use in the transaction that is open.
func (b batch) Write(_ context.Context, _ string, use func(ledger.Writer) error) error {
	return use(b.Writer)
}

// Read reads what the transaction has made so far.
func (b batch) Read(string) ledger.Reader { return b.Writer }

// run lets events happen in the order of their moments. An event may bring
// others about.
func (m *maker) run(ctx context.Context) error {
	for len(m.events) > 0 {
		if err := ctx.Err(); err != nil {
			return err
		}
		next := 0
		for i, e := range m.events {
			if e.at.Before(m.events[next].at) {
				next = i
			}
		}
		e := m.events[next]
		m.events = slices.Delete(m.events, next, next+1)
		m.now = e.at
		if err := e.do(ctx); err != nil {
			return err
		}
	}
	return nil
}

// at puts an event so many days and hours after the start.
func (m *maker) at(days, hours float64, do func(context.Context) error) {
	at := m.start.Add(time.Duration((24*days + hours) * float64(time.Hour))).Truncate(time.Minute)
	m.events = append(m.events, event{at, do})
}

// later puts an event so many hours from now.
func (m *maker) later(hours float64, do func(context.Context) error) {
	m.events = append(m.events, event{m.now.Add(time.Duration(hours * float64(time.Hour))).Truncate(time.Minute), do})
}

// entry is the envelope of what happens now.
func (m *maker) entry() malthouse.Entry { return malthouse.Entry{At: m.now} }

// near is a normal number around a middle.
func (m *maker) near(middle, spread float64) float64 { return middle + spread*m.rand.NormFloat64() }

// scale is the step in which the house's scales read, in g.
const scale = 20_000

// weigh is a mass in t as a scale reads it.
func weigh(t float64) ledger.Grams { return ledger.Grams(math.Round(t*1e6/scale) * scale) }

// amount is a weighed mass with its moisture, to a tenth of a per cent.
func amount(g ledger.Grams, wb float64) ledger.Amount {
	x := ledger.Fraction(math.Round(wb*1000) / 1000)
	return ledger.Amount{FreshKg: g, Standing: ledger.Weighed, UFreshKg: scale / 2, MoistureWB: &x, UMoistureWB: 0.002}
}

// drawn is a weighed mass whose moisture is that of its place by the book.
func drawn(place ledger.Account, g ledger.Grams) ledger.Draw {
	return ledger.Draw{Place: place, Amount: ledger.Amount{FreshKg: g, Standing: ledger.Weighed, UFreshKg: scale / 2}}
}

// held is what a place holds by the book, both goods together.
func (m *maker) held(ctx context.Context, place ledger.Account) (ledger.Grams, error) {
	b, err := m.house.Store.Read(m.house.Code).Balance(ctx, place)
	return b.Dry + b.Water, err
}

// as is whoever of the house has a role.
func (m *maker) as(r malthouse.Role) malthouse.Actor { return m.people[r] }

// hire makes the people of the house and its buyers known.
func (m *maker) hire(ctx context.Context) error {
	head, _, err := m.house.Welcome(ctx, "runa")
	if err != nil {
		return err
	}
	m.people = map[malthouse.Role]malthouse.Actor{malthouse.Manager: head}
	for _, p := range []malthouse.Person{
		{ID: "runa", Name: "Runa Thorne", Role: malthouse.Manager}, {ID: "osk", Name: "Osk Varley", Role: malthouse.Floor},
		{ID: "mirre", Name: "Mirre Holt", Role: malthouse.Laboratory}, {ID: "jory", Name: "Jory Penn", Role: malthouse.Intake},
		{ID: "tamsin", Name: "Tamsin Gale", Role: malthouse.Planning}, {ID: "edda", Name: "Edda Marsh", Role: malthouse.Sales},
	} {
		if _, err := m.house.Admit(ctx, head, m.entry(), p); err != nil {
			return err
		}
		m.people[p.Role] = malthouse.Actor{ID: p.ID, Name: p.Name, Role: p.Role}
	}
	points, err := examples.Files.ReadFile(examples.FirstPoints)
	if err != nil {
		return err
	}
	if _, err := m.house.Keep(ctx, head, m.entry(), malthouse.ControlPoints, examples.FirstPoints, points); err != nil {
		return err
	}
	if err := m.agree(ctx, head); err != nil {
		return err
	}
	for i, name := range []string{"Tern Rock Brewery", "Skerry Ales", "Lowgate Brewhouse", "Nine Bollards", "Ferry Lane Brewing", "Old Quay Lager"} {
		p := malthouse.Person{ID: "brewer" + string(rune('1'+i)), Name: name, Contact: "duty desk, +00 555 010" + string(rune('1'+i))}
		if _, err := m.house.Admit(ctx, head, m.entry(), p); err != nil {
			return err
		}
		m.brewers = append(m.brewers, p)
	}
	return nil
}

// source is random bytes that follow from the seed.
type source struct{ *rand.Rand }

// Read fills the bytes.
func (s source) Read(b []byte) (int, error) {
	var eight [8]byte
	for i := range b {
		if i%8 == 0 {
			binary.LittleEndian.PutUint64(eight[:], s.Uint64())
		}
		b[i] = eight[i%8]
	}
	return len(b), nil
}

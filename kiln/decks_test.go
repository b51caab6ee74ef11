package kiln

import (
	"math"
	"slices"
	"testing"

	"awn/barley"
	"awn/finding"
	"awn/plant"
	"awn/programme"
)

// deckSetup is two decks of one square metre.
func deckSetup(t testing.TB) Setup {
	s := paleSetup(t)
	s.Kiln.Decks = &plant.Decks{DropH: 0.5, DropMixes: true, BetweenC: math.NaN()}
	return s
}

// cycle is the air under a lower deck for so many hours.
func cycle(hours, flow, recirc float64) []programme.KilnStep {
	air := programme.Airflow{Value: flow}
	return []programme.KilnStep{
		{Name: "warms", RampH: 2, Until: programme.Until{LatestH: 3}, AirOnC: 65, Flow: air, Recirculation: recirc},
		{Name: "dries", RampH: 1, Until: programme.Until{LatestH: hours - 4}, AirOnC: 80, Flow: air, Recirculation: recirc},
		{Name: "cools", Until: programme.Until{LatestH: 1}, AirOnC: 10, Flow: air, HeaterOff: true},
	}
}

// over takes a piece over both decks.
func over(t testing.TB, d *Decks, steps []programme.KilnStep) {
	t.Helper()
	hour := d.hour
	pass := func(s programme.KilnStep) {
		if err := d.Begin(s); err != nil {
			t.Fatal(err)
		}
		hour += s.Until.LatestH
		if err := d.To(hour); err != nil {
			t.Fatal(err)
		}
	}
	for _, s := range steps {
		pass(s)
	}
	pass(programme.KilnStep{Until: programme.Until{LatestH: d.dropH()}})
	for _, s := range steps {
		pass(s)
	}
}

func startDecks(t testing.TB, s Setup, steps []programme.KilnStep, lower *LowerPiece, g *barley.Grain) *Decks {
	t.Helper()
	d, err := StartDecks(s, steps, lower, g)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// The decks are solved to the state that repeats itself: within 0.02 points of
// moisture, mean and wettest layer, in fewer than ten runs; one piece more leaves
// the kiln as dry as the last.
func TestDecksRepeatThemselves(t *testing.T) {
	for _, c := range []struct{ hours, flow, recirc float64 }{{12, 0.3, 0}, {12, 0.3, 0.3}, {10, 0.4, 0}, {16, 0.25, 0.2}, {8, 0.25, 0}} {
		steps := cycle(c.hours, c.flow, c.recirc)
		d := startDecks(t, deckSetup(t), steps, nil, greenMalt(200, 0.8182, 18))
		s := d.Settled()
		over(t, d, steps)
		mean, worst := d.lower.moistures()
		t.Logf("%+v: %d runs, ends at %.2f %%, wettest %.2f; dropped at %.1f", c, s.Runs, 100*mean, 100*worst, 100*d.Settled().DropWB)
		if !(s.Runs < 10 && s.Mean < repeats && s.Worst < repeats) {
			t.Errorf("%+v: %+v", c, s)
		}
		again := startDecks(t, deckSetup(t), steps, nil, greenMalt(200, 0.8182, 18))
		again.above = nil // and the piece behind may be another
		over(t, again, steps)
		if m, _ := again.lower.moistures(); c.recirc == 0 && math.Abs(m-mean) > 1e-12 {
			t.Errorf("%+v: without return air the piece behind moves the end from %.6f to %.6f", c, mean, m)
		}
	}
}

// A named lower piece that is the one found to repeat itself gives the same malt.
// Tolerance 0.1 points: it is named by one moisture and one temperature.
func TestNamedLowerPiece(t *testing.T) {
	steps := cycle(12, 0.3, 0)
	a := startDecks(t, deckSetup(t), steps, nil, greenMalt(200, 0.8182, 18))
	over(t, a, steps)
	var v programme.Values
	a.upper.readGrain(&v)
	lower := LowerPiece{MoistureWB: v[programme.Moisture], TempC: v[programme.TempMean]}
	b := startDecks(t, deckSetup(t), steps, &lower, greenMalt(200, 0.8182, 18))
	over(t, b, steps)
	x, _ := a.lower.moistures()
	y, _ := b.lower.moistures()
	near(t, "end, % wb", 100*y, 100*x, 0.1)
	if s := b.Settled(); !s.Named || s.Runs != 1 {
		t.Errorf("%+v", s)
	}
}

// What the air takes from one bed it brings to the next: the vapour that leaves
// the lower deck in a cycle is what enters the upper one. Tolerance 0.1 %, for
// the straight lines between the moments of the air.
func TestAirGoesFromDeckToDeck(t *testing.T) {
	steps := cycle(12, 0.3, 0)
	d := startDecks(t, deckSetup(t), steps, nil, greenMalt(200, 0.8182, 18))
	over(t, d, steps)
	up, low := d.upper.tally, d.lower.tally
	near(t, "vapour, kg", up.waterIn, low.waterOut, 1e-3*low.waterOut)
	near(t, "heat, MJ", up.heatIn/1e6, low.heatOut/1e6, 1e-3*low.heatOut/1e6)
	near(t, "air, kg", up.air, low.air, 1e-3*low.air)
}

// Air used twice dries with less heat: a bed of half the depth on each of two
// decks takes less of it per kg of water than by itself on one.
func TestTwoDecksSaveHeat(t *testing.T) {
	steps := cycle(12, 0.3, 0)
	d := startDecks(t, deckSetup(t), steps, nil, greenMalt(200, 0.8182, 18))
	over(t, d, steps)
	one := start(t, paleSetup(t), greenMalt(200, 0.8182, 18))
	kilned(t, one, cycle(16, 0.3, 0))
	a, b := d.Account(), one.Account()
	two, alone := a.HeatJ/a.EvaporatedKg/1e6, b.HeatJ/b.EvaporatedKg/1e6
	t.Logf("%.2f MJ/kg on two decks, %.2f on one", two, alone)
	if !(two < 0.95*alone) {
		t.Errorf("%.2f MJ/kg on two decks, %.2f on one", two, alone)
	}
}

// A clone goes on as its original, across the drop too.
func TestDecksClone(t *testing.T) {
	steps := cycle(12, 0.3, 0.2)
	d := startDecks(t, deckSetup(t), steps, nil, greenMalt(200, 0.8182, 18))
	c := d.Clone()
	over(t, d, steps)
	over(t, c, steps)
	x, _ := d.lower.moistures()
	if y, _ := c.lower.moistures(); x != y {
		t.Errorf("%v and %v", x, y)
	}
	c.Reset(d)
	if y, _ := c.lower.moistures(); x != y {
		t.Errorf("%v and %v after Reset", x, y)
	}
}

// Linked kilns keep their layers; a drop that mixes evens them out.
func TestDropMixes(t *testing.T) {
	spread := func(mixes bool) float64 {
		s := deckSetup(t)
		s.Kiln.Decks.DropMixes = mixes
		steps := cycle(12, 0.25, 0)
		d := startDecks(t, s, steps, nil, greenMalt(200, 0.8182, 18))
		for i, step := range append(steps, programme.KilnStep{Until: programme.Until{LatestH: 0.5}}, steps[0]) {
			if i == len(steps)+1 {
				if err := d.Begin(step); err != nil {
					t.Fatal(err)
				}
				break
			}
			if err := d.Begin(step); err != nil {
				t.Fatal(err)
			}
			if err := d.To(d.hour + step.Until.LatestH); err != nil {
				t.Fatal(err)
			}
		}
		mean, worst := d.lower.moistures()
		return worst - mean
	}
	if mixed, kept := spread(true), spread(false); !(mixed < 1e-9 && kept > 0.02) {
		t.Errorf("the wettest layer is %.4f above the mean mixed, %.4f kept", mixed, kept)
	}
}

// A drop before the break is told, and goes with more hours, more air, or warm air
// between the decks.
func TestDroppedWetComesAndGoes(t *testing.T) {
	says := func(steps []programme.KilnStep, between float64) bool {
		s := deckSetup(t)
		s.Kiln.Decks.BetweenShare, s.Kiln.Decks.BetweenC = between, 60
		d := startDecks(t, s, steps, nil, greenMalt(200, 0.8182, 18))
		over(t, d, steps)
		for _, f := range d.Findings(nil) {
			if f.Code == "kiln.decks.dropped-wet" {
				return true
			}
		}
		return false
	}
	if !says(cycle(7, 0.25, 0), 0) {
		t.Error("it does not come")
	}
	for name, gone := range map[string]bool{
		"hours": !says(cycle(14, 0.25, 0), 0), "air": !says(cycle(7, 0.5, 0), 0), "air between": !says(cycle(7, 0.25, 0), 1),
	} {
		if !gone {
			t.Errorf("it does not go with %s", name)
		}
	}
}

func TestDecksRefuse(t *testing.T) {
	steps := cycle(12, 0.3, 0)
	steps[1].Until.Reading = programme.Break
	if _, err := StartDecks(deckSetup(t), steps, nil, greenMalt(200, 0.8182, 18)); err == nil {
		t.Error("a step that waits for the break")
	}
	if _, err := StartDecks(deckSetup(t), cycle(12, 0.3, 0), &LowerPiece{MoistureWB: 1.2, TempC: 50}, greenMalt(200, 0.8182, 18)); err == nil {
		t.Error("a lower piece of 120 % moisture")
	}
}

// Decks whose search was cut short say by how much they still move; searched to
// the end, or over a lower piece that is named, they do not.
func TestUnsettledComesAndGoes(t *testing.T) {
	steps := cycle(12, 0.3, 0.3)
	says := func(most int, lower *LowerPiece) bool {
		s := deckSetup(t)
		s.Outside.SwingK = 0
		d := &Decks{setup: &s, most: most, steps: len(steps), cycleH: 12}
		g := greenMalt(200, 0.8182, 18)
		first := LowerPiece{0.30, 25}
		if lower != nil {
			first = *lower
		}
		dropped, err := d.asLower(start(t, s, g).greenGrain(), first)
		if err != nil {
			t.Fatal(err)
		}
		if err := d.settle(steps, dropped, lower != nil, g); err != nil {
			t.Fatal(err)
		}
		if d.upper, err = d.onUpper(g); err != nil {
			t.Fatal(err)
		}
		over(t, d, steps)
		return slices.ContainsFunc(d.Findings(nil), func(f finding.Finding) bool { return f.Code == "kiln.decks.unsettled" })
	}
	if !says(1, nil) {
		t.Error("it does not come")
	}
	if says(mostRuns, nil) || says(1, &LowerPiece{0.10, 60}) {
		t.Error("it does not go")
	}
}

// greenGrain is the grain as it was loaded.
func (r *Run) greenGrain() *barley.Grain {
	g := r.Shape()
	r.Grain(g)
	return g
}

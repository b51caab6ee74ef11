package weigh

import (
	"math"
	"math/rand/v2"
	"testing"
)

var nan = math.NaN()

// at is a place where grain was moved to.
func at(name string, change Change, kg, moisture float64) Place {
	return Place{Name: name, Change: change, Kg: kg, KgShare: 0.003, Moisture: moisture, Points: 0.003, OffKg: nan, OffMoisture: nan}
}

// load is a load that is weighed three times as it comes, tested as often,
// dried, and weighed and tested three times more.
func load(random *rand.Rand) []Place {
	wet, dry := 0.155+0.03*random.Float64(), 0.125+0.01*random.Float64()
	kg := 24000 + 5000*random.Float64()
	after := kg * (1 - wet) / (1 - dry)
	return []Place{
		at("truck", Moved, kg, wet), at("hopper", Moved, kg, wet), at("pit", Moved, kg, wet),
		at("dryer", Watered, after, dry), at("belt", Moved, after, dry), at("silo", Moved, after, dry),
	}
}

// disturb gives each reading its honest error, and one of them a fault of so
// many deviations; it returns which.
func disturb(c *Chain, random *rand.Rand, size float64) int {
	for i := range c.Readings {
		c.Readings[i].Value += c.Readings[i].Deviation * random.NormFloat64()
	}
	i := random.IntN(len(c.Readings))
	if random.IntN(2) == 0 {
		size = -size
	}
	c.Readings[i].Value += c.Readings[i].Deviation * size
	return i
}

func verdict(t *testing.T, c *Chain) (*Settled, Verdict) {
	t.Helper()
	s, err := c.Settle()
	if err != nil {
		t.Fatal(err)
	}
	return s, s.Verdict(Defaults())
}

// 500 loads with one fault of five deviations in any of their readings: it is
// named, and named first, in 80 of 100 or more; and of 500 honest loads no
// more than 5 in 100 are called wrong.
func TestOneFaultIsNamedFirst(t *testing.T) {
	const loads = 500
	random := rand.New(rand.NewPCG(20, 26))
	named, first, falsely := 0, 0, 0
	for range loads {
		c, err := NewChain(load(random))
		if err != nil {
			t.Fatal(err)
		}
		i := disturb(c, random, 5)
		_, v := verdict(t, c)
		if v.Suspects[0].Readings[0] == i {
			first++
			if v.Wrong {
				named++
			}
		}
		honest, err := NewChain(load(random))
		if err != nil {
			t.Fatal(err)
		}
		disturb(honest, random, 0)
		if _, v := verdict(t, honest); v.Wrong {
			falsely++
		}
	}
	t.Logf("of %d loads: first %d, called wrong and first %d, honest ones called wrong %d", loads, first, named, falsely)
	if named < loads*80/100 {
		t.Errorf("%d of %d loads with a fault are called wrong with the right reading first", named, loads)
	}
	if falsely > loads*5/100 {
		t.Errorf("%d of %d honest loads are called wrong", falsely, loads)
	}
}

// The odds mean what they say: over many loads, faulty as often and by as much
// as the constants hold, the odds of all suspects add up to the faults there
// were, and those of the first suspects to the faults that they name.
func TestOddsHold(t *testing.T) {
	const loads = 3000
	random := rand.New(rand.NewPCG(3, 14))
	constants := Defaults()
	var any, faults, first, hits float64
	for range loads {
		c, err := NewChain(load(random))
		if err != nil {
			t.Fatal(err)
		}
		faulty, size := random.Float64() < constants.FaultChance, 0.0
		if faulty {
			size = constants.FaultSize * random.NormFloat64()
			faults++
		}
		i := disturb(c, random, size)
		_, v := verdict(t, c)
		any += 1 - v.Honest
		first += v.Suspects[0].Odds
		if faulty && v.Suspects[0].Readings[0] == i {
			hits++
		}
	}
	// Of 3000 draws of 5 in 100 the binomial deviation is 12; three of them.
	near(t, "faults", any, faults, 36)
	near(t, "faults named first", first, hits, 36)
}

// One balance alone cannot say which of its readings is wrong.
func TestOneBalanceNamesAll(t *testing.T) {
	culms := at("malt", Malted, 168.5e3, 0.046)
	culms.OffKg, culms.OffShare, culms.Lost, culms.LostBy = 7100, 0.01, 0.06, 0.012
	c, err := NewChain([]Place{at("barley", Moved, 240e3, 0.123), culms})
	if err != nil {
		t.Fatal(err)
	}
	s, v := verdict(t, c)
	if s.Freedom != 1 || !v.Wrong || len(v.Suspects) != 1 || len(v.Suspects[0].Readings) != 6 {
		t.Errorf("freedom %d, %+v", s.Freedom, v)
	}
	found := c.Say(s, v)
	if len(found) != 2 || found[1].Code != "weigh.suspects.alike" {
		t.Errorf("%+v", found)
	}
	// By hand: 240 000 × 0.877 × 0.94 = 197 851.2 kg of dry matter should be
	// there, and 168 500 × 0.954 + 7100 × 0.954 = 167 522.4 kg are. The loss
	// that would close it is 1 - 167 522.4/210 480 = 20.41 %.
	for i, at := range c.Spots {
		if at.Kind == OfLost {
			near(t, "loss that would close it", s.Readings[i].Would, 1-167522.4/210480, 1e-3) // a step off a straight line
		}
	}
}

// A truck and a silo that agree: the mean by the squares of their deviations,
// worked by hand.
func TestTruckAndSilo(t *testing.T) {
	truck, silo := at("truck", Moved, 25000, 0.14), at("silo", Moved, 25200, nan)
	truck.KgShare, silo.KgShare = 0.002, 0.01
	c, err := NewChain([]Place{truck, silo})
	if err != nil {
		t.Fatal(err)
	}
	s, v := verdict(t, c)
	a, b := 1/(50.0*50), 1/(252.0*252)
	near(t, "mass", s.Quantities[c.Mass[1]].Mid, (25000*a+25200*b)/(a+b), 1e-6)
	near(t, "sum of squares", s.ChiSquare, 200*200/(50.0*50+252*252), 1e-9)
	if v.Wrong || c.Say(s, v)[0].Code != "weigh.readings.agree" {
		t.Errorf("%+v", v)
	}
}

// Where nothing was dried, masses alone are compared: 25 000 in, 24 300 and 600
// out. By hand, with deviations of 75, 72.9 and 6 kg: 100 kg off, of a deviation
// of 104.76 kg.
func TestMassesAlone(t *testing.T) {
	silo := at("silo", Moved, 24300, nan)
	silo.OffKg, silo.OffShare = 600, 0.01
	c, err := NewChain([]Place{at("truck", Moved, 25000, nan), silo})
	if err != nil {
		t.Fatal(err)
	}
	s, v := verdict(t, c)
	variance := 75.0*75 + 72.9*72.9 + 6*6
	near(t, "sum of squares", s.ChiSquare, 100*100/variance, 1e-6)
	near(t, "truck", s.Quantities[c.Mass[0]].Mid, 25000-100*75*75/variance, 1e-5)
	if v.Wrong {
		t.Errorf("%+v", v)
	}
}

func TestPoorChains(t *testing.T) {
	for name, places := range map[string][]Place{
		"one place":       {at("truck", Moved, 25000, 0.14)},
		"no mass":         {at("truck", Moved, nan, 0.14), at("silo", Moved, nan, 0.13)},
		"no moisture":     {at("truck", Moved, 25000, nan), at("dryer", Watered, 24000, 0.13)},
		"negative":        {at("truck", Moved, -1, 0.14), at("silo", Moved, 25000, 0.14)},
		"water, no solid": {at("truck", Moved, 25000, 1), at("silo", Moved, 25000, 0.14)},
	} {
		if _, err := NewChain(places); err == nil {
			t.Errorf("%s: taken", name)
		}
	}
}

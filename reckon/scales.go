package reckon

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"awn/unit"
	"awn/weigh"
)

// changes are what each place of a line says was done on the way to it.
var changes = map[string]weigh.Change{"dryer": weigh.Watered, "malt": weigh.Malted}

// scales lays the readings of a line out, and says what they imply about each
// other.
func scales(g *given) ([]Result, error) {
	constants := weigh.Defaults()
	places := make([]weigh.Place, g.parts)
	for i := range places {
		places[i] = place(g.part(i), constants)
	}
	chain, err := weigh.NewChain(places)
	if err != nil {
		return nil, poorScales(err)
	}
	settled, err := chain.Settle()
	if err != nil {
		return nil, poorScales(err)
	}
	verdict := settled.Verdict(constants)
	g.say(chain.Say(settled, verdict)...)
	var out []Result
	for of := range settled.Quantities {
		if r, ok := settledResult(places, chain, settled, of); ok {
			out = append(out, r)
		}
	}
	return append(out, doubts(places, chain, settled, verdict)...), nil
}

// poorScales is an error of the readings as a fault of the line.
func poorScales(err error) error {
	if errors.Is(err, weigh.ErrOpen) {
		return &Fault{Code: "reckon.weigh.open"}
	}
	return &Fault{Code: "reckon.weigh.impossible", Got: strings.TrimPrefix(err.Error(), "weigh: ")}
}

// place is one part of a line.
func place(p *given, c weigh.Constants) weigh.Place {
	at := p.get("at").Word
	out := weigh.Place{
		Name: at, Change: changes[at], Kg: p.at("mass"), KgShare: c.ScaleShare, Moisture: p.at("moisture"), Points: c.MoisturePoint,
		OffKg: p.at("off"), OffMoisture: math.NaN(),
	}
	if p.has("scale") {
		out.KgShare = p.at("scale")
	}
	if p.has("tester") {
		out.Points = p.at("tester")
	}
	if out.OffShare = out.KgShare; out.OffKg == 0 {
		out.OffKg = math.NaN()
	}
	switch {
	case p.has("lost"):
		out.Lost, out.LostBy = p.at("lost"), c.MaltingLostBy
	case out.Change == weigh.Malted:
		out.Lost, out.LostBy = c.MaltingLost, c.MaltingLostBy
	}
	return out
}

// kinds are how each kind of reading is shown, and what it is called.
var kinds = map[weigh.Kind]struct {
	on        scale
	key, name string
}{
	weigh.OfMass:     {scale{unit.Mass, []string{"kg~5", "lb~5"}}, "mass_kg", "mass"},
	weigh.OfMoisture: {scale{unit.Moisture, []string{"% wb:2"}}, "moisture_wb", "moisture"},
	weigh.OfOff:      {scale{unit.Mass, []string{"kg~5", "lb~5"}}, "off_kg", "taken out"},
	weigh.OfLost:     {shareScale, "lost", "lost unweighed"},
}

// settledResult is what a quantity comes to, with each reading of it; false if
// nobody read it.
func settledResult(places []weigh.Place, c *weigh.Chain, s *weigh.Settled, of int) (Result, bool) {
	var where, worked []string
	var at weigh.Spot
	for i, r := range s.Readings {
		if r.Of != of {
			continue
		}
		if len(where) == 0 {
			at = c.Spots[i]
		}
		k := kinds[at.Kind]
		place := fmt.Sprintf("%d %s", c.Spots[i].Place+1, places[c.Spots[i].Place].Name)
		said := place + " read " + k.on.show(r.Value)[0]
		if r.Checked {
			said += fmt.Sprintf(", the others say %s, %s deviations away", k.on.show(r.Would)[0], fixed(math.Abs(r.Away), 1))
			if r.Would < 0 {
				said += ", which cannot be"
			}
		} else {
			said += ", which nothing checks"
		}
		where, worked = append(where, place), append(worked, said)
	}
	if len(where) == 0 {
		return Result{}, false
	}
	k, v := kinds[at.Kind], s.Quantities[of]
	name := k.name + ", " + strings.Join(where, ", ")
	r := k.on.result(fmt.Sprintf("part%d_%s", at.Place+1, k.key), name, v.Mid, "weigh.Others", k.name+": "+strings.Join(worked, "; "))
	return k.on.between(r, v.Low, v.High), true
}

// Of the suspects so many are named, and those with odds of so much.
const (
	mostSuspects = 3
	leastOdds    = 0.01
)

// doubts are whether the readings agree, and which may be wrong.
func doubts(places []weigh.Place, c *weigh.Chain, s *weigh.Settled, v weigh.Verdict) []Result {
	if s.Freedom == 0 {
		return nil
	}
	out := []Result{
		shareScale.result("chance", "honest ones differ so much in", s.Chance, "weigh.ChanceOf",
			fmt.Sprintf("χ² = %s, degrees of freedom %d, P = %s", figures(s.ChiSquare, 4), s.Freedom, figures(s.Chance, 3))),
		shareScale.result("honest", "odds that none is wrong", v.Honest, "weigh.Evidence", ""),
	}
	for i, suspect := range v.Suspects[:min(len(v.Suspects), mostSuspects)] {
		if !v.Wrong || i > 0 && suspect.Odds < leastOdds {
			break
		}
		at := c.Spots[suspect.Readings[0]]
		name := fmt.Sprintf("suspect: %s, %d %s", kinds[at.Kind].name, at.Place+1, places[at.Place].Name)
		if n := len(suspect.Readings); n > 1 {
			name += fmt.Sprintf(" (or %d more)", n-1)
		}
		out = append(out, shareScale.result(fmt.Sprintf("suspect%d", i+1), name, suspect.Odds, "weigh.Evidence", ""))
	}
	return out
}

package reckon

import (
	"errors"
	"fmt"
	"math"

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
		return nil, &Fault{Code: "reckon.weigh.open"}
	}
	settled, err := chain.Settle()
	if errors.Is(err, weigh.ErrOpen) {
		return nil, &Fault{Code: "reckon.weigh.open"}
	}
	if err != nil {
		return nil, err
	}
	verdict := settled.Verdict(constants)
	g.say(chain.Say(settled, verdict)...)
	var out []Result
	for i := range settled.Readings {
		out = append(out, settledResult(places, chain, settled, i))
	}
	return append(out, doubts(places, chain, settled, verdict)...), nil
}

// place is one part of a line.
func place(p *given, c weigh.Constants) weigh.Place {
	at := p.get("at").Word
	out := weigh.Place{
		Name: at, Change: changes[at], Kg: p.at("mass"), KgShare: p.at("scale"), Moisture: p.at("moisture"), Points: p.at("tester"),
		OffKg: p.at("off"), OffMoisture: math.NaN(), OffShare: p.at("scale"),
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
	weigh.OfMass:     {scale{unit.Mass, []string{"kg~6", "lb~6"}}, "mass_kg", "mass"},
	weigh.OfMoisture: {scale{unit.Moisture, []string{"% wb:2"}}, "moisture_wb", "moisture"},
	weigh.OfOff:      {scale{unit.Mass, []string{"kg~6", "lb~6"}}, "off_kg", "taken out"},
	weigh.OfLost:     {shareScale, "lost", "lost unweighed"},
}

// called is the name of a reading: "3 dryer, mass".
func called(places []weigh.Place, at weigh.Spot) string {
	return fmt.Sprintf("%d %s, %s", at.Place+1, places[at.Place].Name, kinds[at.Kind].name)
}

// settledResult is what a reading comes to beside the others.
func settledResult(places []weigh.Place, c *weigh.Chain, s *weigh.Settled, i int) Result {
	r, at := s.Readings[i], c.Spots[i]
	k := kinds[at.Kind]
	worked := called(places, at) + ": read " + k.on.show(r.Value)[0]
	if r.Checked {
		worked += fmt.Sprintf("; the others say %s ± %s, %s deviations away", k.on.show(r.Would)[0], k.on.show(r.WouldBy)[0], fixed(math.Abs(r.Away), 1))
	} else {
		worked += "; nothing checks it"
	}
	v := s.Quantities[r.Of]
	one := k.on.result(fmt.Sprintf("part%d_%s", at.Place+1, k.key), called(places, at), v.Mid, "weigh.Others", worked)
	return k.on.between(one, v.Low, v.High)
}

// mostSuspects is how many suspects are named.
const mostSuspects = 3

// doubts are whether the readings agree, and which may be wrong.
func doubts(places []weigh.Place, c *weigh.Chain, s *weigh.Settled, v weigh.Verdict) []Result {
	if s.Freedom == 0 {
		return nil
	}
	out := []Result{
		shareScale.result("chance", "honest readings differ so much in", s.Chance, "weigh.ChanceOf",
			fmt.Sprintf("χ² = %s with %d degrees of freedom; P = %s", figures(s.ChiSquare, 4), s.Freedom, figures(s.Chance, 3))),
		shareScale.result("honest", "odds that none is wrong", v.Honest, "weigh.Evidence", ""),
	}
	for i, suspect := range v.Suspects[:min(len(v.Suspects), mostSuspects)] {
		name := called(places, c.Spots[suspect.Readings[0]])
		if n := len(suspect.Readings); n > 1 {
			name += fmt.Sprintf(", or one of %d more", n-1)
		}
		out = append(out, shareScale.result(fmt.Sprintf("suspect%d", i+1), fmt.Sprintf("odds of suspect %d: %s", i+1, name), suspect.Odds, "weigh.Evidence", ""))
	}
	return out
}

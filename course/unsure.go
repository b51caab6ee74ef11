package course

import (
	"slices"
	"strings"

	"awn/malt"
	"awn/odds"
)

// Group is a part of what is not known for certain.
type Group string

// The groups.
const (
	OfLot        Group = "lot"        // what was measured of the lot, or assumed
	OfLaboratory Group = "laboratory" // how far the laboratory stands from others, in all its results
	OfSteep      Group = "steep"
	OfGerminate  Group = "germinate"
	OfKiln       Group = "kiln"
	OfPlant      Group = "plant" // instruments, weather, dressing, cost
	OfModel      Group = "model" // how far the model stands from malt, whatever it is given
)

// Groups are the groups in grain order.
func Groups() []Group {
	return []Group{OfLot, OfLaboratory, OfSteep, OfGerminate, OfKiln, OfPlant, OfModel}
}

// Input is one thing that is not known for certain, and is drawn.
type Input struct {
	Key   string // of the parameter tables, or lot.THING, laboratory.THING, model.FIGURE
	Group Group
	Lot   string // whose it is, for an input of a lot
}

// unsure is an input with what it may be and where it goes.
type unsure struct {
	Input
	at  func(share float64) float64 // its quantiles
	put func(t *trial, x float64)
}

// trial is a piece as it may truly be.
type trial struct {
	piece Piece
	lot   lotTrial
	off   map[malt.Parameter]float64 // how far the model is off: a factor or an addition
}

// decided are lines of the parameter tables that are a choice, not a doubt.
var decided = []string{"course.wort.strength"}

// groupOf is the group of a parameter, by the longest beginning of its key.
func groupOf(key string) Group {
	best, group := 0, OfPlant
	for _, g := range []struct {
		prefix string
		group  Group
	}{
		{"barley.", OfKiln}, {"barley.swelling", OfGerminate}, {"bed.", OfKiln}, {"kernel.uptake", OfSteep}, {"kernel.chit", OfSteep},
		{"kernel.", OfGerminate}, {"steep.", OfSteep}, {"germinate.", OfGerminate}, {"kiln.", OfKiln}, {"course.colour.green", OfKiln},
	} {
		if strings.HasPrefix(key, g.prefix) && len(g.prefix) > best {
			best, group = len(g.prefix), g.group
		}
	}
	return group
}

// parameterInputs are the parameters of the model. A house's own value moves the
// range of a parameter with it.
func parameterInputs(p *Piece) []unsure {
	var out []unsure
	for _, line := range Parameters() {
		if slices.Contains(decided, line.Key) {
			continue
		}
		line := line
		own, has := p.House.Parameters[line.Key]
		at := line.At
		switch {
		case has && line.Distribution == odds.LogNormal:
			at = func(share float64) float64 { return own / line.Default * line.At(share) }
		case has:
			at = func(share float64) float64 { return own - line.Default + line.At(share) }
		}
		out = append(out, unsure{
			Input: Input{Key: line.Key, Group: groupOf(line.Key)}, at: at,
			put: func(t *trial, x float64) { t.piece.House.Parameters[line.Key] = x },
		})
	}
	return out
}

// unsureOf is all that is not known for certain of a piece: what it shares with
// others first, what is its lot's own last.
func unsureOf(p *Piece, known *lotKnown) []unsure {
	out := slices.Concat(laboratoryInputs(known), discrepancyInputs(p), parameterInputs(p), lotInputs(known))
	if b := p.Begin; b != nil {
		measured := odds.Value{Mid: b.Moisture, Low: b.Moisture - beganBand, High: b.Moisture + beganBand}
		out = append(out, unsure{
			Input: Input{Key: "lot.begin-moisture", Group: OfLot, Lot: p.Lot.Code}, at: measured.At,
			put: func(t *trial, x float64) { t.piece.Begin.Moisture = min(max(x, 0.01), 0.9) },
		})
	}
	return out
}

// beganBand is how far the measured moisture of moving grain may be off, either
// way, nine times out of ten.
//
// Assumed: common practice, no source.
const beganBand = 0.01

// scheme is the inputs of several pieces on common draws: which coordinate of a
// point each takes.
type scheme struct {
	pieces []*Piece
	known  []*lotKnown
	inputs [][]unsure
	place  [][]int // of each piece's inputs among the coordinates
	size   int

	points   *odds.Points
	outcomes []*Outcome // of the pieces as they stand
}

// newScheme gives inputs that pieces share the same coordinate: the model, the
// house and the laboratory always, the lot where it is the same one.
func newScheme(pieces []*Piece) (*scheme, error) {
	s := &scheme{pieces: pieces}
	at := map[Input]int{}
	for _, p := range pieces {
		c, err := newConstants(p.House.Parameters)
		if err != nil {
			return nil, err
		}
		known := newLotKnown(p, c)
		inputs := unsureOf(p, known)
		place := make([]int, len(inputs))
		for i, in := range inputs {
			n, ok := at[in.Input]
			if !ok {
				n = len(at)
				at[in.Input] = n
			}
			place[i] = n
		}
		s.known, s.inputs, s.place = append(s.known, known), append(s.inputs, inputs), append(s.place, place)
	}
	s.size = len(at)
	return s, nil
}

// trial is piece number n where the point u of the cube holds, and the values
// drawn for its inputs.
func (s *scheme) trial(n int, u []float64) (*trial, []float64) {
	p := s.pieces[n]
	t := &trial{piece: *p, lot: newLotTrial(), off: make(map[malt.Parameter]float64, len(Discrepancies))}
	t.piece.House.Parameters = make(map[string]float64, len(s.inputs[n]))
	for key, x := range p.House.Parameters {
		t.piece.House.Parameters[key] = x
	}
	if p.Begin != nil {
		b := *p.Begin
		t.piece.Begin = &b
	}
	drawn := make([]float64, len(s.inputs[n]))
	for i, in := range s.inputs[n] {
		drawn[i] = in.at(u[s.place[n][i]])
		in.put(t, drawn[i])
	}
	t.piece.Lot = t.lot.settle(s.known[n])
	return t, drawn
}

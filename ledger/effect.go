package ledger

import "slices"

// Mass is an amount of the two goods that the accounts are kept in, in grams.
type Mass struct {
	Dry, Water   Grams
	UDry, UWater Grams    // standard uncertainties, 0 if nobody gave one
	Standing     Standing // how it was come by
}

func (m Mass) isZero() bool { return m.Dry == 0 && m.Water == 0 }

// Flow is a mass that went from one account to another. Since every gram has
// both ends, each good sums to zero over the accounts, fact by fact.
type Flow struct {
	Seq  int64 // of the fact
	N    int   // which flow of it, from 0
	At   int64 // when it happened, ms UTC
	From Account
	To   Account
	Lot  Code // what the mass is called that comes in from outside, "" if nothing
	Mass
	Alike bool // taken from every corn alike, as breath and culms are, not some corns whole
	Undo  bool // takes back a flow of a fact that was struck
}

// Touch says that a fact is about a thing, and what became of it. What is
// empty is as it was.
type Touch struct {
	Ref   Ref
	State State
	Leave Leave
	Drawn Drawn
}

// State is how far a thing of the record has come.
type State string

// The states.
const (
	Open        State = "open"        // named, nothing more
	InSteep     State = "in-steep"    // a piece
	Germinating State = "germinating" // a piece
	OnKiln      State = "on-kiln"     // a piece
	OffKiln     State = "off-kiln"    // a piece
	Done        State = "done"        // a piece that was dressed, a sample that was analysed
	Gone        State = "gone"        // a shipment
	BackAgain   State = "back"        // a shipment
	Issued      State = "issued"      // a certificate
	TakenBack   State = "taken-back"  // a certificate
)

// Leave is whether a thing may go out.
type Leave string

// Nobody has said so yet if it is neither.
const (
	Free   Leave = "free"
	OnHold Leave = "on-hold"
)

// Drawn is how a place gives what it holds.
type Drawn string

// The two ways.
const (
	DrawnMixed  Drawn = "mixed"     // well mixed
	DrawnLayers Drawn = "in-layers" // first in, first out
)

// Result is one figure of an analysis.
type Result struct {
	Of       Ref      // what was analysed
	Sample   Code     // "" if no sample was kept
	Quantity Quantity // what was measured, on which basis, in which unit
	Value    float64
	U        *float64 // standard uncertainty, nil if not given
	Less     bool     // the value is a limit that the figure is below
	Method   string
	Lab      string
}

// Effect is what follows from one fact.
type Effect struct {
	Flows   []Flow
	Touches []Touch
	Results []Result
	Rests   []FactID // what a certificate or a release rests on
	Accepts FactID   // the fact that is stood by although what it rests on was struck
	Strikes FactID   // the fact that is struck, "" if none
}

// Of works out what follows from a fact: a pure function of what it says.
func Of(f Fact) (Effect, error) {
	b, err := Decode(f.Kind, f.Schema, f.Body)
	if err != nil {
		return Effect{}, err
	}
	var e Effect
	b.effect(&e)
	for i := range e.Flows {
		e.Flows[i].Seq, e.Flows[i].N, e.Flows[i].At = f.Seq, i, f.At
	}
	return e, nil
}

// Undone is the flows of a struck fact turned round, to stand under the strike.
func Undone(struck []Flow, strike Fact) []Flow {
	out := make([]Flow, len(struck))
	for i, f := range struck {
		f.Seq, f.From, f.To, f.Undo = strike.Seq, f.To, f.From, true
		out[i] = f
	}
	return out
}

// Posting is what flows do to one account.
type Posting struct {
	Account    Account
	Dry, Water Grams
}

// Postings is what flows do to each account they touch, in the order in which
// they touch it. Each good sums to zero.
func Postings(flows []Flow) []Posting {
	var out []Posting
	post := func(a Account, dry, water Grams) {
		i := slices.IndexFunc(out, func(p Posting) bool { return p.Account == a })
		if i < 0 {
			i, out = len(out), append(out, Posting{Account: a})
		}
		out[i].Dry += dry
		out[i].Water += water
	}
	for _, f := range flows {
		post(f.From, -f.Dry, -f.Water)
		post(f.To, f.Dry, f.Water)
	}
	return out
}

// flow adds a flow that is not empty.
func (e *Effect) flow(from, to Account, m Mass) *Flow {
	if m.isZero() {
		return &Flow{}
	}
	e.Flows = append(e.Flows, Flow{From: from, To: to, Mass: m})
	return &e.Flows[len(e.Flows)-1]
}

// draws adds a flow for each place something is taken from.
func (e *Effect) draws(from []Draw, to Account) {
	for _, d := range from {
		e.flow(d.Place, to, d.Amount.mass())
		e.touch(d.Place.Ref(), "")
	}
}

// touch notes a thing once, with the last that became of it.
func (e *Effect) touch(r Ref, s State) {
	for i := range e.Touches {
		if e.Touches[i].Ref == r {
			if s != "" {
				e.Touches[i].State = s
			}
			return
		}
	}
	e.Touches = append(e.Touches, Touch{Ref: r, State: s})
}

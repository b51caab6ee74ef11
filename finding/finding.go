// Package finding says what a computation has to tell a person: a code, how
// severe it is, where and when it holds, and the figures behind it. It never
// holds a sentence; internal/words makes that in the reader's language.
package finding

// Severity orders findings by what they ask of the reader.
type Severity int

// Note informs, Caution asks for a choice, Alarm says that the piece or a
// person may come to harm.
const (
	Note Severity = iota
	Caution
	Alarm
)

// String returns the word used in JSON.
func (s Severity) String() string { return [...]string{"note", "caution", "alarm"}[s] }

// Nowhere stands in the index fields of a finding that has no such place.
const Nowhere = -1

// Figure is one number that a finding rests on, in the unit that its name
// ends in (SI and fractions, as in JSON: "moisture_wb", "at_h", "air_off_c").
type Figure struct {
	Name  string
	Value float64
}

// Finding is one statement about a computed piece.
type Finding struct {
	Code     string   // area.thing.problem, never reused
	Severity Severity // what it asks of the reader
	Stage    string   // lot, plant, steep, germinate, kiln, dress, malt
	AtH      float64  // hours since cast-in of the steep; Nowhere if timeless
	Column   int      // Nowhere if it holds for all
	Spot     string   // what that column of an uneven bed is: thin, mean, thick; "" in a level bed
	Layer    int      // 0 at the plenum; Nowhere if it holds for all
	Class    int      // kernel class; Nowhere if it holds for all
	Figures  []Figure // what it rests on
	Act      string   // code of the change that makes it vanish, "" if none
	Chance   float64  // chance that it matters, 0 to 1
	Cost     float64  // what it costs if it does, as a share of the piece's value
	Source   string   // key in SOURCES.md, or "common practice, no source"
}

// New returns a finding that holds everywhere and at no special time.
func New(code string, severity Severity, stage string, figures ...Figure) Finding {
	return Finding{
		Code: code, Severity: severity, Stage: stage, AtH: Nowhere,
		Column: Nowhere, Layer: Nowhere, Class: Nowhere, Figures: figures,
	}
}

// Weight is the chance of a finding times its cost: the order in which
// findings are shown.
//
// Definition.
func (f Finding) Weight() float64 { return f.Chance * f.Cost }

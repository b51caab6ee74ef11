package ledger

// Intention is a piece that is to be cast: when, in which vessels, by which
// plan, and for which order. Nothing has happened yet, so no account moves. A
// later intention may take its place; a cast names the one that it carries out.
type Intention struct {
	Begin    Time   `json:"begin_ms"`
	Vessel   string `json:"vessel"`         // where it is steeped
	Box      string `json:"box,omitempty"`  // where it germinates
	Kiln     string `json:"kiln,omitempty"` // where it is kilned
	Plan     Digest `json:"plan_sha256"`    // what it is expected to do
	Name     string `json:"plan,omitempty"` // as the house calls that
	Order    string `json:"order,omitempty"`
	Due      Time   `json:"due_ms,omitempty"` // when the order is to be ready
	Replaces FactID `json:"replaces,omitempty"`
	Note     string `json:"note,omitempty"`
}

// Kind is intended.
func (*Intention) Kind() Kind { return Intended }

func (b *Intention) check(found *Faults) {
	if b.Vessel == "" {
		found.add("record.key.missing", "vessel", "vessel")
	}
	if b.Due != 0 && b.Due < b.Begin {
		found.add("record.span.order", "due_ms", b.Due)
	}
}

func (*Intention) effect(*Effect) {}

package ledger

import "strings"

// Sampling takes a sample of something.
type Sampling struct {
	Sample Code   `json:"sample"`
	Of     Ref    `json:"of"`
	MassKg Grams  `json:"mass_kg,omitempty"`
	How    string `json:"how,omitempty"`
	Kept   string `json:"kept,omitempty"` // where the rest of it lies
}

// Kind is sampled.
func (*Sampling) Kind() Kind    { return Sampled }
func (*Sampling) check(*Faults) {}

func (b *Sampling) effect(e *Effect) {
	e.touch(To(SampleKind, b.Sample), Open)
	e.touch(b.Of, "")
}

// Analysis is the results of a laboratory or an instrument.
type Analysis struct {
	Of      Ref      `json:"of"`
	Sample  Code     `json:"sample,omitempty"`
	Lab     string   `json:"lab,omitempty"`
	Results []Figure `json:"results"`
	Note    string   `json:"note,omitempty"`
}

// Figure is one result.
type Figure struct {
	Quantity Quantity `json:"quantity"`
	Value    float64  `json:"value"`
	U        *float64 `json:"u,omitempty"`    // standard uncertainty, in the unit of the value
	Less     bool     `json:"less,omitempty"` // the value is a limit that the figure is below
	Method   string   `json:"method,omitempty"`
}

// Quantity names a figure with its basis and unit: "don_mg_kg_asis".
type Quantity string

func (q *Quantity) read(v any, path string, found *Faults) {
	text, _ := v.(string)
	parts := strings.Split(text, "_")
	for i, p := range parts {
		if p == "" || strings.Trim(p, "abcdefghijklmnopqrstuvwxyz0123456789") != "" || i == 0 && p[0] <= '9' || len(text) > 60 {
			found.add("record.quantity.form", path, plain(v))
			break
		}
	}
	*q = Quantity(text)
}

// Kind is analysed.
func (*Analysis) Kind() Kind    { return Analysed }
func (*Analysis) check(*Faults) {}

func (b *Analysis) effect(e *Effect) {
	for _, r := range b.Results {
		e.Results = append(e.Results, Result{b.Of, b.Sample, r.Quantity, r.Value, r.U, r.Less, r.Method, b.Lab})
	}
	e.touch(b.Of, "")
	if b.Sample != "" {
		e.touch(To(SampleKind, b.Sample), Done)
	}
}

// Release lets something go out.
type Release struct {
	Of     Ref      `json:"of"`
	Reason string   `json:"reason"`
	Rests  []FactID `json:"rests_on,omitempty"`
}

// Kind is released.
func (*Release) Kind() Kind    { return Released }
func (*Release) check(*Faults) {}

func (b *Release) effect(e *Effect) {
	e.Touches = []Touch{{Ref: b.Of, Leave: Free}}
	e.Rests = b.Rests
}

// Hold keeps something in.
type Hold struct {
	Of     Ref    `json:"of"`
	Reason string `json:"reason"`
}

// Kind is held.
func (*Hold) Kind() Kind         { return Held }
func (*Hold) check(*Faults)      {}
func (b *Hold) effect(e *Effect) { e.Touches = []Touch{{Ref: b.Of, Leave: OnHold}} }

// Certificate is what was issued, and on what it rests.
type Certificate struct {
	Certificate Code     `json:"certificate"`
	Of          []Ref    `json:"of"`
	Document    Digest   `json:"document_sha256"`
	Rests       []FactID `json:"rests_on,omitempty"`
	Replaces    Code     `json:"replaces,omitempty"`
}

// Kind is certified.
func (*Certificate) Kind() Kind    { return Certified }
func (*Certificate) check(*Faults) {}

func (b *Certificate) effect(e *Effect) {
	e.touch(To(CertificateKind, b.Certificate), Issued)
	if b.Replaces != "" {
		e.touch(To(CertificateKind, b.Replaces), TakenBack)
	}
	for _, r := range b.Of {
		e.touch(r, "")
	}
	e.Rests = b.Rests
}

// Withdrawal takes a certificate back.
type Withdrawal struct {
	Certificate Code   `json:"certificate"`
	Reason      string `json:"reason"`
}

// Kind is withdrawn.
func (*Withdrawal) Kind() Kind         { return Withdrawn }
func (*Withdrawal) check(*Faults)      {}
func (b *Withdrawal) effect(e *Effect) { e.touch(To(CertificateKind, b.Certificate), TakenBack) }

// Strike declares an earlier fact wrong. Both stay readable.
type Strike struct {
	Fact   FactID `json:"fact"`
	Reason string `json:"reason"`
}

// Kind is struck.
func (*Strike) Kind() Kind         { return Struck }
func (*Strike) check(*Faults)      {}
func (b *Strike) effect(e *Effect) { e.Strikes = b.Fact }

// Decision is a choice somebody made: about a thing, or how a place is drawn.
type Decision struct {
	Of       Ref    `json:"of,omitempty"`
	Drawn    Drawn  `json:"drawn,omitempty"` // how the place that it is about is drawn
	Decision string `json:"decision"`
	Reason   string `json:"reason,omitempty"`
	Document Digest `json:"document_sha256,omitempty"`
	Accepts  FactID `json:"accepts,omitempty"` // stands by a fact although what it rests on was struck
}

func (d *Drawn) read(v any, path string, found *Faults) {
	choose(d, v, path, found, []Drawn{DrawnMixed, DrawnLayers})
}

// Kind is decided.
func (*Decision) Kind() Kind { return Decided }

func (b *Decision) check(found *Faults) {
	if b.Drawn != "" && !Account(b.Of).Inside() {
		found.add("record.account.form", "of", b.Of, insides...)
	}
}

func (b *Decision) effect(e *Effect) {
	if b.Of != "" {
		e.Touches = []Touch{{Ref: b.Of, Drawn: b.Drawn}}
	}
	e.Accepts = b.Accepts
}

// Log seals a stretch of readings, which are rows and no facts.
type Log struct {
	Series string `json:"series"`
	Number int64  `json:"series_n,omitempty"` // of the series in the house
	Seal   int64  `json:"seal_n,omitempty"`   // its number in the series
	First  Time   `json:"first_ms"`
	Last   Time   `json:"last_ms"`
	Count  int64  `json:"count"`
	Digest Digest `json:"rows_sha256"`
}

// Kind is logged.
func (*Log) Kind() Kind { return Logged }

func (b *Log) check(found *Faults) {
	if b.Last < b.First {
		found.add("record.span.order", "last_ms", b.Last)
	}
	if b.Count < 1 {
		found.add("record.value.range", "count", b.Count, "at least 1")
	}
}

func (*Log) effect(*Effect) {}

package ledger

import "bytes"

// Fact is one entry of the record.
type Fact struct {
	House     string   // whose record it is
	Seq       int64    // its place in the record, from 1 without gaps; the only order there is
	ID        string   // UUIDv7, made where the fact was typed
	Kind      Kind     // what happened
	Schema    int      // which form the body has
	At        int64    // when it happened, ms UTC
	OffsetMin int      // what the clock on the wall was ahead of UTC
	Entered   int64    // when it was entered, ms UTC
	Who       string   // id of the person or device
	Body      []byte   // JSON text, byte for byte as it was entered
	Hash      [32]byte // of the fact before and of everything above
}

// Draft is a fact that has not found its place yet.
type Draft struct {
	ID        string
	Kind      Kind
	Schema    int
	At        int64
	OffsetMin int
	Entered   int64
	Who       string
	Body      []byte
}

// Fact gives the draft its place after the head of a house's record.
func (d Draft) Fact(house string, head Head) Fact {
	f := Fact{
		House: house, Seq: head.Seq + 1, ID: d.ID, Kind: d.Kind, Schema: d.Schema,
		At: d.At, OffsetMin: d.OffsetMin, Entered: d.Entered, Who: d.Who, Body: d.Body,
	}
	f.Hash = f.Sum(head.Hash)
	return f
}

// Same reports whether the draft says what the fact says. A draft that is sent
// again may have been entered at another time.
func (d Draft) Same(f Fact) bool {
	return d.ID == f.ID && d.Kind == f.Kind && d.Schema == f.Schema && d.At == f.At &&
		d.OffsetMin == f.OffsetMin && d.Who == f.Who && bytes.Equal(d.Body, f.Body)
}

// Bounds of a fact's envelope.
const (
	latestMs   = 7258118400000 // the year 2200
	farthest   = 14 * 60       // minutes that a clock is ahead of UTC or behind it
	longestWho = 80
	longest    = 64 << 10 // bytes of a body
)

// Check returns all that is wrong with a draft, as [Faults], or nil.
func (d Draft) Check() error {
	var found Faults
	if !isID(d.ID) {
		found.add("record.id.form", "id", d.ID)
	}
	for _, t := range []struct {
		name string
		ms   int64
	}{{"at", d.At}, {"entered", d.Entered}} {
		if t.ms < 0 || t.ms > latestMs {
			found.add("record.time.range", t.name, t.ms)
		}
	}
	if d.OffsetMin < -farthest || d.OffsetMin > farthest {
		found.add("record.offset.range", "offset_min", d.OffsetMin)
	}
	if !isText(d.Who, longestWho) || d.Who == "" {
		found.add("record.who.form", "who", d.Who)
	}
	if _, err := Decode(d.Kind, d.Schema, d.Body); err != nil {
		found.join(err)
	}
	return found.orNil()
}

// NewBody makes a draft's kind, schema and body from a typed body.
func NewBody(b Body) (Kind, int, []byte) {
	kind := b.Kind()
	return kind, forms[kind].schema(), encode(b)
}

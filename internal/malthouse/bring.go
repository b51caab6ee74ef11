package malthouse

import (
	"context"
	"crypto/sha256"
	"fmt"
	"strings"
	"time"

	"awn/ledger"
)

// Brought is what came of a file.
type Brought struct {
	Entries int  // that the file comes to
	Again   bool // all of it was in the record before, and nothing changed
}

// Bring enters what a file comes to, all of it or nothing, and keeps the file.
// Make reads it while the record is locked, so that what stands there already
// is known for certain; what it finds wrong comes back as its error.
func (h *House) Bring(ctx context.Context, a Actor, media string, file []byte, make func(ledger.Reader) ([]ledger.Draft, error)) (b Brought, err error) {
	if err := a.Permit(UseImport); err != nil {
		return b, err
	}
	err = h.Store.Write(ctx, h.Code, func(w ledger.Writer) error {
		drafts, err := make(w)
		if err != nil {
			return err
		}
		before, err := w.Head(ctx)
		if err != nil {
			return err
		}
		shelf, ok := w.(Shelf)
		if !ok {
			return refuse("use.documents.missing", "")
		}
		if _, err := shelf.PutDocument(ctx, media, file); err != nil {
			return err
		}
		facts, err := w.Append(ctx, drafts...)
		b = Brought{len(facts), len(facts) > 0 && facts[len(facts)-1].Seq <= before.Seq}
		return err
	})
	return b, err
}

// Sealed is a stretch of readings that is closed, and goes on record by what
// it adds up to.
type Sealed struct {
	Series       string
	Number       int64 // in its series
	FromMS, ToMS int64
	Count        int
	SHA256       string
}

// Log puts a stretch of readings on record. The same stretch twice is one
// entry.
func (h *House) Log(ctx context.Context, a Actor, s Sealed) (Done, error) {
	sum := sha256.Sum256(fmt.Appendf(nil, "%s %s %d", h.Code, s.Series, s.Number))
	id := ledger.ID(s.ToMS, [10]byte(sum[:10]))
	return h.enter(ctx, a, UseLog, Entry{ID: id, At: time.UnixMilli(s.ToMS)}, &ledger.Log{
		Series: s.Series, First: ledger.Time(s.FromMS), Last: ledger.Time(s.ToMS), Count: int64(s.Count), Digest: ledger.Digest(s.SHA256),
	}, steps{said: func() Said { return say("logged", "series", s.Series).with("count_n", float64(s.Count)) }})
}

// keyOf begins the decision by which a house signs with another key.
const keyOf = "signs with key "

// ChangeKey puts on record that the house signs with another key from now on.
// What was signed before stays good under the key that it names.
func (h *House) ChangeKey(ctx context.Context, a Actor, e Entry, fingerprint, reason string) (Done, error) {
	return h.enter(ctx, a, UseKey, e, &ledger.Decision{Decision: keyOf + fingerprint, Reason: reason}, steps{
		said: func() Said { return say("key-changed", "key", fingerprint) },
	})
}

// KeyChange is a key that the house signed with from a moment on.
type KeyChange struct {
	Fingerprint string
	Since       time.Time
	Reason      string
}

// Keys lists the keys that the record says the house signed with, the latest
// first.
func (h *House) Keys(ctx context.Context, a Actor) (out []KeyChange, err error) {
	all, err := list[*ledger.Decision](ctx, h, a, ledger.Decided)
	for _, d := range all {
		if f, found := strings.CutPrefix(d.Body.Decision, keyOf); found {
			out = append(out, KeyChange{f, timeOf(d.Fact, h.Zone), d.Body.Reason})
		}
	}
	return out, err
}

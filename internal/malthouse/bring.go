package malthouse

import (
	"context"
	"errors"
	"iter"
	"strconv"
	"strings"

	"awn/internal/exchange"
	"awn/internal/paper"
	"awn/ledger"
)

// Brought is what a file from outside came to.
type Brought struct {
	Rows   string        // what its rows are: tickets or results
	Facts  []ledger.Fact // the entries, in the order of the rows; none of a dry run
	Count  int           // rows that are entries
	SHA256 string        // of the file, which is kept under it
	Again  bool          // it was brought in before: nothing changed
	Dry    bool          // it was only tried
}

// bringing is the right that a file wants, by what its rows are.
var bringing = map[string]Use{"tickets": UseReceive, "results": UseAnalyse}

func (a Actor) mayBring(how paper.ImportMap) error {
	if err := a.Permit(UseImport); err != nil {
		return err
	}
	return a.Permit(bringing[how.Rows])
}

// errDry ends a dry run, so that nothing of it is kept.
var errDry = errors.New("a dry run")

// Bring brings a file of tickets or results in as a map says: every row of it
// and the file itself, or nothing. All that is wrong comes back together, as
// [exchange.Faults], by row and column. A dry run does all of it and keeps
// nothing.
func (h *House) Bring(ctx context.Context, a Actor, file exchange.File, how paper.ImportMap, dry bool) (Brought, error) {
	out := Brought{Rows: how.Rows, Dry: dry}
	if err := a.mayBring(how); err != nil {
		return out, err
	}
	err := h.Store.Write(ctx, h.Code, func(w ledger.Writer) error {
		if err := h.bring(ctx, w, a, file, how, &out); err != nil {
			return err
		}
		if dry {
			return errDry
		}
		return nil
	})
	if errors.Is(err, errDry) {
		out.Facts, err = nil, nil
	}
	return out, err
}

// bring does it under the lock.
func (h *House) bring(ctx context.Context, w ledger.Writer, a Actor, file exchange.File, how paper.ImportMap, out *Brought) error {
	shelf, ok := w.(Shelf)
	if !ok {
		return refuse("use.documents.missing", "")
	}
	by := exchange.Entry{Who: a.ID, AtMS: h.Clock().UnixMilli()}
	var err error
	if by.Known, err = exchange.Deliveries(receipts(ctx, w)); err != nil {
		return err
	}
	if by.Things, err = things(ctx, w); err != nil {
		return err
	}
	batch, faults := exchange.Import(file, how, by)
	if len(faults) > 0 {
		return faults
	}
	if faults, err = cameBefore(ctx, w, file.Name, &batch); err != nil {
		return err
	}
	if len(faults) > 0 {
		return faults
	}
	before, err := w.Head(ctx)
	if err != nil {
		return err
	}
	if out.SHA256, err = shelf.PutDocument(ctx, batch.Media, file.Data); err != nil {
		return err
	}
	if out.Facts, err = w.Append(ctx, batch.Drafts...); err != nil {
		return err
	}
	after, err := w.Head(ctx)
	out.Count, out.Again = len(batch.Drafts)-1, after == before
	return err
}

// receipts are the facts that say which deliveries are in force.
func receipts(ctx context.Context, r ledger.Reader) iter.Seq2[ledger.Fact, error] {
	return func(yield func(ledger.Fact, error) bool) {
		for _, kind := range []ledger.Kind{ledger.Received, ledger.Struck} {
			for f, err := range r.Facts(ctx, ledger.Query{Kind: kind}) {
				if !yield(f, err) {
					return
				}
			}
		}
	}
}

// things are what results can be about.
func things(ctx context.Context, r ledger.Reader) (map[ledger.Ref]bool, error) {
	all := map[ledger.Ref]bool{}
	for _, kind := range []string{ledger.DeliveryKind, ledger.LotKind, ledger.Piece, ledger.Silo, ledger.MaltStore} {
		some, err := r.Subjects(ctx, kind)
		if err != nil {
			return nil, err
		}
		for _, s := range some {
			all[s.Ref] = true
		}
	}
	return all, nil
}

// cameBefore looks for rows of this file that came in before. What says the
// same changes nothing, whoever brings it again; what says something else is a
// fault.
func cameBefore(ctx context.Context, r ledger.Reader, name string, batch *exchange.Batch) (faults exchange.Faults, err error) {
	for i := range batch.Drafts {
		d := &batch.Drafts[i]
		there, found, err := r.Fact(ctx, d.ID)
		if err != nil {
			return nil, err
		}
		if !found {
			continue
		}
		d.Who = there.Who
		if !d.Same(there) {
			faults = append(faults, exchange.Fault{Code: "import.row.changed", File: name, Row: batch.Rows[i], Got: strconv.FormatInt(there.Seq, 10)})
		}
	}
	return faults, nil
}

// mapSaved begins the decision that keeps a map.
const mapSaved = "import map "

// mapLetters are what the name of a map is made of.
const mapLetters = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-"

// SaveMap keeps a map under a name, as a document that the record points at.
// The last of a name is the one in use.
func (h *House) SaveMap(ctx context.Context, a Actor, e Entry, name string, text []byte) (Done, error) {
	how, faults := paper.Read[paper.ImportMap](name, text)
	if len(faults) > 0 {
		return Done{}, faults
	}
	if name == "" || len(name) > 40 || strings.Trim(name, mapLetters) != "" {
		return Done{}, refuse("use.map.name", name)
	}
	if err := a.mayBring(how); err != nil {
		return Done{}, err
	}
	body := &ledger.Decision{Decision: mapSaved + name}
	return h.enter(ctx, a, UseImport, e, body, steps{
		complete: func(ctx context.Context, d *desk) (err error) {
			body.Document, err = d.file(ctx, "application/yaml", text)
			return err
		},
		said: func() Said { return say("map-saved", "name", name) },
	})
}

// file keeps a document with the fact that names it.
func (d *desk) file(ctx context.Context, media string, text []byte) (ledger.Digest, error) {
	shelf, ok := d.Writer.(Shelf)
	if !ok {
		return "", refuse("use.documents.missing", "")
	}
	sha, err := shelf.PutDocument(ctx, media, text)
	return ledger.Digest(sha), err
}

// SavedMap is the map that is kept under a name, and its text.
func (h *House) SavedMap(ctx context.Context, a Actor, name string) (how paper.ImportMap, text []byte, err error) {
	sha, err := h.underName(ctx, a, mapSaved, name, "use.map.unknown")
	if err != nil {
		return how, nil, err
	}
	if text, err = h.Desk.Document(ctx, string(sha)); err != nil {
		return how, nil, err
	}
	how, faults := paper.Read[paper.ImportMap](name, text)
	if len(faults) > 0 {
		return how, nil, faults
	}
	return how, text, nil
}

package exchange

import (
	"encoding/hex"
	"encoding/json"
	"io"
	"iter"

	"awn/ledger"
)

// factLine is a fact as a line of JSON. The body is a text within it, so that
// its bytes stay what the hash was taken of.
type factLine struct {
	House     string      `json:"house"`
	Seq       int64       `json:"seq"`
	ID        string      `json:"id"`
	Kind      ledger.Kind `json:"kind"`
	Schema    int         `json:"schema"`
	At        int64       `json:"at"`
	OffsetMin int         `json:"offset_min"`
	Entered   int64       `json:"entered"`
	Who       string      `json:"who"`
	Body      string      `json:"body"`
	Hash      string      `json:"hash"`
}

// Lines writes facts as lines of JSON, in the form that docs/method/record.md
// shows how to check without this program.
func Lines(w io.Writer, facts iter.Seq2[ledger.Fact, error]) error {
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	for f, err := range facts {
		if err != nil {
			return err
		}
		line := factLine{
			f.House, f.Seq, f.ID, f.Kind, f.Schema, f.At, f.OffsetMin, f.Entered, f.Who, string(f.Body), hex.EncodeToString(f.Hash[:]),
		}
		if err := enc.Encode(line); err != nil {
			return err
		}
	}
	return nil
}

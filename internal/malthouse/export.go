package malthouse

import (
	"bufio"
	"context"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"strconv"

	"awn/ledger"
)

// line is one fact as it is exported. The body is a text: what the hash covers
// is its bytes, not what they mean.
type line struct {
	House     string `json:"house"`
	Seq       int64  `json:"seq"`
	ID        string `json:"id"`
	Kind      string `json:"kind"`
	Schema    int    `json:"schema"`
	AtMs      int64  `json:"at_ms"`
	OffsetMin int    `json:"offset_min"`
	EnteredMs int64  `json:"entered_ms"`
	Who       string `json:"who"`
	Body      string `json:"body"`
	Hash      string `json:"hash"`
}

// Export writes all facts in the order of the record, a line of JSON each.
func (h *House) Export(ctx context.Context, a Actor, w io.Writer) error {
	if err := a.Permit(UseLook); err != nil {
		return err
	}
	b := bufio.NewWriter(w)
	e := json.NewEncoder(b)
	e.SetEscapeHTML(false)
	for f, err := range h.Store.Read(h.Code).Facts(ctx, ledger.Query{}) {
		if err == nil {
			err = e.Encode(line{f.House, f.Seq, f.ID, string(f.Kind), f.Schema, f.At, f.OffsetMin, f.Entered, f.Who, string(f.Body), hex.EncodeToString(f.Hash[:])})
		}
		if err != nil {
			return err
		}
	}
	return b.Flush()
}

// Table is one table of an export: a head and rows.
type Table struct {
	Name string
	Rows [][]string
}

// Tables gives the record as tables: facts, and what is in force of flows,
// balances, things and results.
func (h *House) Tables(ctx context.Context, a Actor) ([]Table, error) {
	if err := a.Permit(UseLook); err != nil {
		return nil, err
	}
	r := h.Store.Read(h.Code)
	facts := Table{"facts", [][]string{{"seq", "id", "kind", "at_ms", "offset_min", "entered_ms", "who", "body", "hash"}}}
	for f, err := range r.Facts(ctx, ledger.Query{}) {
		if err != nil {
			return nil, err
		}
		facts.Rows = append(facts.Rows, []string{
			whole(f.Seq), f.ID, string(f.Kind), whole(f.At), whole(int64(f.OffsetMin)), whole(f.Entered), text(f.Who), string(f.Body), hex.EncodeToString(f.Hash[:]),
		})
	}
	flows, balances, err := allFlows(ctx, r)
	if err != nil {
		return nil, err
	}
	moved := Table{"flows", [][]string{{"seq", "n", "at_ms", "from", "to", "lot", "dry_kg_dm", "water_kg", "u_dry_kg_dm", "u_water_kg", "standing"}}}
	for _, f := range flows {
		moved.Rows = append(moved.Rows, []string{
			whole(f.Seq), whole(int64(f.N)), whole(f.At), string(f.From), string(f.To), string(f.Lot),
			mass(f.Dry), mass(f.Water), mass(f.UDry), mass(f.UWater), string(f.Standing),
		})
	}
	held := Table{"balances", [][]string{{"account", "dry_kg_dm", "water_kg", "seq"}}}
	for _, b := range balances {
		held.Rows = append(held.Rows, []string{string(b.Account), mass(b.Dry), mass(b.Water), whole(b.Seq)})
	}
	things, results, err := h.things(ctx, r)
	return []Table{facts, moved, held, things, results}, err
}

// things are all things with their states, and what was measured of them.
func (h *House) things(ctx context.Context, r ledger.Reader) (things, results Table, err error) {
	things = Table{"things", [][]string{{"thing", "state", "leave", "drawn", "opened", "seq"}}}
	results = Table{"results", [][]string{{"thing", "sample", "quantity", "value", "u", "less", "method", "lab"}}}
	for _, kind := range kindOrder {
		all, err := r.Subjects(ctx, kind)
		if err != nil {
			return things, results, err
		}
		for _, s := range all {
			things.Rows = append(things.Rows, []string{string(s.Ref), string(s.State), string(s.Leave), string(s.Drawn), whole(s.Opened), whole(s.Seq)})
			found, err := r.Results(ctx, s.Ref)
			if err != nil {
				return things, results, err
			}
			for _, x := range found {
				u := ""
				if x.U != nil {
					u = fmt.Sprint(*x.U)
				}
				results.Rows = append(results.Rows, []string{string(x.Of), string(x.Sample), string(x.Quantity), fmt.Sprint(x.Value), u, fmt.Sprint(x.Less), text(x.Method), text(x.Lab)})
			}
		}
	}
	return things, results, nil
}

func whole(n int64) string { return strconv.FormatInt(n, 10) }

// mass is kilograms to the gram.
func mass(g ledger.Grams) string {
	b, _ := ledger.Signed(g).MarshalJSON() // whole grams always can be written
	return string(b)
}

// text is a word that somebody typed, kept from being taken for a formula by
// a spreadsheet.
func text(s string) string {
	switch {
	case s == "":
		return ""
	case s[0] == '=' || s[0] == '+' || s[0] == '-' || s[0] == '@' || s[0] == '\t' || s[0] == '\r':
		return "'" + s
	}
	return s
}

package exchange

import (
	"encoding/hex"
	"iter"
	"maps"
	"slices"
	"time"

	"awn/internal/table"
	"awn/ledger"
)

// Facts gives the facts of a record in their order, from the first, as often
// as it is asked. Give it an end, so that each time is the same.
type Facts = iter.Seq2[ledger.Fact, error]

// told is a fact with what follows from it.
type told struct {
	ledger.Fact
	ledger.Effect
	by int64 // sequence of the strike that declares it wrong, 0 if none
}

// tell works out what follows from each fact. A strike has the flows of what
// it strikes turned round.
func tell(facts Facts) (iter.Seq2[told, error], error) {
	strikes := map[string]int64{}
	for f, err := range facts {
		if err != nil {
			return nil, err
		}
		if f.Kind != ledger.Struck {
			continue
		}
		e, err := ledger.Of(f)
		if err != nil {
			return nil, err
		}
		strikes[string(e.Strikes)] = f.Seq
	}
	return func(yield func(told, error) bool) {
		struck := map[string]ledger.Effect{}
		for f, err := range facts {
			t := told{Fact: f, by: strikes[f.ID]}
			if err == nil {
				t.Effect, err = ledger.Of(f)
			}
			if was, ok := struck[string(t.Strikes)]; ok {
				t.Flows = ledger.Undone(was.Flows, f)
				for _, touch := range was.Touches {
					t.Touches = append(t.Touches, ledger.Touch{Ref: touch.Ref})
				}
				delete(struck, string(t.Strikes))
			}
			if t.by > 0 {
				struck[f.ID] = t.Effect
			}
			if !yield(t, err) || err != nil {
				return
			}
		}
	}, nil
}

// Tables are the whole record in tables: facts, postings, flows, results,
// subjects. Masses are in kilograms to the gram, other units stand in the names.
func Tables(facts Facts) ([]table.Page, error) {
	all, err := tell(facts)
	if err != nil {
		return nil, err
	}
	return []table.Page{
		{Name: "facts", Rows: rows(all, factRows), Head: []string{
			"seq", "id", "kind", "schema", "time", "at_ms", "offset_min", "entered_ms", "who", "struck_by_seq", "body", "hash"}},
		{Name: "postings", Rows: rows(all, postingRows), Head: []string{"seq", "account", "dry_kg", "water_kg"}},
		{Name: "flows", Rows: rows(all, flowRows), Head: []string{
			"seq", "n", "at_ms", "from", "to", "lot", "dry_kg", "water_kg", "u_dry_kg", "u_water_kg", "standing", "alike", "undo", "struck_by_seq"}},
		{Name: "results", Rows: rows(all, resultRows), Head: []string{
			"seq", "n", "at_ms", "of", "sample", "quantity", "value", "u", "below", "method", "lab", "struck_by_seq"}},
		{Name: "subjects", Rows: subjectRows(all), Head: []string{"thing", "kind", "state", "leave", "drawn", "opened_seq", "last_seq"}},
	}, nil
}

// rows makes the rows of a table from facts one by one.
func rows(all iter.Seq2[told, error], of func(told) [][]any) iter.Seq2[[]any, error] {
	return func(yield func([]any, error) bool) {
		for t, err := range all {
			if err != nil {
				yield(nil, err)
				return
			}
			for _, row := range of(t) {
				if !yield(row, nil) {
					return
				}
			}
		}
	}
}

// kg is a mass as a number; the nearest to a whole number of grams.
func kg(g ledger.Grams) any { return float64(g) / 1000 }

// orNone leaves a cell empty for a sequence that there is not.
func orNone(seq int64) any {
	if seq == 0 {
		return nil
	}
	return seq
}

// yes is 1 or 0.
func yes(b bool) any {
	if b {
		return 1
	}
	return 0
}

func factRows(t told) [][]any {
	return [][]any{{
		t.Seq, t.ID, string(t.Kind), t.Schema, onTheWall(t.At, t.OffsetMin), t.At, t.OffsetMin, t.Entered, t.Who, orNone(t.by), string(t.Body), hex.EncodeToString(t.Hash[:]),
	}}
}

// onTheWall writes a moment with its offset.
func onTheWall(ms int64, offsetMin int) string {
	return time.UnixMilli(ms).In(time.FixedZone("", offsetMin*60)).Format("2006-01-02T15:04:05.000Z07:00")
}

func postingRows(t told) (rows [][]any) {
	for _, p := range ledger.Postings(t.Flows) {
		rows = append(rows, []any{t.Seq, string(p.Account), kg(p.Dry), kg(p.Water)})
	}
	return rows
}

func flowRows(t told) (rows [][]any) {
	for _, f := range t.Flows {
		rows = append(rows, []any{
			t.Seq, f.N, f.At, string(f.From), string(f.To), string(f.Lot), kg(f.Dry), kg(f.Water), kg(f.UDry), kg(f.UWater),
			string(f.Standing), yes(f.Alike), yes(f.Undo), orNone(t.by),
		})
	}
	return rows
}

func resultRows(t told) (rows [][]any) {
	for n, r := range t.Results {
		var u any
		if r.U != nil {
			u = *r.U
		}
		rows = append(rows, []any{
			t.Seq, n, t.At, string(r.Of), string(r.Sample), string(r.Quantity), r.Value, u, yes(r.Less), r.Method, r.Lab, orNone(t.by),
		})
	}
	return rows
}

// subjectRows are the things of the record as the facts in force leave them,
// by name.
func subjectRows(all iter.Seq2[told, error]) iter.Seq2[[]any, error] {
	return func(yield func([]any, error) bool) {
		things := map[ledger.Ref]ledger.Subject{}
		for t, err := range all {
			if err != nil {
				yield(nil, err)
				return
			}
			for _, touch := range t.Touches {
				s := things[touch.Ref]
				if s.Opened == 0 {
					s.Opened = t.Seq
				}
				if s.Seq = t.Seq; t.by == 0 {
					s.State, s.Leave, s.Drawn = last(s.State, touch.State), last(s.Leave, touch.Leave), last(s.Drawn, touch.Drawn)
				}
				things[touch.Ref] = s
			}
		}
		for _, ref := range slices.Sorted(maps.Keys(things)) {
			s := things[ref]
			if !yield([]any{string(ref), ledger.Account(ref).Kind(), string(s.State), string(s.Leave), string(s.Drawn), s.Opened, s.Seq}, nil) {
				return
			}
		}
	}
}

// last is the later of two words, if it says anything.
func last[S ~string](before, now S) S {
	if now == "" {
		return before
	}
	return now
}

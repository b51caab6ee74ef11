package storetest

import (
	"fmt"
	"iter"
	"maps"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"awn/internal/sqlstore"
	"awn/ledger"
)

// history is what a record should hold by the simplest book there is.
type history struct {
	db     *sqlstore.DB
	house  string
	next   int64
	sent   []ledger.Draft
	grams  map[ledger.Account]ledger.Grams // fresh weight
	struck map[string]bool
}

func (h *history) enter(t *testing.T, d ledger.Draft) error {
	return h.db.Write(t.Context(), h.house, func(w ledger.Writer) error {
		_, err := w.Append(t.Context(), d)
		return err
	})
}

// move draws a move of some silo, with a time that may lie before the last.
func (h *history) move(rt *rapid.T) ledger.Draft {
	silo := rapid.SampledFrom([]ledger.Account{"silo:A", "silo:B", "silo:C"})
	h.next++
	d := Draft(h.next, &ledger.Move{From: silo.Draw(rt, "from"), To: silo.Draw(rt, "to"), Amount: Weighed(rapid.Int64Range(0, 30_000).Draw(rt, "kg"))})
	d.At -= rapid.Int64Range(0, 1e9).Draw(rt, "late")
	return d
}

// post adds a move to the simple book, once or taken back.
func (h *history) post(d ledger.Draft, sign ledger.Grams) {
	b, err := ledger.Decode(d.Kind, d.Schema, d.Body)
	if m, ok := b.(*ledger.Move); err == nil && ok {
		h.grams[m.From] -= sign * m.Amount.FreshKg
		h.grams[m.To] += sign * m.Amount.FreshKg
	}
}

// recordAny: any sequence of entries, late ones, repeated ones, contradictions
// and strikes among them, leaves the grams of the simple book; what is refused
// changes nothing.
func recordAny(t *testing.T, db *sqlstore.DB) {
	houses := 0
	rapid.Check(t, func(rt *rapid.T) {
		houses++
		h := &history{db, fmt.Sprintf("house-%d", houses), 0, nil, map[ledger.Account]ledger.Grams{}, map[string]bool{}}
		for range rapid.IntRange(1, 12).Draw(rt, "entries") {
			h.step(rt, t)
		}
		h.compare(rt, t)
	})
}

func (h *history) step(rt *rapid.T, t *testing.T) {
	what := rapid.IntRange(0, 5).Draw(rt, "what")
	if len(h.sent) == 0 || what < 3 {
		d := h.move(rt)
		b, _ := ledger.Decode(d.Kind, d.Schema, d.Body)
		if err := h.enter(t, d); (err == nil) != (b != nil) {
			rt.Fatalf("%s: %v", d.Body, err)
		} else if err == nil {
			h.post(d, 1)
			h.sent = append(h.sent, d)
		}
		return
	}
	d := rapid.SampledFrom(h.sent).Draw(rt, "again")
	switch what {
	case 3: // sent twice
		if err := h.enter(t, d); err != nil {
			rt.Fatal(err)
		}
	case 4: // the same id, another time
		d.At++
		if err := h.enter(t, d); err == nil {
			rt.Fatal("another fact under the same id was taken")
		}
	case 5:
		h.next++
		err := h.enter(t, Draft(h.next, &ledger.Strike{Fact: ledger.FactID(d.ID), Reason: "wrong"}))
		if (err == nil) == h.struck[d.ID] {
			rt.Fatalf("struck before %v: %v", h.struck[d.ID], err)
		} else if err == nil {
			h.struck[d.ID] = true
			h.post(d, -1)
		}
	}
}

// compare holds the record against the simple book and against itself.
func (h *history) compare(rt *rapid.T, t *testing.T) {
	balances, err := h.db.Read(h.house).Balances(t.Context())
	if err != nil {
		rt.Fatal(err)
	}
	got := map[ledger.Account]ledger.Grams{}
	for _, b := range balances {
		if sum := b.Dry + b.Water; sum != 0 {
			got[b.Account] = sum
		}
	}
	maps.DeleteFunc(h.grams, func(_ ledger.Account, g ledger.Grams) bool { return g == 0 })
	if !maps.Equal(got, h.grams) {
		rt.Fatalf("the record holds %v, the simple book %v", got, h.grams)
	}
	h.compareTurnover(rt, t)
	head, err := h.db.VerifyChain(t.Context(), h.house)
	if err != nil || head.Seq != int64(len(h.sent)+len(h.struck)) {
		rt.Fatalf("%d facts, %d entered: %v", head.Seq, len(h.sent)+len(h.struck), err)
	}
	if differed, err := h.db.Rebuild(t.Context(), h.house); err != nil || len(differed) > 0 {
		rt.Fatalf("%v differ: %v", differed, err)
	}
}

// compareTurnover holds what is added up by days against the flows one by one,
// over a stretch that begins and ends anywhere.
func (h *history) compareTurnover(rt *rapid.T, t *testing.T) {
	first := Draft(1, Receipt("L26-0001", 1)).At
	from := first + rapid.Int64Range(-11e8, 1e8).Draw(rt, "from")
	to := from + rapid.Int64Range(0, 11e8).Draw(rt, "span")
	r := h.db.Read(h.house)
	flows, err := r.Touching(t.Context(), []ledger.Account{"silo:A", "silo:B", "silo:C"})
	if err != nil {
		rt.Fatal(err)
	}
	type place struct {
		seq int64
		n   int
	}
	flow := map[place]ledger.Turnover{}
	for _, f := range flows {
		if f.At >= from && f.At < to {
			flow[place{f.Seq, f.N}] = ledger.Turnover{From: f.From.Kind(), To: f.To.Kind(), Dry: f.Dry, Water: f.Water}
		}
	}
	turnover, err := r.Turnover(t.Context(), from, to)
	if err != nil {
		rt.Fatal(err)
	}
	if got, want := summed(slices.Values(turnover)), summed(maps.Values(flow)); !maps.Equal(got, want) {
		rt.Fatalf("from %d to %d turned over %v, the flows make %v", from, to, got, want)
	}
}

// summed adds up what goes between the same kinds, and leaves out what comes
// to nothing.
func summed(all iter.Seq[ledger.Turnover]) map[[2]string][2]ledger.Grams {
	out := map[[2]string][2]ledger.Grams{}
	for m := range all {
		s := out[[2]string{m.From, m.To}]
		out[[2]string{m.From, m.To}] = [2]ledger.Grams{s[0] + m.Dry, s[1] + m.Water}
	}
	maps.DeleteFunc(out, func(_ [2]string, s [2]ledger.Grams) bool { return s == [2]ledger.Grams{} })
	return out
}

package ledger

import (
	"cmp"
	"context"
	"slices"
	"sort"
)

// Order is the order in which a trace replays what happened.
type Order int

// By the sequence of the record, which nobody can move; or by the times that
// people gave, so that what was entered late stands where it happened. A
// recall looks at both.
const (
	AsEntered Order = iota
	AsHappened
)

// Edges gives the flows that touch accounts, and those that brought a lot in,
// without what was struck and what struck it. One flow may come twice.
type Edges interface {
	Touching(ctx context.Context, accounts []Account) ([]Flow, error)
	Bringing(ctx context.Context, lot Code) ([]Flow, error)
}

// compare puts flows in order.
func (o Order) compare(a, b Flow) int {
	at := 0
	if o == AsHappened {
		at = cmp.Compare(a.At, b.At)
	}
	return cmp.Or(at, cmp.Compare(a.Seq, b.Seq), cmp.Compare(a.N, b.N))
}

// Step is a flow in a story that leaves out what has no bearing: where a place
// is said to be empty, whatever it still seems to hold left it in flows that
// were left out.
type Step struct {
	Flow
	FromEmpty, ToEmpty bool
}

// Steps makes a story of all the flows there are.
func Steps(flows []Flow) []Step {
	out := make([]Step, len(flows))
	for i, f := range flows {
		out[i].Flow = f
	}
	return out
}

// web gathers the flows that bear on a question. What an account held before
// it was empty has no bearing on what it held after: the stretch from one
// emptiness to the next is the unit that is followed.
type web struct {
	order    Order
	edges    Edges
	accounts map[Account]*account
	todo     []want
}

// account is the flows of one account in order and the stretches they fall in.
type account struct {
	flows  []Flow
	starts []int // where each stretch begins
	upto   []int // for each stretch, how many of its flows bear on the question
	ahead  []int // for each stretch, from where on all that went out is followed
}

// want asks for what an account held just after a flow, and, ahead, where that
// went.
type want struct {
	account Account
	flow    Flow
	ahead   bool
	all     bool // to the end, whatever the flow
}

// Behind loads the flows that made what places hold or held: all that a Trace
// needs to answer for them.
func Behind(ctx context.Context, edges Edges, order Order, places ...Account) ([]Step, error) {
	w := web{order: order, edges: edges, accounts: map[Account]*account{}}
	for _, p := range places {
		w.todo = append(w.todo, want{account: p, all: true})
	}
	return w.gather(ctx)
}

// Ahead loads the flows that show where a lot went, with all that it met on
// the way, so that a Trace can say who holds how much of it.
func Ahead(ctx context.Context, edges Edges, order Order, lot Code) ([]Step, error) {
	w := web{order: order, edges: edges, accounts: map[Account]*account{}}
	brought, err := edges.Bringing(ctx, lot)
	if err != nil {
		return nil, err
	}
	for _, f := range brought {
		w.todo = append(w.todo, want{account: f.To, flow: f, ahead: true})
	}
	return w.gather(ctx)
}

// gather follows what is wanted until nothing more is.
func (w *web) gather(ctx context.Context) ([]Step, error) {
	for len(w.todo) > 0 {
		if err := w.load(ctx); err != nil {
			return nil, err
		}
		todo := w.todo
		w.todo = nil
		for _, want := range todo {
			w.follow(want)
		}
	}
	return w.steps(), nil
}

// load fetches the accounts that are wanted and not known yet, all at once.
func (w *web) load(ctx context.Context) error {
	var names []Account
	for _, want := range w.todo {
		if w.accounts[want.account] == nil {
			w.accounts[want.account] = &account{}
			names = append(names, want.account)
		}
	}
	if len(names) == 0 {
		return nil
	}
	flows, err := w.edges.Touching(ctx, names)
	if err != nil {
		return err
	}
	fresh := make(map[Account]bool, len(names))
	for _, n := range names {
		fresh[n] = true
	}
	for _, f := range flows {
		if f.Dry == 0 {
			continue
		}
		if fresh[f.From] {
			w.accounts[f.From].flows = append(w.accounts[f.From].flows, f)
		}
		if fresh[f.To] {
			w.accounts[f.To].flows = append(w.accounts[f.To].flows, f)
		}
	}
	for _, n := range names {
		w.accounts[n].cut(n, w.order)
	}
	return nil
}

// cut sorts the flows of an account and finds its stretches.
func (a *account) cut(name Account, order Order) {
	slices.SortFunc(a.flows, order.compare)
	a.flows = slices.CompactFunc(a.flows, func(f, g Flow) bool { return f.Seq == g.Seq && f.N == g.N })
	var held Grams
	for i, f := range a.flows {
		if held == 0 {
			a.starts = append(a.starts, i)
		}
		if f.To == name {
			held += f.Dry
		} else {
			held -= f.Dry
		}
	}
	a.upto = make([]int, len(a.starts))
	a.ahead = make([]int, len(a.starts))
	for s := range a.ahead {
		a.ahead[s] = len(a.flows)
	}
}

// follow notes that flows of an account bear on the question, and wants what
// they lead to.
func (w *web) follow(q want) {
	a := w.accounts[q.account]
	if len(a.flows) == 0 {
		return
	}
	if q.all {
		for s := range a.starts {
			w.widen(q.account, a, s, a.end(s))
		}
		return
	}
	at := sort.Search(len(a.flows), func(i int) bool { return w.order.compare(a.flows[i], q.flow) >= 0 })
	s := sort.SearchInts(a.starts, at+1) - 1
	if !q.ahead {
		w.widen(q.account, a, s, at+1)
		return
	}
	for i := at; i < min(a.ahead[s], a.end(s)); i++ {
		if f := a.flows[i]; f.From == q.account && f.To.Inside() {
			w.todo = append(w.todo, want{account: f.To, flow: f, ahead: true})
		}
	}
	a.ahead[s] = min(a.ahead[s], at)
	w.widen(q.account, a, s, a.end(s))
}

// end is where a stretch ends.
func (a *account) end(stretch int) int {
	if stretch+1 < len(a.starts) {
		return a.starts[stretch+1]
	}
	return len(a.flows)
}

// widen takes more flows of a stretch in and wants what stood behind them.
func (w *web) widen(name Account, a *account, stretch, upto int) {
	from := max(a.upto[stretch], a.starts[stretch])
	for i := from; i < upto; i++ {
		if f := a.flows[i]; f.To == name && f.From.Inside() {
			w.todo = append(w.todo, want{account: f.From, flow: f})
		}
	}
	a.upto[stretch] = max(a.upto[stretch], upto)
}

// steps are the flows that bear on the question, in order, each once.
func (w *web) steps() []Step {
	type place struct {
		seq int64
		n   int
	}
	at := map[place]*Step{}
	for name, a := range w.accounts {
		for s, start := range a.starts {
			for i := start; i < a.upto[s]; i++ {
				f := a.flows[i]
				step := at[place{f.Seq, f.N}]
				if step == nil {
					step = &Step{Flow: f}
					at[place{f.Seq, f.N}] = step
				}
				if i == start {
					step.FromEmpty = step.FromEmpty || f.From == name
					step.ToEmpty = step.ToEmpty || f.To == name
				}
			}
		}
	}
	out := make([]Step, 0, len(at))
	for _, step := range at {
		out = append(out, *step)
	}
	slices.SortFunc(out, func(a, b Step) int { return w.order.compare(a.Flow, b.Flow) })
	return out
}

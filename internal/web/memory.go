package web

import (
	"runtime"
	"sync"
)

// memory keeps what took long to work out, by what it was worked out of. Who asks
// for the same meanwhile waits for it and does not work it out again.
type memory[K comparable, V any] struct {
	sync.Mutex
	kept map[K]func() V
}

// mostKept is how much a memory keeps before it forgets all of it.
const mostKept = 64

// of is what was kept, or is worked out now.
func (m *memory[K, V]) of(key K, work func() V) V {
	m.Lock()
	get, there := m.kept[key]
	if !there {
		if m.kept == nil || len(m.kept) >= mostKept {
			m.kept = map[K]func() V{}
		}
		get = sync.OnceValue(work)
		m.kept[key] = get
	}
	m.Unlock()
	return get()
}

// spare is how many processors a long sum may take: one is left to those who
// enter something.
func spare() int { return max(1, runtime.GOMAXPROCS(0)-1) }

// sums are the long sums that are worked out now: a run of a piece, one of its
// draws, what draws come to. There are never more than processors to spare, so
// that entries find one free however many design programmes; and as each is short,
// nobody's run waits for all of somebody else's draws.
var sums = make(chan struct{}, spare())

// turn waits for a long sum to be allowed, and gives what ends it.
func turn() (end func()) {
	sums <- struct{}{}
	return func() { <-sums }
}

package account

import (
	"sync"
	"time"
)

// How many wrong passwords are taken within a while: for one account from one
// address, from one address, for one account from anywhere. Who mistypes is not
// kept out by who guesses elsewhere, unless many guess at once.
const (
	triesWhile   = 15 * time.Minute
	triesBoth    = 5
	triesAddress = 20
	triesAccount = 60
)

// mostTries is how many accounts and addresses are remembered. Past it nobody
// who failed before is let try until the while is over.
const mostTries = 20_000

// tries counts what failed.
type tries struct {
	sync.Mutex
	failed map[string]failures
}

// failures are those since a moment.
type failures struct {
	since time.Time
	count int
}

// keysOf are the counts that a try falls under, each with the most it may be.
func keysOf(who, address string) map[string]int {
	return map[string]int{"who " + who: triesAccount, "at " + address: triesAddress, "both " + who + " " + address: triesBoth}
}

// take counts a try before it is made, and refuses one too many. A try that
// succeeds is given back.
func (t *tries) take(who, address string, now time.Time) error {
	t.Lock()
	defer t.Unlock()
	if t.failed == nil {
		t.failed = map[string]failures{}
	}
	keys := keysOf(who, address)
	for k, most := range keys {
		if f := t.failed[k]; f.count >= most && now.Sub(f.since) < triesWhile {
			return &Fault{Code: "account.sign-in.often"}
		}
	}
	if len(t.failed) > mostTries {
		t.forget(now)
		if len(t.failed) > mostTries {
			return &Fault{Code: "account.sign-in.often"}
		}
	}
	for k := range keys {
		f := t.failed[k]
		if now.Sub(f.since) >= triesWhile {
			f = failures{since: now}
		}
		f.count++
		t.failed[k] = f
	}
	return nil
}

// forget drops what is over.
func (t *tries) forget(now time.Time) {
	for k, f := range t.failed {
		if now.Sub(f.since) >= triesWhile {
			delete(t.failed, k)
		}
	}
}

// well forgets a try that succeeded, and the mistakes before it that were made
// from the same place.
func (t *tries) well(who, address string) {
	t.Lock()
	defer t.Unlock()
	for k := range keysOf(who, address) {
		f := t.failed[k]
		f.count--
		t.failed[k] = f
	}
	delete(t.failed, "both "+who+" "+address)
}

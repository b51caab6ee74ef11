package malthouse

import (
	"context"
	"fmt"
	"strings"
	"sync"

	"awn/ledger"
)

// Shares remembers what malt stores hold by lot. To find that out a store is
// followed back to its pieces, and nothing that happens to barley in silos changes
// it: it is kept until an account between changes.
type Shares struct {
	sync.Mutex
	as   string // the accounts that it rests on, each with the last fact about it
	held map[ledger.Account][]LotShare
}

// restsOn names all accounts that shares of malt rest on, with the last fact that
// touched each; a strike touches as well.
func restsOn(balances []ledger.Balance) string {
	var b strings.Builder
	for _, x := range balances {
		if x.Account.Kind() != ledger.Silo && x.Account.Inside() {
			fmt.Fprintf(&b, "%s %d %d %d\n", x.Account, x.Seq, x.Dry, x.Water)
		}
	}
	return b.String()
}

// of is what a store holds by lot, as of those balances.
func (k *Shares) of(ctx context.Context, r ledger.Reader, store ledger.Account, as string) ([]LotShare, error) {
	if k == nil {
		return lotsAt(ctx, r, store)
	}
	k.Lock()
	if k.as != as {
		k.as, k.held = as, map[ledger.Account][]LotShare{}
	}
	shares, there := k.held[store]
	k.Unlock()
	if there {
		return shares, nil
	}
	shares, err := lotsAt(ctx, r, store)
	if err != nil {
		return nil, err
	}
	k.Lock()
	defer k.Unlock()
	if k.as == as {
		k.held[store] = shares
	}
	return shares, nil
}

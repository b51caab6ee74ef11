package account

import (
	"context"

	"awn/internal/malthouse"
)

// Chosen is how somebody wants things told, as they chose it last; "" if they
// never did.
func (a *Accounts) Chosen(ctx context.Context, who malthouse.Actor) (string, error) {
	return a.db.Reader(ctx, a.house.Code, who.ID)
}

// Choose keeps how somebody wants things told, for every browser they sign in
// with.
func (a *Accounts) Choose(ctx context.Context, who malthouse.Actor, chosen string) error {
	return a.db.PutReader(ctx, a.house.Code, who.ID, chosen)
}

package sqlstore

import (
	"context"
	"slices"

	"awn/ledger"
)

const flowColumns = `seq, n, at, source, target, lot, dry_g, water_g, u_dry_g, u_water_g, standing, alike, undo`

func flowPlaces(f *ledger.Flow) []any {
	return []any{&f.Seq, &f.N, &f.At, &f.From, &f.To, &f.Lot, &f.Dry, &f.Water, &f.UDry, &f.UWater, &f.Standing, &f.Alike, &f.Undo}
}

func (r reader) flows(ctx context.Context, query string, args ...any) ([]ledger.Flow, error) {
	rows, err := r.q.QueryContext(ctx, query, args...)
	if err != nil {
		return nil, r.db.explain(err)
	}
	return collect(r.db, rows, flowPlaces)
}

// Bringing gives the flows in force that brought a lot in.
func (r reader) Bringing(ctx context.Context, lot ledger.Code) ([]ledger.Flow, error) {
	return r.flows(ctx, `select `+flowColumns+` from flow where house = $1 and lot = $2 and lot <> '' and struck = 0 order by seq, n`,
		r.house, string(lot))
}

// few is how many names one query asks about at once.
const (
	few      = 16
	fewMarks = `($2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17)`
)

// fewOf are a house and at most few names, the last of which stands for those
// that are missing.
func fewOf[S ~string](house string, names []S) []any {
	args := []any{house}
	for i := range few {
		args = append(args, string(names[min(i, len(names)-1)]))
	}
	return args
}

// Touching gives the flows in force at accounts, of sixteen accounts at a time.
func (r reader) Touching(ctx context.Context, accounts []ledger.Account) ([]ledger.Flow, error) {
	const before = `select ` + flowColumns + ` from flow where house = $1 and `
	var all []ledger.Flow
	for some := range slices.Chunk(accounts, few) {
		args := fewOf(r.house, some)
		for _, query := range []string{
			before + `source in ` + fewMarks + ` and struck = 0`,
			before + `target in ` + fewMarks + ` and struck = 0`,
		} {
			flows, err := r.flows(ctx, query, args...)
			if err != nil {
				return nil, err
			}
			all = append(all, flows...)
		}
	}
	return all, nil
}

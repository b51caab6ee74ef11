package malthouse

import (
	"context"
	"strings"

	"awn/ledger"
)

// LotShare is what a place or a load holds of one lot of malt.
type LotShare struct {
	Lot         ledger.Code
	Piece       ledger.Code // that it was made in, "" of opening stock
	Share       float64     // of the dry matter
	Least, Most float64
}

// lotsAt is what a malt store holds now by lot.
func lotsAt(ctx context.Context, r ledger.Reader, place ledger.Account) ([]LotShare, error) {
	return lotsOf(ctx, r, place, func(t *ledger.Trace) []ledger.Share { return t.At(place) })
}

// lotsInto is what ever went into a shipment, by lot.
func lotsInto(ctx context.Context, r ledger.Reader, shipment ledger.Account) ([]LotShare, error) {
	return lotsOf(ctx, r, shipment, func(t *ledger.Trace) []ledger.Share { return t.Into(shipment) })
}

func lotsOf(ctx context.Context, r ledger.Reader, place ledger.Account, ask func(*ledger.Trace) []ledger.Share) ([]LotShare, error) {
	trace, err := newTrace(ctx, r)
	if err != nil {
		return nil, err
	}
	steps, err := ledger.Behind(ctx, r, ledger.AsEntered, place)
	if err != nil {
		return nil, err
	}
	trace.ByPiece().Replay(steps)
	shares := ask(trace)
	lots, err := lotsMade(ctx, r, shares)
	if err != nil {
		return nil, err
	}
	var out []LotShare
	for _, s := range shares {
		lot := LotShare{Share: s.Mean / s.Of, Least: s.Least / s.Of, Most: s.Most / s.Of}
		switch kind, code, _ := strings.Cut(string(s.Origin), ":"); kind {
		case ledger.LotKind:
			lot.Lot = ledger.Code(code)
		case ledger.Piece:
			lot.Piece = ledger.Code(code)
			lot.Lot = lots[lot.Piece]
		default:
			continue // barley, or nobody knows what
		}
		out = append(out, lot)
	}
	blends, err := blendsIn(ctx, r, place)
	return append(blends, out...), err
}

// blendsIn are the blends that were made in a place: they bear a code of their
// own beside the lots that they are made of.
func blendsIn(ctx context.Context, r ledger.Reader, place ledger.Account) (out []LotShare, err error) {
	all, _, err := bodies[*ledger.Blending](ctx, r, place.Ref(), ledger.Blended)
	for _, b := range all {
		if b.To == place {
			out = append(out, LotShare{Lot: b.Lot})
		}
	}
	return out, err
}

// lotsMade is the lot that each piece was booked as: the first, if it was
// parted.
func lotsMade(ctx context.Context, r ledger.Reader, shares []ledger.Share) (map[ledger.Code]ledger.Code, error) {
	var about []ledger.Ref
	for _, s := range shares {
		if ledger.Account(s.Origin).Kind() == ledger.Piece {
			about = append(about, ledger.Ref(s.Origin))
		}
	}
	if len(about) > many {
		about = []ledger.Ref{""}
	}
	out := map[ledger.Code]ledger.Code{}
	for _, of := range about {
		all, _, err := bodies[*ledger.Dressing](ctx, r, of, ledger.Dressed)
		if err != nil {
			return nil, err
		}
		for _, b := range all {
			if out[b.Piece] == "" && len(b.Malt) > 0 {
				out[b.Piece] = b.Malt[0].Lot
			}
		}
	}
	return out, nil
}

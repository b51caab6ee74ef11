package malthouse

import (
	"context"
	"math"
	"slices"
	"strings"

	"awn/lab"
	"awn/ledger"
)

// The kinds of vessel that a piece goes through, as a comparison names them.
var vesselKinds = []string{"steep", "germination", "kiln"}

// checkSample begins how a sample was taken that is read again and again, to
// see whether the laboratory stays true.
const checkSample = "check"

// origin is what is known of how a lot of malt was made.
type origin struct {
	barley  string // the silo that most of it came from
	vessels [3]string
}

// Laboratory gathers all results in force for a look at the laboratory itself:
// check samples, and lots of malt with the barley and the vessels they were
// made of. Qualities have the names of the record, and figures its units. What
// the floor measured by hand is left out. A laboratory may be
// written with its instrument behind a stroke: “house / oven 2”.
func (h *House) Laboratory(ctx context.Context, a Actor) (lab.Results, error) {
	out := lab.Results{Vessels: vesselKinds}
	if err := a.Permit(UseLook); err != nil {
		return out, err
	}
	made, err := h.origins(ctx, a)
	if err != nil {
		return out, err
	}
	checks := map[ledger.Ref]bool{}
	samples, err := list[*ledger.Sampling](ctx, h, a, ledger.Sampled)
	if err != nil {
		return out, err
	}
	for _, s := range samples {
		checks[ledger.To(ledger.SampleKind, s.Body.Sample)] = strings.HasPrefix(s.Body.How, checkSample)
	}
	all, err := list[*ledger.Analysis](ctx, h, a, ledger.Analysed)
	if err != nil {
		return out, err
	}
	slices.Reverse(all) // in the order in which they were entered
	for _, x := range all {
		row := lab.Result{
			Line: int(x.Fact.Seq), Day: float64(x.Fact.At) / 86_400_000, Sample: ledger.Account(x.Body.Of).Code(), Reference: math.NaN(), SD: math.NaN(),
			Bench: bench(x.Body.Lab), Kind: lab.Piece, Matrix: "malt",
		}
		switch kind := ledger.Account(x.Body.Of).Kind(); {
		case x.Body.Lab == byHand:
			continue
		case checks[x.Body.Of]:
			row.Kind = lab.Check
		case kind == ledger.LotKind:
			from := made[ledger.Code(row.Sample)]
			row.Lot, row.Vessels = from.barley, from.vessels[:]
		default:
			continue
		}
		for _, f := range x.Body.Results {
			if f.Less {
				continue
			}
			one := row
			one.Method, one.Value, one.Quality = f.Method, f.Value, qualityOf(&out, f.Quantity)
			out.Rows = append(out.Rows, one)
		}
	}
	return out, nil
}

// bench is a laboratory with its instrument, as they are typed.
func bench(text string) lab.Bench {
	laboratory, instrument, _ := strings.Cut(text, "/")
	return lab.Bench{Laboratory: strings.TrimSpace(laboratory), Instrument: strings.TrimSpace(instrument)}
}

// qualityOf is the place of a quality in the results, which get it if they have
// not got it yet.
func qualityOf(r *lab.Results, q ledger.Quantity) int {
	one := lab.Quality{Name: string(q)}
	if i := slices.Index(r.Qualities, one); i >= 0 {
		return i
	}
	r.Qualities = append(r.Qualities, one)
	return len(r.Qualities) - 1
}

// origins is how each lot of malt was made.
func (h *House) origins(ctx context.Context, a Actor) (map[ledger.Code]origin, error) {
	pieces := map[ledger.Code]*origin{}
	of := func(piece ledger.Code) *origin {
		if pieces[piece] == nil {
			pieces[piece] = &origin{}
		}
		return pieces[piece]
	}
	casts, err := list[*ledger.Casting](ctx, h, a, ledger.Cast)
	if err != nil {
		return nil, err
	}
	for _, c := range casts {
		most := slices.MaxFunc(c.Body.From, func(a, b ledger.Draw) int { return int(a.Amount.FreshKg - b.Amount.FreshKg) })
		o := of(c.Body.Piece)
		o.barley = most.Place.Code()
		o.vessels[0] = c.Body.Vessel
	}
	couched, err := list[*ledger.Couching](ctx, h, a, ledger.Couched)
	if err != nil {
		return nil, err
	}
	for _, c := range couched {
		of(c.Body.Piece).vessels[1] = c.Body.Vessel
	}
	kilned, err := list[*ledger.Kilning](ctx, h, a, ledger.Kilned)
	if err != nil {
		return nil, err
	}
	for _, c := range kilned {
		of(c.Body.Piece).vessels[2] = c.Body.Vessel
	}
	dressed, err := list[*ledger.Dressing](ctx, h, a, ledger.Dressed)
	out := map[ledger.Code]origin{}
	for _, d := range dressed {
		for _, m := range d.Body.Malt {
			out[m.Lot] = *of(d.Body.Piece)
		}
	}
	return out, err
}

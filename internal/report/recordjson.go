package report

import (
	"encoding/hex"
	"io"

	"awn/internal/house"
	"awn/internal/malthouse"
	"awn/ledger"
)

// recordJSON writes an answer of the record in the envelope of all answers.
func recordJSON(w io.Writer, schema string, v house.Version, result object) error {
	return enveloped(w, schema, v, nil, nil, result, []object{})
}

func headObject(h ledger.Head) object {
	return object{"seq": h.Seq, "hash": hex.EncodeToString(h.Hash[:])}
}

func held(dry, water ledger.Grams) object {
	return object{"dry_kg_dm": float64(dry) / 1000, "water_kg": float64(water) / 1000}
}

// StockJSON writes what the house holds.
func StockJSON(w io.Writer, s malthouse.Stock, v house.Version) error {
	return recordJSON(w, "stock/1", v, object{
		"head": headObject(s.Head), "at_ms": s.AtMs, "places": each(s.Places, heldObject), "unexplained": each(s.Unexplained, unexplainedObject),
		"shaken": each(s.Shaken, func(f ledger.Fact) object { return object{"id": f.ID, "kind": f.Kind, "seq": f.Seq} }),
	})
}

func heldObject(h malthouse.Held) object {
	o := held(h.Dry, h.Water).text("leave", string(h.Leave)).text("drawn", string(h.Drawn)).text("state", string(h.State))
	o["place"], o["overdrawn"] = h.Account, h.Overdrawn()
	if len(h.Lots) > 0 {
		o["lots"] = each(h.Lots, lotObject)
	}
	return o
}

func lotObject(l malthouse.LotShare) object {
	return object{"lot": l.Lot, "share": l.Share, "least": l.Least, "most": l.Most}.text("piece", string(l.Piece))
}

func unexplainedObject(x malthouse.Unexplained) object {
	return object{"place": x.Place, "month": x.Month, "gap_kg_dm": float64(x.Gap) / 1000, "alarm": x.Alarm(), "limit": x.Limit}.
		num("share", x.Share()).num("chance", x.Chance())
}

// TraceJSON writes where a thing came from and where it went.
func TraceJSON(w io.Writer, x malthouse.Traced, v house.Version) error {
	order := "as-entered"
	if x.Order == ledger.AsHappened {
		order = "as-happened"
	}
	return recordJSON(w, "trace/1", v, object{
		"thing": x.Thing, "order": order, "head": headObject(x.Head), "took_ms": x.Took.Milliseconds(),
		"sources": each(x.Sources, func(s malthouse.Source) object {
			return object{"origin": s.Origin, "share": s.Share, "least": s.Least, "most": s.Most, "dry_kg_dm": s.DryKg}.
				text("grower", s.Grower).text("grown", s.Grown).text("variety", s.Variety)
		}),
		"mixed": each(x.Mixed, func(m malthouse.Mixed) object {
			return object{"quantity": m.Quantity, "mean": m.Mean, "least": m.Least, "most": m.Most, "partly": m.Partly}
		}),
		"lots": each(x.Pieces, lotObject),
		"holders": each(x.Holders, func(h malthouse.Holder) object {
			return object{"place": h.Place, "dry_kg_dm": h.DryKg, "least_kg_dm": h.LeastKg, "most_kg_dm": h.MostKg, "fresh_kg": h.FreshKg, "held_kg": h.HeldKg}.
				text("receiver", h.Receiver).text("contact", h.Contact).text("vehicle", h.Vehicle)
		}),
	})
}

// BalanceJSON writes what came in, went out and is left.
func BalanceJSON(w io.Writer, b malthouse.Balance, v house.Version) error {
	line := func(l malthouse.Line) object {
		o := held(l.Dry, l.Water)
		o["line"] = l.Name
		return o
	}
	return recordJSON(w, "balance/1", v, object{
		"from_ms": b.From.UnixMilli(), "to_ms": b.To.UnixMilli(), "lines": each(b.Lines, line), "made": each(b.Made, line),
		"unexplained": each(b.Unexplained, unexplainedObject), "off_kg": float64(b.OffG) / 1000,
	})
}

// PieceJSON writes all that the record says of a piece.
func PieceJSON(w io.Writer, p malthouse.PieceView, v house.Version) error {
	o := object{
		"piece": p.Piece, "state": p.State, "holds": held(p.Held.Dry, p.Held.Water),
		"facts": each(p.Told, factObject), "results": each(p.Results, resultObject),
	}
	if b := p.Booked; b != nil {
		came := object{"lots": b.Lots}.num("cast_kg", b.CastKg).num("malt_kg", b.MaltKg).num("moisture_wb", b.MaltWB).
			num("culms_kg", b.CulmsKg).num("screenings_kg", b.ScreeningsKg).num("yield", b.Yield).num("respired_kg_dm", b.RespiredKg)
		if b.Expected != nil {
			came["expected"] = b.Expected
		}
		o["came"] = came
	}
	return recordJSON(w, "piece-record/1", v, o)
}

// PiecesJSON writes pieces with how it stands.
func PiecesJSON(w io.Writer, all []malthouse.PieceLine, v house.Version, next string) error {
	return listJSON(w, "pieces", v, each(all, pieceObject), next)
}

func pieceObject(p malthouse.PieceLine) object {
	return object{
		"piece": p.Code, "seq": p.Cast.Fact.Seq, "state": p.State, "vessel": p.Cast.Body.Vessel, "at_ms": p.Cast.Fact.At,
		"cast_kg": float64(drawn(p.Cast.Body.From)) / 1000,
	}
}

// DeliveriesJSON writes loads of barley that came in.
func DeliveriesJSON(w io.Writer, all []malthouse.Entered[*ledger.Receipt], v house.Version, next string) error {
	return listJSON(w, "deliveries", v, each(all, func(d malthouse.Entered[*ledger.Receipt]) object {
		b := d.Body
		o := object{"delivery": b.Lot, "seq": d.Fact.Seq, "at_ms": d.Fact.At, "place": b.To, "net_kg": float64(b.Amount.FreshKg) / 1000}
		if b.Amount.MoistureWB != nil {
			o["moisture_wb"] = *b.Amount.MoistureWB
		}
		return o.text("grower", b.Grower).text("grown", b.Grown).text("variety", b.Variety).text("ticket", b.Ticket)
	}), next)
}

// drawn is the mass of all draws together.
func drawn(from []ledger.Draw) (sum ledger.Grams) {
	for _, d := range from {
		sum += d.Amount.FreshKg
	}
	return sum
}

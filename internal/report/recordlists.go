package report

import (
	"encoding/json"
	"io"

	"awn/internal/house"
	"awn/internal/malthouse"
	"awn/ledger"
	"awn/reckon"
)

// listJSON writes a page of a list under its name, with the address of the page
// that follows, if one does.
func listJSON(w io.Writer, name string, v house.Version, all []object, next string) error {
	return recordJSON(w, name+"/1", v, object{name: all}.text("next", next))
}

func factObject(x malthouse.Told) object {
	return object{"seq": x.Fact.Seq, "id": x.Fact.ID, "kind": x.Fact.Kind, "at_ms": x.Fact.At, "who": x.Who, "struck": x.Struck, "body": x.Body}
}

func resultObject(r ledger.Result) object {
	return object{"quantity": r.Quantity, "value": r.Value, "less": r.Less}.text("method", r.Method).text("lab", r.Lab)
}

// FactsJSON writes entries as they stand in the record.
func FactsJSON(w io.Writer, all []ledger.Fact, v house.Version, next string) error {
	return listJSON(w, "facts", v, each(all, func(f ledger.Fact) object {
		return object{"seq": f.Seq, "id": f.ID, "kind": f.Kind, "schema": f.Schema, "at_ms": f.At, "entered_ms": f.Entered, "who": f.Who, "body": json.RawMessage(f.Body)}
	}), next)
}

// LotsJSON writes lots of malt with what was found of them.
func LotsJSON(w io.Writer, all []malthouse.Lot, v house.Version, next string) error {
	return listJSON(w, "lots", v, each(all, func(l malthouse.Lot) object {
		return object{"lot": l.Code, "seq": l.Opened, "results": each(l.Results, resultObject)}.text("leave", string(l.Leave))
	}), next)
}

// ShipmentsJSON writes the loads that were sent.
func ShipmentsJSON(w io.Writer, all []malthouse.Entered[*ledger.Shipping], v house.Version, next string) error {
	return listJSON(w, "shipments", v, each(all, func(x malthouse.Entered[*ledger.Shipping]) object {
		return object{
			"shipment": x.Body.Shipment, "seq": x.Fact.Seq, "at_ms": x.Fact.At, "receiver": x.Body.Receiver, "net_kg": float64(drawn(x.Body.From)) / 1000,
			"from": each(x.Body.From, func(d ledger.Draw) object {
				return object{"place": d.Place, "net_kg": float64(d.Amount.FreshKg) / 1000}
			}),
		}.text("vehicle", x.Body.Vehicle).text("seal", x.Body.Seal)
	}), next)
}

// CertificatesJSON writes the certificates that were issued.
func CertificatesJSON(w io.Writer, all []malthouse.Entered[*ledger.Certificate], v house.Version, next string) error {
	return listJSON(w, "certificates", v, each(all, func(c malthouse.Entered[*ledger.Certificate]) object {
		return object{"certificate": c.Body.Certificate, "seq": c.Fact.Seq, "at_ms": c.Fact.At, "of": c.Body.Of, "document_sha256": c.Body.Document}.
			text("replaces", string(c.Body.Replaces))
	}), next)
}

// PeopleJSON writes those whom the house knows.
func PeopleJSON(w io.Writer, all []malthouse.Person, v house.Version, next string) error {
	return listJSON(w, "people", v, each(all, func(p malthouse.Person) object {
		return object{"id": p.ID, "name": p.Name}.text("role", string(p.Role)).text("contact", p.Contact)
	}), next)
}

// ThingJSON writes what the record says of one thing.
func ThingJSON(w io.Writer, x malthouse.ThingView, v house.Version) error {
	return recordJSON(w, "thing/1", v, object{
		"thing": x.Subject.Ref, "traced": x.Traced, "facts": each(x.Told, factObject), "results": each(x.Results, resultObject),
	}.text("leave", string(x.Subject.Leave)).text("drawn", string(x.Subject.Drawn)).text("state", string(x.Subject.State)))
}

// ShiftJSON writes what one shift hands to the next.
func ShiftJSON(w io.Writer, x malthouse.Shift, v house.Version) error {
	o := object{
		"since_ms": x.Since.UnixMilli(), "head": headObject(x.Head), "pieces": each(x.Pieces, pieceObject), "did": each(x.Did, factObject),
		"held": each(x.Held, heldObject), "alarms": each(x.Alarms, unexplainedObject), "due": each(x.Due, dueObject),
	}
	if g := x.Given; g != nil {
		o["given"] = object{"id": g.Fact.ID, "who": g.Fact.Who, "at_ms": g.Fact.At}
	}
	return recordJSON(w, "handover/1", v, o)
}

// SettingsJSON writes what a house sets.
func SettingsJSON(w io.Writer, set map[string]string, v house.Version) error {
	return recordJSON(w, "settings/1", v, object{"settings": set})
}

// KeptDocument is a document that a house goes by. One that is agreed with others
// has a name; one without a sum is the example of the program.
type KeptDocument struct{ Kind, Name, SHA256 string }

// KeptJSON writes which documents a house goes by.
func KeptJSON(w io.Writer, all []KeptDocument, v house.Version) error {
	return listJSON(w, "documents", v, each(all, func(d KeptDocument) object {
		return object{"kind": d.Kind, "own": d.SHA256 != ""}.text("name", d.Name).text("sha256", d.SHA256)
	}), "")
}

// FormulasJSON writes formulas, each under the key by which results name it.
func FormulasJSON(w io.Writer, all []reckon.Formula, v house.Version, next string) error {
	return listJSON(w, "formulas", v, each(all, func(f reckon.Formula) object {
		return object{"key": f.Key(), "signature": f.Signature, "summary": f.Summary, "text": f.Text, "standing": f.Standing}.
			text("source", f.Source).text("valid", f.Valid).text("check", f.Check).text("note", f.Note)
	}), next)
}

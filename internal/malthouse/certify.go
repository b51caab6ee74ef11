package malthouse

import (
	"context"
	"crypto/ed25519"
	"encoding/hex"
	"strings"

	"awn/certificate"
	"awn/ledger"
	"awn/malt"
)

// Issue is what a certificate is issued on.
type Issue struct {
	Shipment      ledger.Code
	Replaces      ledger.Code // the certificate that it takes the place of
	Product       string
	Order         string
	Specification *malt.Specification
	SpecText      []byte          // the document it was read from, kept beside
	Typical       []ledger.Figure // the house's usual figures, said to be that
	Deviations    []certificate.Deviation
	Statements    []string
	Sample        *certificate.KeptSample
}

// Certificate is one that was issued.
type Certificate struct {
	Number      ledger.Code
	Signed      []byte // the file to hand out
	Certificate *certificate.Certificate
	Key         ed25519.PublicKey
}

// Certify issues a certificate for a load. Its number is taken in the
// transaction that issues it, so that there is no gap; the end of the record
// before it is printed on it, so that a record that was restored and went on
// another way shows.
func (h *House) Certify(ctx context.Context, a Actor, e Entry, in Issue) (Done, Certificate, error) {
	var out Certificate
	body := &ledger.Certificate{Replaces: in.Replaces, Of: []ledger.Ref{ledger.In(ledger.Shipment, in.Shipment).Ref()}}
	done, err := h.enter(ctx, a, UseCertify, e, body, steps{
		complete: func(ctx context.Context, d *desk) (err error) {
			if was, ok := before[*ledger.Certificate](d); ok {
				*body = *was
				out.Number = was.Certificate
				out.Signed, err = h.Desk.Document(ctx, string(was.Document))
			} else {
				err = d.issue(ctx, in, body, &out)
			}
			if err != nil {
				return err
			}
			out.Certificate, out.Key, err = certificate.Verify(out.Signed)
			return err
		},
		said: func() Said {
			return say("certified", "certificate", string(out.Number), "shipment", string(in.Shipment)).with("values_n", float64(len(out.Certificate.Values)))
		},
	})
	return done, out, err
}

// Issued is a certificate that was issued, taken back or not.
func (h *House) Issued(ctx context.Context, a Actor, number ledger.Code) (Certificate, error) {
	out := Certificate{Number: number}
	if err := a.Permit(UseLook); err != nil {
		return out, err
	}
	r, thing := h.Store.Read(h.Code), ledger.To(ledger.CertificateKind, number)
	if _, err := known(ctx, r, thing); err != nil {
		return out, err
	}
	for f, err := range r.Facts(ctx, ledger.Query{About: thing, Kind: ledger.Certified}) {
		if err != nil {
			return out, err
		}
		body, err := ledger.Decode(f.Kind, f.Schema, f.Body)
		if err != nil {
			return out, err
		}
		if c, ok := body.(*ledger.Certificate); ok && c.Certificate == number {
			if out.Signed, err = h.Desk.Document(ctx, string(c.Document)); err == nil {
				out.Certificate, out.Key, err = certificate.Verify(out.Signed)
			}
			return out, err
		}
	}
	return out, refuse("use.thing.unknown", Kinds[ledger.CertificateKind]+" "+string(number))
}

// issue makes a certificate, signs it and keeps it.
func (d *desk) issue(ctx context.Context, in Issue, body *ledger.Certificate, out *Certificate) error {
	if err := d.mayIssue(ctx, in); err != nil {
		return err
	}
	c, rests, err := d.draft(ctx, in)
	if err != nil {
		return err
	}
	if err := d.number(ctx, &body.Certificate, "", letterCertificate, ledger.CertificateKind); err != nil {
		return err
	}
	c.Number = string(body.Certificate)
	if problems := c.Check(); problems != nil {
		return refuse("use.certificate.problem", strings.Join(problems, "; "))
	}
	key, err := d.house.Key()
	if err != nil {
		return err
	}
	if out.Signed, err = certificate.Sign(c, key); err != nil {
		return err
	}
	sha, err := d.file(ctx, "application/json", out.Signed)
	if err != nil {
		return err
	}
	if in.SpecText != nil {
		if _, err := d.file(ctx, "application/yaml", in.SpecText); err != nil {
			return err
		}
	}
	out.Number, body.Document, body.Rests = body.Certificate, sha, rests
	return nil
}

// mayIssue refuses a second certificate in force for one load, and to replace
// one that is not of the load.
func (d *desk) mayIssue(ctx context.Context, in Issue) error {
	thing := ledger.In(ledger.Shipment, in.Shipment).Ref()
	if err := d.about(ctx, thing); err != nil {
		return err
	}
	all, _, err := bodies[*ledger.Certificate](ctx, d, thing, ledger.Certified)
	if err != nil {
		return err
	}
	replaced := in.Replaces == ""
	for _, c := range all {
		if c.Certificate == in.Replaces {
			replaced = true
			continue
		}
		s, _, err := d.Subject(ctx, ledger.To(ledger.CertificateKind, c.Certificate))
		if err != nil {
			return err
		}
		if s.State == ledger.Issued {
			return refuse("use.certificate.stands", string(in.Shipment), string(c.Certificate))
		}
	}
	if !replaced {
		return refuse("use.certificate.other", string(in.Replaces), string(in.Shipment))
	}
	return nil
}

// draft gathers all that a certificate says but its number.
func (d *desk) draft(ctx context.Context, in Issue) (*certificate.Certificate, []ledger.FactID, error) {
	at := ledger.In(ledger.Shipment, in.Shipment)
	head, err := d.Head(ctx)
	if err != nil {
		return nil, nil, err
	}
	_, offset := d.at.In(d.house.Zone).Zone()
	c := &certificate.Certificate{
		Awn: certificate.Kind, Replaces: string(in.Replaces), IssuedMs: d.at.UnixMilli(), OffsetMin: offset / 60,
		Order: in.Order, Shipment: string(in.Shipment), Product: in.Product,
		Deviations: in.Deviations, Statements: in.Statements, Sample: in.Sample,
		Record: &certificate.RecordedHead{House: d.house.Code, Seq: head.Seq, Hash: hex.EncodeToString(head.Hash[:])},
	}
	if err := d.parties(ctx, c, at); err != nil {
		return nil, nil, err
	}
	lots, err := lotsInto(ctx, d, at)
	if err != nil {
		return nil, nil, err
	}
	if len(lots) == 0 {
		return nil, nil, refuse("use.shipment.empty", string(in.Shipment))
	}
	if err := d.lots(ctx, c, lots); err != nil {
		return nil, nil, err
	}
	if err := d.origins(ctx, c, at); err != nil {
		return nil, nil, err
	}
	rests, err := d.values(ctx, c, in, at.Ref(), lots)
	if err != nil {
		return nil, nil, err
	}
	if len(c.Values) == 0 {
		return nil, nil, refuse("use.values.none", string(in.Shipment))
	}
	shipped, err := inForce(ctx, d, at.Ref(), ledger.Shipped)
	for _, f := range shipped { // the mass and the lots are theirs
		rests = append(rests, ledger.FactID(f.ID))
	}
	return c, rests, err
}

// parties are the house, the buyer and the load.
func (d *desk) parties(ctx context.Context, c *certificate.Certificate, at ledger.Account) error {
	for key, into := range map[string]*string{SettingName: &c.House.Name, SettingAddress: &c.House.Address, SettingContact: &c.House.Contact} {
		value, _, err := d.house.Desk.Setting(ctx, key)
		if err != nil {
			return err
		}
		*into = value
	}
	if c.House.Name == "" {
		c.House.Name = d.house.Code
	}
	all, _, err := bodies[*ledger.Shipping](ctx, d, at.Ref(), ledger.Shipped)
	if err != nil {
		return err
	}
	var net ledger.Grams
	for _, s := range all {
		net += total(s.From)
		c.Buyer.Name, c.Vehicle, c.Seal = s.Receiver, s.Vehicle, s.Seal
	}
	c.NetKg = kg(net)
	h := Holder{Place: at}
	if err := d.house.receiver(ctx, d, &h); err != nil {
		return err
	}
	c.Buyer.Contact = h.Contact
	return nil
}

// lots fills in the lots of the load with when they were kilned, and who
// released the first of them.
func (d *desk) lots(ctx context.Context, c *certificate.Certificate, lots []LotShare) error {
	var known float64
	for _, l := range lots {
		known += l.Share
	}
	for _, l := range lots {
		lot := certificate.Lot{Code: string(l.Lot), Share: l.Share / known}
		if l.Piece != "" {
			facts, err := inForce(ctx, d, ledger.In(ledger.Piece, l.Piece).Ref(), ledger.Stripped)
			if err != nil {
				return err
			}
			for _, f := range facts {
				lot.KilnedMs = f.At
			}
		}
		c.Lots = append(c.Lots, lot)
		released, facts, err := bodies[*ledger.Release](ctx, d, ledger.To(ledger.LotKind, l.Lot), ledger.Released)
		if err != nil {
			return err
		}
		if n := len(released); n > 0 && c.Released == nil {
			by := facts[n-1].Who
			if p, err := d.house.Desk.Person(ctx, by); err == nil {
				by = p.Name
			}
			c.Released = &certificate.Release{By: by, AtMs: facts[n-1].At, Reason: released[n-1].Reason}
		}
	}
	return nil
}

// origins says where the barley grew, as far as the house allows, and which
// varieties it was, where that is known of all of it.
func (d *desk) origins(ctx context.Context, c *certificate.Certificate, at ledger.Account) error {
	shown, _, err := d.house.Desk.Setting(ctx, SettingOrigin)
	if err != nil {
		return err
	}
	var t Traced
	if err := d.house.behind(ctx, d, &t, at); err != nil {
		return err
	}
	d.crop(c, t.Sources)
	varieties := map[string]float64{}
	var places []certificate.Origin
	for _, s := range t.Sources {
		varieties[s.Variety] += s.Share
		name := s.Grown
		if shown == originGrower {
			name = strings.Trim(s.Grower+", "+s.Grown, ", ")
		}
		if shown == originRegion || shown == originGrower {
			places = addOrigin(places, name, s)
		}
	}
	for _, s := range t.Sources { // in the order of the largest origin
		if share := varieties[s.Variety]; s.Variety != "" && share > 0 {
			c.Varieties = append(c.Varieties, certificate.Share{Name: s.Variety, Share: share})
			delete(varieties, s.Variety)
		}
	}
	c.Origins = places
	return nil
}

// crop says the harvest of every lot, where all barley was of the same.
func (d *desk) crop(c *certificate.Certificate, sources []Source) {
	for _, s := range sources {
		if s.Crop != sources[0].Crop {
			return
		}
	}
	for i := range c.Lots {
		if len(sources) > 0 {
			c.Lots[i].CropYear = int(sources[0].Crop)
		}
	}
}

// unnamed is an origin that nobody wrote down.
const unnamed = "not recorded"

// addOrigin adds the share of a source to what grew in the same place.
func addOrigin(places []certificate.Origin, name string, s Source) []certificate.Origin {
	if name == "" {
		name = unnamed
	}
	for i := range places {
		if p := &places[i]; p.Name == name {
			p.Share.Share += s.Share
			p.Least, p.Most = min(p.Least+s.Least, 1), min(p.Most+s.Most, 1)
			return places
		}
	}
	return append(places, certificate.Origin{Share: certificate.Share{Name: name, Share: s.Share}, Least: s.Least, Most: s.Most})
}

// Withdraw takes a certificate back.
func (h *House) Withdraw(ctx context.Context, a Actor, e Entry, in *ledger.Withdrawal) (Done, error) {
	return h.enter(ctx, a, UseWithdraw, e, in, steps{
		complete: func(ctx context.Context, d *desk) error {
			if in.Reason == "" {
				return refuse("use.reason.missing", "taking a certificate back")
			}
			s, err := known(ctx, d, ledger.To(ledger.CertificateKind, in.Certificate))
			if err == nil && s.State == ledger.TakenBack && d.was == nil {
				err = refuse("use.certificate.back", string(in.Certificate))
			}
			return err
		},
		said: func() Said { return say("withdrawn", "certificate", string(in.Certificate), "why", in.Reason) },
	})
}

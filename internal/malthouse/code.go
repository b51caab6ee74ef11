package malthouse

import (
	"context"
	"fmt"
	"strings"

	"awn/ledger"
	"awn/unit"
)

// The letters that codes of this house's own counters begin with.
const (
	letterDelivery    = "L"
	letterPiece       = "P"
	letterLot         = "M"
	letterShipment    = "S"
	letterCertificate = "C"
)

// number fills in the code of a thing that a use names: the one given, the one
// that the same entry took before, or the next of the year.
func (d *desk) number(ctx context.Context, code *ledger.Code, before ledger.Code, letter, kind string) error {
	if *code != "" {
		return nil
	}
	if before != "" {
		*code = before
		return nil
	}
	counter := letter + d.at.In(d.house.Zone).Format("06")
	for {
		n, err := d.Next(ctx, counter)
		if err != nil {
			return err
		}
		*code = ledger.Code(fmt.Sprintf("%s-%04d", counter, n))
		if _, taken, err := d.Subject(ctx, ledger.To(kind, *code)); err != nil || !taken {
			return err
		}
	}
}

// fresh refuses a code that stands for something already, unless the same entry
// gave it.
func (d *desk) fresh(ctx context.Context, code, before ledger.Code, kind string) error {
	if code == before {
		return nil
	}
	_, taken, err := d.Subject(ctx, ledger.To(kind, code))
	if err == nil && taken {
		return refuse("use.thing.taken", string(code))
	}
	return err
}

// known refuses a thing that the record says nothing of, with the nearest of
// its kind that it knows.
func known(ctx context.Context, r ledger.Reader, thing ledger.Ref) (ledger.Subject, error) {
	s, found, err := r.Subject(ctx, thing)
	if err != nil || found {
		return s, err
	}
	kind, code, _ := strings.Cut(string(thing), ":")
	all, err := r.Subjects(ctx, kind)
	if err != nil {
		return s, err
	}
	var codes []string
	for _, x := range all {
		codes = append(codes, ledger.Account(x.Ref).Code())
	}
	return s, &Refusal{Code: "use.thing.unknown", Got: Kinds[kind] + " " + code, Nearest: unit.Nearest(code, codes)}
}

// Kinds are the English names of kinds of thing.
var Kinds = map[string]string{
	ledger.DeliveryKind: "delivery", ledger.LotKind: "lot of malt", ledger.SampleKind: "sample", ledger.CertificateKind: "certificate",
	ledger.Silo: "silo", ledger.Piece: "piece", ledger.MaltStore: "malt store", ledger.ByProduct: "store of by-products", ledger.Shipment: "shipment",
}

// kindOrder is the order in which a bare code is looked for.
var kindOrder = []string{
	ledger.DeliveryKind, ledger.LotKind, ledger.Piece, ledger.Shipment, ledger.CertificateKind, ledger.SampleKind,
	ledger.Silo, ledger.MaltStore, ledger.ByProduct,
}

// Find is the thing of the record that a person means: "silo:B7", or "B7" if
// only one thing is called that.
func Find(ctx context.Context, r ledger.Reader, text string, among ...string) (ledger.Ref, error) {
	if kind, _, found := strings.Cut(text, ":"); found {
		if _, is := Kinds[kind]; is {
			s, err := known(ctx, r, ledger.Ref(text))
			return s.Ref, err
		}
	}
	if len(among) == 0 {
		among = kindOrder
	}
	code := strings.ToUpper(text)
	var found, codes []string
	for _, kind := range among {
		all, err := r.Subjects(ctx, kind)
		if err != nil {
			return "", err
		}
		for _, s := range all {
			codes = append(codes, ledger.Account(s.Ref).Code())
			if ledger.Account(s.Ref).Code() == code {
				found = append(found, string(s.Ref))
			}
		}
	}
	switch len(found) {
	case 1:
		return ledger.Ref(found[0]), nil
	case 0:
		return "", refuse("use.thing.unknown", code, codes...)
	}
	return "", refuse("use.code.ambiguous", code, found...)
}

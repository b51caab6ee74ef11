package ledger

import (
	"slices"
	"strings"
)

// Account is where dry matter and water can be: a place inside, such as
// "silo:B7", or one of the outside accounts, such as "field".
type Account string

// The outside accounts: where grain and water come from and go to without
// being anywhere in the house.
const (
	Field     Account = "field"      // barley comes from here
	Mains     Account = "mains"      // steep and spray water comes from here
	Air       Account = "air"        // water goes here
	Drain     Account = "drain"      // steep water and what it leached goes here
	Respired  Account = "respired"   // dry matter that the corn breathed away
	Metabolic Account = "metabolic"  // water that the corn made of it
	Dust      Account = "dust"       // what was sucked off and not weighed
	Adjust    Account = "adjustment" // opening stock and corrections with a known cause
)

// The kinds of place inside.
const (
	Silo      = "silo"      // barley, or malt before it is a lot
	Piece     = "piece"     // what is in steep, box and kiln as one
	MaltStore = "malt"      // malt
	ByProduct = "byproduct" // culms, screenings, dust that is sold
	Shipment  = "shipment"  // a load on its way or with its receiver
)

const unexplained = "unexplained"

var insides = []string{Silo, Piece, MaltStore, ByProduct, Shipment}

// In names a place inside.
func In(kind string, code Code) Account { return Account(kind + ":" + string(code)) }

// Unexplained names the account of what nobody can explain about a place in a
// month such as "2026-11".
func Unexplained(place Account, month string) Account {
	return Account(unexplained + ":" + string(place) + ":" + month)
}

// Kind is the first part of the name: "silo", or "field".
func (a Account) Kind() string {
	kind, _, _ := strings.Cut(string(a), ":")
	return kind
}

// Code is the code of a place inside: "B7".
func (a Account) Code() string {
	_, code, _ := strings.Cut(string(a), ":")
	return code
}

// Inside reports whether what is there is somewhere in the house's care.
func (a Account) Inside() bool { return slices.Contains(insides, a.Kind()) && isCode(a.Code()) }

// Ref names a thing of the record: "delivery:L26-0417", or a place inside.
type Ref string

// The kinds of thing that are no places.
const (
	DeliveryKind    = "delivery"
	LotKind         = "lot" // of malt
	SampleKind      = "sample"
	CertificateKind = "certificate"
)

var things = append([]string{DeliveryKind, LotKind, SampleKind, CertificateKind}, insides...)

// To names a thing of a kind.
func To(kind string, code Code) Ref { return Ref(kind + ":" + string(code)) }

// Ref names the place as a thing.
func (a Account) Ref() Ref { return Ref(a) }

// Code is a name that people use: A-Z, 0-9 and hyphens, at most 20.
type Code string

func isCode(s string) bool {
	if s == "" || len(s) > 20 {
		return false
	}
	for i := range len(s) {
		if c := s[i]; (c < 'A' || c > 'Z') && (c < '0' || c > '9') && c != '-' {
			return false
		}
	}
	return true
}

// isHouse reports whether a text names a house.
func isHouse(s string) bool {
	return s != "" && len(s) <= 40 && strings.Trim(s, "abcdefghijklmnopqrstuvwxyz0123456789-") == ""
}

// CheckHouse refuses what does not name a house.
func CheckHouse(house string) error {
	if !isHouse(house) {
		return Refused("record.house.form", "house", house)
	}
	return nil
}

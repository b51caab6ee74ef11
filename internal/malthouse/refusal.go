package malthouse

import (
	"awn/unit"
)

// Refusal is why a use was not taken. Nothing was changed.
type Refusal struct {
	Code    string // a key of Sentences
	Got     string
	Allowed []string
	Nearest string
}

// Error gives the sentence and the code.
func (r *Refusal) Error() string {
	return unit.Fill(Sentences[r.Code], r.Got, r.Allowed, r.Nearest) + " [" + r.Code + "]"
}

func refuse(code, got string, allowed ...string) error {
	return &Refusal{code, got, allowed, unit.Nearest(got, allowed)}
}

// Sentences has the English text of every code of this package.
var Sentences = map[string]string{
	"use.right.missing":       `The right is missing: {got}. It is for {allowed}.`,
	"use.scope.narrow":        `This token is for “{got}” alone. Ask with one that may do more, or sign in.`,
	"use.person.last":         `{got} is the only manager. Make another first, or nobody could do what a manager does.`,
	"use.person.unknown":      `The record knows nobody called {got}{nearest}. A manager makes somebody known with “awn person”.`,
	"use.person.role":         `{got} is not a role{nearest}; it should be {allowed}.`,
	"use.thing.unknown":       `There is no {got} in the record{nearest}.`,
	"use.thing.taken":         `{got} is in the record already. Leave the code out to take the next, or give another.`,
	"use.code.ambiguous":      `{got} names several things: write {allowed}.`,
	"use.moisture.unknown":    `The book says nothing of the moisture in {got}: give it, as in 13.2 % wb.`,
	"use.piece.empty":         `{got} holds nothing by the book; there is nothing to make malt of.`,
	"use.act.unknown":         `{got} is not an act{nearest}; it should be {allowed}.`,
	"use.malt.held":           `{got} is on hold. Release it first; a manager may ship it all the same with a reason.`,
	"use.shipment.empty":      `{got} has nothing in it that was made or opened here.`,
	"use.values.none":         `Nothing was analysed of {got}: a certificate without a figure says nothing.`,
	"use.certificate.problem": `The certificate cannot go out: {got}.`,
	"use.certificate.back":    `Certificate {got} was taken back already.`,
	"use.certificate.stands":  `Shipment {got} has a certificate in force: {allowed}. Give it anew with --replaces, or withdraw it first.`,
	"use.certificate.other":   `Certificate {got} is not of shipment {allowed}.`,
	"use.documents.missing":   `This store keeps no documents, so nothing can be certified in it.`,
	"use.agreed.kind":         `{got} is not agreed with anybody; it should be {allowed}.`,
	"use.agreed.name":         `{got} cannot be the name of a document: it is short, and stands on one line.`,
	"use.agreed.unknown":      `Nothing is agreed as {got}{nearest}. Settings keeps one, or “awn documents FILE”.`,
	"use.document.unread":     `A document of the record cannot be read: {got}.`,
	"use.place.emptied":       `Nothing is in {got} by the book.`,
	"use.reason.missing":      `A reason must be given for {got}.`,
	"use.setting.unknown":     `{got} is not something that is set{nearest}; it should be {allowed}.`,
	"use.setting.value":       `{got} cannot stand here; it should be {allowed}.`,
	"use.series.other":        `Another program began the series {got} meanwhile; it is kept as {allowed}.`,
	"use.map.unknown":         `No map of imports is kept as {got}{nearest}; there are {allowed}. “awn import --save-map NAME --map FILE.yaml” keeps one.`,
	"use.map.name":            `{got} cannot be the name of a map: letters, digits and hyphens, at most 40.`,
	"use.plan.unknown":        `No plan is kept as {got}{nearest}; there are {allowed}. The page on which a programme is worked out keeps one.`,
	"use.plan.missing":        `A piece is intended by a plan: name one that is kept, or give the piece as “awn malt” reads it.`,
	"use.plan.name":           `{got} cannot be the name of a plan: it is short, and stands on one line.`,
	"use.intention.unknown":   `{got} is no intention that still stands. “awn weeks” lists them.`,
	"use.shift.none":          `No shift was handed over that waits to be taken. Whoever leaves gives it first.`,
	"use.shift.same":          `{got} gave this shift and cannot take it: the next shift does.`,
	"use.period.order":        `The period ends before it begins: {got}.`,
}

// Package ledger is the record of a house: what happened, in what order, and
// what follows from it.
//
// The record is a chain of facts that are only ever added to. A [Fact] is a
// past participle (received, cast, dressed, shipped) with a body in JSON that
// is kept byte for byte as it was entered. Everything else is worked out from
// the facts: [Of] says what one fact does, a pure function of its body, as
// flows of dry matter and water from one account to another, things opened and
// what state they are in, results of analyses, and what it strikes. A store
// writes those beside the fact and can throw them away and make them again.
//
// [Trace] follows the flows: what is in this shipment, and who got some of
// that delivery, with the least and the most that can be true.
//
// The package keeps nothing and knows no clock, file or database. [Store] is
// what it asks of one.
package ledger

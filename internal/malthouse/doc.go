// Package malthouse is what people do with the record of a house: receive a
// truck, start a piece, book its malt, release, ship, certify, trace. Each use
// is one method, taken by an [Actor] with the right to it, so that a page, a
// command and a timer agree.
//
// A use reads the record under its lock, completes what was typed (the next
// code, the moisture of a silo, the losses of a piece) and appends facts; all
// of it is kept or nothing. The same entry sent twice, known by its id,
// changes nothing. What was weighed is never refused: what does not fit goes to
// the account of what nobody can explain, and is said. Refused is what
// contradicts itself, what names a thing that is not there, and what the actor
// has no right to.
package malthouse

// Package paper reads the documents that people write: lot, plant, programme,
// specification, piece, load, contract, silo, trial, import map. Each is a Go struct whose tags
// say all there is to know of a key; from that one struct come the strict
// reader of YAML and the JSON Schema by which an editor completes and checks,
// so that the two agree. Readings and weather come from CSV files beside them.
//
//	Moisture Moisture `key:"moisture" min:"5 % wb" max:"25 % wb" doc:"As delivered."`
//
//	key    the name in the document
//	doc    what an editor shows; its first sentence is the title
//	min    least value, in any unit of the field; of a slice its least length
//	max    greatest
//	one    the words that may stand there, separated by "|"
//	match  a regular expression for a text, or for the keys of a table
//	rule   on a blank field: "one of a b c" or "some of a b c" of the keys of its struct
//
// A pointer may be left out; so may a text, a list, a table or a yes-or-no whose
// key ends in "?". The fields of an embedded struct are its own.
//
// A struct that must also agree with itself has a method Check; it is asked once
// its own text is without fault.
package paper

// Package words says in a reader's language and units what the rest of the
// program says in codes: a sentence for every finding, with its reason and
// the change that makes it vanish, and a name for every stage, step, reading,
// balance line and figure of an analysis.
//
// A catalogue belongs to one language and is keyed by code. Its sentences hold
// the names of figures in braces; a figure is printed by the unit that its
// name ends in (measures.go). A test reads the code of the science packages
// and fails on a code without a sentence, and on a sentence that asks for a
// figure its finding does not carry.
package words

// Package steep takes barley from the store to the moisture and the life it
// needs to germinate: immersions, air rests, couches, drains and sprays.
//
// A Run is one piece in one vessel. It holds a shell profile for each sieve
// fraction, the film of water on the kernels, the oxygen of the water and of
// the air between the kernels, and the heat of grain and water:
//
//	run, err := steep.Start(setup, grain)
//	err = run.Begin(step)    // settings from now on
//	err = run.To(7)          // seven hours since the start
//	run.Grain(dst)           // as it is cast
//
// The vessel fills and drains at a steady pace and the grain is wetted as the
// water reaches it, so the first grain in is wet longer by the hours of
// filling; the piece is computed at its mean. Two moistures are kept apart:
// bulk, within the kernels, drives chit and growth; drained, with the film, is
// what a laboratory finds in an unblotted sample and what is cast.
package steep

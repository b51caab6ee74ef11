// Package malt holds what an analysis of malt says: the rival scales on which
// it is printed, how they convert and how far, a buyer's specification, and the
// judgement of an analysis against it.
//
// Fractions run from 0 to 1. A figure keeps the scale and basis on which it was
// found; nothing is converted unless the verdict says so.
package malt

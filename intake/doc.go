// Package intake answers for a load of barley at the gate: what its readings
// are worth, which grade it has, what a contract pays for it and why, whether
// it is taken, and where it may lie.
//
// Shares run from 0 to 1, test weights are kg/hL, contaminants kg per kg,
// money is per tonne. A grade table and a contract are data; each keeps the
// unit and the rounding in which it is printed, so that a reading is rounded
// once, in the table's own unit, and only there.
package intake

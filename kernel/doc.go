// Package kernel is the living corn: how water gets in through its skin, when
// it chits, how fast it burns itself and grows.
//
// Uptake is one kernel of a sieve fraction as a sphere of shells. Clock
// advances the kernel classes of one cell of grain: thermal time to chit,
// growth age, and dry matter burned. Steeping, germination and kilning all run
// the same Clock, because corn goes on living wherever it is wet, cool and
// supplied with air:
//
//	clock := kernel.NewClock(&constants, grain.Classes, grain.OffsetDB, medianCH)
//	burn := clock.Step(0.25, tempC, moistureWB, oxygen, dry, thermalTime, age)
//
// Nothing here knows of beds, vessels or programmes.
package kernel

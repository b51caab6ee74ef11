// Package silo keeps barley alive between the gate and the steep: how much of
// its safe time is used, what germinates today and on the day it will be
// steeped, what it breathes and how that warms it, when dormancy goes, what
// the readings of a store give warning of, when a fan helps and what that
// costs, and what a year of weather does to it layer by layer.
//
// Times are days since the silo was filled, or hours in the simulation.
// Moistures are wet basis from 0 to 1. A measured germination overrides every
// law.
package silo

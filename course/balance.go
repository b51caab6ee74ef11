package course

import (
	"math"

	"awn/barley"
	"awn/unit"
)

// inventory is what a piece holds, from its own state alone.
type inventory [barley.HeatJ + 1]float64

// take counts the dry matter, water and heat of a piece. Grain holds no oxygen
// and no carbon dioxide.
func take(g *barley.Grain) inventory {
	var in inventory
	for cell := range g.Cells() {
		dry := g.CellDryKg(cell)
		in[barley.Dry] += dry
		in[barley.Water] += g.WaterKg[cell]
		in[barley.HeatJ] += dry * barley.GrainEnthalpy(unit.Celsius(g.TempC[cell]), unit.DryBasis(g.WaterKg[cell]/dry))
	}
	return in
}

// balance holds the lines of a stage against the inventories around it.
func balance(before, after inventory, lines []barley.Line) Balance {
	b := Balance{Lines: lines}
	var net, passed inventory
	for _, l := range lines {
		net[l.Good] += l.Amount
		passed[l.Good] += math.Abs(l.Amount)
	}
	for good := range b.Closure {
		passed[good] = max(passed[good], math.Abs(before[good]), math.Abs(after[good]))
		if passed[good] > 0 {
			b.Closure[good] = math.Abs(after[good]-before[good]-net[good]) / passed[good]
		}
	}
	return b
}

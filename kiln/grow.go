package kiln

import "awn/kernel"

// longestGrowS is the longest stretch over which life is taken as steady.
const longestGrowS = 600

// plentyFlow is the airflow, kg/(m² s), above which oxygen is not counted: it
// holds a hundred times what a bed of germinated grain can use.
const plentyFlow = 0.05

const (
	oxygenByMass   = 0.2314  // of dry air
	dioxideByMass  = 0.00061 // of dry air
	oxygenByVolume = 0.2095
)

// grow lets each living layer live for dtS seconds: it advances its kernel
// classes and takes their dry matter at once, and spreads the water and heat
// that they give over the stretch, so that the air above shows no steps.
//
// With the fan stopped the air that draws through carries the oxygen, and the
// layers take it from below; what the voids held at the stop is neglected, 45
// minutes' worth.
func (r *Run) grow(flow, dtS float64) {
	r.respired = 0
	if r.clock == nil {
		return
	}
	paceH := dtS / 3600
	if v := r.setup.Vigour; v > 0 {
		paceH *= v
	}
	for n := range r.columns {
		c := &r.columns[n]
		left := flow * oxygenByMass * dtS * c.areaM2 // kg
		whole := left
		for i := range c.dry {
			burn := kernel.Burn{}
			if c.alive(i) {
				supply := 1.0
				if flow < plentyFlow {
					supply = r.supply(c, i, paceH, left, whole)
				}
				burn = r.clock.Step(paceH, c.tempC[i], c.moistureWB(i), supply,
					c.of(c.dryKg, i), c.of(c.thermalTime, i), c.of(c.ageD, i))
				left = max(0, left-burn.OxygenKg)
			}
			c.dry[i] -= burn.DryKg / c.areaM2
			c.perDry[i] = 1 / c.dry[i]
			c.growWater[i] = burn.WaterKg / (c.areaM2 * dtS)
			c.growHeat[i] = burn.HeatJ / (c.areaM2 * dtS)
			r.burn.Add(burn)
			r.respired += burn.DryKg
		}
	}
	r.respired *= 1000 * 3600 / (dtS * r.totalDryKg()) // g/(kg h)
}

// supply is what oxygen leaves of life in a layer, 0 to 1, when of the whole
// that came with the air only left kg are left.
func (r *Run) supply(c *column, i int, paceH, left, whole float64) float64 {
	if left <= 0 {
		return 0
	}
	supply := r.setup.Kernel.OxygenFactor(oxygenByVolume * left / whole)
	need := kernel.OxygenPerKg * paceH * r.clock.Demand(c.tempC[i], c.moistureWB(i),
		c.of(c.dryKg, i), c.of(c.thermalTime, i), c.of(c.ageD, i))
	if need*supply > left {
		supply = left / need
	}
	return supply
}

// alive says whether a layer grows and respires: it is wet and has never been
// hot.
func (c *column) alive(i int) bool {
	return c.peakC[i] < kernel.KillC && c.moistureWB(i) > kernel.LeastGrowingWB
}

func (c *column) moistureWB(i int) float64 { return c.water[i] / (c.water[i] + c.dry[i]) }

// of is the part of a slice over layers and classes that belongs to a layer.
func (c *column) of(perClass []float64, i int) []float64 {
	n := len(perClass) / len(c.dry)
	return perClass[i*n : i*n+n : i*n+n]
}

// stand is a stretch without air: what life gives stays where it is.
func (c *column) stand(dtS float64) {
	for i := range c.water {
		c.water[i] += dtS * c.growWater[i]
		c.heat[i] += dtS * c.growHeat[i]
	}
}

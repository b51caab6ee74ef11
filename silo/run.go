package silo

import (
	"math"

	"awn/air"
	"awn/barley"
	"awn/bed"
	"awn/kernel"
	"awn/unit"
)

// Run is a silo on its way through the hours. After Start nothing is
// allocated but one Day for each day.
type Run struct {
	setup  Setup
	layers []layer
	flows  []float64 // conduction into each layer in a step, J/m²
	hours  int

	velocityMS float64 // over the floor, fan on
	fanW       float64 // per m² of floor
	workJKg    float64 // of the fan, per kg of dry air

	fanH     int
	fanWh    float64 // per m² of floor
	windows  []Window
	days     []Day
	beyondH  int // hours in which a layer lay beyond a law of life
	start    inventory
	lines    lines
	warmestC float64
}

// Window is a stretch in which the fan ran, in hours of the run.
type Window struct{ FromH, ToH int }

// Day is the end of one day.
type Day struct {
	MeanC, WarmestC, ColdestC float64
	MoistestWB, DriestWB      float64
	FanH                      int
}

// LayerState is one layer at the end of a run.
type LayerState struct {
	TempC    float64
	Moisture float64 // wet basis
	Used     float64 // share of the safe time, that before the run included
	Probits  float64 // lost in the run
	DryLoss  float64 // share of the dry matter respired in the run
}

// Start fills a silo.
func Start(s Setup) (*Run, error) {
	if err := s.check(); err != nil {
		return nil, err
	}
	r := &Run{setup: s, layers: make([]layer, s.Layers), flows: make([]float64, s.Layers), warmestC: math.Inf(-1)}
	asIsKg := s.BulkKgM3 * s.DepthM / float64(s.Layers)
	for i := range r.layers {
		l := &r.layers[i]
		w, t := of(s.Moisture, i), of(s.TempC, i)
		l.dryKg, l.waterKg, l.used = asIsKg*(1-w), asIsKg*w, s.UsedBefore
		l.heatJ = l.dryKg * barley.GrainEnthalpy(unit.Celsius(t), unit.DryBasis(w/(1-w)))
		l.settle(s.Isotherm.B)
	}
	r.fan()
	r.start = r.inventory()
	return r, nil
}

// fan finds where the fan's curve meets the grain.
func (r *Run) fan() {
	s := &r.setup
	if !s.Aeration.Allowed {
		return
	}
	const kgM3 = 1.2 // at which the point is found; the curve and the losses move together
	f := bed.Fan{ShutOffPa: s.Fan.ShutOffPa, FreeM3S: s.Fan.FreeM3S, LossPa: s.Fan.LossPa}
	spots := []bed.Spot{{Share: 1, DepthM: s.DepthM, Factor: s.Constants.Packing}}
	r.velocityMS = f.Most(spots, s.areaM2(), kgM3, make([]float64, 1))
	work := spots[0].Drop(r.velocityMS) + f.Loss(r.velocityMS*s.areaM2(), kgM3)
	r.fanW = work * r.velocityMS / s.Fan.Efficiency
	r.workJKg = work / kgM3 / s.Fan.Efficiency
}

// restH is after how many hours the slow part of a store is worked out: what
// conducts, breathes and ages. Temperatures change in days where no air blows.
const restH = 6

// Through takes the silo through hours of weather.
func (r *Run) Through(weather []Air) {
	for from := 0; from < len(weather); from += restH {
		r.stretch(weather[from:min(from+restH, len(weather))])
	}
}

// stretch is some hours, of which the fan may run in each.
func (r *Run) stretch(weather []Air) {
	outsideC := 0.0
	for _, a := range weather {
		r.blow(a)
		r.hours++
		outsideC += a.TempC
	}
	h := float64(len(weather))
	r.conduct(outsideC/h, h)
	r.breathe(h)
	if day := r.hours / 24; day > len(r.days) {
		r.days = append(r.days, r.day())
	}
}

// conduct moves heat between layers, to the walls and to the air above. The
// floor lets none through. A layer loses heat to the wall as a long cylinder
// does late in its cooling.
func (r *Run) conduct(outsideC, hours float64) {
	const z2 = 5.783185962946784 // square of the first zero of J0
	s := &r.setup
	dz := s.DepthM / float64(s.Layers)
	k := s.Constants.ConductivityWMK * 3600 * hours
	wall := z2 * k / (s.RadiusM * s.RadiusM) * dz
	for i := range r.layers {
		t := r.layers[i].tempC
		lost := wall * (t - outsideC)
		r.flows[i] = -lost
		r.lines.wallsJ -= lost
	}
	top := len(r.layers) - 1
	up := 2 * k / dz * (r.layers[top].tempC - outsideC)
	r.flows[top] -= up
	r.lines.topJ -= up
	for i := 1; i < len(r.layers); i++ {
		q := k / dz * (r.layers[i-1].tempC - r.layers[i].tempC)
		r.flows[i-1] -= q
		r.flows[i] += q
	}
	for i := range r.layers {
		r.layers[i].heatJ += r.flows[i]
	}
}

// breathe lets each layer live for some hours: it burns, warms, ages.
func (r *Run) breathe(hours float64) {
	day := min(r.setup.Days+float64(r.hours)/24, breathMostDays)
	eases := day * (0.0001*day - 0.0165)
	days := hours / hoursPerDay
	for i := range r.layers {
		l := &r.layers[i]
		w := l.wetBasis()
		t := min(max(l.tempC, 0), 40)
		if w > clockMostWB || l.tempC > 40 {
			r.beyondH += int(hours)
		}
		atWB := min(w, clockMostWB)
		rate := r.setup.Constants.RespirationFactor * math.Exp(math.Ln10*(breathLog(atWB, t, 0)+eases)) // mg/(kg d)
		burnt := rate / mgPerKg / kernel.DioxidePerKg * days * (l.dryKg + l.waterKg)
		l.dryKg -= burnt
		l.burnt += burnt
		l.waterKg += burnt * kernel.WaterPerKg
		l.heatJ += burnt * kernel.CombustionJKg
		r.lines.burntKg += burnt
		l.age(&r.setup.Constants, atWB, t, days)
		l.settle(r.setup.Isotherm.B)
	}
}

// age adds some days to the clock and to the probits lost. Below the range of a
// law its edge is taken, where grain ages faster than it does.
func (l *layer) age(c *Constants, w, tempC, days float64) {
	points := 100 * max(w, clockLeastWB)
	l.used += days * math.Exp(-math.Ln10*fraserMuirLog(points, tempC)) / c.ClockFactor
	t := max(tempC, ageingLeastC)
	a := EllisRoberts
	ln := math.Ln10*(a.KE-a.CH*t-a.CQ*t*t) - a.CW*math.Log(100*max(w, ageingLeastWB))
	l.probits += days * math.Exp(-ln) / c.AgeingFactor
}

// blow runs the fan for the hour where that helps.
func (r *Run) blow(outside Air) {
	s := &r.setup
	if !s.Aeration.Allowed {
		return
	}
	w := air.HumidityRatio(unit.Celsius(outside.TempC), unit.RelativeHumidity(outside.RH), s.PressurePa)
	on := air.State{TempC: unit.Celsius(outside.TempC), W: w, PressurePa: s.PressurePa}.Heated(r.workJKg)
	rh := air.RelativeHumidity(on.TempC, on.W, s.PressurePa)
	if !s.Aeration.Helps(float64(on.TempC), float64(rh), r.meanC(), float64(r.hours)/24) {
		return
	}
	airKg := r.velocityMS * 3600 / air.SpecificVolume(on.TempC, on.W, s.PressurePa)
	in := stream{float64(on.W), air.Enthalpy(on.TempC, on.W)}
	off := in
	for i := range r.layers {
		off = r.layers[i].exchange(off, airKg, s.Isotherm, s.PressurePa)
	}
	r.lines.airWaterKg += airKg * (in.w - off.w)
	r.lines.airJ += airKg * (in.hJ - off.hJ)
	r.fanH++
	r.fanWh += r.fanW
	if n := len(r.windows); n > 0 && r.windows[n-1].ToH == r.hours {
		r.windows[n-1].ToH++
	} else {
		r.windows = append(r.windows, Window{r.hours, r.hours + 1})
	}
}

func (r *Run) meanC() float64 {
	sum := 0.0
	for i := range r.layers {
		sum += r.layers[i].tempC
	}
	return sum / float64(len(r.layers))
}

// day is the state at the end of a day.
func (r *Run) day() Day {
	d := Day{MeanC: r.meanC(), WarmestC: math.Inf(-1), ColdestC: math.Inf(1), DriestWB: math.Inf(1), FanH: r.fanH}
	for i := range r.layers {
		l := &r.layers[i]
		w := l.wetBasis()
		d.WarmestC, d.ColdestC = max(d.WarmestC, l.tempC), min(d.ColdestC, l.tempC)
		d.MoistestWB, d.DriestWB = max(d.MoistestWB, w), min(d.DriestWB, w)
	}
	r.warmestC = max(r.warmestC, d.WarmestC)
	if d.WarmestC > mostGrainC {
		// Heating on its own past what is known of grain: nothing is said of how far.
		d.MeanC, d.WarmestC = math.NaN(), math.NaN()
	}
	return d
}

package kiln

import "math"

// This file is a second, literal computation of the deep bed against which the
// kiln is checked: the same published equations, written as they stand, with
// Heun's method at 20 s and the standard library's functions. It shares no code
// with the package: no tables, no other way of stepping, no other package.

// refCase is a bed under a programme of straight lines between points.
type refCase struct {
	depthM, dryKgM3, moisture0, temp0 float64
	ambientC, ambientRH, pressurePa   float64
	ambientW                          float64 // humidity ratio, used in place of ambientRH if above 0
	tempOn, flow, recirc              [][2]float64
	flowFactor                        float64
	hours                             float64
	cells                             int
	stepS                             float64
	kMultiplier                       float64
	// consistent makes the heat of sorption a function of state, so that a
	// closed loop of drying and wetting gives nothing; otherwise it is an
	// integral along the path.
	consistent bool
	// grow returns the share of dry matter that a living cell burns in dtS
	// seconds; nil for grain without life. It needs consistent.
	grow func(dtS, tempC, wetBasis float64) (burnt float64)
}

// refRow is the bed at one hour.
type refRow struct {
	hour, tempOn, tempOff, rhOff float64
	moisture                     []float64 // kg/kg dry matter by cell
	tempC                        []float64
	meanWB                       float64
}

type refResult struct {
	rows                  []refRow
	end                   refRow
	breakH                float64 // last crossing of 85 % before cooling
	heatJ, waterKg, dryKg float64 // per m²
}

func refPs(t float64) float64 {
	k := t + 273.15
	if t < 0.01 {
		return math.Exp(-5.6745359e3/k + 6.3925247 - 9.677843e-3*k + 6.2215701e-7*k*k +
			2.0747825e-9*k*k*k - 9.484024e-13*k*k*k*k + 4.1635019*math.Log(k))
	}
	return math.Exp(-5.8002206e3/k + 1.3914993 - 4.8640239e-2*k + 4.1764768e-5*k*k -
		1.4452093e-8*k*k*k + 6.5459673*math.Log(k))
}

func refRatio(e, p float64) float64 {
	e = math.Min(e, 0.98*p)
	return 0.621945 * e / (p - e)
}

func refGAB(t float64) (a, b, c float64) {
	k := t + 273.15
	return 0.01183 * math.Exp(469.017/k), math.Exp(943.854 / k), math.Exp(-28.639 / k)
}

func refEquilibrium(t, rh float64) float64 {
	a, b, c := refGAB(t)
	return a * b * c * rh / ((1 - c*rh) * (1 + (b-1)*c*rh))
}

func refActivity(t, m float64) float64 {
	a, b, c := refGAB(t)
	r := a * b / m
	lin := r - b + 2
	x := (-lin + math.Sqrt(lin*lin+4*(b-1))) / (2 * (b - 1))
	return math.Min(x/c, 1)
}

func refRate(t, m float64) float64 {
	k := t + 273.15
	x := math.Min(math.Max((m-0.10)/0.30, 0), 1)
	s := x * x * (3 - 2*x)
	fast, slow := 139.3*math.Exp(-4426/k), 311.6*math.Exp(-5108.445/k)
	return math.Min(1, m/0.12) * math.Pow(fast, s) * math.Pow(slow, 1-s)
}

func refLine(points [][2]float64, h float64) float64 {
	if h <= points[0][0] {
		return points[0][1]
	}
	for i := 1; i < len(points); i++ {
		if h <= points[i][0] {
			f := (h - points[i-1][0]) / (points[i][0] - points[i-1][0])
			return points[i-1][1] + f*(points[i][1]-points[i-1][1])
		}
	}
	return points[len(points)-1][1]
}

const (
	refCa, refCv, refL0 = 1006.0, 1860.0, 2.501e6
	refCd, refCw        = 1300.0, 4186.0
)

// refState is one vector: moisture by cell, then temperature by cell (or, if
// consistent, enthalpy per kg dry matter), then the heat and vapour of the
// return air and of the mixed air, each with its lag of 60 s.
type refState []float64

const (
	refReturnH = iota
	refReturnW
	refMixH
	refMixW
	refLags
)

func (s refState) split() (m, t, lags []float64) {
	n := (len(s) - refLags) / 2
	return s[:n], s[n : 2*n], s[2*n:]
}

func (c *refCase) sorption(m float64) float64 { return 0.5904 / 13.67 * (1 - math.Exp(-13.67*m)) }

// enthalpy of grain whose heat of sorption is a function of its state.
func (c *refCase) enthalpy(t, m float64) float64 {
	return refCd*t + refCw*m*t - (refL0-2326*t)*c.sorption(m)
}

func (c *refCase) temperature(h, m float64) float64 {
	s := c.sorption(m)
	return (h + refL0*s) / (refCd + refCw*m + 2326*s)
}

type refFlux struct {
	tempOff, wOff, rhOff, heater, water float64
}

// rates fills d with the derivatives of s at hour h.
func (c *refCase) rates(h float64, s, d refState, dry []float64) refFlux {
	moist, temp, lag := s.split()
	dm, dt, dlag := d.split()
	p := c.pressurePa
	g := refLine(c.flow, h) * c.flowFactor
	on := refLine(c.tempOn, h)
	f := refLine(c.recirc, h)
	wAmb := refRatio(c.ambientRH*refPs(c.ambientC), p)
	if c.ambientW > 0 {
		wAmb = c.ambientW
	}
	hAmb := refCa*c.ambientC + wAmb*(refL0+refCv*c.ambientC)
	t, w := on, lag[refMixW]
	hIn := refCa*t + w*(refL0+refCv*t)
	heater := math.Max(0, g*(hIn-lag[refMixH]))
	w0 := w
	dz := c.depthM / float64(c.cells)
	ha := 49.32e3 * math.Pow(g, 0.6906)
	for i := range moist {
		m, tg := moist[i], temp[i]
		if c.consistent {
			tg = c.temperature(temp[i], m)
		}
		ntu := ha * dz / (g * (refCa + refCv*w))
		ef := -math.Expm1(-ntu)
		psg := refPs(tg)
		wsg := refRatio(psg, p)
		wg := refRatio(refActivity(tg, m)*psg, p)
		rh := math.Min(p*w/(0.621945+w)/psg, 0.999)
		ri := c.kMultiplier * refRate(tg, m) * (m - refEquilibrium(tg, rh))
		re := g * (wg - math.Min(w, wsg)) * ef / dry[i]
		r := 0.0
		if ri*re > 0 {
			r = ri * re / (ri + re)
		}
		if w > wsg {
			r += g * (wsg - w) * ef / dry[i]
		}
		dw := r * dry[i] / g
		t1 := tg + (t-tg)*(1-ef)
		w1 := w + dw
		t1 = ((refCa+refCv*w)*t1 + refCv*dw*tg) / (refCa + refCv*w1)
		if ws := refRatio(refPs(t1), p); w1 > ws {
			c1 := refCa + refCv*w1
			latent := refL0 - 2326*t1
			slope := (refRatio(refPs(t1+0.01), p) - refRatio(refPs(t1-0.01), p)) / 0.02
			drop := (w1 - ws) / (1 + latent/c1*slope)
			w1 -= drop
			t1 += drop * latent / c1
			r -= g * drop / dry[i]
		}
		hOut := refCa*t1 + w1*(refL0+refCv*t1)
		gain := g * (hIn - hOut) / dry[i]
		dm[i] = -r
		if c.consistent {
			dt[i] = gain
		} else {
			extra := (refL0 - 2326*tg) * 0.5904 * math.Exp(-13.67*m)
			dt[i] = (gain + (refCw*tg-extra)*r) / (refCd + refCw*m)
		}
		t, w, hIn = t1, w1, hOut
	}
	dlag[refReturnH], dlag[refReturnW] = (hIn-lag[refReturnH])/60, (w-lag[refReturnW])/60
	dlag[refMixH] = ((1-f)*hAmb + f*lag[refReturnH] - lag[refMixH]) / 60
	dlag[refMixW] = ((1-f)*wAmb + f*lag[refReturnW] - lag[refMixW]) / 60
	return refFlux{t, w, p * w / (0.621945 + w) / refPs(t), heater, g * (w - w0)}
}

// run steps the case through with Heun's method and keeps the rows asked for.
func (c refCase) run(hours ...float64) refResult {
	n := c.cells
	s, mid := make(refState, 2*n+refLags), make(refState, 2*n+refLags)
	d1, d2 := make(refState, 2*n+refLags), make(refState, 2*n+refLags)
	m, temp, lag := s.split()
	dry, peak := make([]float64, n), make([]float64, n)
	wAmb := refRatio(c.ambientRH*refPs(c.ambientC), c.pressurePa)
	if c.ambientW > 0 {
		wAmb = c.ambientW
	}
	hAmb := refCa*c.ambientC + wAmb*(refL0+refCv*c.ambientC)
	lag[refReturnH], lag[refReturnW], lag[refMixH], lag[refMixW] = hAmb, wAmb, hAmb, wAmb
	for i := range n {
		dry[i] = c.dryKgM3 * c.depthM / float64(n)
		m[i], temp[i] = c.moisture0, c.temp0
		if c.consistent {
			temp[i] = c.enthalpy(c.temp0, c.moisture0)
		}
	}
	var out refResult
	var lastRH, lastH float64
	steps := int(math.Round(c.hours * 3600 / c.stepS))
	for k := 0; ; k++ {
		h := float64(k) * c.stepS / 3600
		f1 := c.rates(h, s, d1, dry)
		if lastRH >= 0.85 && f1.rhOff < 0.85 && refLine(c.tempOn, h) > 30 {
			out.breakH = lastH + (h-lastH)*(lastRH-0.85)/(lastRH-f1.rhOff)
		}
		lastRH, lastH = f1.rhOff, h
		if len(hours) > 0 && math.Abs(h-hours[0]) < c.stepS/7200 {
			out.rows = append(out.rows, c.row(h, f1, s, dry))
			hours = hours[1:]
		}
		if k == steps {
			out.end = c.row(h, f1, s, dry)
			break
		}
		for i := range s {
			mid[i] = s[i] + c.stepS*d1[i]
		}
		f2 := c.rates(h+c.stepS/3600, mid, d2, dry)
		for i := range s {
			s[i] += c.stepS / 2 * (d1[i] + d2[i])
		}
		out.heatJ += c.stepS / 2 * (f1.heater + f2.heater)
		out.waterKg += c.stepS / 2 * (f1.water + f2.water)
		if c.grow != nil {
			c.burn(s, dry, peak)
		}
	}
	for _, d := range dry {
		out.dryKg += d
	}
	return out
}

// burn lets the living cells respire over one step: 17.39 MJ and 0.556 kg of
// water per kg.
func (c *refCase) burn(s refState, dry, peak []float64) {
	m, heat, _ := s.split()
	for i := range dry {
		t := c.temperature(heat[i], m[i])
		peak[i] = math.Max(peak[i], t)
		wb := m[i] / (1 + m[i])
		if peak[i] > 50 || wb <= 0.25 {
			continue
		}
		x := c.grow(c.stepS, t, wb)
		dry[i] *= 1 - x
		m[i] = (m[i] + 0.556*x) / (1 - x)
		heat[i] = (heat[i] + 17.39e6*x) / (1 - x)
	}
}

func (c *refCase) row(h float64, f refFlux, s refState, dry []float64) refRow {
	moisture, temp, _ := s.split()
	r := refRow{hour: h, tempOn: refLine(c.tempOn, h), tempOff: f.tempOff, rhOff: f.rhOff}
	water, total := 0.0, 0.0
	for i, m := range moisture {
		t := temp[i]
		if c.consistent {
			t = c.temperature(t, m)
		}
		r.moisture, r.tempC = append(r.moisture, m), append(r.tempC, t)
		water += m * dry[i]
		total += dry[i]
	}
	r.meanWB = water / (water + total)
	return r
}

// refPale is the pale programme: 1 m of green malt, 19 hours.
func refPale() refCase {
	return refCase{
		depthM: 1, dryKgM3: 330, moisture0: 0.8182, temp0: 18,
		ambientC: 10, ambientRH: 0.8, pressurePa: 101325,
		tempOn: [][2]float64{{0, 50}, {1, 55}, {4, 55}, {5, 60}, {8.5, 60}, {9.5, 65}, {11, 68},
			{13.5, 82}, {14, 84}, {18, 84}, {18.25, 10}, {19, 10}},
		flow:       [][2]float64{{0, .50}, {8.5, .50}, {9.5, .38}, {11, .33}, {14, .28}, {18, .28}, {18.25, .45}, {19, .45}},
		recirc:     [][2]float64{{0, 0}, {9, 0}, {10, .20}, {11, .45}, {14, .75}, {18, .75}, {18.1, 0}, {19, 0}},
		flowFactor: 1, hours: 19, cells: 60, stepS: 20, kMultiplier: 1,
	}
}

// refSimple is a shallow bed under air that never changes.
func refSimple() refCase {
	return refCase{
		depthM: 0.3, dryKgM3: 330, moisture0: 0.80, temp0: 20,
		ambientC: 20, ambientRH: 0.5, ambientW: 0.008, pressurePa: 101325,
		tempOn: [][2]float64{{0, 60}}, flow: [][2]float64{{0, 0.0861}}, recirc: [][2]float64{{0, 0}},
		flowFactor: 1, hours: 20, cells: 60, stepS: 20, kMultiplier: 1,
	}
}

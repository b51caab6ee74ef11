package kiln

import "math"

// The break is when the drying front reaches the top of the bed: the air above
// it, saturated and steady until then, dries and warms. Assumed: the limits
// that maltsters read it by, common practice, no source.
const (
	plateauRH  = 0.95 // the plateau is air-off at this humidity or above
	plateauS   = 1800 // held so long
	brokenRH   = 0.85
	brokenK    = 3.0 // above the plateau
	brokenS    = 900 // held so long
	heatingC   = 30  // set point above which heating is on
	heatingJKg = 2000
)

// watch reads the break off the air above one column or the whole bed. It is a
// plain value: copying it copies all it has seen.
type watch struct {
	wetS    float64 // how long air-off has been at plateau humidity
	plateau bool    // it held long enough
	seconds [bins]float32
	middleC float64 // median of the plateau so far
	stale   bool    // the median is older than the seconds

	lastH, lastC, lastRH float64
	lastWB               float64 // wettest layer then
	dryH, warmH          float64 // when the two conditions last came true, NaN while untrue
	worstWB              float64 // wettest layer when both had
	found                Break
}

// The plateau's temperatures are kept as seconds in bins of 0.1 °C.
const (
	leastBinC = 0.0
	perBinC   = 10
	bins      = 600
)

// Break is what was seen of a break; NaN where it was not.
type Break struct {
	AtH     float64 // when both crossings had been made and were held for a quarter of an hour
	DryH    float64 // when air-off fell below 85 % humidity
	WarmH   float64 // when it had risen 3 K above its plateau
	Plateau float64 // median air-off of the plateau, °C
	WorstWB float64 // wettest layer at the break, wet basis
}

func newWatch() watch {
	nan := math.NaN()
	return watch{dryH: nan, warmH: nan, lastC: nan, lastRH: nan, lastWB: nan, middleC: nan,
		found: Break{nan, nan, nan, nan, nan}}
}

// see takes the air-off at an hour. heating says whether the kiln is being
// heated: cooling dries the air too. worstWB is the wettest layer now.
func (b *watch) see(hour, offC, offRH float64, heating bool, worstWB float64) {
	if !math.IsNaN(b.found.AtH) {
		return
	}
	if dt := 3600 * (hour - b.lastH); offRH >= plateauRH && dt > 0 {
		b.wetS += dt
		b.seconds[binOf(offC)] += float32(dt)
		b.stale = true
		b.plateau = b.plateau || b.wetS >= plateauS
	} else if offRH < plateauRH {
		b.wetS = 0
	}
	if b.plateau && offRH < plateauRH {
		b.judge(hour, offC, offRH, heating, worstWB)
	}
	b.lastH, b.lastC, b.lastRH, b.lastWB = hour, offC, offRH, worstWB
}

func (b *watch) judge(hour, offC, offRH float64, heating bool, worstWB float64) {
	if b.stale {
		b.middleC, b.stale = b.median(), false
	}
	broken := b.middleC + brokenK
	if !heating || offRH >= brokenRH {
		b.dryH = math.NaN()
	} else if math.IsNaN(b.dryH) {
		b.dryH = crossing(b.lastH, hour, b.lastRH, offRH, brokenRH)
	}
	if !heating || offC < broken {
		b.warmH = math.NaN()
	} else if math.IsNaN(b.warmH) {
		b.warmH = crossing(b.lastH, hour, b.lastC, offC, broken)
	}
	both := max(b.dryH, b.warmH) // NaN while one is untrue
	switch {
	case math.IsNaN(both):
		b.worstWB = math.NaN()
	case math.IsNaN(b.worstWB) || b.worstWB == 0:
		b.worstWB = worstWB
		if part := (both - b.lastH) / (hour - b.lastH); part >= 0 && part < 1 {
			b.worstWB = b.lastWB + part*(worstWB-b.lastWB)
		}
	case 3600*(hour-both) >= brokenS:
		b.found = Break{AtH: both, DryH: b.dryH, WarmH: b.warmH, Plateau: b.middleC, WorstWB: b.worstWB}
	}
}

// crossing is when a straight line between two readings passed a limit; the
// later hour if the first was beyond it already or is unknown.
func crossing(h0, h1, x0, x1, limit float64) float64 {
	if part := (limit - x0) / (x1 - x0); part >= 0 && part <= 1 {
		return h0 + part*(h1-h0)
	}
	return h1
}

func binOf(tempC float64) int {
	return int(min(max((tempC-leastBinC)*perBinC, 0), bins-1))
}

// median is the temperature below which half of the plateau's time lies.
func (b *watch) median() float64 {
	total := 0.0
	for _, s := range b.seconds {
		total += float64(s)
	}
	below := 0.0
	for i, s := range b.seconds {
		if here := float64(s); below+here >= total/2 && here > 0 {
			return leastBinC + (float64(i)+(total/2-below)/here)/perBinC
		}
		below += float64(s)
	}
	return math.NaN()
}

package kiln

import (
	"sort"

	"awn/air"
)

// Trace is the air off a bed over the hours of its kilning.
type Trace struct {
	hours []float64
	off   []stream
	flow  []float64 // kg dry air per m² of floor and s, through the bed
}

// keep adds a moment. A second one at the same hour replaces the first.
func (t *Trace) keep(hour float64, off stream, flow float64) {
	if n := len(t.hours); n > 0 && t.hours[n-1] >= hour {
		t.hours, t.off, t.flow = t.hours[:n-1], t.off[:n-1], t.flow[:n-1]
	}
	t.hours, t.off, t.flow = append(t.hours, hour), append(t.off, off), append(t.flow, flow)
}

// at is the air at an hour: heat and vapour on a straight line between two
// moments, the flow that of the earlier one; beyond its ends, that of the end.
func (t *Trace) at(hour float64) (off stream, flow float64) {
	i := sort.SearchFloat64s(t.hours, hour)
	switch {
	case i == 0:
		return t.off[0], t.flow[0]
	case i == len(t.hours):
		return t.off[i-1], t.flow[i-1]
	}
	a, b := t.off[i-1], t.off[i]
	part := (hour - t.hours[i-1]) / (t.hours[i] - t.hours[i-1])
	return streamOfHeat(a.hJKg+part*(b.hJKg-a.hJKg), a.w+part*(b.w-a.w)), t.flow[i-1]
}

// Supply is the air that an upper deck gets: that off the lower one, and what is
// let in between them.
type Supply struct {
	Lower   *Trace
	Between float64 // air let in, as a share of that off the lower deck
	TempC   float64 // to which it is warmed
}

// flow is the air through the upper deck, kg/(m² s).
func (s *Supply) flowAt(hour float64) float64 {
	_, flow := s.Lower.at(hour)
	return flow * (1 + s.Between)
}

// supplied is the air under an upper deck, ahead s into the step.
func (r *Run) supplied(m *maker, ahead float64) (out made) {
	s := r.setup.Supply
	off, _ := s.Lower.at(r.hour + ahead/3600)
	w, h := off.w, off.hJKg
	if s.Between > 0 {
		fresh := m.outside
		warm := max(s.TempC, fresh.tempC)
		share := s.Between / (1 + s.Between)
		out.heater = share * (air.DryAirJKgK + air.VapourJKgK*fresh.w) * (warm - fresh.tempC)
		w += share * (fresh.w - w)
		h += share * (fresh.hJKg - h)
		h += out.heater
		w, h = m.burnt(w, h, out.heater)
	}
	out.on = streamOfHeat(h, w)
	out.mixC = out.on.tempC
	return out
}

// burnt is air after the water of direct firing has come to it.
func (m *maker) burnt(w, h, heatJ float64) (wOut, hOut float64) {
	t := streamOfHeat(h, w).tempC
	w += m.fuelWater(heatJ)
	return w, enthalpy(t, w)
}

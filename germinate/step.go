package germinate

import (
	"fmt"
	"math"

	"awn/plant"
	"awn/programme"
)

// never is the time of a turn that is not planned.
var never = math.Inf(1)

// Begin sets what holds from now on. The air asked for is what the fan can
// drive through the bed, at most; air that would lift the grain is an error.
func (r *Run) Begin(step programme.GerminateStep) error {
	n := &r.now
	if step.TurnEvH > 0 && step.TurnEvH < leastTurnH || step.SprayKgT > 0 && !(step.Until.LatestH > 0) {
		return fmt.Errorf("germinate, hour %.1f: turns every %g h and %g kg/t of spray over %g h cannot be",
			n.atH, step.TurnEvH, step.SprayKgT, step.Until.LatestH)
	}
	if holding(&step) {
		share := step.HoldFlow.High // a fan that stood starts at its most
		if n.airKgS > 0 && step.Flow.Value > 0 {
			share = n.airKgS / (step.Flow.KgM2S(r.setup.CastT, r.setup.Vessel.AreaM2) * r.setup.Vessel.AreaM2)
		}
		r.hold(&step, &n.step, share)
	}
	n.step, n.turnH, n.turnsN = step, never, 0
	if step.TurnEvH > 0 {
		n.turnH = n.atH + step.TurnEvH
		n.turnsN = math.Floor(step.Until.LatestH/step.TurnEvH + sliver)
	}
	n.airKgS, n.askedKgS, n.fanJKg, n.fanW = 0, 0, 0, 0
	if !r.setup.blown() {
		return nil
	}
	if step.FanOff {
		if n.moving || n.atH == 0 {
			n.stopped, n.stoppedH = true, n.atH
		}
		return nil
	}
	return r.blow(step)
}

// leastTurnH is the shortest time between turns that is computed, h.
const leastTurnH = 0.1

// sliver is a stretch of time, h, that is none.
const sliver = 1e-9

// longestH is the longest germination that is computed, h.
const longestH = 2000.0

// To goes on to atH hours after the start of germination.
func (r *Run) To(atH float64) error {
	n := &r.now
	if !(atH >= n.atH-sliver && atH <= longestH) {
		return fmt.Errorf("germinate, hour %.1f: cannot go on to hour %g", n.atH, atH)
	}
	for n.atH < atH-sliver {
		end := min(atH, n.turnH)
		steps := math.Ceil((end - n.atH) * 3600 / r.longest())
		dtS := (end - n.atH) * 3600 / steps
		for range int(steps) {
			if err := r.advance(dtS); err != nil {
				return err
			}
			if err := r.follow(dtS / 3600); err != nil {
				return err
			}
		}
		n.atH = end
		if n.atH >= n.turnH-sliver {
			r.turn()
			n.turnH += n.step.TurnEvH
		}
	}
	return nil
}

// longest is the longest step: no layer meets more air in it than its corns
// could give their water to, and still air is looked at often.
func (r *Run) longest() float64 {
	longest := UsualStepS
	if r.setup.StepS > 0 {
		longest = r.setup.StepS
	}
	if r.setup.blown() && r.now.step.FanOff {
		return min(longest, stillStepS)
	}
	if holding(&r.now.step) {
		longest = min(longest, holdStepS)
	}
	for i := range r.cells {
		if k := r.flowKgS(i/r.grain.Layers) / r.cells[i].dryKg; k*longest > mostAirPerDry {
			longest = mostAirPerDry / k
		}
	}
	return longest
}

// mostAirPerDry is the most dry air that passes a layer in one step, kg per kg
// of its dry matter: air 25 K above its wet bulb takes a quarter of the dry
// matter in water, where growing corns hold three.
const mostAirPerDry = 24.0

// advance takes the piece through one time step.
func (r *Run) advance(dtS float64) error {
	n := &r.now
	n.outside = r.setup.Outside.at(n.atH, r.setup.PressurePa)
	if n.step.SprayKgT > 0 && n.turnsN == 0 {
		r.spray(n.step.SprayKgT * r.setup.CastT * dtS / (3600 * n.step.Until.LatestH))
	}
	if n.step.SprayToWB > 0 && r.setup.Vessel.Kind == plant.Drum { // it turns all the time
		r.spray(r.shortOf(n.step.SprayToWB))
	}
	burnt := n.sums.burned.DryKg
	in := r.airOn(dtS)
	off, kg := r.pass(in, dtS)
	n.burnKgH = (n.sums.burned.DryKg - burnt) / dtS * 3600
	r.airOff(in, off, kg, dtS)
	if r.setup.Vessel.Kind == plant.Drum {
		r.mix(1)
	}
	n.atH += dtS / 3600
	r.see(dtS / 3600)
	return r.sound()
}

// pass takes air through all columns and returns their joint outflow.
func (r *Run) pass(in stream, dtS float64) (off stream, kg float64) {
	g := r.grain
	parallel := !r.setup.blown()
	for col := range g.Columns {
		k := r.flowKgS(col) * dtS
		if parallel {
			k /= float64(g.Layers)
		}
		s := in
		for layer := range g.Layers {
			if parallel { // every layer has the room's air
				s = in
			}
			s = r.layer(g.Cell(col, layer), s, k, dtS)
			if parallel || layer == g.Layers-1 {
				off.add(s, k)
				kg += k
			}
		}
	}
	n := &r.now.sums
	n.onOxygenKg += kg * in.oxygen
	n.onDioxideKg += kg * in.dioxide
	n.offOxygenKg += off.oxygen
	n.offDioxideKg += off.dioxide
	if kg > 0 {
		off.scale(1 / kg)
	}
	return off, kg
}

func (s *stream) add(o stream, kg float64) {
	s.w += kg * o.w
	s.heatJ += kg * o.heatJ
	s.oxygen += kg * o.oxygen
	s.dioxide += kg * o.dioxide
}

func (s *stream) scale(by float64) {
	s.w *= by
	s.heatJ *= by
	s.oxygen *= by
	s.dioxide *= by
}

// sound reports what is no longer a number or nowhere near grain.
func (r *Run) sound() error {
	for i := range r.cells {
		c := &r.cells[i]
		if !(c.tempC > -60 && c.tempC < 100 && c.waterKg >= 0 && c.dryKg > 0 && c.oxygen >= 0) {
			return fmt.Errorf("germinate, hour %.2f: layer %d has come to %.1f °C, %.3g kg of water, %.3g kg of dry matter, oxygen %.3g kg/kg",
				r.now.atH, i, c.tempC, c.waterKg, c.dryKg, c.oxygen)
		}
	}
	return nil
}

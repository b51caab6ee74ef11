package silo

import (
	"math"

	"awn/finding"
	"awn/unit"
)

// clockAlarm is the share of the safe time from which a store is spoken of.
const clockAlarm = 0.5

// clock is the source of the clock.
const clock = "Fraser and Muir 1981"

// say gathers the findings of an account.
func (a *Account) say(s *Store) {
	a.Findings = Watch(s.Readings, s.IntakeWB, s.Today, s.OutsideC)
	a.sayClock(s)
	a.sayLife(s)
	a.sayAir()
}

func (a *Account) add(f finding.Finding, act, source string, chance, cost float64) {
	f.Act, f.Source, f.Chance, f.Cost = act, source, chance, cost
	a.Findings = append(a.Findings, f)
}

func (a *Account) sayClock(s *Store) {
	needed := s.KeepDays
	if math.IsNaN(needed) {
		needed = s.SteepDay - s.Today
	}
	switch {
	case math.IsNaN(a.Moisture) || math.IsNaN(a.TempC):
		a.add(finding.New("silo.grain.unknown", finding.Caution, stage), "act.silo.read", practice, 1, 0.2)
	case a.Beyond > 0 || math.IsNaN(a.LeftDays):
		a.add(finding.New("silo.clock.beyond-law", finding.Alarm, stage, figure("moisture_wb", a.Moisture), figure("warmest_c", a.TempC), figure("beyond_d", a.Beyond)),
			"act.silo.dry", clock, 0.9, 0.6)
	default:
		a.Findings = append(a.Findings, Keeps(a.Used, a.LeftDays, a.PlanDays, needed)...)
	}
	if a.HumidityLow > mouldERH {
		a.add(finding.New("silo.humidity.high", finding.Caution, stage, figure("low_rh", a.HumidityLow), figure("high_rh", a.HumidityHigh), figure("limit_rh", mouldERH)),
			"act.silo.dry", practice, 0.6, 0.3)
	}
	if a.StorageWB < a.Moisture {
		a.add(finding.New("silo.drying.needed", finding.Caution, stage, figure("moisture_wb", a.Moisture), figure("to_wb", a.StorageWB), figure("keep_d", s.KeepDays),
			figure("water_kg_t", DryingWater(unit.WetBasis(a.Moisture), unit.WetBasis(a.StorageWB))), figure("air_c", DryingRules[0].AirC)), "act.silo.dry", clock, 0.7, 0.3)
	}
	if a.WarmK5Days < needed {
		a.add(finding.New("silo.heat.own", finding.Caution, stage, figure("warm_d", a.WarmK5Days), figure("rise_k", 5)), "act.silo.cool", "White 1982", 0.4, 0.4)
	}
}

// Keeps says whether grain that has used a share of its safe time lasts as long
// as it must, by the days it has left and the days that a plan may count on.
func Keeps(used, leftDays, planDays, neededDays float64) []finding.Finding {
	of := func(f finding.Finding, act string, chance, cost float64) []finding.Finding {
		f.Act, f.Source, f.Chance, f.Cost = act, clock, chance, cost
		return []finding.Finding{f}
	}
	switch {
	case used >= 1:
		return of(finding.New("silo.clock.spent", finding.Alarm, stage, figure("used", used)), "act.silo.use-first", 0.8, 0.6)
	case neededDays > leftDays:
		return of(finding.New("silo.clock.too-short", finding.Alarm, stage, figure("used", used), figure("left_d", leftDays), figure("needed_d", neededDays)),
			"act.silo.cool-or-deliver", 0.8, 0.5)
	case neededDays > planDays:
		return of(finding.New("silo.clock.tight", finding.Caution, stage, figure("left_d", leftDays), figure("plan_d", planDays), figure("needed_d", neededDays)),
			"act.silo.cool-or-deliver", 0.4, 0.4)
	case used >= clockAlarm:
		return of(finding.New("silo.clock.half-used", finding.Caution, stage, figure("used", used), figure("left_d", leftDays)),
			"act.silo.cool-or-deliver", 0.5, 0.3)
	}
	return nil
}

// sayLife tells dying from dormant, and both from noise.
func (a *Account) sayLife(s *Store) {
	const law = "Ellis and Roberts 1980"
	switch {
	case a.Capacity != nil && a.Capacity.Going() == Falling && a.To95.Mid == 0:
		a.add(finding.New("silo.life.below", finding.Alarm, stage, figure("chance", a.Capacity.FallingChance()), figure("to90_d", a.To90.Mid)),
			"act.silo.use-first", practice, a.Capacity.FallingChance(), 0.6)
	case a.Capacity != nil && a.Capacity.Going() == Falling:
		a.add(finding.New("silo.life.dying", finding.Alarm, stage, figure("chance", a.Capacity.FallingChance()),
			figure("to95_d", a.To95.Mid), figure("early_d", a.To95.Low), figure("to90_d", a.To90.Mid)), "act.silo.use-first", practice, a.Capacity.FallingChance(), 0.6)
	case a.Energy != nil && a.Energy.Going() == Falling:
		a.add(finding.New("silo.life.vigour", finding.Caution, stage, figure("chance", a.Energy.FallingChance())), "act.silo.test-capacity", practice, a.Energy.FallingChance(), 0.4)
	case a.Energy != nil && a.Energy.Going() == Rising:
		a.add(finding.New("silo.life.waking", finding.Note, stage), "", practice, 1, 0)
	case a.Energy != nil && a.Energy.Going() == NotShown:
		a.add(finding.New("silo.life.not-shown", finding.Note, stage, figure("chance", a.Energy.FallingChance()), figure("looks_n", float64(a.Energy.Looks))),
			"act.silo.count-again", practice, 0.3, 0.2)
	}
	if a.Dormant.Known() && a.Dormant.Mid > 1-energyLimit {
		a.add(finding.New("silo.dormancy.present", finding.Caution, stage, figure("dormant", a.Dormant.Mid), figure("low", a.Dormant.Low), figure("high", a.Dormant.High),
			figure("hold_c", ReleaseC)), "act.silo.wait", practice, 0.8, 0.2)
	}
	if a.AtSteep.Known() && a.AtSteep.Mid < energyLimit {
		a.add(finding.New("silo.life.low-at-steep", finding.Alarm, stage, figure("at_steep", a.AtSteep.Mid), figure("low", a.AtSteep.Low), figure("high", a.AtSteep.High)),
			"act.silo.use-first", law, a.AtSteep.ChanceBelow(energyLimit), 0.5)
	}
	if s.Sprouted {
		a.add(finding.New("silo.life.sprouted", finding.Alarm, stage), "act.silo.use-first", "CGC sprout undated", 0.9, 0.5)
	}
}

// sayAir says what the fan does in the time to come.
func (a *Account) sayAir() {
	if a.Still == nil {
		return
	}
	if a.Still.BeyondLayerHours() > 0 || a.Aired != nil && a.Aired.BeyondLayerHours() > 0 {
		a.add(finding.New("silo.layers.beyond-law", finding.Alarm, stage), "act.silo.dry", "Fraser and Muir 1981", 0.8, 0.5)
	}
	if a.Aired == nil {
		return
	}
	if a.Aired.FanHours() == 0 {
		a.add(finding.New("silo.air.idle", finding.Note, stage), "", practice, 0.5, 0)
		return
	}
	worst := func(r *Run) (used float64) {
		for _, l := range r.Layers() {
			used = max(used, l.Used)
		}
		return used
	}
	first := a.Aired.windows[0]
	a.add(finding.New("silo.air.helps", finding.Note, stage, figure("hours_h", float64(a.Aired.FanHours())), figure("power_kwh_t", a.Aired.FanKWhT()),
		figure("first_h", float64(first.FromH)), figure("used_still", worst(a.Still)), figure("used_aired", worst(a.Aired))), "act.silo.blow", practice, 0.7, 0.2)
}

package intake

import (
	"math"

	"awn/finding"
	"awn/odds"
)

// stage is what the findings of this package name as theirs.
const stage = "intake"

// practice stands for a source where there is none.
const practice = "common practice, no source"

// figure keeps findings short to write.
func figure(name string, x float64) finding.Figure { return finding.Figure{Name: name, Value: x} }

// factorFigures name the factor of a key by its place in Factors, from 0, and
// its slot in mm where it has one.
func factorFigures(k Key) []finding.Figure {
	out := []finding.Figure{figure("factor_n", float64(index(k.Factor)))}
	if k.SlotM > 0 {
		out = append(out, figure("slot_mm", 1000*k.SlotM))
	}
	return out
}

// index is the place of a factor in Factors.
func index(f Factor) int {
	for i, g := range factors {
		if f == g {
			return i
		}
	}
	return len(factors)
}

// nearChance is how unsure the side of a limit must be for a finding.
const nearChance = 0.05

// near says that a reading is too close to a limit for a plain yes or no.
func (j *Judgement) near(v Verdict) {
	if f, ok := nearLimit(v); ok {
		j.Findings = append(j.Findings, f)
	}
}

func nearLimit(v Verdict) (finding.Finding, bool) {
	if !v.Banded || !(v.Chance > nearChance && v.Chance < 1-nearChance) {
		return finding.Finding{}, false
	}
	f := finding.New("intake.factor.near-limit", finding.Caution, stage,
		append(factorFigures(v.Limit.Key), v.Limit.In.Figure("read", v.Rounded), v.Limit.In.Figure("limit", v.Limit.At), figure("chance", v.Chance))...)
	f.Act, f.Chance, f.Cost, f.Source = "act.intake.sample-more", min(v.Chance, 1-v.Chance), 0.2, practice
	return f, true
}

func limitMissed(v Verdict) finding.Finding {
	f := finding.New("intake.factor.limit-missed", finding.Alarm, stage,
		append(factorFigures(v.Limit.Key), v.Limit.In.Figure("read", v.Rounded), v.Limit.In.Figure("limit", v.Limit.At))...)
	f.Chance, f.Cost, f.Source = 1-v.Chance, 0.3, practice
	return f
}

func withinTolerance(v Verdict, tolerance float64) finding.Finding {
	f := finding.New("intake.factor.within-tolerance", finding.Note, stage,
		append(factorFigures(v.Limit.Key), v.Limit.In.Figure("read", v.Rounded), v.Limit.In.Figure("limit", v.Limit.At), v.Limit.In.Figure("tolerance", tolerance))...)
	f.Chance, f.Cost, f.Source = 1, 0.01, practice
	return f
}

func notRead(k Key) finding.Finding {
	f := finding.New("intake.factor.not-read", finding.Caution, stage, factorFigures(k)...)
	f.Act, f.Chance, f.Cost, f.Source = "act.intake.read-factor", 0.5, 0.1, practice
	return f
}

// OtherSieve says that the slot a limit turns on was not used, and what it may
// have held.
func OtherSieve(l *Load, k Key, limit Limit) finding.Finding {
	guess, ok := l.HeldBetween(k.SlotM)
	if !ok {
		f := finding.New("intake.sieve.not-used", finding.Caution, stage, factorFigures(k)...)
		f.Act, f.Chance, f.Cost, f.Source = "act.intake.sieve-again", 0.5, 0.1, practice
		return f
	}
	normal, linear := guess.Normal, guess.Linear
	if k.Factor == Through {
		normal, linear = 1-normal, 1-linear
	}
	figures := append(factorFigures(k), figure("normal_tenths", normal), figure("linear_tenths", linear), limit.In.Figure("limit", limit.At))
	f := finding.New("intake.sieve.other-slots", finding.Caution, stage, figures...)
	f.Chance, f.Cost = 0.5, 0.1
	if limit.room(limit.In.printed(normal)) < 0 && limit.room(limit.In.printed(linear)) < 0 {
		f = finding.New("intake.sieve.other-slots-fails", finding.Caution, stage, figures...)
		f.Chance, f.Cost = 0.9, 0.3
	}
	f.Act, f.Source = "act.intake.sieve-again", practice
	return f
}

func beyondRule(c Column, x float64) finding.Finding {
	f := finding.New("intake.price.beyond-rule", finding.Caution, stage, append(factorFigures(c.Key), c.In.Figure("read", x))...)
	f.Act, f.Chance, f.Cost, f.Source = "act.intake.agree-price", 1, 0.1, practice
	return f
}

// Findings says how far the rule for moisture is from the loss of water alone.
func (m Mass) Findings() []finding.Finding {
	gap := m.ByDryKg - m.PayableKg
	switch {
	case math.IsNaN(m.PayableKg):
		f := finding.New("intake.mass.unknown", finding.Caution, stage)
		f.Act, f.Chance, f.Cost, f.Source = "act.intake.weigh", 1, 0.2, practice
		return []finding.Finding{f}
	case m.ShrinkKg > 0 && math.Abs(gap) > 1e-6*m.NetKg:
		f := finding.New("intake.mass.shrink-gap", finding.Note, stage,
			figure("gap_kg", gap), figure("gap_share_loss", gap/m.CleanKg), figure("by_dry_kg", m.ByDryKg), figure("payable_kg", m.PayableKg))
		f.Chance, f.Cost, f.Source = 1, math.Abs(gap)/m.NetKg, practice
		return []finding.Finding{f}
	}
	return nil
}

// findings says what a diagnosis means and what to test next.
func (d Diagnosis) findings(l *Load, ge odds.Value) (out []finding.Finding) {
	add := func(f finding.Finding, act, source string, chance, cost float64) {
		f.Act, f.Source, f.Chance, f.Cost = act, source, chance, cost
		out = append(out, f)
	}
	switch d.Sprout {
	case SproutSevere:
		low, high := limits95(l, Energy)
		add(finding.New("intake.sprout.severe", finding.Alarm, stage, figure("energy", ge.Mid), figure("low", low), figure("high", high)),
			"act.intake.use-first", "CGC sprout undated", 0.9, 0.5)
	case SproutModerate:
		add(finding.New("intake.sprout.moderate", finding.Caution, stage), "act.intake.use-soon", "CGC sprout undated", 0.6, 0.3)
	case SproutPossible:
		add(finding.New("intake.sprout.possible", finding.Caution, stage), "act.intake.test-viscosity", "Instrument maker undated", 0.4, 0.3)
	case SproutNone:
		add(finding.New("intake.sprout.none", finding.Note, stage), "", "CGC sprout undated", 0.05, 0.1)
	case SproutUnknown:
		add(finding.New("intake.sprout.not-tested", finding.Note, stage), "act.intake.test-viscosity", "CGC sprout undated", 0.1, 0.3)
	}
	if d.dormantSurely() {
		add(finding.New("intake.dormancy.present", finding.Caution, stage,
			figure("dormant", d.Dormant.Mid), figure("low", d.Dormant.Low), figure("high", d.Dormant.High)),
			"act.intake.wait-for-dormancy", practice, 0.9, 0.1)
	}
	if d.Dead.Known() && d.Dead.Mid > 1-wantedEnergy {
		add(finding.New("intake.dead.many", finding.Alarm, stage, figure("dead", d.Dead.Mid), figure("low", d.Dead.Low), figure("high", d.Dead.High)),
			"act.intake.trace-drying", practice, 0.9, 0.3)
	}
	if ge.Known() && ge.Mid < wantedEnergy && !d.Dead.Known() {
		add(finding.New("intake.energy.low-cause-unknown", finding.Caution, stage, figure("energy", ge.Mid)), "act.intake.test-capacity", practice, 0.7, 0.3)
	}
	if d.Sensitive.Known() && d.Sensitive.Mid >= sensitiveFrom {
		add(finding.New("intake.water.sensitive", finding.Caution, stage,
			figure("sensitive", d.Sensitive.Mid), figure("low", d.Sensitive.Low), figure("high", d.Sensitive.High)),
			"act.intake.longer-rests", practice, 0.8, 0.05)
	}
	return out
}

// findings says what stands behind a grade.
func (g *Grade) findings(l *Load) (out []finding.Finding) {
	if g.Table.Whole && len(g.Missing) > 0 {
		f := finding.New("intake.grade.withheld", finding.Caution, stage, figure("missing_n", float64(len(g.Missing))))
		f.Act, f.Source, f.Chance, f.Cost = "act.intake.read-factor", g.Table.Source, 0.5, 0.1
		out = append(out, f)
	}
	for _, k := range g.Missing {
		if k.Factor.Sieved() {
			out = append(out, OtherSieve(l, k, limitOf(g.Verdicts, k)))
		}
	}
	if !g.Table.Whole && g.Name == "" {
		f := finding.New("intake.table.not-whole", finding.Note, stage)
		f.Source, f.Chance, f.Cost = g.Table.Source, 1, 0.1
		out = append(out, f)
	}
	for _, v := range append(g.Verdicts[:len(g.Verdicts):len(g.Verdicts)], g.Deciding...) {
		if f, ok := nearLimit(v); ok {
			out = append(out, f)
		}
	}
	return out
}

// limitOf is the limit that a key has among verdicts.
func limitOf(vs []Verdict, k Key) Limit {
	for _, v := range vs {
		if v.Limit.Key == k {
			return v.Limit
		}
	}
	return Limit{Column: Column{Key: k}, At: math.NaN()}
}

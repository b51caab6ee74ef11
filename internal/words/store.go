package words

import (
	"math"
	"strings"

	"awn/finding"
	"awn/intake"
	"awn/silo"
)

// Factor is the name of what is looked at in a load, with its slot in the
// series that it belongs to: "through 5.5/64 in", "held by 2.50 mm".
func (u Units) Factor(k intake.Key) string {
	return strings.ReplaceAll(named(u, "factor", k.Factor, func(l *language) map[intake.Factor]string { return l.factors }), "{slot}", u.slot(k.SlotM))
}

// slot writes the width of a slot: in 64ths of an inch where it is one of
// that series, and else in millimetres. The two are never turned into each
// other.
func (u Units) slot(m float64) string {
	const halves, close = 2, 2e-6
	n := math.Round(m/intake.Slot64(1)*halves) / halves
	if math.Abs(intake.Slot64(n)-m) < close {
		decimals := 0
		if n != math.Trunc(n) {
			decimals = 1
		}
		return u.Number(n, decimals) + "/64 in"
	}
	return u.Number(1000*m, 2) + "\u00a0mm"
}

// factorOf is the factor that a finding carries.
func (u Units) factorOf(f finding.Finding) string {
	k := intake.Key{}
	for _, g := range f.Figures {
		switch g.Name {
		case "factor_n":
			if all := intake.Factors(); g.Value >= 0 && int(g.Value) < len(all) {
				k.Factor = all[int(g.Value)]
			}
		case "slot_mm":
			k.SlotM = g.Value / 1000
		}
	}
	if k.Factor == "" {
		return unknown
	}
	return u.Factor(k)
}

// Decision is the word for what to do with a load.
func (u Units) Decision(d intake.Decision) string {
	return named(u, "decision", d, func(l *language) map[intake.Decision]string { return l.decisions })
}

// Bar says why a load may not go into a silo.
func (u Units) Bar(b intake.Bar) string {
	return named(u, "bar", b, func(l *language) map[intake.Bar]string { return l.bars })
}

// Turn says why a silo stands where it does in the order of use.
func (u Units) Turn(r silo.Reason) string {
	return named(u, "turn", r, func(l *language) map[silo.Reason]string { return l.turns })
}

// Going says which way counts go.
func (u Units) Going(g silo.Going) string {
	text, _ := text(u, "going", g, func(l *language) map[silo.Going]string { return l.goings })
	return text
}

package course

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"awn/finding"
	"awn/odds"
	"awn/programme"
)

// added reports whether an addition has been made by the end of a stage.
func added(a programme.Addition, by Stage) bool {
	return slices.ContainsFunc([]Stage{Steep, Germinate, Kiln}, func(s Stage) bool { return s <= by && s.String() == a.Stage })
}

// parametersAt is the house's own parameters, times the factors of the grain and
// of what has been added by a stage. A factor holds from the start of the stage of its
// addition to the end of the piece.
func (p *Piece) parametersAt(stage Stage) (map[string]float64, error) {
	values := map[string]float64{}
	maps.Copy(values, p.House.Parameters)
	table := Parameters()
	for key, factor := range p.Lot.Factor {
		i := slices.IndexFunc(table, func(t odds.Parameter) bool { return t.Key == key })
		if i < 0 {
			return nil, fmt.Errorf("the lot has a factor for %s, which the model does not have", key)
		}
		if _, own := values[key]; !own {
			values[key] = table[i].Default
		}
		values[key] *= factor
	}
	for _, a := range p.Programme.Additions {
		if !added(a, stage) {
			continue
		}
		for key, factor := range a.Factor {
			i := slices.IndexFunc(table, func(t odds.Parameter) bool { return t.Key == key })
			if i < 0 {
				return nil, fmt.Errorf("the addition of %s has a factor for %s, which the model does not have", a.Substance, key)
			}
			if _, own := values[key]; !own {
				values[key] = table[i].Default
			}
			values[key] *= factor
		}
	}
	return values, nil
}

// bromate is what may not be added unless somebody permits it.
const bromate = "bromate"

// checkAdditions refuses bromate that nobody permits.
func (p *Piece) checkAdditions() error {
	for _, a := range p.Programme.Additions {
		if a.Permitted == "" && strings.Contains(strings.ToLower(a.Substance), bromate) {
			return fmt.Errorf("%s is to be added and nobody permits it: name the market rule that does, or leave it out", a.Substance)
		}
	}
	return nil
}

// additions tells what is said of additions: that nobody permits one, that its
// effect is not counted, or that it is only what the programme says it is.
func additions(dst []finding.Finding, all []programme.Addition) []finding.Finding {
	tell := func(code, act string, severity finding.Severity, chance, cost float64, holds func(programme.Addition) bool) {
		if !slices.ContainsFunc(all, holds) {
			return
		}
		f := finding.New(code, severity, "programme")
		f.Act, f.Chance, f.Cost, f.Source = act, chance, cost, "common practice, no source"
		dst = append(dst, f)
	}
	tell("programme.addition.unpermitted", "act.addition.ask-permission", finding.Alarm, 0.8, downgradeShare,
		func(a programme.Addition) bool { return a.Permitted == "" })
	tell("programme.addition.uncounted", "act.addition.give-factor", finding.Note, 0.5, 0.01,
		func(a programme.Addition) bool { return len(a.Factor) == 0 })
	tell("programme.addition.factor", "act.addition.drop-factor", finding.Note, 0.3, 0.01,
		func(a programme.Addition) bool { return len(a.Factor) > 0 })
	return dst
}

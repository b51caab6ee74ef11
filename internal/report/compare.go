package report

import (
	"io"
	"math"
	"strings"

	"awn/course"
	"awn/internal/house"
	"awn/internal/paper"
	"awn/internal/words"
	"awn/malt"
)

// MostCompared is how many pieces a comparison holds: more lines than this
// cannot be told apart on one panel.
const MostCompared = 4

// Comparison is several pieces on common draws, and the reader it is written for.
type Comparison struct {
	Names       []string // of the pieces, as they were given
	Pieces      []Report // each with its odds; the first is the one that the others are held against
	Differences []paper.Difference
	Against     [][]course.Contrast // of each piece but the first
	Meets       []course.Meets      // likewise

	Units   words.Units
	Version house.Version
}

// Compare is how drawn pieces compare; names and documents are those of each.
func Compare(r Report, names []string, documents [][]paper.Input, drawn []*course.Ensemble) *Comparison {
	c := &Comparison{Names: names, Version: r.Version, Units: r.Units, Differences: paper.Differences(documents)}
	for i, e := range drawn {
		c.Pieces = append(c.Pieces, Report{Outcome: e.Outcome, Units: r.Units, Version: r.Version, Inputs: Inputs(documents[i]), Odds: e.Weigh(course.UsualRisk)})
		if i > 0 {
			c.Against, c.Meets = append(c.Against, drawn[0].Against(e)), append(c.Meets, drawn[0].MeetsBeside(e))
		}
	}
	return c
}

// letter is the short name of a piece: A, B, C, D.
func letter(i int) string { return string(rune('A' + i)) }

// comparedFigure is a figure of the account that is told of every piece.
type comparedFigure struct{ key, name string }

// comparedGroup is figures under a heading.
type comparedGroup struct {
	name    string
	figures []comparedFigure
}

// groups are the figures told, in grain order, those that no piece has left out.
func (c *Comparison) groups() []comparedGroup {
	u := c.Units
	say := func(pairs ...string) (out []comparedFigure) {
		for i := 0; i < len(pairs); i += 2 {
			out = append(out, comparedFigure{pairs[i], u.Say(pairs[i+1])})
		}
		return out
	}
	var analysed []comparedFigure
	for _, p := range analysisOrder {
		analysed = append(analysed, comparedFigure{"malt." + p.Key(p.Bases()[0]), u.Parameter(p)})
	}
	all := []comparedGroup{
		{u.Say("section.course"), say("steep.end.drained_wb", "next.steep.end.drained_wb", "steep.end.chit", "next.steep.end.chit",
			"germinate.end.moisture_wb", "next.germinate.end.moisture_wb", "germinate.end.acrospire", "next.germinate.end.acrospire",
			"kilned.break_h", "compare.break", "kilned.moisture_wettest_wb", "compare.wettest", "cost.duration_h", "compare.hours")},
		{u.Say("section.malt"), analysed},
		{u.Say("section.balance"), say("yield.malt_kg", "flow.malt", "yield.per_steeped", "compare.yield", "yield.malting_loss_dm", "compare.loss",
			"yield.leached_dm", "loss.leached", "yield.respired_dm", "loss.respired", "yield.respired_kiln_dm", "loss.kiln",
			"yield.culms_dm", "loss.culms", "yield.screenings_dm", "loss.screenings")},
		{u.Say("section.cost"), say("cost.water_m3", "cost.water", "cost.heat_to_air_kwh", "cost.heat", "cost.fuel_hhv_kwh", "compare.fuel",
			"cost.power_kwh", "cost.power", "cost.co2e_kg", "cost.co2e", "cost.per_tonne_cost", "cost.per-tonne")},
	}
	for i := range all {
		kept := all[i].figures[:0]
		for _, f := range all[i].figures {
			if c.has(f.key) {
				kept = append(kept, f)
			}
		}
		all[i].figures = kept
	}
	return all
}

// has says whether any piece has a figure.
func (c *Comparison) has(key string) bool {
	for _, r := range c.Pieces {
		if _, ok := r.band(key); ok {
			return true
		}
	}
	return false
}

// isMoney says whether a figure is a sum of money.
func isMoney(key string) bool {
	return strings.HasSuffix(key, "_cost") || strings.HasSuffix(key, "_value")
}

// sum is a figure of a piece; money is in its house's currency.
func (r Report) sum(key string, x float64) string {
	if isMoney(key) {
		return r.money(x)
	}
	return r.figure(unitOf(key), x)
}

// unitOf is the name by which a figure of the account is written: shares of a
// loss to a tenth of a per cent, and growth without a unit.
func unitOf(key string) string {
	name := key[strings.LastIndex(key, ".")+1:]
	switch {
	case strings.HasPrefix(key, "yield.") && strings.HasSuffix(key, "_dm"), key == "yield.per_steeped":
		return "tenths"
	case strings.HasSuffix(key, ".acrospire"):
		return "x"
	}
	return name
}

// middle is a figure of a piece at the middle of its draws.
func (c *Comparison) middle(i int, key string) string {
	b, ok := c.Pieces[i].band(key)
	if !ok {
		return "–"
	}
	return c.Pieces[i].sum(key, b.P50)
}

// gaps write a difference with its sign and without unit, the percentiles alike:
// to a decimal more than the figure has where it would else have one digit.
func (c *Comparison) gaps(key string, x course.Contrast) []string {
	u := c.Units
	in := func(x float64) float64 { return words.Value(unitOf(key), x, u) - words.Value(unitOf(key), 0, u) }
	n := words.Decimals(unitOf(key), u)
	if isMoney(key) {
		in, n = func(x float64) float64 { return x }, 0
	}
	if max(math.Abs(in(x.P10)), math.Abs(in(x.P90)))*math.Pow10(n) < 10 {
		n++
	}
	var out []string
	for _, p := range []float64{x.P10, x.P50, x.P90} {
		switch v := math.Round(in(p) * math.Pow10(n)); {
		case v == 0:
			out = append(out, u.Number(0, n))
		case v > 0:
			out = append(out, "+"+u.Number(in(p), n))
		default:
			out = append(out, u.Number(in(p), n))
		}
	}
	return out
}

// leastGap is the share of a figure below which a difference is none.
const leastGap = 1e-4

// contrast finds how far a figure of a piece lies from the first's, if it does.
func (c *Comparison) contrast(other int, key string) (course.Contrast, bool) {
	first, _ := c.Pieces[0].band(key)
	for _, x := range c.Against[other-1] {
		if x.Key == key {
			return x, max(math.Abs(x.P10), math.Abs(x.P90)) > leastGap*math.Abs(first.P50)
		}
	}
	return course.Contrast{}, false
}

// lines are the limits that any piece is held against, each once.
func (c *Comparison) lines() []malt.Limit {
	var out []malt.Limit
	seen := map[string]bool{}
	for _, r := range c.Pieces {
		for _, l := range r.Odds.Lines {
			if key := l.Limit.Parameter.Key(l.Limit.Basis); !seen[key] {
				seen[key] = true
				out = append(out, l.Limit)
			}
		}
	}
	return out
}

// met is how often in a hundred a piece meets the line of a figure.
func (c *Comparison) met(i int, l malt.Limit) string {
	for _, line := range c.Pieces[i].Odds.Lines {
		if line.Limit.Parameter == l.Parameter && line.Limit.Basis == l.Basis && line.In.Of > 0 {
			return c.Pieces[i].inHundred(line.In.Share())
		}
	}
	return "–"
}

// heading is a piece in a line.
func (c *Comparison) heading(i int) string {
	title, lines := c.Pieces[i].heading()
	return join(append([]string{c.Names[i], title}, lines[1:]...))
}

// verdict says how often each piece meets all that is asked of it.
func (c *Comparison) verdict() string {
	u := c.Units
	var said []string
	for i, m := range c.Meets {
		share := func(n int) string { return c.Pieces[0].inHundred(float64(n) / float64(m.Of)) }
		said = append(said, u.Say("compare.meets", "first", letter(0), "other", letter(i+1),
			"both", share(m.Both), "one", share(m.First), "two", share(m.Other)))
	}
	return strings.Join(said, " ")
}

// rests says what the comparison rests on.
func (c *Comparison) rests() string {
	first := c.Pieces[0]
	o, u := first.Odds, c.Units
	said := u.Say("compare.draws", "done", u.Number(float64(o.Done), 0), "seed", u.Number(float64(o.Seed), 0))
	if o.Done < o.Asked {
		said += " " + u.Say("odds.stopped", "done", u.Number(float64(o.Done), 0), "asked", u.Number(float64(o.Asked), 0))
	}
	for i, r := range c.Pieces {
		if r.Odds.Failed > 0 {
			said += " " + letter(i) + ": " + u.Say("odds.failed", "count", u.Number(float64(r.Odds.Failed), 0), "reason", r.Odds.Faults[0].Err.Error())
		}
	}
	return said + " " + u.Say("odds.uncalibrated")
}

// ComparisonSchema is the kind and number of the JSON of a comparison.
const ComparisonSchema = "comparison/1"

// JSON writes the comparison, each piece with its whole outcome.
func (c *Comparison) JSON(w io.Writer) error {
	pieces, inputs := []object{}, []Input{}
	for i, r := range c.Pieces {
		pieces = append(pieces, object{"name": c.Names[i], "outcome": r.result(), "findings": findings(r.Outcome.Findings)})
		inputs = append(inputs, r.Inputs...)
	}
	against := []object{}
	for i, contrasts := range c.Against {
		figures := object{}
		for _, x := range contrasts {
			figures[x.Key] = object{"draws": x.Above.Of}.num("p10", x.P10).num("p50", x.P50).num("p90", x.P90).num("more_chance", x.Above.Share())
		}
		m := c.Meets[i]
		against = append(against, object{"first": c.Names[0], "other": c.Names[i+1], "difference": figures,
			"meet_all": object{"draws": m.Of, "both": m.Both, "first_alone": m.First, "other_alone": m.Other}})
	}
	result := object{"pieces": pieces, "against": against,
		"given_differently": each(c.Differences, func(d paper.Difference) object { return object{"path": d.Path, "values": d.Values} })}
	return enveloped(w, ComparisonSchema, c.Version, inputs, c.Pieces[0].seed(), result, []object{})
}

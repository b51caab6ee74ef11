package report

import (
	"math"

	"awn/barley"
	"awn/course"
	"awn/internal/words"
	"awn/programme"
)

// row is one line of the account: a figure with the worst of it beside the
// mean.
type row struct {
	Key   string // of the formulas behind it
	Name  string
	Mean  string
	Worst string // with its own word: "40.8 % wb driest"
}

// group is the rows of one part of the course.
type group struct {
	Name string
	When string // hours since cast-in
	Rows []row
}

// groups is the account in grain order as far as the kiln.
func (r Report) groups() []group {
	out := []group{{Name: r.Units.Say("group.barley"), Rows: r.barleyRows()}}
	for _, part := range []struct {
		stage course.Stage
		rows  func(*course.StageOutcome) []row
	}{
		{course.Steep, r.steepRows}, {course.Germinate, r.germinateRows}, {course.Kiln, r.kilnRows},
	} {
		if s, ok := r.stage(part.stage); ok {
			out = append(out, group{r.Units.Stage(part.stage.String()), r.when(s), part.rows(s)})
		}
	}
	return out
}

func (r Report) when(s *course.StageOutcome) string {
	return r.Units.Say("when", "from", r.Units.Number(s.FromH, 0), "to", r.Units.Number(s.ToH, 0))
}

// figure writes a reading by its key.
func (r Report) figure(key string, x float64) string { return words.Figure(key, x, r.Units) }

// weight writes a mass of grain: in tonnes, a small one in kilograms.
func (r Report) weight(kg float64) string {
	if kg < smallKg {
		return r.figure("kg", kg)
	}
	return r.figure("t", kg/1000)
}

// smallKg is the mass below which a tenth of a tonne is too coarse.
const smallKg = 2000

// worst writes the worst of a figure with the word for what it is; nothing if
// it is not known.
func (r Report) worst(phrase, key string, x float64) string {
	if math.IsNaN(x) {
		return ""
	}
	return r.Units.Say(phrase, "figure", r.figure(key, x))
}

// kept drops the rows that nobody has a figure for.
func kept(rows []row) []row {
	out := rows[:0]
	for _, x := range rows {
		if x.Mean != "–" || x.Worst != "" {
			out = append(out, x)
		}
	}
	return out
}

func (r Report) barleyRows() []row {
	u, l := r.Units, r.Outcome.Lot
	return kept([]row{
		r.receivedRow(),
		{"", u.Reading(programme.Moisture), u.Doubt("wb", l.Moisture), u.Say("worst.protein", "figure", u.Doubt("dm", l.Protein))},
		{"", u.Say("row.capacity"), u.Doubt("capacity", l.Capacity), r.worst("worst.sensitive", "share", l.WaterSensitivity.Mid)},
	})
}

func (r Report) steepRows(s *course.StageOutcome) []row {
	hottest, _ := r.most(s, programme.TempHigh)
	u := r.Units
	return kept([]row{
		{"uptake", u.Reading(programme.Drained), r.toldEnd(s, programme.Drained, "wb"), r.worst("worst.bulk", "wb", s.End[programme.Moisture])},
		{"chit", u.Reading(programme.Chit), r.toldEnd(s, programme.Chit, "chit"), ""},
		{"temperature", u.Reading(programme.TempMean), r.toldMean(s), r.worst("worst.warmest", "c", hottest)},
		r.restRow(),
		r.gasRow(s),
	})
}

func (r Report) germinateRows(s *course.StageOutcome) []row {
	hottest, atH := r.most(s, programme.TempHigh)
	u := r.Units
	return kept([]row{
		{"bed-moisture", u.Reading(programme.Moisture), r.toldEnd(s, programme.Moisture, "wb"), r.worst("worst.driest", "wb", s.End[programme.DriestLayer])},
		{"temperature", u.Reading(programme.TempMean), r.toldMean(s), r.atWorst("worst.warmest-at", "c", hottest, atH)},
		{"acrospire", u.Reading(programme.Acrospire), r.toldEnd(s, programme.Acrospire, "x"), r.plainWorst("worst.slowest", s.End[programme.AcrospireP10], 2)},
		{"beta_glucan_dm", u.Say("row.unmodified"), r.told("malt.wug", "wug", r.Outcome.Growth.WholeCorns), r.worst("worst.partly", "pug", r.Outcome.Growth.PartlyCorns)},
		r.gasRow(s),
		r.roomRow(),
	})
}

// gasRow is the least oxygen between the corns and the most carbon dioxide; it
// is left out where the air was as good as fresh.
func (r Report) gasRow(s *course.StageOutcome) row {
	dioxide, _ := r.most(s, programme.CarbonDioxideMost)
	oxygen, _ := r.least(s, programme.OxygenLeast)
	if dioxide < freshDioxide {
		oxygen, dioxide = math.NaN(), math.NaN()
	}
	return row{"oxygen", r.Units.Reading(programme.OxygenLeast), r.told(s.Stage.String()+".least.oxygen_least", "share", oxygen), r.worst("worst.dioxide", "share", dioxide)}
}

// freshDioxide is the carbon dioxide below which nothing is said of the air.
const freshDioxide = 0.01

func (r Report) kilnRows(*course.StageOutcome) []row {
	k := r.Outcome.Kilned
	u := r.Units
	wettest := func(s *course.Spot) float64 { return s.Kilned.MoistureWettest }
	darkest := func(s *course.Spot) float64 { return s.Kilned.ColourMost }
	brk := u.Say("kiln.no-break")
	if !math.IsNaN(k.BreakH) {
		brk = u.Say("kiln.break-after", "hours", r.told("kilned.break_h", "h", k.BreakH))
	}
	return append(r.deckRows(), kept([]row{
		{"bed-moisture", u.Reading(programme.Break), brk, r.worst("worst.wettest", "wb", k.BreakWettest)},
		{"bed-moisture", u.Reading(programme.Moisture), r.told("malt.moisture_wb", "wb", k.MoistureMean), r.inSpot(r.worst("worst.wettest", "wb", k.MoistureWettest), wettest)},
		{"colour_ebc", u.Say("row.colour"), r.told("malt.colour_ebc", "ebc", k.ColourMean), r.inSpot(r.worst("worst.darkest", "ebc", k.ColourMost), darkest)},
	})...)
}

// atWorst is worst with the hour at which it falls.
func (r Report) atWorst(phrase, key string, x, atH float64) string {
	if math.IsNaN(x) {
		return ""
	}
	return r.Units.Say(phrase, "figure", r.figure(key, x), "hour", r.Units.Number(atH, 0))
}

// plainWorst is worst for a number without unit.
func (r Report) plainWorst(phrase string, x float64, decimals int) string {
	if math.IsNaN(x) {
		return ""
	}
	return r.Units.Say(phrase, "figure", r.Units.Number(x, decimals))
}

// closure is the worst closure of a good over all stages.
func (r Report) closure(g barley.Good) float64 {
	worst := 0.0
	for _, s := range r.Outcome.Stages {
		worst = max(worst, math.Abs(s.Balance.Closure[g]))
	}
	return worst
}

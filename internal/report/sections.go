package report

import (
	"math"
	"strings"

	"awn/barley"
	"awn/course"
	"awn/internal/words"
	"awn/malt"
	"awn/odds"
	"awn/programme"
)

// ended says what ended a step.
func (r Report) ended(s course.StepOutcome) string {
	u := r.Units
	if s.Until.Reading == programme.None {
		return u.Say("ended.time")
	}
	value := r.figure(s.Until.Reading.Key(), s.Until.Value)
	if s.Until.Reading == programme.Break {
		value = "" // it is seen or not
	}
	if s.Ended == course.AtLatest {
		return u.Say("ended.latest", "reading", u.Reading(s.Until.Reading), "value", value)
	}
	return strings.TrimRight(u.Say("ended.reading", "reading", u.Reading(s.Until.Reading), "value", value), " ")
}

func (r Report) stepMoisture(s course.StepOutcome) string {
	return r.Units.Number(words.Value("wb", s.End[programme.Moisture], r.Units), 1)
}

func (r Report) stepTemp(s course.StepOutcome) string {
	return r.Units.Number(words.Value("c", s.End[programme.TempMean], r.Units), 1)
}

// bedSection is a bed as contours, and for germination how the corns grew.
func (r Report) bedSection(n *counter, stage course.Stage) section {
	u := r.Units
	pics := r.bedPictures(stage)
	titles := make([]string, 0, len(pics)+1)
	for i := range pics {
		unit := [...]string{"wb", "c"}[i%2]
		titles = append(titles, u.Say("figure.bed-"+unit, "unit", words.Symbol(unit, u)))
	}
	if stage == course.Germinate {
		if g, ok := r.growthPicture(); ok {
			pics, titles = append(pics, g), append(titles, u.Say("picture.growth"))
		}
	}
	s := section{ID: stage.String(), Title: u.Say("section." + stage.String()), Figures: n.figures(titles, pics...)}
	if _, ok := r.stage(stage); ok && stage == course.Kiln {
		if len(r.Outcome.Spots) > 0 {
			s.Tables = append(s.Tables, r.spotTable())
		}
		s.Tables = append(s.Tables, r.leftTable())
	} else if ok {
		s.Tables = []table{r.growthTable(), r.cornTable(), r.madeTable()}
		for i := range r.Outcome.Stops {
			s.Tables = append(s.Tables, r.stopTable(&r.Outcome.Stops[i]))
		}
	}
	return s
}

// leftTable is what the kiln left of enzymes and precursor.
func (r Report) leftTable() table {
	u, left := r.Units, r.Outcome.Kilned.Left
	t := table{Caption: u.Say("table.left"), Head: []string{"", u.Say("head.left")}}
	for _, x := range []struct {
		phrase string
		share  float64
	}{
		{"left.alpha", left.AlphaAmylase}, {"left.beta", left.BetaAmylase}, {"left.endo", left.EndoGlucanase},
		{"left.exo", left.ExoGlucanase}, {"left.smm", left.SMM},
	} {
		t.add(x.phrase, u.Say(x.phrase), r.figure("share", x.share))
	}
	return t
}

// analysisOrder is the order in which the figures of a malt are read.
var analysisOrder = []malt.Parameter{
	malt.Moisture, malt.ExtractFine, malt.ExtractCoarse, malt.ExtractGap, malt.Protein, malt.SolubleProtein, malt.KolbachIndex,
	malt.FAN, malt.Friability, malt.PartlyUnmodified, malt.WhollyUnmodified, malt.WortBetaGlucan, malt.Viscosity, malt.Colour,
	malt.ColourBoiled, malt.DiastaticPower, malt.AlphaAmylase, malt.AttenuationLimit, malt.DMSPrecursor, malt.Screenings,
	malt.SpiritYield,
}

// maltSection is the malt against its specification and as it will be
// analysed.
func (r Report) maltSection(n *counter) section {
	u := r.Units
	s := section{ID: "malt", Title: u.Say("section.malt"), Intro: u.Say("intro.malt") + " " + r.bandSays()}
	if len(r.Outcome.Judged) > 0 {
		s.Figures = n.figures([]string{u.Say("picture.marks", "spec", r.specName())}, r.marksPicture())
		for i := range s.Figures {
			s.Figures[i].Table.Words = map[int]bool{4: true}
		}
	}
	t := table{Caption: u.Say("table.malt"), Head: []string{u.Say("head.figure"), u.Say("head.found"), u.Say("head.standing")}, Words: map[int]bool{2: true}}
	for _, p := range analysisOrder {
		basis := p.Bases()[0]
		f, reason := r.Outcome.Malt.On(p, basis)
		if reason != malt.Given {
			continue
		}
		t.add(p.Key(basis), u.Parameter(p), u.Doubt(p.Key(basis), r.drawn("malt."+p.Key(basis), f.Value)), u.Standing(f.Value.Standing))
	}
	if len(t.Rows) > 0 {
		s.Tables = append(s.Tables, t)
	}
	if len(r.Outcome.Piece.Programme.Additions) > 0 {
		s.Tables = append(s.Tables, r.additionTable())
	}
	if b := r.brewTable(); len(b.Rows) > 0 {
		s.Tables = append(s.Tables, b)
	}
	return s
}

// bandSays says what a band beside a figure is.
func (r Report) bandSays() string {
	if r.Odds != nil {
		return r.Units.Say("intro.malt.drawn")
	}
	return r.Units.Say("intro.malt.band")
}

// balanceSection is every line of every good with its closure.
func (r Report) balanceSection(n *counter) section {
	u := r.Units
	s := section{ID: "balance", Title: u.Say("section.balance"), Intro: u.Say("intro.balance")}
	pics := r.flowPictures()
	titles := make([]string, len(pics))
	for i, id := range []string{"dry", "water", "heat"}[:len(pics)] {
		titles[i] = u.Say("picture.flow-"+id, "unit", words.Symbol(flowUnit(id), u))
	}
	s.Figures = n.figures(titles, pics...)
	if r.dressed() {
		s.Tables = append(s.Tables, r.yieldTable())
	}
	for _, g := range []struct {
		good   barley.Good
		phrase string
		unit   string
	}{
		{barley.Dry, "table.dry", "kg"}, {barley.Water, "table.water", "kg"}, {barley.HeatJ, "table.heat", "j"},
		{barley.Oxygen, "table.oxygen", "kg"}, {barley.CarbonDioxide, "table.dioxide", "kg"},
	} {
		lines := r.balanceLines(g.good)
		if len(lines) == 0 {
			continue
		}
		t := table{
			Caption: u.Say(g.phrase, "closure", power(r.closure(g.good))),
			Head:    []string{u.Say("head.line"), words.Symbol(g.unit, u)},
		}
		for _, l := range lines {
			t.Rows = append(t.Rows, []string{r.lineName(l), r.amount(words.Value(g.unit, l.Amount, u))})
		}
		s.Tables = append(s.Tables, t)
	}
	return s
}

// amount writes a line of a balance: to a tenth where it is small.
func (r Report) amount(x float64) string {
	if math.Abs(x) < 10 {
		return r.Units.Number(x, 1)
	}
	return r.Units.Number(x, 0)
}

func flowUnit(id string) string {
	if id == "heat" {
		return "j"
	}
	return "kg"
}

// costSection is what the piece took and what that comes to.
func (r Report) costSection() section {
	u := r.Units
	t := table{Head: []string{"", u.Say("head.used"), u.Say("head.money")}}
	for _, i := range r.costItems() {
		t.Rows = append(t.Rows, []string{i.Name, i.Amount, i.Money})
	}
	s := section{ID: "cost", Title: u.Say("section.cost")}
	if len(t.Rows) > 0 {
		s.Tables = []table{t}
	}
	if r.Outcome.Water.FreshM3 > 0 {
		s.Tables = append(s.Tables, r.waterTable())
	}
	return s
}

// lotSection is the barley as it was given or assumed.
func (r Report) lotSection() section {
	u, l := r.Units, r.Outcome.Lot
	t := table{Head: []string{u.Say("head.figure"), u.Say("head.value"), u.Say("head.standing")}, Words: map[int]bool{2: true}}
	for _, x := range []struct {
		phrase, key string
		v           odds.Value
	}{
		{"lot.moisture", "wb", l.Moisture}, {"lot.protein", "dm", l.Protein}, {"lot.kernel-mass", "mg", l.KernelMassMg},
		{"lot.test-weight", "kg_hl", l.TestWeightKgHL}, {"lot.capacity", "share", l.Capacity}, {"lot.dormant", "share", l.Dormant},
		{"lot.sensitivity", "share", l.WaterSensitivity}, {"lot.thermal-time", "ch", l.ChitThermalTimeCH},
		{"lot.beta-glucan", "dm", l.BetaGlucan}, {"lot.uptake", "x", l.Uptake},
	} {
		if x.v.Known() {
			t.Rows = append(t.Rows, []string{u.Say(x.phrase), u.Doubt(x.key, x.v), u.Standing(x.v.Standing)})
		}
	}
	s := section{ID: "lot", Title: u.Say("section.lot"), Intro: u.Say("intro.lot")}
	if len(t.Rows) > 0 {
		s.Tables = []table{t}
		if r.cleaned() {
			s.Tables = append(s.Tables, r.cleanedTable())
		}
		s.Tables = append(s.Tables, r.documentTable())
	}
	return s
}

// documentTable names the documents that the outcome rests on.
func (r Report) documentTable() table {
	u := r.Units
	t := table{Caption: u.Say("table.documents"), Head: []string{u.Say("head.document"), "sha256"}, Words: map[int]bool{1: true}}
	for _, i := range r.Inputs {
		t.Rows = append(t.Rows, []string{i.Kind, strings.ToLower(i.SHA256)})
	}
	return t
}

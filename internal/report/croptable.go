package report

import (
	"math"
	"strconv"
	"strings"

	"awn/crop"
	"awn/internal/words"
)

// tables are what the survey says, in the order of the account.
func (a CropAccount) tables() []table {
	out := []table{a.qualityTable()}
	if len(a.Summary.Takings) > 0 {
		out = append(out, a.takingTable(), a.reasonTable())
	}
	out = append(out, a.groupTable("crop.districts", a.Summary.Districts, true), a.groupTable("crop.varieties", a.Summary.Varieties, false), a.strataTable())
	for _, s := range a.Summary.Plans {
		if len(s.Plan.Farms) > 0 {
			out = append(out, a.planTable(s))
		}
	}
	return out
}

// number writes a figure of a quality without its unit; qualityName its name with
// the unit.
func (a CropAccount) number(q crop.Quality, x float64) string {
	if math.IsNaN(x) {
		return "–"
	}
	return a.Units.Number(words.Value(q.Name(), q.In(x), a.Units), words.Decimals(q.Name(), a.Units))
}

func (a CropAccount) qualityName(q crop.Quality) string {
	return a.Units.Say("crop.with-unit", "name", a.Units.Factor(q.Key), "unit", words.Symbol(q.Name(), a.Units))
}

func (a CropAccount) span(low, high string) string {
	if low == "–" || high == "–" {
		return "–"
	}
	return a.Units.Say("crop.range", "low", low, "high", high)
}

// percentSpan writes two shares.
func (a CropAccount) percentSpan(low, high float64) string { return a.span(a.per(low), a.per(high)) }

// per writes a share in per cent, without the sign.
func (a CropAccount) per(x float64) string { return a.Units.Number(100*x, 0) }

// qualityTable is what the harvest is like.
func (a CropAccount) qualityTable() table {
	u := a.Units
	t := table{Caption: u.Say("crop.qualities"), Head: []string{"", u.Say("crop.mean"), u.Say("crop.interval"), u.Say("crop.p10"), u.Say("crop.p50"), u.Say("crop.p90"), u.Say("crop.before"), u.Say("crop.odds.up")}}
	for _, l := range a.Summary.Lines {
		mean := l.Mean
		low, high := mean.Interval(0.95)
		top := l.Points[2].Value
		if l.Trace != nil {
			mean = l.Trace.Mean
			low, high = mean.LogInterval(0.95)
			top = l.Trace.P90.Value
		}
		name := a.qualityName(l.Quality)
		row := []string{name, strings.Replace(a.number(l.Quality, mean.Value)+few(l.Mean), "–*", "–", 1), a.span(a.number(l.Quality, low), a.number(l.Quality, high)),
			a.number(l.Quality, l.Points[0].Value), a.number(l.Quality, l.Points[1].Value), a.number(l.Quality, top), a.before(l), ""}
		if l.Trace != nil {
			row[3], row[4] = a.underLimit(l, 0), a.underLimit(l, 1)
		}
		if l.Change != nil && !math.IsNaN(l.Change.Rise) {
			row[7] = hundred(l.Change.Rise, u)
		}
		t.Rows = append(t.Rows, row)
	}
	for _, l := range a.Summary.Lines {
		if l.Trace != nil {
			phrase := "crop.below"
			if !l.Trace.Fitted {
				phrase = "crop.trace.unfitted"
			}
			t.Note = u.Say(phrase, "name", u.Factor(l.Key), "zero", a.number(l.Quality, l.Trace.Zero), "half", a.number(l.Quality, l.Trace.Half), "full", a.number(l.Quality, l.Trace.Full))
		}
	}
	return t
}

// underLimit writes a point of a contaminant, which may lie below what the method
// sees.
func (a CropAccount) underLimit(l crop.Line, point int) string {
	text := a.number(l.Quality, l.Points[point].Value)
	if l.Points[point].Share < l.Trace.UnderShare {
		return "<" + text
	}
	return text
}

// before is the mean of the season before.
func (a CropAccount) before(l crop.Line) string {
	if n := len(l.Seasons); n > 1 {
		return a.number(l.Quality, l.Seasons[n-2].Mean.Value)
	}
	return ""
}

// few marks a figure of few farms.
func few(e crop.Estimate) string {
	if e.Few() && e.Farms > 0 {
		return "*"
	}
	return ""
}

// takingTable is what each contract takes.
func (a CropAccount) takingTable() table {
	u := a.Units
	t := table{Caption: u.Say("crop.takings"), Head: []string{u.Say("crop.contract"), u.Say("crop.with-unit", "name", u.Say("crop.taken"), "unit", words.Symbol("t", u)), u.Say("crop.interval"), u.Say("crop.share") + " %", u.Say("crop.bounds"), u.Say("crop.cheaper"), u.Say("crop.wanted"), u.Say("crop.met"), u.Say("crop.loss")}}
	whole := func(x float64) string { return u.Number(words.Value("t", x, u), 0) }
	for _, k := range a.Summary.Takings {
		value, low, high := k.All.Tonnes()
		row := []string{k.Contract.Name, whole(value), a.span(whole(low), whole(high)), a.per(k.All.Share.Value), a.percentSpan(k.All.Least, k.All.Most), a.per(k.All.Cheaper), "", "", ""}
		if k.WantedT > 0 {
			row[6] = whole(k.WantedT)
			if !math.IsNaN(k.All.Met) {
				row[7] = hundred(k.All.Met, u)
			}
		}
		if !math.IsNaN(k.All.Lost.Value) {
			row[8] = k.Contract.Currency + "\u00a0" + u.Number(k.All.Lost.Value, 0)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// reasonTable is what each contract refuses for.
func (a CropAccount) reasonTable() table {
	u := a.Units
	t := table{Caption: u.Say("crop.reasons"), Head: []string{u.Say("crop.refused"), u.Say("crop.all-rows") + " %", u.Say("crop.interval"), u.Say("crop.only") + " %"}}
	for _, k := range a.Summary.Takings {
		t.Rows = append(t.Rows, []string{k.Contract.Name})
		for _, r := range k.Reasons {
			t.Rows = append(t.Rows, []string{a.limit(r), a.per(r.All.Value), a.percentSpan(r.All.Low, r.All.High), a.per(r.Only.Value)})
		}
	}
	return t
}

// heads are the short names of the qualities.
func (a CropAccount) heads() (out []string) {
	for _, l := range a.Summary.Lines {
		out = append(out, a.Units.Say("crop.short."+string(l.Factor)))
	}
	return out
}

// groupTable is the districts, or the varieties.
func (a CropAccount) groupTable(caption string, groups []crop.Group, district bool) table {
	u := a.Units
	t := table{Caption: u.Say(caption), Head: []string{"", u.Say("crop.farms"), words.Symbol("t", u)}}
	for _, k := range a.Summary.Takings {
		t.Head = append(t.Head, k.Contract.Name+" %")
	}
	t.Head = append(t.Head, a.heads()...)
	for i, g := range groups {
		row := []string{g.Name, strconv.Itoa(g.Farms), u.Number(words.Value("t", g.TonnesT, u), 0)}
		if g.Withheld {
			row[1] = "<" + strconv.Itoa(crop.FewestFarms)
		}
		for _, k := range a.Summary.Takings {
			part := k.Variety
			if district {
				part = k.District
			}
			cell := "–"
			if !g.Withheld && part[i].Share.Farms > 0 {
				cell = a.per(part[i].Share.Value) + few(part[i].Share.Estimate)
			}
			row = append(row, cell)
		}
		for q, l := range a.Summary.Lines {
			row = append(row, a.groupCell(g, q, l.Quality))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func (a CropAccount) groupCell(g crop.Group, q int, quality crop.Quality) string {
	if g.Withheld {
		return "–"
	}
	l := g.Lines[q]
	mean := l.Mean
	if l.Trace != nil {
		mean = l.Trace.Mean
	}
	return a.number(quality, mean.Value)
}

// strataTable is each variety in each district; what stands on few farms is
// withheld.
func (a CropAccount) strataTable() table {
	u := a.Units
	t := table{Caption: u.Say("crop.strata"), Head: []string{u.Say("crop.district"), u.Say("crop.variety"), u.Say("crop.farms")}, Words: map[int]bool{1: true},
		Note: u.Say("crop.strata.intro") + " " + words.Capital(u.Say("crop.withheld", "count", strconv.Itoa(crop.FewestFarms))) + ": –."}
	heads := a.heads()
	for q, l := range a.Summary.Lines {
		if l.Trace == nil {
			t.Head = append(t.Head, heads[q])
		}
	}
	for _, s := range a.Summary.Strata {
		farms := strconv.Itoa(s.Farms)
		if s.Farms < crop.FewestFarms {
			farms = "<" + strconv.Itoa(crop.FewestFarms)
		}
		row := []string{s.District, s.Variety, farms}
		for q, l := range a.Summary.Lines {
			if l.Trace != nil {
				continue
			}
			cell := "–"
			if b := s.Lines[q]; !s.Withheld && !math.IsNaN(b.Value) {
				cell = a.number(l.Quality, b.Value) + "\u00a0±\u00a0" + a.number(l.Quality, math.Sqrt(b.MSE))
			}
			row = append(row, cell)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// planTable is where farms are wanted next time.
func (a CropAccount) planTable(s crop.Sowing) table {
	u := a.Units
	t := table{Caption: u.Say("crop.plan"), Head: []string{u.Say("crop.district"), u.Say("crop.variety"), u.Say("crop.plan.now"), u.Say("crop.plan.then"), u.Say("crop.plan.more")}, Words: map[int]bool{1: true},
		Note: u.Say("crop.plan.intro", "name", a.qualityName(s.Quality), "half", a.finer(s.Quality, s.Half), "now", a.finer(s.Quality, s.Now), "total", strconv.Itoa(s.Plan.Total))}
	for i, p := range s.Plan.Strata {
		more := ""
		if n := s.Plan.Farms[i] - p.Now; n > 0 {
			more = strconv.Itoa(n)
		}
		t.Rows = append(t.Rows, []string{p.District, p.Variety, strconv.Itoa(p.Now), strconv.Itoa(s.Plan.Farms[i]), more})
	}
	return t
}

// finer writes half an interval, to one more figure than the quality has.
func (a CropAccount) finer(q crop.Quality, x float64) string {
	return a.Units.Number(words.Value(q.Name(), q.In(x), a.Units), words.Decimals(q.Name(), a.Units)+1)
}

package report

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"awn/crop"
	"awn/internal/draw"
	"awn/internal/words"
)

// HTML writes the report: one file without script that opens and prints anywhere.
func (a CropAccount) HTML(w io.Writer) error { return a.page().write(w, a.Units) }

// page gathers the report.
func (a CropAccount) page() page {
	u := a.Units
	p := page{
		Name: u.Say("crop.report"), Title: a.title(), Lines: []string{a.size()}, Verdict: a.verdict(), Stamp: stamp(a.Version, u), Makes: u.Say("crop.caution"),
		FindingsTitle: u.Say("section.findings"), NoFindings: u.Say("findings.none"),
	}
	for i, r := range a.findings() {
		reason, act := a.remarkText(r)
		f := found{words.Capital(u.Severity(r.Severity)), reason, act, "", r.Severity.String()}
		if i < mostCropFindings {
			p.Findings = append(p.Findings, f)
		} else {
			p.Rest = append(p.Rest, f)
		}
	}
	for _, s := range a.sections(&counter{}) {
		if len(s.Figures)+len(s.Tables) > 0 {
			p.Sections = append(p.Sections, s)
			p.Nav = append(p.Nav, section{ID: s.ID, Title: s.Title})
		}
	}
	return p
}

// mostCropFindings stand before the rest. The page counts the rest from there.
const mostCropFindings = 3

// verdict is the harvest in a sentence for each contract.
func (a CropAccount) verdict() string {
	u := a.Units
	var out []string
	for _, k := range a.Summary.Takings {
		value, low, high := k.All.Tonnes()
		out = append(out, u.Say("crop.verdict", "contract", k.Contract.Name, "taken", tonnes(value, u), "low", tonnes(low, u), "high", tonnes(high, u), "share", a.per(k.All.Share.Value)))
	}
	return strings.Join(out, " ")
}

// sections are the parts of the report.
func (a CropAccount) sections(n *counter) []section {
	u := a.Units
	tables := a.tables()
	quality, rest := tables[0], tables[1:]
	out := []section{{ID: "harvest", Title: u.Say("crop.qualities"), Tables: []table{quality}, Wide: true}}
	if len(a.Summary.Survey.Seasons()) > 0 && len(a.Summary.Lines) > 0 && len(a.Summary.Lines[0].Seasons) > 1 {
		out[0].Figures = n.figures([]string{u.Say("crop.years")}, a.yearsPicture())
	}
	if len(a.Summary.Takings) > 0 {
		s := section{ID: "contracts", Title: u.Say("crop.takings"), Tables: rest[:2], Wide: true}
		rest = rest[2:]
		for i, k := range a.Summary.Takings {
			s.Figures = append(s.Figures, n.figures([]string{k.Contract.Name + ": " + u.Say("crop.distributions")}, a.spreadPicture(i, k))...)
		}
		out = append(out, s)
	}
	where := section{ID: "districts", Title: u.Say("crop.map"), Tables: rest[:3], Wide: true}
	if pic, ok := a.mapPicture(); ok {
		where.Figures = n.figures([]string{u.Say("crop.map")}, pic)
	}
	out = append(out, where)
	if a.Malting != nil {
		s := section{ID: "malt", Title: u.Say("crop.malt"), Intro: strings.Join(a.maltLines(), " "), Tables: a.maltTables(), Wide: true}
		if said := a.saidTable(); len(said.Rows) > 0 {
			s.Tables = append(s.Tables, said)
		}
		out = append(out, s)
	}
	out = append(out, section{ID: "plan", Title: u.Say("crop.plan"), Tables: rest[3:], Wide: true})
	return append(out, section{ID: "samples", Title: u.Say("crop.data"), Intro: u.Say("crop.legend", "lonely", u.Say("crop.lonely."+a.Lonely)), Tables: a.remarkTable(), Wide: true})
}

// remarkTable is what is to be known of the samples.
func (a CropAccount) remarkTable() []table {
	t := table{Words: map[int]bool{0: true, 1: true}, Head: []string{"", ""}}
	for _, r := range a.Summary.Remarks {
		if r.Line > 0 {
			continue // the figure of one sample is for whoever keeps the table
		}
		reason, _ := a.remarkText(r)
		t.Rows = append(t.Rows, []string{words.Capital(a.Units.Severity(r.Severity)), reason})
	}
	if len(t.Rows) == 0 {
		t.Rows = [][]string{{a.Units.Say("crop.data.none"), ""}}
	}
	return []table{t}
}

func (a CropAccount) pen() draw.Pen { return draw.Pen{Number: a.Units.Number} }

// reader carries a figure of a quality to the reader's unit.
func (a CropAccount) reader(q crop.Quality) func(float64) float64 {
	return func(x float64) float64 { return words.Value(q.Name(), q.In(x), a.Units) }
}

// yearsPicture is each quality through the seasons.
func (a CropAccount) yearsPicture() draw.Picture {
	u := a.Units
	y := draw.Years{ID: "years", Title: u.Say("crop.years"), Says: u.Say("crop.says.years"), Head: []string{u.Say("head.figure")}}
	for _, s := range a.Summary.Lines[0].Seasons {
		y.Seasons = append(y.Seasons, strconv.Itoa(s.Season))
	}
	y.Head = append(y.Head, y.Seasons...)
	for _, l := range a.Summary.Lines {
		in := a.reader(l.Quality)
		row := draw.YearRow{Name: a.qualityName(l.Quality), Decimals: words.Decimals(l.Name(), u)}
		for _, s := range l.Seasons {
			row.Value, row.Low, row.High = append(row.Value, in(s.Mean.Value)), append(row.Low, in(s.Low)), append(row.High, in(s.High))
		}
		y.Rows = append(y.Rows, row)
	}
	return a.pen().Years(y)
}

// spreadSteps is in how many steps a spread is drawn, and spreadUpto the share of
// the harvest: a few far figures would leave no room for the rest.
const (
	spreadSteps = 24
	spreadUpto  = 0.98
)

// spreadPicture is the spread of each quality against the limits of a contract.
func (a CropAccount) spreadPicture(i int, k crop.Taking) draw.Picture {
	u := a.Units
	m := draw.Marks{
		ID: fmt.Sprintf("spread%d", i), Title: u.Say("crop.distributions"), Says: u.Say("crop.says.spread"),
		Head: []string{u.Say("head.figure"), u.Say("crop.mean"), u.Say("head.least"), u.Say("head.most"), u.Say("crop.refused") + " %"},
	}
	for _, l := range a.Summary.Lines {
		in := a.reader(l.Quality)
		row := draw.Mark{
			Name: a.qualityName(l.Quality), Value: in(l.Mean.Value), Least: math.NaN(), Most: math.NaN(), Decimals: words.Decimals(l.Name(), u),
			Low: in(l.Points[0].Value), High: in(l.Points[2].Value), Hump: hump(l.Distribution, in),
		}
		out := 0.0
		for _, r := range k.Reasons {
			if r.Limit.Key != l.Key {
				continue
			}
			at := in(l.FromPrinted(r.Limit))
			if r.Limit.Least {
				row.Least = at
			} else {
				row.Most = at
			}
			out += r.All.Value
		}
		if math.IsNaN(row.Least) && math.IsNaN(row.Most) {
			continue
		}
		if l.Trace != nil && l.Trace.Fitted {
			row.Value = in(l.Trace.Mean.Value)
		}
		row.Verdict = a.per(out)
		row.Figure = u.Number(row.Value, row.Decimals)
		m.Rows = append(m.Rows, row)
	}
	return a.pen().Marks(m)
}

// hump is the spread in equal steps, the fullest 1.
func hump(f crop.Distribution, in func(float64) float64) draw.Hump {
	n := len(f.X)
	if n < 2 {
		return draw.Hump{}
	}
	low, high := f.X[0], f.At(spreadUpto)
	if !(high > low) {
		return draw.Hump{}
	}
	h := draw.Hump{From: in(low), To: in(high), Height: make([]float64, spreadSteps+1)}
	most, before := 0.0, 0.0
	for i, x := range f.X {
		if x > high {
			break
		}
		k := int(math.Round(spreadSteps * (x - low) / (high - low)))
		h.Height[k] += f.Upto[i] - before
		before = f.Upto[i]
		most = max(most, h.Height[k])
	}
	for k := range h.Height {
		h.Height[k] /= most
	}
	return h
}

// mapPicture is where most is refused by the first contract, in the outlines of
// the survey, or in squares where it has none.
func (a CropAccount) mapPicture() (draw.Picture, bool) {
	u, s := a.Units, a.Summary
	if len(s.Takings) == 0 {
		return draw.Picture{}, false
	}
	first, says := s.Takings[0], "crop.says.map"
	var places []draw.MapPlace
	for _, p := range s.Survey.Places {
		place := draw.MapPlace{Name: p.District}
		for _, at := range p.At {
			place.X, place.Y = append(place.X, at.X), append(place.Y, at.Y)
		}
		places = append(places, place)
	}
	if len(places) == 0 {
		says, places = "crop.says.cells", squares(s.Survey.Districts())
	}
	m := draw.Map{ID: "map", Title: u.Say("crop.map"), Says: u.Say(says, "contract", first.Contract.Name), Head: []string{u.Say("crop.district"), u.Say("crop.map.share")}, Places: places}
	for k, p := range places {
		m.Places[k].Share, m.Places[k].Word = math.NaN(), "–"
		for i, g := range s.Districts {
			if g.Name == p.Name && !g.Withheld && first.District[i].Share.Farms > 0 {
				m.Places[k].Share = 1 - first.District[i].Share.Value
				m.Places[k].Word = a.per(m.Places[k].Share) + "\u00a0%"
			}
		}
	}
	return a.pen().Map(m), true
}

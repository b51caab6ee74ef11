package report

import (
	"cmp"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"awn/complaint"
	"awn/finding"
	"awn/internal/house"
	"awn/internal/words"
	"awn/lab"
)

// ControlAccount is what a table of results says of the laboratory and of what
// pieces differ by, and the reader it is written for.
type ControlAccount struct {
	lab.Account
	Name        string
	Comparisons []complaint.Comparison

	Units   words.Units
	Version house.Version
	Inputs  []Input
}

// InWords gives results of a record the names and the units of the reader.
func InWords(r lab.Results, u words.Units) lab.Results {
	keys := make([]string, len(r.Qualities))
	for i, q := range r.Qualities {
		keys[i] = q.Name
		r.Qualities[i] = lab.Quality{Name: quantityName(q.Name, u), Unit: words.Symbol(q.Name, u)}
	}
	for i := range r.Rows {
		row := &r.Rows[i]
		row.Value = words.Value(keys[row.Quality], row.Value, u)
	}
	return r
}

// quality writes figures of one quality.
func (a ControlAccount) number(quality int, x float64) string {
	return a.Units.Number(x, a.decimals(quality))
}

// read writes a figure as it was read, with a decimal less than what is computed.
func (a ControlAccount) read(quality int, x float64) string {
	return a.Units.Number(x, max(0, a.decimals(quality)-1))
}

// with is a figure with the unit of its quality.
func (a ControlAccount) with(quality int, x float64) string {
	return strings.TrimRight(a.number(quality, x)+"\u00a0"+a.Results.Qualities[quality].Unit, "\u00a0")
}

// decimals tell apart what the figures of a quality differ by: one more than their
// spread asks for.
func (a ControlAccount) decimals(quality int) int {
	var x []float64
	for _, r := range a.Results.Rows {
		if r.Quality == quality && !math.IsNaN(r.Value) {
			x = append(x, r.Value)
		}
	}
	if len(x) == 0 {
		return 2
	}
	return significant((slices.Max(x)-slices.Min(x))/4, 3)
}

// qualityName is a quality with its unit.
func (a ControlAccount) qualityName(quality int) string {
	q := a.Results.Qualities[quality]
	if q.Unit == "" {
		return q.Name
	}
	return q.Name + ", " + q.Unit
}

func (a ControlAccount) bench(b lab.Bench) string {
	if b == (lab.Bench{}) {
		return a.Units.Say("lab.no-bench")
	}
	return b.String()
}

// day writes a day; a dash for none.
func day(d float64) string {
	if math.IsNaN(d) {
		return ""
	}
	return time.Unix(int64(d)*24*60*60, 0).UTC().Format(time.DateOnly)
}

// told is a remark in words, of the laboratory or of the pieces.
type controlTold struct {
	finding.Finding
	subject, reason, act string
}

func (t controlTold) text() string {
	return strings.TrimSpace(t.subject + ": " + t.reason + " " + t.act)
}

// kind is what remarks are alike by: of one code on one subject.
func (t controlTold) kind() string { return t.Code + t.subject }

// figures writes those of a finding that stand in the unit of the quality.
func (a ControlAccount) figures(f finding.Finding, quality int) []string {
	var out []string
	for _, g := range f.Figures {
		switch {
		case strings.HasSuffix(g.Name, "_n") || strings.HasSuffix(g.Name, "_x"):
		case g.Name == "chance" || g.Name == "share":
			if !math.IsNaN(g.Value) {
				out = append(out, g.Name, hundred(g.Value, a.Units)+"\u00a0%")
			}
		case g.Name == "score" || g.Name == "slope" || f.Code == "lab.pair.slope":
			out = append(out, g.Name, a.Units.Number(g.Value, 2))
		case math.IsNaN(g.Value):
		case g.Name == "found" || g.Name == "assigned" || g.Name == "reference":
			out = append(out, g.Name, strings.TrimRight(a.read(quality, g.Value)+"\u00a0"+a.Results.Qualities[quality].Unit, "\u00a0"))
		case g.Name == "size" || g.Name == "month":
			out = append(out, g.Name, signed(a.with(quality, math.Abs(g.Value)), g.Value))
		case g.Name == "low" || g.Name == "high":
			out = append(out, g.Name, signed(a.number(quality, math.Abs(g.Value)), g.Value))
		default:
			out = append(out, g.Name, a.with(quality, g.Value))
		}
	}
	return out
}

// told is all that is to be known, weightiest first.
func (a ControlAccount) told() []controlTold {
	u := a.Units
	var out []controlTold
	for _, r := range a.Remarks {
		between := ""
		if r.From < r.To {
			between = u.List([]string{day(r.From), day(r.To)})
		}
		line := ""
		if n := len(r.Lines); n > 0 {
			line = strconv.Itoa(r.Lines[n-1])
		}
		pairs := append(a.figures(r.Finding, r.Quality), "other", a.bench(r.Other), "sample", r.Sample, "since", day(r.Since), "between", between, "event", r.Event, "line", line)
		out = append(out, controlTold{r.Finding, join([]string{a.Results.Qualities[r.Quality].Name, a.bench(r.Bench)}), words.Named(r.Finding, u, pairs...), words.Change(r.Finding, u)})
	}
	for _, c := range a.Comparisons {
		for _, r := range c.Remarks(a.Results) {
			pairs := append(a.figures(r.Finding, r.Quality), "term", a.term(r.Term), "name", r.Name, "other", a.term(r.Other))
			out = append(out, controlTold{r.Finding, a.Results.Qualities[r.Quality].Name, words.Named(r.Finding, u, pairs...), words.Change(r.Finding, u)})
		}
	}
	slices.SortStableFunc(out, func(x, y controlTold) int {
		return cmp.Or(cmp.Compare(y.Severity, x.Severity), cmp.Compare(y.Weight(), x.Weight()))
	})
	return out
}

// term names what a difference may be owed to; a kind of vessel has its own name.
func (a ControlAccount) term(t string) string {
	if t == "" {
		return ""
	}
	if name := a.Units.Say("lab.term." + t); name != "lab.term."+t {
		return name
	}
	return t
}

// size says what the account is of.
func (a ControlAccount) size() string {
	u, r := a.Units, a.Results
	benches := map[lab.Bench]bool{}
	from, to := math.Inf(1), math.Inf(-1)
	for _, x := range r.Rows {
		benches[x.Bench] = true
		if !math.IsNaN(x.Day) {
			from, to = min(from, x.Day), max(to, x.Day)
		}
	}
	count := func(n int) string { return u.Number(float64(n), 0) }
	if from > to {
		return u.Say("lab.size.undated", "figures", count(len(r.Rows)), "qualities", count(len(r.Qualities)), "benches", count(len(benches)))
	}
	return u.Say("lab.size", "figures", count(len(r.Rows)), "qualities", count(len(r.Qualities)), "benches", count(len(benches)), "from", day(from), "to", day(to))
}

// Text writes the account for a terminal: what to know and do, then the tables.
func (a ControlAccount) Text(w io.Writer) error {
	p, u := &printer{}, a.Units
	p.pair(u.Say("lab.title", "name", a.Name), stamp(a.Version, u))
	p.wrapped("", a.size())
	p.wrapped("", a.verdict())
	p.rule()
	p.line(u.Say("lab.findings"))
	all := a.told()
	if len(all) == 0 {
		p.wrapped("  ", u.Say("lab.findings.none"))
	}
	of, shown := map[string]int{}, map[string]int{}
	for _, t := range all {
		of[t.kind()]++
	}
	n := 0
	for _, t := range all {
		if shown[t.kind()]++; shown[t.kind()] > mostAlike {
			continue
		}
		n++
		text := words.Capital(u.Severity(t.Severity)) + ". " + t.text()
		if more := of[t.kind()] - mostAlike; more > 0 && shown[t.kind()] == mostAlike {
			text += " (" + u.Say("lab.more", "count", strconv.Itoa(more)) + ")"
		}
		p.wrapped(pad(strconv.Itoa(n), 3), text)
	}
	p.rule()
	cut := false
	for i, t := range a.tables() {
		if i > 0 {
			p.line("")
		}
		cut = p.table(t) || cut
	}
	if cut {
		p.line("  " + u.Say("crop.columns"))
	}
	p.rule()
	for _, text := range a.legends() {
		p.wrapped("", text)
	}
	_, err := io.WriteString(w, p.String())
	return err
}

// legends say how to read the tables, those of parts that are there.
func (a ControlAccount) legends() []string {
	u := a.Units
	var out []string
	if len(a.Charts) > 0 {
		var rules []string
		for _, r := range lab.Rules() {
			rules = append(rules, u.Say("lab.rule."+string(r))+" "+u.Number(a.RuleRate[r], 0))
		}
		cusum := lab.CusumRunLength(0, lab.Allowance, lab.Decision)
		out = append(out, u.Say("lab.legend.rules", "rules", strings.Join(rules, ", "), "all", u.Number(a.AllRate, 0), "cusum", u.Number(cusum, 0)), u.Say("lab.legend.limits"))
	}
	if len(a.Comparisons) > 0 {
		out = append(out, u.Say("lab.legend.parts"))
	}
	return append(out, u.Say("lab.caution"))
}

// CSV writes the tables, a figure in each row.
func (a ControlAccount) CSV(w io.Writer) error { return figuresCSV(w, a.tables()) }

package report

import (
	"cmp"
	"encoding/csv"
	"io"
	"slices"
	"strconv"
	"strings"

	"awn/crop"
	"awn/internal/house"
	"awn/internal/words"
)

// CropAccount is a harvest as its survey has it, and the reader it is written
// for. No farm is named in any of its forms, and what stands on few farms is
// withheld from all of them.
type CropAccount struct {
	Name    string
	Summary *crop.Summary
	Malting *crop.Malting // nil where no house was named
	Lonely  string
	Seed    uint64

	Units   words.Units
	Version house.Version
	Inputs  []Input
}

// remarkText is the sentence of a remark, with the act behind it.
func (a CropAccount) remarkText(r crop.Remark) (reason, act string) {
	u := a.Units
	term := ""
	switch {
	case r.Parameter != "":
		term = u.Parameter(r.Parameter)
	case r.Key.Factor != "":
		term = u.Factor(r.Key)
	}
	pairs := []string{"district", r.District, "variety", r.Variety, "contract", r.Contract, "term", term}
	if r.Line > 0 {
		pairs = append(pairs, "line", strconv.Itoa(r.Line))
	}
	for _, f := range r.Figures {
		// Figures of a quality bear its unit behind the name that the sentence has.
		if q := (crop.Quality{Key: r.Key}); r.Key.Factor != "" {
			if name, ok := strings.CutSuffix(f.Name, q.Name()[len(q.Factor):]); ok {
				text := words.Figure(f.Name, f.Value, u)
				if r.Code == "crop.survey.more" {
					text = u.Number(words.Value(f.Name, f.Value, u), words.Decimals(f.Name, u)+1) + "\u00a0" + words.Symbol(f.Name, u)
				}
				pairs = append(pairs, name, text)
			}
		}
		switch {
		case f.Name == "odds" || r.Code == "crop.demand.short" && f.Name == "chance":
			pairs = append(pairs, f.Name, hundred(f.Value, u)+"\u00a0%")
		case strings.HasSuffix(f.Name, "_t"):
			pairs = append(pairs, f.Name, tonnes(f.Value, u))
		}
		if f.Name == "lost_n" || f.Name == "error_n" || f.Name == "each_x" {
			pairs = append(pairs, f.Name, a.currency(r.Contract)+"\u00a0"+u.Number(f.Value, map[bool]int{true: 2}[f.Name == "each_x"]))
		}
	}
	reason = words.Capital(words.Named(r.Finding, u, pairs...))
	if term != "" && strings.HasPrefix(r.Code, "survey.") {
		reason = words.Capital(term) + ": " + words.Named(r.Finding, u, pairs...)
	}
	return reason, words.Change(r.Finding, u)
}

// currency is what a contract pays in.
func (a CropAccount) currency(contract string) string {
	for _, t := range a.Summary.Takings {
		if t.Contract.Name == contract {
			return t.Contract.Currency
		}
	}
	return ""
}

// findings are what is to be done, of trade and of malt.
func (a CropAccount) findings() []crop.Remark {
	out := append([]crop.Remark(nil), a.Summary.Findings...)
	if a.Malting != nil {
		out = append(out, a.Malting.Findings...)
	}
	slices.SortStableFunc(out, func(x, y crop.Remark) int {
		return cmp.Or(cmp.Compare(y.Severity, x.Severity), cmp.Compare(y.Weight(), x.Weight()))
	})
	return out
}

// title and size say what the account is of.
func (a CropAccount) title() string {
	u := a.Units
	parts := []string{u.Say("crop.title", "name", a.Name)}
	if a.Summary.Season != 0 {
		parts = append(parts, u.Say("crop.season", "season", strconv.Itoa(a.Summary.Season)))
	}
	return join(parts)
}

func (a CropAccount) size() string {
	s, u := a.Summary, a.Units
	text := u.Say("crop.size", "samples", strconv.Itoa(len(s.Survey.Samples)), "farms", strconv.Itoa(s.Farms), "districts", strconv.Itoa(len(s.Districts)),
		"varieties", strconv.Itoa(len(s.Varieties)), "tonnes", tonnes(s.TonnesT, u))
	if s.UnseenT > 0 {
		text += " · " + u.Say("crop.unseen", "tonnes", tonnes(s.UnseenT, u))
	}
	return text
}

// tonnes writes tonnes in whole.
func tonnes(t float64, u words.Units) string {
	return u.Number(words.Value("t", t, u), 0) + "\u00a0" + words.Symbol("t", u)
}

// Text writes the account for a terminal: the samples, what the harvest is like,
// whom it serves, what it will malt like, and what to do.
func (a CropAccount) Text(w io.Writer) error {
	p, u := &printer{}, a.Units
	p.pair(a.title(), stamp(a.Version, u))
	p.wrapped("", a.size())
	a.remarksText(p)
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
	a.maltText(p)
	p.rule()
	p.line(u.Say("crop.findings"))
	all := a.findings()
	if len(all) == 0 {
		p.line("  " + u.Say("crop.findings.none"))
	}
	for i, r := range all {
		reason, act := a.remarkText(r)
		p.wrapped(pad(strconv.Itoa(i+1), 3), words.Capital(u.Severity(r.Severity))+". "+strings.TrimSpace(reason+" "+act))
	}
	p.rule()
	p.wrapped("", u.Say("crop.legend", "lonely", u.Say("crop.lonely."+a.Lonely)))
	p.wrapped("", u.Say("crop.caution"))
	_, err := io.WriteString(w, p.String())
	return err
}

// remarksText writes what is wrong with the samples; of one kind the first few.
func (a CropAccount) remarksText(p *printer) {
	u := a.Units
	if len(a.Summary.Remarks) == 0 {
		p.line(u.Say("crop.data.none"))
		return
	}
	p.line(u.Say("crop.data"))
	of, shown := map[string]int{}, map[string]int{}
	for _, r := range a.Summary.Remarks {
		of[r.Code]++
	}
	for _, r := range a.Summary.Remarks {
		if shown[r.Code]++; shown[r.Code] > mostAlike {
			continue
		}
		reason, _ := a.remarkText(r)
		if more := of[r.Code] - mostAlike; more > 0 && shown[r.Code] == mostAlike {
			reason += " (" + u.Say("rank.alike", "count", strconv.Itoa(more)) + ")"
		}
		p.wrapped("  ", words.Capital(u.Severity(r.Severity))+". "+reason)
	}
}

// CSV writes the tables, a figure in each row: table, row, column, figure.
func (a CropAccount) CSV(w io.Writer) error {
	return figuresCSV(w, append(a.tables(), a.maltTables()...))
}

// figuresCSV writes tables, a figure in each row: table, row, column, figure.
func figuresCSV(w io.Writer, tables []table) error {
	c := csv.NewWriter(w)
	if err := c.Write([]string{"table", "row", "column", "figure"}); err != nil {
		return err
	}
	for _, t := range tables {
		part := ""
		for _, row := range t.Rows {
			if len(row) == 1 {
				part = row[0] + ": "
				continue
			}
			for i, cell := range row[1:] {
				if cell == "" {
					continue
				}
				if err := c.Write([]string{t.Caption, part + row[0], t.Head[i+1], machine(cell)}); err != nil {
					return err
				}
			}
		}
	}
	c.Flush()
	return c.Error()
}

// machine is a printed figure without its thin spaces and its long minus.
func machine(cell string) string {
	return strings.NewReplacer("\u202f", "", "\u00a0", " ", "−", "-").Replace(cell)
}

// JSON writes the account, in SI units and fractions. Tonnes are kilograms.
func (a CropAccount) JSON(w io.Writer) error {
	fs := each(append(append([]crop.Remark(nil), a.Summary.Remarks...), a.findings()...), a.remarkObject)
	var seed *uint64
	if a.Malting != nil {
		seed = &a.Seed
	}
	return enveloped(w, "harvest/1", a.Version, a.Inputs, seed, a.object(), fs)
}

func (a CropAccount) remarkObject(r crop.Remark) object {
	o := findingObject(r.Finding).text("district", r.District).text("variety", r.Variety).text("contract", r.Contract).
		text("factor", string(r.Key.Factor)).text("figure", string(r.Parameter))
	if r.Line > 0 {
		o["line"] = r.Line
	}
	return o
}

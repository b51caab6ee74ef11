package report

import (
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"awn/internal/house"
	"awn/internal/words"
	"awn/variety"
)

// TrialAccount is a trial of varieties with what was made of it, and the reader
// it is written for.
type TrialAccount struct {
	*variety.Account
	Name   string
	Trials variety.Trials
	Draws  int
	Seed   uint64
	Full   bool // the text holds every table

	Units   words.Units
	Version house.Version
	Inputs  []Input
}

// said is a remark in words, with all traits of which it holds.
type said struct {
	variety.Remark
	text   string
	traits []string
}

// sayings are the remarks in words, those that differ in the trait alone as one.
func (a TrialAccount) sayings() (out []said) {
	at := map[string]int{}
	for _, r := range a.Account.Remarks {
		text := RemarkText(r, a.Units)
		i, ok := at[text]
		if !ok {
			i = len(out)
			at[text] = i
			out = append(out, said{Remark: r, text: text})
		}
		if r.Trait != "" && !slices.Contains(out[i].traits, r.Trait) {
			out[i].traits = append(out[i].traits, r.Trait)
		}
	}
	return out
}

// RemarkText is the sentence of a remark.
func RemarkText(r variety.Remark, u words.Units) string {
	line := ""
	if r.Line > 0 {
		line = strconv.Itoa(r.Line)
	}
	term := r.Term
	if strings.HasPrefix(r.Code, "trial.") {
		term = u.Term(r.Term)
	}
	return words.Named(r.Finding, u, "entry", r.Entry, "environment", r.Environment, "term", term, "line", line)
}

// mostAlike is how many remarks of one code an account shows.
const mostAlike = 3

// Remarks writes what is wrong with the data, gravest first.
func (a TrialAccount) Remarks(w io.Writer) error {
	p := &printer{}
	a.remarksText(p)
	_, err := io.WriteString(w, p.String())
	return err
}

func (a TrialAccount) remarksText(p *printer) {
	u := a.Units
	all := a.sayings()
	if len(all) == 0 {
		p.line(u.Say("rank.data.none"))
		return
	}
	p.line(u.Say("rank.data"))
	of := map[string]int{}
	for _, s := range all {
		of[s.Code]++
	}
	shown := map[string]int{}
	for _, s := range all {
		if shown[s.Code]++; shown[s.Code] > mostAlike {
			continue
		}
		text := words.Capital(u.Severity(s.Severity)) + ". " + words.Capital(a.told(s))
		if more := of[s.Code] - mostAlike; more > 0 && shown[s.Code] == mostAlike {
			text += " (" + u.Say("rank.alike", "count", strconv.Itoa(more)) + ")"
		}
		p.wrapped("  ", text)
	}
}

// told is a saying with the traits that it is about.
func (a TrialAccount) told(s said) string {
	switch {
	case len(s.traits) > 1 && len(s.traits) == len(a.Traits):
		return a.Units.Say("rank.all") + ": " + s.text
	case len(s.traits) > 0:
		return a.Units.List(s.traits) + ": " + s.text
	}
	return s.text
}

// Text writes the account for a terminal: the data, then each trait, then the
// scores, and at the end how to read it.
func (a TrialAccount) Text(w io.Writer) error {
	p, u := &printer{}, a.Units
	p.pair(u.Say("rank.title", "name", a.Name), stamp(a.Version, u))
	check := a.Check
	if check == "" {
		check = u.Say("rank.check.none")
	}
	p.wrapped("", u.Say("rank.size", "entries", strconv.Itoa(len(a.Trials.Entries())), "environments", strconv.Itoa(len(a.Trials.Environments())),
		"records", strconv.Itoa(len(a.Trials.Records)), "check", check))
	a.remarksText(p)
	p.rule()
	if answer := a.answer(); answer != "" {
		p.wrapped("", answer)
		p.line("")
	}
	for i, t := range a.Traits {
		if i > 0 {
			p.line("")
		}
		a.traitText(p, t)
	}
	a.scoresText(p)
	a.moreText(p)
	p.rule()
	a.legend(p)
	_, err := io.WriteString(w, p.String())
	return err
}

// legend says how to read what stands above.
func (a TrialAccount) legend(p *printer) {
	for _, line := range a.legends() {
		p.wrapped("", line)
	}
	if !a.Full {
		p.wrapped("", a.Units.Say("rank.legend.more"))
	}
}

func (a TrialAccount) legends() (out []string) {
	u := a.Units
	most, share, equal := 0, false, false
	for _, t := range a.Traits {
		most = max(most, len(t.Against))
		share, equal = share || t.Shares != nil, equal || t.Adjusted != nil
	}
	if most > 0 {
		out = append(out, u.Say("rank.legend.means"), u.Say("rank.legend.odds", "count", strconv.Itoa(most)))
	}
	if equal {
		out = append(out, u.Say("rank.legend.equal"))
	}
	if share {
		out = append(out, u.Say("rank.legend.share"))
	}
	if a.Ranking == nil {
		return append(out, u.Say("rank.noscore"))
	}
	return append(out, u.Say("rank.legend.score", "draws", strconv.Itoa(a.Draws), "seed", strconv.FormatUint(a.Seed, 10)))
}

// grid writes a row of cells: the first to the left, the others to the right.
func (p *printer) grid(widths []int, cells ...string) {
	line := ""
	for i, c := range cells {
		if i == 0 {
			line = pad(short(c, widths[0]-1), widths[0])
			continue
		}
		line += strings.Repeat(" ", max(1, widths[i]-letters(c))) + c
	}
	p.line(line)
}

// short cuts a name that is too long.
func short(s string, most int) string {
	if letters(s) <= most {
		return s
	}
	return string([]rune(s)[:most-1]) + "…"
}

// hundred writes a chance in 100. One that is near certain is not written as such.
func hundred(x float64, u words.Units) string {
	switch {
	case x > 0.995:
		return ">99"
	case x < 0.005:
		return "<1"
	}
	return u.Number(100*x, 0)
}

// significant is how many decimals show so many digits of x.
func significant(x float64, n int) int {
	const most = 6
	if !(math.Abs(x) > 0) || math.IsInf(x, 0) {
		return 0
	}
	return min(max(n-1-int(math.Floor(math.Log10(math.Abs(x)))), 0), most)
}

package draw

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// Ends is years down and candidates across: each is a line from its beginning to
// its end, with what ended it.
type Ends struct {
	ID, Title, Says string
	Head            []string // of the table: candidate, year, stage, decision, evidence, reason
	Rows            [][]string
	Lines           []EndLine
}

// EndLine is one candidate.
type EndLine struct {
	Name, Under string // who, and from what
	From        int    // year of its beginning
	Steps       []EndStep
}

// Ending says how a step leaves a line.
type Ending int

// The endings.
const (
	Onward Ending = iota
	Held
	Dropped
	Released
)

// EndStep is one year of a line.
type EndStep struct {
	Year   int
	Word   string
	Reason string // written where the line ends
	Ending Ending
}

// Sizes of a picture of ends, in pixels.
const (
	endsHeadPx   = 44.0
	endsYearPx   = 26.0
	endsLetters  = 15   // of a line of a reason
	endsReasonPx = 14.0 // height of such a line
	endsAt       = 0.08 // where in its column a line runs
)

// Ends draws the lines.
func (p Pen) Ends(e Ends) Picture {
	from, to, reason := 0, 0, 0
	for i, l := range e.Lines {
		if i == 0 || l.From < from {
			from = l.From
		}
		to = max(to, l.From)
		for _, step := range l.Steps {
			to = max(to, step.Year)
		}
		if n := len(l.Steps); n > 0 {
			reason = max(reason, len(folded(l.Steps[n-1].Reason, endsLetters)))
		}
	}
	y := func(year int) float64 { return endsHeadPx + endsYearPx*float64(year-from) }
	s := open(withAxis, e.ID, e.Title, e.Says, y(to)+22+endsReasonPx*float64(reason+1))
	for year := from; len(e.Lines) > 0 && year <= to; year++ {
		s.text(0, y(year)+4, -6, "tick end", strconv.Itoa(year))
		s.rule(0, y(year), 1, y(year), "hair")
	}
	for i, l := range e.Lines {
		left := float64(i) / float64(len(e.Lines))
		at := left + endsAt/float64(len(e.Lines))
		s.text(left, 13, 0, "label strong", l.Name)
		s.text(left, 28, 0, "tick wide-only", l.Under)
		s.line(l, at, y)
	}
	return Picture{SVG: s.close(), Table: Table{Head: e.Head, Rows: e.Rows}, Says: e.Says}
}

// line draws one candidate down the years.
func (s *sheet) line(l EndLine, at float64, y func(int) float64) {
	s.f(`<circle cx="%s" cy="%s" r="3" class="mark"/>`, percent(at), px(y(l.From)))
	last := l.From
	for i, step := range l.Steps {
		s.rule(at, y(last), at, y(step.Year), "life")
		last = step.Year
		s.text(at, y(last)+4, 9, "tick", step.Word)
		x, h := percent(at), y(last)
		switch step.Ending {
		case Dropped:
			s.f(`<svg x="%s" y="%s" class="corn"><path d="M-5 0H5M-5 4H5" class="life"/></svg>`, x, px(h))
		case Held:
			s.f(`<circle cx="%s" cy="%s" r="4.5" class="mark out"/>`, x, px(h))
		case Released:
			s.f(`<circle cx="%s" cy="%s" r="6" class="mark warm"/>`, x, px(h))
		default:
			s.f(`<circle cx="%s" cy="%s" r="4" class="mark"/>`, x, px(h))
		}
		if i == len(l.Steps)-1 {
			for k, words := range folded(step.Reason, endsLetters) {
				s.text(at, h+22+endsReasonPx*float64(k), 0, "axis", words)
			}
		}
	}
}

// folded breaks words into lines of at most so many letters, where it can.
func folded(words string, letters int) (out []string) {
	line := ""
	for _, w := range strings.Fields(words) {
		if line != "" && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(w) > letters {
			out, line = append(out, line), w
			continue
		}
		line = strings.TrimSpace(line + " " + w)
	}
	if line != "" {
		out = append(out, line)
	}
	return out
}

package report

import (
	"io"
	"strconv"

	"awn/internal/draw"
	"awn/internal/words"
	"awn/variety"
)

// HTML writes the account as one page that opens offline.
func (a TrialAccount) HTML(w io.Writer) error { return a.page().write(w, a.Units) }

// page gathers the account: the data first, then who serves whom, then each trait.
func (a TrialAccount) page() page {
	u := a.Units
	check := a.Check
	if check == "" {
		check = u.Say("rank.check.none")
	}
	p := page{
		Name: u.Say("rank.name"), FindingsTitle: u.Say("rank.data"), NoFindings: u.Say("rank.data.none"),
		Title: u.Say("rank.title", "name", a.Name), Verdict: a.answer(), Stamp: stamp(a.Version, u),
		Lines: []string{u.Say("rank.size", "entries", strconv.Itoa(len(a.Trials.Entries())), "environments", strconv.Itoa(len(a.Trials.Environments())),
			"records", strconv.Itoa(len(a.Trials.Records)), "check", check)},
	}
	all := a.found()
	p.Findings, p.Rest = all[:min(len(all), mostFindings)], all[min(len(all), mostFindings):]
	n := &counter{}
	sections := []section{a.rulesSection(n), a.paretoSection(n)}
	for i, t := range a.Traits {
		sections = append(sections, a.traitSection(n, i, t))
	}
	for _, s := range append(sections, a.guideSection(), a.droughtSection(), a.sheetSection(n), a.readingSection()) {
		if len(s.Figures)+len(s.Tables) > 0 || s.Intro != "" {
			p.Sections = append(p.Sections, s)
			p.Nav = append(p.Nav, section{ID: s.ID, Title: s.Title})
		}
	}
	return p
}

// found is what is to be known of the data, as findings of a page.
func (a TrialAccount) found() (out []found) {
	for _, s := range a.sayings() {
		out = append(out, found{Mark: s.Severity.String(), Severity: words.Capital(a.Units.Severity(s.Severity)), Reason: words.Capital(a.told(s))})
	}
	return out
}

func (a TrialAccount) rulesSection(n *counter) section {
	u := a.Units
	s := section{ID: "rules", Title: u.Say("rank.section.rules"), Wide: true, Figures: n.figures([]string{u.Say("rank.picture.rules")}, a.rulesPicture()...)}
	if a.Ranking == nil {
		s.Intro = u.Say("rank.noscore")
		return s
	}
	for _, r := range a.Ranking.Rulers {
		s.Tables = append(s.Tables, a.scoreTable(r))
	}
	return s
}

func (a TrialAccount) paretoSection(n *counter) section {
	u := a.Units
	s := section{ID: "pareto", Title: u.Say("rank.section.pareto")}
	if a.Ranking == nil || len(a.Ranking.Rulers) < 2 {
		return s
	}
	s.Intro = u.Say("rank.front", "names", u.List(a.Ranking.Front))
	s.Figures = numbered(n, a.paretoPictures(), a.Ranking.Rulers, func(i, j int) string {
		return u.Say("rank.picture.pareto", "one", a.customer(a.Ranking.Rulers[i].Customer.Name), "other", a.customer(a.Ranking.Rulers[j].Customer.Name))
	})
	return s
}

// numbered gives each picture of a pair its title.
func numbered[T any](n *counter, pics []draw.Picture, of []T, title func(i, j int) string) (out []figure) {
	k := 0
	for i := range of {
		for j := i + 1; j < len(of) && k < len(pics); j++ {
			out = append(out, n.figures([]string{title(i, j)}, pics[k])...)
			k++
		}
	}
	return out
}

// traitSection is one trait with its tables and biplots.
func (a TrialAccount) traitSection(n *counter, number int, t variety.Judged) section {
	u := a.Units
	s := section{ID: "trait-" + strconv.Itoa(number+1), Title: t.Trait.Name}
	if t.Failed {
		if len(t.Remarks) > 0 {
			s.Intro = words.Capital(RemarkText(gravest(t.Remarks), u))
		}
		return s
	}
	s.Intro = join([]string{a.title(t.Trait), a.way(t.Trait), a.meanOf(t)}) + ". " + a.heritable(t.Analysis)
	for _, line := range []string{a.pairLine(t), a.outlookLine(t)} {
		if line != "" {
			s.Intro += " " + line
		}
	}
	titles := []string{}
	pics := a.biplotPictures(number+1, t)
	for _, kind := range []string{"gge", "ammi"}[:len(pics)] {
		titles = append(titles, u.Say("rank.picture."+kind, "trait", t.Trait.Name))
	}
	s.Figures = n.figures(titles, pics...)
	for _, x := range []table{a.againstTable(t), a.componentTable(t), a.equalTable(t), a.shareTable(t), a.meansTable(t), a.stabilityTable(t), a.outlookTable(t)} {
		if len(x.Rows) > 0 {
			s.Tables = append(s.Tables, x)
		}
	}
	return s
}

func (a TrialAccount) guideSection() section {
	u := a.Units
	s := section{ID: "indices", Title: u.Say("rank.section.guides")}
	for _, g := range a.Guides {
		if len(g.Traits) > 0 {
			s.Tables = append(s.Tables, a.weightTable(g))
		}
		s.Tables = append(s.Tables, a.guideTable(g))
	}
	if len(s.Tables) > 0 {
		s.Intro = u.Say("rank.intro.guides")
	}
	return s
}

func (a TrialAccount) droughtSection() section {
	s := section{ID: "drought", Title: a.Units.Say("rank.section.drought")}
	if len(a.Droughts) > 0 {
		s.Tables = []table{a.droughtTable()}
	}
	return s
}

func (a TrialAccount) sheetSection(n *counter) section {
	u := a.Units
	s := section{ID: "candidates", Title: u.Say("rank.section.sheet"), Wide: true}
	if len(a.Sheet.Candidates) == 0 {
		return s
	}
	s.Figures = n.figures([]string{u.Say("rank.table.sheet")}, a.sheetPictures()...)
	for i := range s.Figures {
		s.Figures[i].Table.Words = map[int]bool{2: true, 3: true, 4: true, 5: true}
	}
	s.Tables = []table{a.stageTable()}
	return s
}

// readingSection says how to read the tables.
func (a TrialAccount) readingSection() section {
	u := a.Units
	s := section{ID: "reading", Title: u.Say("rank.section.reading")}
	for i, line := range a.legends() {
		if i > 0 {
			s.Intro += " "
		}
		s.Intro += line
	}
	return s
}

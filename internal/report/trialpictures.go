package report

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"awn/internal/draw"
	"awn/variety"
)

func (a TrialAccount) pen() draw.Pen { return draw.Pen{Number: a.Units.Number} }

// rulesPicture is the three rules side by side with the check as zero; none
// without scores.
func (a TrialAccount) rulesPicture() []draw.Picture {
	if a.Ranking == nil {
		return nil
	}
	u := a.Units
	r := draw.Rules{ID: "rules", Title: u.Say("rank.picture.rules"), Says: u.Say("rank.says.rules", "check", a.Check), Zero: a.Check,
		Decimals: 2, Head: []string{u.Say("rank.head.variety")}}
	sum, rows := map[string]float64{}, map[string][]draw.RuleMark{}
	for _, ruler := range a.Ranking.Rulers {
		r.Words = append(r.Words, a.customer(ruler.Customer.Name))
		r.Head = append(r.Head, a.customer(ruler.Customer.Name), u.Say("rank.head.low"), u.Say("rank.head.high"))
		for _, s := range ruler.Scores {
			sum[s.Entry] += s.Value.Mid
			rows[s.Entry] = append(rows[s.Entry], draw.RuleMark{Mid: s.Value.Mid, Low: s.Value.Low, High: s.Value.High, Out: len(s.Culled) > 0})
		}
	}
	var names []string
	for name := range rows {
		if name != a.Check {
			names = append(names, name)
		}
	}
	slices.SortFunc(names, func(x, y string) int { return cmp.Or(cmp.Compare(sum[y], sum[x]), cmp.Compare(x, y)) })
	for _, name := range names[:min(len(names), mostEntries)] {
		r.Rows = append(r.Rows, draw.Ruled{Name: name, Marks: rows[name]})
	}
	return []draw.Picture{a.pen().Rules(r)}
}

// paretoPictures set the scores of two customers at a time against each other; what no
// other variety beats for every customer is drawn full.
func (a TrialAccount) paretoPictures() (out []draw.Picture) {
	if a.Ranking == nil {
		return nil
	}
	u, rulers := a.Units, a.Ranking.Rulers
	for i := range rulers {
		for j := i + 1; j < len(rulers); j++ {
			p, q := a.customer(rulers[i].Customer.Name), a.customer(rulers[j].Customer.Name)
			c := draw.Scatter{ID: "pareto-" + strconv.Itoa(i) + strconv.Itoa(j), Title: u.Say("rank.picture.pareto", "one", p, "other", q),
				Says: u.Say("rank.says.pareto", "names", u.List(a.Ranking.Front)), Across: p, Up: q, Decimals: 2, OwnScales: true,
				Head: []string{u.Say("rank.head.variety"), p, q, ""}}
			for _, s := range rulers[i].Scores {
				d := draw.Dot{Word: s.Entry, X: s.Value.Mid, Y: math.NaN(), Open: !slices.Contains(a.Ranking.Front, s.Entry)}
				for _, other := range rulers[j].Scores {
					if other.Entry == s.Entry {
						d.Y = other.Value.Mid
					}
				}
				if !d.Open {
					d.Note = u.Say("rank.unbeaten")
				}
				c.Dots = append(c.Dots, d)
			}
			out = append(out, a.pen().Scatter(c))
		}
	}
	return out
}

// biplotPictures are varieties and environments of a trait on common axes, the
// entry with its interaction and the interaction alone.
func (a TrialAccount) biplotPictures(n int, t variety.Judged) (out []draw.Picture) {
	for _, b := range []struct {
		kind string
		*variety.Biplot
	}{{"gge", t.GGE}, {"ammi", t.AMMI}} {
		if b.Biplot == nil || len(b.Share) < 2 {
			continue
		}
		u := a.Units
		axis := func(k int) string {
			return u.Say("rank.axis", "number", strconv.Itoa(k+1), "share", u.Number(100*b.Share[k], 0))
		}
		c := draw.Scatter{ID: b.kind + "-" + strconv.Itoa(n), Title: u.Say("rank.picture."+b.kind, "trait", t.Trait.Name), Says: u.Say("rank.says." + b.kind),
			Across: axis(0), Up: axis(1), Decimals: 3, Head: []string{"", axis(0), axis(1)}}
		way := pointing(b.Biplot)
		for i, name := range b.Entries {
			c.Dots = append(c.Dots, draw.Dot{Word: name, X: way * b.EntryScores[i][0], Y: b.EntryScores[i][1]})
		}
		for i, name := range b.Environments {
			c.Dots = append(c.Dots, draw.Dot{Word: name, X: way * b.EnvironmentScores[i][0], Y: b.EnvironmentScores[i][1], Ray: true})
		}
		out = append(out, a.pen().Scatter(c))
	}
	return out
}

// pointing is 1 or -1, whichever has most environments point to the right on the
// first axis: which way an axis runs is free, and more stands there on the right.
func pointing(b *variety.Biplot) float64 {
	sum := 0.0
	for _, s := range b.EnvironmentScores {
		sum += s[0]
	}
	return math.Copysign(1, sum)
}

// across is how many candidates stand side by side in one picture at most: what
// the width of a telephone holds with their words.
const across = 3

// sheetPictures are the candidates, years down, a few beside each other.
func (a TrialAccount) sheetPictures() (out []draw.Picture) {
	u, ending := a.Units, map[variety.Decision]draw.Ending{variety.Advance: draw.Onward, variety.Hold: draw.Held, variety.Drop: draw.Dropped, variety.Release: draw.Released}
	n := len(a.Sheet.Candidates)
	if n == 0 {
		return nil
	}
	pictures := (n + across - 1) / across
	for part := range slices.Chunk(a.Sheet.Candidates, (n+pictures-1)/pictures) {
		t := a.sheetTable(part)
		e := draw.Ends{ID: "sheet-" + strconv.Itoa(len(out)), Title: u.Say("rank.table.sheet"), Says: u.Say("rank.says.sheet"), Head: t.Head, Rows: t.Rows}
		for _, c := range part {
			l := draw.EndLine{Name: c.Name, Under: c.Cross, From: c.Year}
			for _, s := range c.Steps {
				l.Steps = append(l.Steps, draw.EndStep{Year: s.Year, Word: s.Stage, Reason: s.Reason, Ending: ending[s.Decision]})
			}
			e.Lines = append(e.Lines, l)
		}
		out = append(out, a.pen().Ends(e))
	}
	return out
}

package report

import (
	"encoding/csv"
	"io"
	"strconv"

	"awn/variety"
)

// CSV writes a row for each variety in each trait, then one for each on the rule of
// each customer; what is not known is left empty. Figures are in the unit of the
// trait, chances from 0 to 1.
func (a TrialAccount) CSV(w io.Writer) error {
	c := csv.NewWriter(w)
	rows := [][]string{{"trait", "unit", "customer", "entry", "records", "environments", "mean", "mean_se", "effect", "effect_se", "reliability",
		"difference", "difference_se", "freedom", "lsd_unadjusted", "dunnett", "p_dunnett", "beats", "beats_all_looked", "beats_at_equal",
		"slope", "shukla", "superiority", "score", "score_p5", "score_p95", "first", "top", "rank_p5", "rank_p95"}}
	for _, t := range a.Traits {
		if !t.Failed {
			rows = append(rows, traitRows(t)...)
		}
	}
	if a.Ranking != nil {
		for _, r := range a.Ranking.Rulers {
			for _, s := range r.Scores {
				row := make([]string, len(rows[0]))
				row[2], row[3] = r.Customer.Name, s.Entry
				for i, x := range []float64{s.BeatsCheck} {
					row[17+i] = plain(x)
				}
				for i, x := range []float64{s.Value.Mid, s.Value.Low, s.Value.High, s.First, s.Top, s.Rank.Low, s.Rank.High} {
					row[23+i] = plain(x)
				}
				rows = append(rows, row)
			}
		}
	}
	if err := c.WriteAll(rows); err != nil {
		return err
	}
	return c.Error()
}

// traitRows are the varieties in one trait.
func traitRows(t variety.Judged) (out [][]string) {
	against, equal, steady := map[string]variety.Comparison{}, map[string]float64{}, map[string]variety.Stability{}
	for _, c := range t.Against {
		against[c.Entry] = c
	}
	if t.Adjusted != nil {
		for _, e := range t.Adjusted.Entries {
			equal[e.Entry] = e.BeatsAtEqual
		}
	}
	for _, s := range t.Stabilities {
		steady[s.Entry] = s
	}
	for _, e := range t.Entries {
		row := []string{t.Trait.Name, t.Trait.Unit, "", e.Name, strconv.Itoa(e.Plots), strconv.Itoa(e.Environments),
			plain(e.Mean.Value), plain(e.Mean.SE), plain(e.Effect.Value), plain(e.Effect.SE), plain(e.Reliability)}
		if c, ok := against[e.Name]; ok {
			for _, x := range []float64{c.Difference.Value, c.Difference.SE, c.Difference.Freedom, c.LSD, c.Need, c.PDunnett, c.Beats, c.BeatsAllLooked} {
				row = append(row, plain(x))
			}
		} else {
			row = append(row, make([]string, 8)...)
		}
		cell := ""
		if x, ok := equal[e.Name]; ok {
			cell = plain(x)
		}
		row = append(row, cell)
		if s, ok := steady[e.Name]; ok {
			row = append(row, plain(s.Slope), plain(s.Shukla), plain(s.Superiority))
		} else {
			row = append(row, "", "", "")
		}
		out = append(out, append(row, make([]string, 7)...))
	}
	return out
}

package variety

import (
	"math"

	"gonum.org/v1/gonum/stat"
)

// Table is a trait of entries by environments, one mean a cell, NaN where there
// is none.
type Table struct {
	Entries, Environments []string
	Cell                  [][]float64 // by entry, then environment
}

// Table is the plain means of a trait by entry and environment; empty if the
// trials do not have the trait.
func (t Trials) Table(trait string) Table {
	at := t.Trait(trait)
	if at < 0 {
		return Table{}
	}
	records := t.with(at)
	out := Table{Entries: labels(records, entryOf), Environments: labels(records, Record.where)}
	sum, n := map[cell]float64{}, map[cell]float64{}
	for _, r := range records {
		sum[r.cell()] += r.Value[at]
		n[r.cell()]++
	}
	for _, entry := range out.Entries {
		row := make([]float64, len(out.Environments))
		for j, env := range out.Environments {
			row[j] = sum[cell{entry, env}] / n[cell{entry, env}] // 0/0 where there is none
		}
		out.Cell = append(out.Cell, row)
	}
	return out
}

// Complete leaves out, one by one, the entry or environment with the largest
// share of holes, until there are none, and says which.
func (t Table) Complete() (out Table, entries, environments []string) {
	out = t
	for {
		row, rowShare := worst(out.Cell, len(out.Entries), len(out.Environments), func(i, j int) (int, int) { return i, j })
		column, columnShare := worst(out.Cell, len(out.Environments), len(out.Entries), func(i, j int) (int, int) { return j, i })
		switch {
		case rowShare == 0 && columnShare == 0:
			return out, entries, environments
		case rowShare >= columnShare:
			entries = append(entries, out.Entries[row])
			out = out.withoutEntry(row)
		default:
			environments = append(environments, out.Environments[column])
			out = out.withoutEnvironment(column)
		}
	}
}

// worst is the line with the largest share of holes.
func worst(cells [][]float64, lines, along int, at func(i, j int) (int, int)) (line int, share float64) {
	for i := range lines {
		holes := 0
		for j := range along {
			if r, c := at(i, j); math.IsNaN(cells[r][c]) {
				holes++
			}
		}
		if s := float64(holes) / float64(along); s > share {
			line, share = i, s
		}
	}
	return line, share
}

func (t Table) withoutEntry(i int) Table {
	return Table{without(t.Entries, i), t.Environments, without(t.Cell, i)}
}

func (t Table) withoutEnvironment(j int) Table {
	out := Table{Entries: t.Entries, Environments: without(t.Environments, j)}
	for _, row := range t.Cell {
		out.Cell = append(out.Cell, without(row, j))
	}
	return out
}

func without[T any](s []T, i int) []T {
	return append(append(make([]T, 0, len(s)), s[:i]...), s[i+1:]...)
}

// sized reports whether a table is complete and has at least so many lines.
func (t Table) sized(entries, environments int) bool {
	if len(t.Entries) < entries || len(t.Environments) < environments {
		return false
	}
	for _, row := range t.Cell {
		for _, x := range row {
			if math.IsNaN(x) {
				return false
			}
		}
	}
	return true
}

// means are those of entries, of environments and of all.
func (t Table) means() (entry, environment []float64, all float64) {
	environment = make([]float64, len(t.Environments))
	for _, row := range t.Cell {
		m := stat.Mean(row, nil)
		entry = append(entry, m)
		all += m / float64(len(t.Entries))
		for j, x := range row {
			environment[j] += x / float64(len(t.Entries))
		}
	}
	return entry, environment, all
}

// interaction is what entries and environments leave over.
func (t Table) interaction() [][]float64 {
	entry, environment, all := t.means()
	out := make([][]float64, len(t.Entries))
	for i, row := range t.Cell {
		out[i] = make([]float64, len(row))
		for j, x := range row {
			out[i][j] = x - entry[i] - environment[j] + all
		}
	}
	return out
}

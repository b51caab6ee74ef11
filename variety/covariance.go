package variety

import (
	"gonum.org/v1/gonum/mat"
)

// Covariances are those of several traits over the same entries and environments.
type Covariances struct {
	Traits                []string
	Entries, Environments []string
	Means                 [][]float64   // by entry, then trait
	Genetic               *mat.SymDense // of the entries themselves
	Phenotypic            *mat.SymDense // of their means
	Residual              *mat.SymDense // of a cell about its entry and environment
}

// Covariances estimates them from the entries and environments that have all the
// traits, by the mean squares and products of the complete table. Fewer than
// three of either, or a trait that is not there, give nothing. A genetic variance
// may come out below 0.
func (t Trials) Covariances(traits ...string) *Covariances {
	tables := t.shared(traits)
	if len(tables) == 0 || !tables[0].sized(3, 3) {
		return nil
	}
	g, e := len(tables[0].Entries), len(tables[0].Environments)
	c := &Covariances{Traits: traits, Entries: tables[0].Entries, Environments: tables[0].Environments,
		Genetic: mat.NewSymDense(len(traits), nil), Phenotypic: mat.NewSymDense(len(traits), nil), Residual: mat.NewSymDense(len(traits), nil)}
	c.Means = make([][]float64, g)
	rest := make([][][]float64, len(tables))
	centred := make([][]float64, len(tables))
	for k, table := range tables {
		entry, _, all := table.means()
		rest[k] = table.interaction()
		for i, m := range entry {
			c.Means[i] = append(c.Means[i], m)
			centred[k] = append(centred[k], m-all)
		}
	}
	for k := range tables {
		for l := k; l < len(tables); l++ {
			between, within := 0.0, 0.0
			for i := range g {
				between += centred[k][i] * centred[l][i] / float64(g-1)
				for j := range e {
					within += rest[k][i][j] * rest[l][i][j] / float64((g-1)*(e-1))
				}
			}
			c.Phenotypic.SetSym(k, l, between)
			c.Residual.SetSym(k, l, within)
			c.Genetic.SetSym(k, l, between-within/float64(e))
		}
	}
	return c
}

// shared is the tables of the traits over the cells that all have.
func (t Trials) shared(traits []string) []Table {
	var tables []Table
	for _, name := range traits {
		table := t.Table(name)
		if len(table.Entries) == 0 {
			return nil
		}
		tables = append(tables, table)
	}
	if len(tables) == 0 {
		return nil
	}
	// One table of holes: a cell counts where every trait has it.
	all := tables[0].onto(tables[0].Entries, tables[0].Environments)
	for _, table := range tables[1:] {
		other := table.onto(all.Entries, all.Environments)
		for i := range all.Cell {
			for j := range all.Cell[i] {
				all.Cell[i][j] += other.Cell[i][j] // NaN if either is
			}
		}
	}
	all, _, _ = all.Complete()
	for k := range tables {
		tables[k] = tables[k].onto(all.Entries, all.Environments)
	}
	return tables
}

// onto is the table with the given lines, NaN where it has none.
func (t Table) onto(entries, environments []string) Table {
	row, column := map[string]int{}, map[string]int{}
	for i, l := range t.Entries {
		row[l] = i + 1
	}
	for j, l := range t.Environments {
		column[l] = j + 1
	}
	out := Table{Entries: entries, Environments: environments}
	for _, entry := range entries {
		line := make([]float64, len(environments))
		for j, env := range environments {
			line[j] = nan
			if r, c := row[entry], column[env]; r > 0 && c > 0 {
				line[j] = t.Cell[r-1][c-1]
			}
		}
		out.Cell = append(out.Cell, line)
	}
	return out
}

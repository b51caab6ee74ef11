package paper

import (
	"cmp"
	"io/fs"
	"maps"
	"math"
	"path"
	"slices"
	"strconv"

	"awn/variety"
)

func plainFigure(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

// orUnknown is the figure, NaN if it was not given.
func orUnknown(x *float64) float64 {
	if x == nil {
		return math.NaN()
	}
	return *x
}

// Layout is what the document says of the columns.
func (t Trial) Layout() variety.Layout {
	l := variety.Layout{Roles: map[string]variety.Role{}, Checks: t.Checks, Only: t.Only}
	for header, role := range t.Columns {
		l.Roles[header] = variety.Role(role)
	}
	for _, name := range slices.Sorted(maps.Keys(t.Traits)) {
		l.Traits = append(l.Traits, t.Traits[name].trait(name))
	}
	return l
}

// trait is the usual one with what is said otherwise.
func (m Measured) trait(name string) variety.Trait {
	out := variety.CommonTrait(name, m.Unit)
	if m.Direction != "" {
		out.Direction, out.Low, out.High = variety.Direction(m.Direction), math.NaN(), math.NaN()
	}
	if m.Low != nil || m.High != nil {
		out.Direction, out.Low, out.High = variety.Window, orUnknown(m.Low), orUnknown(m.High)
	}
	if m.Scale != "" {
		out.Scale = variety.Scale(m.Scale)
	}
	return out
}

// Brief is what the document asks of the trial.
func (t Trial) Brief() variety.Brief {
	b := variety.Brief{By: t.EqualAt, MoreYears: 1, MoreSites: 1, Sheet: variety.Sheet{Stages: variety.UsualStages()}}
	for _, name := range usualFirst(slices.Sorted(maps.Keys(t.Customers))) {
		b.Customers = append(b.Customers, t.Customers[name].customer(name))
	}
	if d := t.Drought; d != nil {
		b.Stressed, b.Free = d.Stressed, d.Free
	}
	if f := t.Further; f != nil {
		b.MoreYears, b.MoreSites = f.Years, f.Sites
	}
	if len(t.Stages) > 0 {
		b.Sheet.Stages = nil
	}
	for _, s := range t.Stages {
		b.Sheet.Stages = append(b.Sheet.Stages, s.stage())
	}
	for _, c := range t.Lines {
		b.Sheet.Candidates = append(b.Sheet.Candidates, c.candidate())
	}
	return b
}

// usualFirst puts grower, maltster and brewer in grain order before the others.
func usualFirst(names []string) []string {
	order := map[string]int{"grower": -3, "maltster": -2, "brewer": -1}
	slices.SortStableFunc(names, func(a, b string) int { return cmp.Compare(order[a], order[b]) })
	return names
}

func (b Buyer) customer(name string) variety.Customer {
	out := variety.Customer{Name: name}
	if b.Sure != nil {
		out.Needed = b.Sure.In("%") / 100
	}
	traits := map[string]bool{}
	for trait := range b.Weights {
		traits[trait] = true
	}
	for trait := range b.Limits {
		traits[trait] = true
	}
	for _, trait := range slices.Sorted(maps.Keys(traits)) {
		limit := b.Limits[trait]
		out.Wishes = append(out.Wishes, variety.Wish{Trait: trait, Weight: b.Weights[trait], Min: orUnknown(limit.AtLeast), Max: orUnknown(limit.AtMost)})
	}
	slices.SortStableFunc(out.Wishes, func(x, y variety.Wish) int { return cmp.Compare(y.Weight, x.Weight) })
	return out
}

// TrialOrder is a trial as it was read: the table it names, how to read that, and
// what is asked of it.
type TrialOrder struct {
	Name, Sheet string
	File        string // of the table
	Table       []byte
	Layout      variety.Layout
	Brief       variety.Brief
}

// LoadTrial reads a trial whose text is at hand, and the table that it names,
// from beside or below it. The table is handed on as it lies there.
func LoadTrial(files fs.FS, name string, data []byte) (TrialOrder, []Input, Faults) {
	l := &loader{files: files, piece: name}
	l.input(Trial{}, name, data)
	doc, r := read[Trial](name, data)
	if l.faults = r.faults.sorted(); len(l.faults) > 0 {
		return TrialOrder{}, nil, l.faults
	}
	out := TrialOrder{Name: doc.Name, Sheet: doc.Sheet, File: path.Join(path.Dir(name), doc.Table), Layout: doc.Layout(), Brief: doc.Brief()}
	if path.IsAbs(doc.Table) || !fs.ValidPath(out.File) {
		l.refuse(r, "table", Fault{Code: "document.file.name", Got: doc.Table})
		return out, nil, l.faults
	}
	table, err := fs.ReadFile(files, out.File)
	if err != nil {
		l.refuse(r, "table", Fault{Code: "document.file.missing", Got: doc.Table})
		return out, nil, l.faults
	}
	out.Table = table
	return out, l.inputs, l.faults
}

package web

import (
	"strconv"
	"strings"

	"awn/internal/paper"
	"awn/internal/words"
)

// field is one place of a document as a template sets it.
type field struct {
	paper.Field
	Name   string // under which the form sends it
	Label  string
	Shown  []field // of a group: what is given, asked for or at fault
	Hidden []field // of a group: what may be given as well
	Rows   []row   // of a list
	Wide   bool    // a condition or a text of some length
}

// row is one item of a list.
type row struct {
	field
	At          string // as a button names it
	Number, Of  int
	First, Last bool
}

// fieldOf readies a field and all within it.
func fieldOf(file string, f paper.Field) field {
	out := field{Field: f, Name: file + ":" + f.Path, Label: label(f.Key), Wide: f.Key == "until" || len([]rune(f.Value)) > 16}
	switch f.Form {
	case "list":
		for i, p := range f.Parts {
			if f.Fixed {
				p.Key = strconv.Itoa(i + 1)
			}
			out.Rows = append(out.Rows, row{fieldOf(file, p), file + ":" + p.Path, i + 1, len(f.Parts), i == 0, i == len(f.Parts)-1})
		}
	case "group":
		for _, p := range f.Shown() {
			out.Shown = append(out.Shown, fieldOf(file, p))
		}
		for _, p := range f.Hidden() {
			out.Hidden = append(out.Hidden, fieldOf(file, p))
		}
	case "table":
		for _, p := range f.Parts {
			out.Shown = append(out.Shown, fieldOf(file, p))
		}
	}
	return out
}

// Steps are the row's own fields: those of the one kind that a step is of, or
// all.
func (r row) Steps() field {
	if len(r.Kinds()) == 1 {
		return r.Kinds()[0]
	}
	return r.field
}

// Kinds are the groups within a row, such as an immersion.
func (r row) Kinds() (out []field) {
	for _, p := range r.Shown {
		if p.Form == "group" {
			out = append(out, p)
		}
	}
	if len(out) != len(r.Shown) {
		return nil
	}
	return out
}

// label is a key in plain words: they are those of the documents.
func label(key string) string { return strings.ReplaceAll(key, "_", " ") }

// place is a fault as a page tells it: at a field, or at a line.
type told struct {
	paper.Fault
	Name string // of the field it lies at; "" if it lies in a text
	Says string
}

// tell gives faults their fields.
func (d documents) tell(u words.Units, faults paper.Faults) (out []told) {
	for _, f := range faults {
		t := told{Fault: f, Says: sentence(u, f)}
		if one := d.find(f.File); one != nil && one.Kind != "" && one.Wrong == nil {
			t.Name = nameAt(one.Form, f)
		}
		out = append(out, t)
	}
	return out
}

// nameAt is the name of the innermost field that holds a fault.
func nameAt(f field, fault paper.Fault) string {
	for _, p := range f.all() {
		for _, own := range p.Faults {
			if own.Path == fault.Path && own.Code == fault.Code {
				return p.Name
			}
		}
		if name := nameAt(p, fault); name != "" {
			return name
		}
	}
	return ""
}

// all are the fields directly within a field.
func (f field) all() []field {
	out := append(append([]field{}, f.Shown...), f.Hidden...)
	for _, r := range f.Rows {
		out = append(out, r.field)
	}
	return out
}

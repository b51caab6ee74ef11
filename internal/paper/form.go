package paper

import (
	"reflect"
	"slices"
	"strings"
)

// Field is one place of a document as a form shows it.
type Field struct {
	Path, Key string
	Doc       string
	Form      string   // "text", "truth", "group", "list" or "table"
	Words     []string // that may stand there; any text if there are none
	Must      bool
	Fixed     bool // a list of a length that does not change
	Given     bool // something stands there
	Value     string
	Parts     []Field  // of a group, list or table
	Kinds     []string // of an item of a list: what it may be one of
	Faults    []Fault
}

// Form lays a document of a kind out as a form; false if there is no such kind.
func Form(kind string, v Values, faults Faults) (Field, bool) {
	s, ok := shapeOfKind(kind)
	if !ok {
		return Field{}, false
	}
	f := v.field(s, "", "")
	f.Parts = f.Parts[1:] // the kind is not for the user to change
	for _, fault := range faults {
		f.mark(fault)
	}
	return f, true
}

// Part is the field at a key of a group; an empty one if there is none.
func (f Field) Part(key string) Field {
	if i := slices.IndexFunc(f.Parts, func(p Field) bool { return p.Key == key }); i >= 0 {
		return f.Parts[i]
	}
	return Field{}
}

// Shown are the parts of a group that are given, asked for or at fault; Hidden
// are the others.
func (f Field) Shown() []Field { return f.parts(true) }

// Hidden are the parts of a group that may be given as well.
func (f Field) Hidden() []Field { return f.parts(false) }

func (f Field) parts(shown bool) (out []Field) {
	for _, p := range f.Parts {
		if (p.Given || p.Must || p.Faulty()) == shown {
			out = append(out, p)
		}
	}
	return out
}

// Faulty reports whether something is wrong here or within.
func (f Field) Faulty() bool {
	return len(f.Faults) > 0 || slices.ContainsFunc(f.Parts, Field.Faulty)
}

// field lays out one value.
func (v Values) field(s *shape, path, key string) Field {
	f := Field{Path: path, Key: key, Doc: s.doc, Form: "text", Words: s.words, Value: v[path], Given: v.under(path)}
	switch s.form {
	case object:
		f.Form = "group"
		v.group(&f, s)
	case list:
		f.Form, f.Fixed = "list", s.least == s.most
		n := v.Len(path)
		if f.Fixed {
			n = int(s.least)
		}
		for i := range n {
			f.Parts = append(f.Parts, v.field(s.item, nth(path, i), ""))
		}
		for _, r := range s.item.rules {
			if r.exact {
				f.Kinds = r.keys
			}
		}
	case table:
		f.Form = "table"
		keys := v.keysOf(path, s.item)
		if named := strings.TrimSuffix(strings.TrimPrefix(s.match.String(), "^(?:"), ")$"); !strings.ContainsAny(named, "[]()*+?\\") {
			keys = strings.Split(named, "|")
		}
		for _, k := range keys {
			f.Parts = append(f.Parts, v.field(s.item, join(path, k), k))
		}
	case truth:
		f.Form = "truth"
	}
	return f
}

// group lays out the keys of an object. Of keys of which one alone may stand
// there, those that do are shown.
func (v Values) group(f *Field, s *shape) {
	var other []string
	for _, r := range s.rules {
		if r.exact && slices.ContainsFunc(r.keys, func(k string) bool { return v.under(join(f.Path, k)) }) {
			other = append(other, r.keys...)
		}
	}
	for _, one := range s.fields {
		p := v.field(one.shape, join(f.Path, one.key), one.key)
		p.Must = one.required
		if p.Given || !slices.Contains(other, one.key) {
			f.Parts = append(f.Parts, p)
		}
	}
}

// mark writes a fault to the innermost field that it lies in.
func (f *Field) mark(fault Fault) {
	for i := range f.Parts {
		if p := &f.Parts[i]; p.Path != "" && within(fault.Path, p.Path) {
			p.mark(fault)
			return
		}
	}
	f.Faults = append(f.Faults, fault)
}

// typeOf is the type of a kind by its number in the list of kinds.
func typeOf(i int) reflect.Type { return reflect.TypeOf(documents[i]) }

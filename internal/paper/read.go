package paper

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/token"

	"awn/unit"
)

// Document is one of the structs that stand for a whole document.
type Document interface {
	// Kind is the word behind the first key, "lot/1".
	Kind() string
}

// checking is a struct that must also agree with itself. The faults give Code,
// Path within the struct, Got and Allowed; the reader adds the place.
type checking interface{ Check() []Fault }

// Read reads a document strictly: any number of faults are found in one go. The
// document is only of use if there are none.
func Read[T Document](file string, data []byte) (T, Faults) {
	doc, r := read[T](file, data)
	return doc, r.faults.sorted()
}

// read also returns the reader, which knows the place of each path.
func read[T Document](file string, data []byte) (T, *reader) {
	var doc T
	r := readInto(file, data, reflect.ValueOf(&doc).Elem())
	return doc, r
}

func readInto(file string, data []byte, v reflect.Value) *reader {
	r := &reader{file: file, text: string(data)}
	root := r.parse()
	if root == nil {
		return r
	}
	want := v.Interface().(Document).Kind()
	if at, kind := kindOf(root); kind != "" && kind != want {
		r.fault(at, kindKey, Fault{Code: "document.kind.wrong", Got: kind, Allowed: []string{want}})
		return r
	}
	r.value(root, shapeOfDocument(v.Type()), v, "")
	return r
}

// reader reads one text.
type reader struct {
	file, text string
	faults     Faults
	places     map[string]place // of each path
}

// fault records a fault that lacks only its place.
func (r *reader) fault(at place, path string, f Fault) {
	f.File, f.Line, f.Column, f.Path = r.file, at.line, at.column, path
	f.Excerpt = excerpt(r.text, at.line, at.column)
	r.faults = append(r.faults, f)
}

// value reads a node of the given shape into v.
func (r *reader) value(n ast.Node, s *shape, v reflect.Value, path string) {
	at := placeOf(start(n))
	r.mark(path, at)
	if v.Kind() == reflect.Pointer {
		v.Set(reflect.New(v.Type().Elem()))
		v = v.Elem()
	}
	if n.Type() == ast.NullType {
		r.fault(at, path, Fault{Code: "document.value.missing", Got: path})
		return
	}
	before := len(r.faults)
	switch s.form {
	case object:
		r.object(n, s, v, path)
	case list:
		r.list(n, s, v, path)
	case table:
		r.table(n, s, v, path)
	case link:
		r.link(n, s, v, path)
	default:
		r.scalar(n, s, v, path)
	}
	if c, ok := v.Interface().(checking); ok && len(r.faults) == before {
		for _, f := range c.Check() {
			inside := join(path, f.Path)
			r.fault(r.nearestPlace(inside), inside, f)
		}
	}
}

func (r *reader) mark(path string, at place) {
	if r.places == nil {
		r.places = map[string]place{}
	}
	r.places[path] = at
}

// nearestPlace is the place of a path or of what holds it.
func (r *reader) nearestPlace(path string) place {
	for {
		if at, ok := r.places[path]; ok {
			return at
		}
		i := strings.LastIndexAny(path, ".[")
		if i < 0 {
			return r.places[""]
		}
		path = path[:i]
	}
}

func join(path, key string) string {
	if path == "" || key == "" {
		return path + key
	}
	return path + "." + key
}

// start is the first token of a node; a mapping's own token is its first colon.
func start(n ast.Node) *token.Token {
	if m, ok := n.(*ast.MappingNode); ok && len(m.Values) > 0 && !m.IsFlowStyle {
		return m.Values[0].Key.GetToken()
	}
	return n.GetToken()
}

// entry is one key of a mapping with its value.
type entry struct {
	key   string
	at    place
	value ast.Node
}

// entries lists the keys of a mapping, each once; false if n is none.
func (r *reader) entries(n ast.Node, s *shape, path string) ([]entry, bool) {
	m, ok := n.(*ast.MappingNode)
	if !ok {
		r.wrong(n, s, path)
		return nil, false
	}
	var list []entry
	for _, pair := range m.Values {
		at := placeOf(pair.Key.GetToken())
		key := pair.Key.GetToken().Value
		switch _, plain := pair.Key.(ast.ScalarNode); {
		case !plain:
			r.fault(at, path, Fault{Code: "document.key.form"})
		case slices.ContainsFunc(list, func(e entry) bool { return e.key == key }):
			r.fault(at, join(path, key), Fault{Code: "document.key.duplicate", Got: key})
		default:
			list = append(list, entry{key, at, pair.Value})
		}
	}
	return list, true
}

// object reads the keys of a struct.
func (r *reader) object(n ast.Node, s *shape, v reflect.Value, path string) {
	list, ok := r.entries(n, s, path)
	if !ok {
		return
	}
	for _, e := range list {
		i := slices.IndexFunc(s.fields, func(f field) bool { return f.key == e.key })
		if i < 0 {
			r.fault(e.at, join(path, e.key), Fault{Code: "document.key.unknown", Got: e.key, Allowed: s.keys(), Nearest: unit.Nearest(e.key, s.keys())})
			continue
		}
		if e.value.Type() == ast.NullType {
			r.fault(e.at, join(path, e.key), Fault{Code: "document.value.missing", Got: e.key})
			continue
		}
		r.value(e.value, s.fields[i].shape, s.fields[i].in(v), join(path, e.key))
	}
	r.missing(list, s, placeOf(start(n)), path)
	if i := slices.IndexFunc(list, func(e entry) bool { return e.key == kindKey }); path == "" && i > 0 {
		r.fault(list[i].at, kindKey, Fault{Code: "document.kind.first", Allowed: []string{kindKey + ": " + s.fields[0].shape.words[0]}})
	}
}

// missing finds keys that must stand in an object and do not.
func (r *reader) missing(list []entry, s *shape, at place, path string) {
	has := func(key string) bool { return slices.ContainsFunc(list, func(e entry) bool { return e.key == key }) }
	for _, f := range s.fields {
		switch {
		case !f.required || has(f.key):
		case f.key == kindKey:
			r.fault(at, kindKey, Fault{Code: "document.kind.missing", Allowed: []string{kindKey + ": " + f.shape.words[0]}})
		default:
			r.fault(at, join(path, f.key), Fault{Code: "document.key.missing", Got: f.key})
		}
	}
	for _, rule := range s.rules {
		n := 0
		for _, key := range rule.keys {
			if has(key) {
				n++
			}
		}
		switch {
		case rule.exact && n != 1:
			r.fault(at, path, Fault{Code: "document.rule.one", Allowed: rule.keys})
		case !rule.exact && n == 0:
			r.fault(at, path, Fault{Code: "document.rule.some", Allowed: rule.keys})
		}
	}
}

// list reads a sequence.
func (r *reader) list(n ast.Node, s *shape, v reflect.Value, path string) {
	seq, ok := n.(*ast.SequenceNode)
	if !ok {
		r.wrong(n, s, path)
		return
	}
	count := len(seq.Values)
	if float64(count) < s.least || float64(count) > s.most {
		r.fault(placeOf(n.GetToken()), path, Fault{Code: "document.list.length", Got: strconv.Itoa(count), Allowed: []string{span(s)}})
		if float64(count) > s.most {
			return
		}
	}
	if v.Kind() == reflect.Slice {
		v.Set(reflect.MakeSlice(v.Type(), count, count))
	}
	for i, item := range seq.Values {
		r.value(item, s.item, v.Index(i), fmt.Sprintf("%s[%d]", path, i))
	}
}

// table reads keys of the user's own.
func (r *reader) table(n ast.Node, s *shape, v reflect.Value, path string) {
	list, ok := r.entries(n, s, path)
	if !ok {
		return
	}
	v.Set(reflect.MakeMap(v.Type()))
	for _, e := range list {
		if !s.match.MatchString(e.key) {
			r.fault(e.at, join(path, e.key), Fault{Code: "document.value.match", Got: e.key, Allowed: []string{s.matching()}})
			continue
		}
		item := reflect.New(v.Type().Elem()).Elem()
		r.value(e.value, s.item, item, join(path, e.key))
		v.SetMapIndex(reflect.ValueOf(e.key), item)
	}
}

// link reads the name of a file, or the content that would stand in it.
func (r *reader) link(n ast.Node, s *shape, v reflect.Value, path string) {
	if n.Type() == ast.MappingType {
		v = v.FieldByName("Inline")
		v.Set(reflect.New(v.Type().Elem()))
		r.value(n, s.item, v.Elem(), path)
		return
	}
	r.scalar(n, &fileName, v.FieldByName("File"), path)
}

// fileName is the shape of the name of a file.
var fileName = shape{form: text, least: 1, most: 200}

// span prints the limits of a shape.
func span(s *shape) string {
	if s.least == s.most {
		return fmt.Sprint(s.least)
	}
	return fmt.Sprintf("%v to %v", s.least, s.most)
}

// wrong says that a value is of the wrong sort.
func (r *reader) wrong(n ast.Node, s *shape, path string) {
	got := n.GetToken().Value
	switch n.(type) {
	case *ast.MappingNode:
		got = "a set of keys"
	case *ast.SequenceNode:
		got = "a list"
	}
	r.fault(placeOf(start(n)), path, Fault{Code: "document.value.type", Got: got, Allowed: []string{s.wanted()}})
}

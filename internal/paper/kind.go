package paper

import (
	"reflect"
	"slices"
	"sync"

	"github.com/goccy/go-yaml/ast"

	"awn/unit"
)

// kindKey is the first key of each document.
const kindKey = "awn"

// documents are the kinds that are read, in the order a newcomer meets them.
var documents = []Document{Lot{}, Plant{}, Programme{}, Specification{}, Piece{}, Ticket{}, Contract{}, Silo{}, Trial{}, Survey{}, ImportMap{}, ControlPoints{}}

// Kinds lists the kinds of document: "lot/1" and so on.
func Kinds() []string {
	kinds := make([]string, len(documents))
	for i, d := range documents {
		kinds[i] = d.Kind()
	}
	return kinds
}

// ReadAny reads a document of whichever kind its first key names.
func ReadAny(file string, data []byte) (Document, Faults) {
	r := &reader{file: file, text: string(data)}
	root := r.parse()
	if root == nil {
		return nil, r.faults
	}
	at, kind := kindOf(root)
	i := slices.Index(Kinds(), kind)
	switch {
	case kind == "":
		r.fault(at, kindKey, Fault{Code: "document.kind.missing", Allowed: kindLines()})
		return nil, r.faults
	case i < 0:
		r.fault(at, kindKey, Fault{Code: "document.kind.wrong", Got: kind, Allowed: Kinds(), Nearest: unit.Nearest(kind, Kinds())})
		return nil, r.faults
	}
	v := reflect.New(reflect.TypeOf(documents[i])).Elem()
	r.value(root, shapeOfDocument(v.Type()), v, "")
	return v.Interface().(Document), r.faults.sorted()
}

// kindOf is the word behind the key that names the kind, and its place; "" and
// the place of the document if there is none.
func kindOf(root ast.Node) (place, string) {
	if m, ok := root.(*ast.MappingNode); ok {
		for _, pair := range m.Values {
			if pair.Key.GetToken().Value == kindKey {
				return placeOf(pair.Value.GetToken()), pair.Value.GetToken().Value
			}
		}
	}
	return placeOf(start(root)), ""
}

func kindLines() []string {
	lines := Kinds()
	for i := range lines {
		lines[i] = kindKey + ": " + lines[i]
	}
	return lines
}

// shapes keeps what was worked out once.
var shapes sync.Map // reflect.Type to *shape

// shapeOfDocument is the shape of a struct with its kind as the first key.
func shapeOfDocument(t reflect.Type) *shape {
	if s, ok := shapes.Load(t); ok {
		return s.(*shape)
	}
	s := shapeOf(t, "")
	kind := &shape{form: text, doc: "What this document is.", words: []string{reflect.Zero(t).Interface().(Document).Kind()}}
	s.fields = slices.Insert(s.fields, 0, field{key: kindKey, required: true, shape: kind})
	shapes.Store(t, s)
	return s
}

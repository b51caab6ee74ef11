package paper

import (
	"slices"
	"strings"

	"github.com/goccy/go-yaml/ast"
)

// Difference is a place at which pieces are not given alike.
type Difference struct {
	Path   string   // document, then keys: "programme.kiln[2].air_on"
	Values []string // of each piece, as written; empty where it gives none
}

// Differences are the places at which the documents behind several pieces part,
// in the order in which they are first met. What is written in another way, such
// as in another unit, counts as different.
func Differences(pieces [][]Input) []Difference {
	texts := make([]map[string]string, len(pieces))
	var paths []string
	for i, inputs := range pieces {
		texts[i] = map[string]string{}
		for _, in := range inputs {
			for _, e := range in.entries() {
				texts[i][e.path] = e.text
				if !slices.Contains(paths, e.path) {
					paths = append(paths, e.path)
				}
			}
		}
	}
	var out []Difference
	for _, path := range paths {
		d := Difference{Path: path}
		for i := range pieces {
			d.Values = append(d.Values, texts[i][path])
		}
		if len(slices.Compact(slices.Clone(d.Values))) > 1 {
			out = append(out, d)
		}
	}
	return out
}

// given is one value of a document.
type given struct{ path, text string }

// entries are the values of a document that could be read. The names of the
// documents that a piece is made of are none: what stands in them counts.
func (in Input) entries() []given {
	r := &reader{file: in.File, text: string(in.Text)}
	root := r.parse()
	if root == nil {
		return nil
	}
	kind, _, _ := strings.Cut(in.Kind, "/")
	var out []given
	walkValues(root, "", func(path, text string) {
		first, rest, nested := strings.Cut(path, ".")
		linked := kind == "piece" && slices.Contains([]string{"lot", "plant", "programme", "specification"}, first)
		switch {
		case path == kindKey || linked && !nested:
		case linked:
			out = append(out, given{first + "." + rest, text})
		default:
			out = append(out, given{kind + "." + path, text})
		}
	})
	return out
}

// walkValues visits every value below a node, with its path.
func walkValues(n ast.Node, path string, visit func(path, text string)) {
	switch n := n.(type) {
	case *ast.MappingNode:
		for _, v := range n.Values {
			walkValues(v.Value, join(path, v.Key.GetToken().Value), visit)
		}
	case *ast.MappingValueNode:
		walkValues(n.Value, join(path, n.Key.GetToken().Value), visit)
	case *ast.SequenceNode:
		for i, v := range n.Values {
			walkValues(v, nth(path, i), visit)
		}
	case *ast.LiteralNode:
		visit(path, n.Value.Value)
	case *ast.NullNode:
	default:
		visit(path, n.GetToken().Value)
	}
}

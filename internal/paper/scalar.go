package paper

import (
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/goccy/go-yaml/ast"

	"awn/unit"
)

// plainNumber is how a number without unit is written.
var plainNumber = regexp.MustCompile(`^-?(?:0|[1-9][0-9]{0,14})(?:\.[0-9]{1,15})?(?:[eE][-+]?[0-9]{1,2})?$`)

// scalar reads a value that has no parts.
func (r *reader) scalar(n ast.Node, s *shape, v reflect.Value, path string) {
	t := n.GetToken()
	at := placeOf(t)
	switch n := n.(type) {
	case *ast.StringNode:
		r.words(n, s, v, path)
		return
	case *ast.LiteralNode:
		if s.form == text {
			r.keep(at, n.Value.Value, s, v, path)
			return
		}
	case *ast.BoolNode:
		if s.form == truth {
			v.SetBool(n.Value)
			return
		}
	case *ast.IntegerNode, *ast.FloatNode, *ast.InfinityNode, *ast.NanNode:
		switch s.form {
		case whole, number:
			r.number(at, t.Value, s, v, path)
			return
		case written:
			if _, err := s.read(t.Value); err != nil {
				r.fault(at, path, refusal(err))
				return
			}
		}
	}
	r.wrong(n, s, path)
}

// words reads a value that YAML takes for a text.
func (r *reader) words(n *ast.StringNode, s *shape, v reflect.Value, path string) {
	at := placeOf(n.GetToken())
	switch s.form {
	case written:
		value, err := s.read(n.Value)
		if err != nil {
			r.fault(at, path, refusal(err))
			return
		}
		v.Set(reflect.ValueOf(value))
	case text:
		r.keep(at, n.Value, s, v, path)
	case whole, number:
		if _, err := unit.Ratio.Parse(n.Value); err != nil && refusal(err).Code == "number.ambiguous" {
			r.fault(at, path, refusal(err))
			return
		}
		r.wrong(n, s, path)
	default:
		r.wrong(n, s, path)
	}
}

// keep reads a text that is kept as it is.
func (r *reader) keep(at place, got string, s *shape, v reflect.Value, path string) {
	if f := s.refuses(got); f.Code != "" {
		r.fault(at, path, f)
	}
	v.SetString(got)
}

// refuses says what is wrong with a text.
func (s *shape) refuses(got string) Fault {
	n := float64(len([]rune(got)))
	switch {
	case slices.Contains(s.words, got):
	case s.words != nil:
		return Fault{Code: "document.value.word", Got: got, Allowed: s.words, Nearest: unit.Nearest(got, s.words)}
	case n < s.least || n > s.most:
		return Fault{Code: "document.value.length", Got: got, Allowed: []string{span(s) + " characters"}}
	case s.match != nil && !s.match.MatchString(got):
		return Fault{Code: "document.value.match", Got: got, Allowed: []string{s.matching()}}
	}
	return Fault{}
}

// matching is the expression of a text without its frame.
func (s *shape) matching() string {
	return strings.TrimSuffix(strings.TrimPrefix(s.match.String(), "^(?:"), ")$")
}

// number reads a number without unit.
func (r *reader) number(at place, got string, s *shape, v reflect.Value, path string) {
	x, err := strconv.ParseFloat(got, 64)
	switch {
	case !plainNumber.MatchString(got) || err != nil:
		r.fault(at, path, Fault{Code: "document.number.notation", Got: got})
	case s.form == whole && x != float64(int64(x)):
		r.fault(at, path, Fault{Code: "document.value.type", Got: got, Allowed: []string{s.wanted()}})
	case x < s.least || x > s.most:
		r.fault(at, path, Fault{Code: "document.value.range", Got: got, Allowed: []string{span(s)}})
	case s.form == whole:
		v.SetInt(int64(x))
	default:
		v.SetFloat(x)
	}
}

package paper

import (
	"encoding/json"
	"regexp"
	"slices"
	"strings"
)

// Write writes a document of a kind from its values, in the order of its keys.
// Values at no place of that kind are left out; false if there is no such kind.
func Write(kind string, v Values) ([]byte, bool) {
	s, ok := shapeOfKind(kind)
	if !ok {
		return nil, false
	}
	w := &writer{values: v}
	w.line(0, kindKey+": "+kind)
	for _, f := range s.fields[1:] {
		w.field(f)
	}
	return []byte(w.String()), true
}

// shapeOfKind is the shape of a kind named with its number, "lot/1".
func shapeOfKind(kind string) (*shape, bool) {
	i := slices.Index(Kinds(), kind)
	if i < 0 {
		return nil, false
	}
	return shapeOfDocument(typeOf(i)), true
}

// writer writes values: one line for each key, and for each item of a list.
type writer struct {
	strings.Builder
	values Values
}

func (w *writer) line(indent int, text string) {
	w.WriteString(strings.Repeat("  ", indent) + text + "\n")
}

// field writes one key of the document.
func (w *writer) field(f field) {
	if !w.values.under(f.key) {
		return
	}
	if f.shape.form != list || !f.shape.item.holds() {
		w.line(0, f.key+": "+w.flow(f.shape, f.key))
		return
	}
	w.line(0, f.key+":")
	for i := range w.values.Len(f.key) {
		w.line(1, "- "+w.item(f.shape.item, nth(f.key, i)))
	}
}

// item writes one item of a list. A step of one kind stands behind the word of
// that kind.
func (w *writer) item(s *shape, path string) string {
	var given []field
	for _, f := range s.fields {
		if w.values.under(join(path, f.key)) {
			given = append(given, f)
		}
	}
	if len(given) == 1 && given[0].shape.form == object {
		return given[0].key + ": " + w.flow(given[0].shape, join(path, given[0].key))
	}
	return w.flow(s, path)
}

// holds reports whether a shape has parts of its own.
func (s *shape) holds() bool { return s.form == object || s.form == list || s.form == table }

// flow writes a value within its line.
func (w *writer) flow(s *shape, path string) string {
	var parts []string
	switch s.form {
	case object:
		for _, f := range s.fields {
			if p := join(path, f.key); w.values.under(p) {
				parts = append(parts, f.key+": "+w.flow(f.shape, p))
			}
		}
		return "{" + strings.Join(parts, ", ") + "}"
	case list:
		for i := range w.values.Len(path) {
			parts = append(parts, w.flow(s.item, nth(path, i)))
		}
		return "[" + strings.Join(parts, ", ") + "]"
	case table:
		for _, key := range w.values.keysOf(path, s.item) {
			parts = append(parts, scalarText(text, key)+": "+w.flow(s.item, join(path, key)))
		}
		return "{" + strings.Join(parts, ", ") + "}"
	case link:
		if _, file := w.values[path]; !file {
			return w.flow(s.item, path)
		}
	}
	return scalarText(s.form, w.values[path])
}

// keysOf are the user's own keys of a table. One that leads to a single value
// may have points in it.
func (v Values) keysOf(path string, item *shape) (keys []string) {
	for p, text := range v {
		rest, ok := strings.CutPrefix(p, path+".")
		if !ok || text == "" {
			continue
		}
		if end := strings.IndexAny(rest, ".["); end >= 0 && item.holds() {
			rest = rest[:end]
		}
		keys = append(keys, rest)
	}
	slices.Sort(keys)
	return slices.Compact(keys)
}

var (
	// plainText is a text that YAML takes for a text without quotes.
	plainText = regexp.MustCompile(`^[\pL°][\pL\pN °%/.+_()²³–-]*$`)
	// plainQuantity is how quantities, conditions and times begin: also with a
	// number.
	plainQuantity = regexp.MustCompile(`^[\pL\pN−-][\pL\pN °%/.+_()²³–−-]*$`)
	// plainTime is a time as documents hold it.
	plainTime = regexp.MustCompile(`^[0-9]{4}-[0-9]{2}-[0-9]{2}(T[0-9:]+(Z|[+-][0-9:]+)?)?$`)
)

// scalarText writes a value as YAML holds it, in quotes where it must.
func scalarText(f form, s string) string {
	s = strings.TrimSpace(s)
	plain := false
	switch f {
	case truth, whole, number:
		plain = s == "true" || s == "false" || plainNumber.MatchString(s)
	case written:
		plain = plainQuantity.MatchString(s) || plainTime.MatchString(s)
	default:
		plain = plainText.MatchString(s) && !slices.Contains([]string{"true", "false", "null"}, strings.ToLower(s))
	}
	if plain {
		return s
	}
	var b strings.Builder
	e := json.NewEncoder(&b) // a text of JSON is one of YAML
	e.SetEscapeHTML(false)
	if e.Encode(s) != nil {
		return `""`
	}
	return strings.TrimSuffix(b.String(), "\n")
}

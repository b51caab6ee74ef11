package paper

import (
	"fmt"
	"math"
	"reflect"
	"regexp"
	"strconv"
	"strings"

	"awn/unit"
)

// form is what a value looks like in a document.
type form int

const (
	object  form = iota // keys that are known
	list                // any number of one shape
	table               // keys of the user's own, each with one shape
	written             // a text with a meaning: a quantity, a condition, a time
	text                // a text that is kept
	whole               // a whole number
	number              // a number without unit
	truth               // true or false
	link                // the name of a file, or what would stand in it
)

// shape is one value of a document as the tags describe it. The reader and the
// schema are two views of it.
type shape struct {
	form        form
	doc         string
	fields      []field // of an object
	rules       []rule  // of an object
	item        *shape  // of a list, table or link
	least, most float64 // of numbers, and of the length of lists and texts
	words       []string
	match       *regexp.Regexp                 // of a text, or of the keys of a table
	pattern     func() string                  // of a written value; only a schema needs it
	read        func(text string) (any, error) // of a written value
}

// field is one key of an object.
type field struct {
	key      string
	index    []int // nil for the kind, which no struct holds
	required bool
	shape    *shape
}

// in is the place of the field in its struct.
func (f field) in(v reflect.Value) reflect.Value {
	if f.index == nil {
		return reflect.New(reflect.TypeFor[string]()).Elem()
	}
	return v.FieldByIndex(f.index)
}

// rule says how many of some keys of an object must stand there.
type rule struct {
	exact bool // exactly one; otherwise at least one
	keys  []string
}

// writing is a type with its own way of being written as a text.
type writing interface {
	// form returns the pattern of the text and its reader, for the limits
	// that stand in the field's tags.
	form(least, most string) (pattern func() string, read func(text string) (any, error), err error)
}

// linking is a type that stands for a document: its file's name or its content.
type linking interface{ target() reflect.Type }

// shapeOf describes a type with the tags of the field that holds it. Tags are
// part of the program: one that makes no sense panics, as a regular expression
// of the program does, and a test reads them all.
func shapeOf(t reflect.Type, tag reflect.StructTag) *shape {
	s := &shape{doc: tag.Get("doc"), least: math.Inf(-1), most: math.Inf(1)}
	if t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	switch zero := reflect.Zero(t).Interface().(type) {
	case writing:
		pattern, read, err := zero.form(tag.Get("min"), tag.Get("max"))
		must(err)
		s.form, s.pattern, s.read = written, pattern, read
		return s
	case linking:
		s.form, s.item = link, shapeOf(zero.target(), "")
		return s
	}
	switch t.Kind() {
	case reflect.Struct:
		s.form = object
		s.addFields(t, nil)
	case reflect.Slice, reflect.Array, reflect.Map:
		s.many(t, tag)
	case reflect.String:
		s.form, s.least, s.most = text, 1, 200
		s.limits(tag)
		if words := tag.Get("one"); words != "" {
			s.words = strings.Split(words, "|")
		}
		if match := tag.Get("match"); match != "" {
			s.match = framed(match)
		}
	default:
		form, ok := map[reflect.Kind]form{reflect.Int: whole, reflect.Float64: number, reflect.Bool: truth}[t.Kind()]
		if !ok {
			panic(fmt.Sprintf("paper: no document holds a %v", t))
		}
		s.form = form
		s.limits(tag)
	}
	return s
}

// many describes a list or a table.
func (s *shape) many(t reflect.Type, tag reflect.StructTag) {
	switch t.Kind() {
	case reflect.Slice:
		s.form, s.item = list, shapeOf(t.Elem(), without(tag, "doc", "min", "max"))
		s.least, s.most = 0, 1000
		s.limits(tag)
	case reflect.Array:
		s.form, s.item = list, shapeOf(t.Elem(), without(tag, "doc"))
		s.least, s.most = float64(t.Len()), float64(t.Len())
	case reflect.Map:
		s.form, s.item = table, shapeOf(t.Elem(), without(tag, "doc", "match"))
		s.match = framed(tag.Get("match"))
	}
}

// framed is an expression that must match the whole text.
func framed(match string) *regexp.Regexp { return regexp.MustCompile("^(?:" + match + ")$") }

// addFields describes the fields of a struct, embedded ones as its own.
func (s *shape) addFields(t reflect.Type, above []int) {
	for i := range t.NumField() {
		f := t.Field(i)
		index := append(above[:len(above):len(above)], i)
		switch key, has := f.Tag.Lookup("key"); {
		case f.Anonymous:
			s.addFields(f.Type, index)
		case f.Name == "_":
			s.rules = append(s.rules, ruleOf(f.Tag.Get("rule")))
		case has:
			key, optional := strings.CutSuffix(key, "?")
			required := !optional && f.Type.Kind() != reflect.Pointer
			s.fields = append(s.fields, field{key, index, required, shapeOf(f.Type, f.Tag)})
		}
	}
}

func ruleOf(tag string) rule {
	count, keys, ok := strings.Cut(tag, " of ")
	if !ok || count != "one" && count != "some" {
		panic("paper: no rule: " + tag)
	}
	return rule{count == "one", strings.Fields(keys)}
}

// limits takes the limits of a plain number or of a length.
func (s *shape) limits(tag reflect.StructTag) {
	for name, limit := range map[string]*float64{"min": &s.least, "max": &s.most} {
		if text := tag.Get(name); text != "" {
			x, err := strconv.ParseFloat(text, 64)
			must(err)
			*limit = x
		}
	}
}

// without drops tags that belong to a list or table and not to its items.
func without(tag reflect.StructTag, names ...string) reflect.StructTag {
	for _, name := range names {
		if value, ok := tag.Lookup(name); ok {
			tag = reflect.StructTag(strings.Replace(string(tag), fmt.Sprintf("%s:%q", name, value), "", 1))
		}
	}
	return tag
}

func must(err error) {
	if err != nil {
		panic("paper: " + err.Error())
	}
}

// keys lists the keys of an object in their order.
func (s *shape) keys() []string {
	keys := make([]string, len(s.fields))
	for i, f := range s.fields {
		keys[i] = f.key
	}
	return keys
}

// wanted says in a word what may stand there.
func (s *shape) wanted() string {
	return [...]string{
		object: "keys with values", list: "a list", table: "keys with values", written: "a text such as number, space and unit",
		text: "a text", whole: "a whole number", number: "a number", truth: "true or false", link: "the name of a file, or what would stand in it",
	}[s.form]
}

// refusal turns the error of a written value into a fault.
func refusal(err error) Fault {
	e, ok := err.(*unit.Error)
	if !ok {
		return Fault{Code: "document.value.match", Got: err.Error()}
	}
	return Fault{Code: e.Code, Got: e.Got, Allowed: e.Allowed, Nearest: e.Nearest}
}

package ledger

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"reflect"
	"slices"
	"strings"
	"unicode/utf8"
)

// Body is what a fact of one kind says.
type Body interface {
	Kind() Kind
	check(*Faults)  // what contradicts itself
	effect(*Effect) // what follows
}

// encode writes a body as JSON.
func encode(b Body) []byte {
	text, err := json.Marshal(b)
	if err != nil { // NaN and infinities cannot be written, and are refused when read back
		return []byte("{}")
	}
	return text
}

// Decode reads the body of a fact strictly: every key is known and stands
// once, everything needed is there, nothing contradicts itself. All that is
// wrong comes back together, as [Faults].
func Decode(kind Kind, schema int, body []byte) (Body, error) {
	form, ok := forms[kind]
	if !ok {
		var found Faults
		found.add("record.kind.unknown", "kind", kind, words(slices.Sorted(maps.Keys(forms)))...)
		return nil, found
	}
	return form.decode(schema, body)
}

func (f form) decode(schema int, body []byte) (Body, error) {
	if schema < 1 || schema > f.schema() {
		return nil, Faults{{Code: "record.schema.unknown", Path: "schema", Got: fmt.Sprint(schema), Allowed: []string{fmt.Sprint(f.schema())}}}
	}
	var found Faults
	object := parse(body, &found)
	if object == nil {
		return nil, found
	}
	for _, raise := range f.raises[schema-1:] {
		object = raise(object)
	}
	b := f.empty()
	fill(reflect.ValueOf(b).Elem(), object, "", &found)
	if len(found) == 0 {
		b.check(&found)
	}
	if err := found.orNil(); err != nil {
		return nil, err
	}
	return b, nil
}

// tree is a JSON object: numbers as json.Number, lists as []any.
type tree map[string]any

// deepest is how far objects and lists may stand in each other.
const deepest = 8

// parse reads one JSON object and notes keys that stand twice.
func parse(body []byte, found *Faults) tree {
	switch {
	case len(body) > longest:
		found.add("record.body.size", "", fmt.Sprint(len(body), " bytes"))
		return nil
	case !utf8.Valid(body):
		found.add("record.body.encoding", "", "")
		return nil
	}
	dec := json.NewDecoder(bytes.NewReader(body))
	dec.UseNumber()
	v, err := value(dec, "", deepest, found)
	if err == nil {
		if _, err = dec.Token(); err == nil {
			err = errors.New("something follows it")
		} else if errors.Is(err, io.EOF) {
			err = nil
		}
	}
	object, ok := v.(tree)
	if err == nil && !ok {
		err = errors.New("it begins otherwise")
	}
	if err != nil {
		found.add("record.body.syntax", "", err)
		return nil
	}
	return object
}

// value reads the next value.
func value(dec *json.Decoder, path string, depth int, found *Faults) (any, error) {
	t, err := dec.Token()
	if err != nil {
		return nil, err
	}
	open, ok := t.(json.Delim)
	if !ok {
		return t, nil
	}
	if depth == 0 {
		return nil, errors.New("it is nested too deeply")
	}
	object, list := tree{}, []any{}
	for n := 0; dec.More(); n++ {
		if open == '[' {
			v, err := value(dec, fmt.Sprintf("%s[%d]", path, n), depth-1, found)
			if err != nil {
				return nil, err
			}
			list = append(list, v)
			continue
		}
		k, err := dec.Token()
		if err != nil {
			return nil, err
		}
		key := k.(string) // the decoder lets nothing else stand before a colon
		v, err := value(dec, under(path, key), depth-1, found)
		if err != nil {
			return nil, err
		}
		if _, twice := object[key]; twice {
			found.add("record.key.twice", path, key)
		}
		object[key] = v
	}
	if _, err := dec.Token(); err != nil {
		return nil, err
	}
	if open == '[' {
		return list, nil
	}
	return object, nil
}

func under(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

// leaf is a value that reads itself from JSON.
type leaf interface {
	read(v any, path string, found *Faults)
}

// fill reads a value of JSON into a value of Go. A field without omitempty
// must be there.
func fill(into reflect.Value, v any, path string, found *Faults) {
	if l, ok := into.Addr().Interface().(leaf); ok {
		l.read(v, path, found)
		return
	}
	switch into.Kind() {
	case reflect.Pointer:
		into.Set(reflect.New(into.Type().Elem()))
		fill(into.Elem(), v, path, found)
	case reflect.Slice:
		fillList(into, v, path, found)
	case reflect.Struct:
		object, ok := v.(tree)
		if !ok {
			found.add("record.value.type", path, plain(v), "an object")
			return
		}
		fillObject(into, object, path, found)
	default:
		fillPlain(into, v, path, found)
	}
}

func fillList(into reflect.Value, v any, path string, found *Faults) {
	list, ok := v.([]any)
	if !ok {
		found.add("record.value.type", path, plain(v), "a list")
		return
	}
	if len(list) == 0 {
		found.add("record.list.empty", path, "")
	}
	into.Set(reflect.MakeSlice(into.Type(), len(list), len(list)))
	for i := range list {
		fill(into.Index(i), list[i], fmt.Sprintf("%s[%d]", path, i), found)
	}
}

func fillObject(into reflect.Value, object tree, path string, found *Faults) {
	var keys []string
	for i := range into.NumField() {
		key, option, _ := strings.Cut(into.Type().Field(i).Tag.Get("json"), ",")
		keys = append(keys, key)
		v, ok := object[key]
		switch {
		case ok:
			fill(into.Field(i), v, under(path, key), found)
		case option == "":
			found.add("record.key.missing", path, key)
		}
	}
	for _, key := range slices.Sorted(maps.Keys(object)) {
		if !slices.Contains(keys, key) {
			found.add("record.key.unknown", path, key, keys...)
		}
	}
}

func fillPlain(into reflect.Value, v any, path string, found *Faults) {
	switch into.Kind() {
	case reflect.String:
		s, ok := v.(string)
		if !ok || !isText(s, longestText) {
			found.add("record.value.type", path, plain(v), "a text of at most 1000 characters")
		}
		into.SetString(s)
	case reflect.Bool:
		b, ok := v.(bool)
		if !ok {
			found.add("record.value.type", path, plain(v), "true or false")
		}
		into.SetBool(b)
	case reflect.Int64:
		n, ok := v.(json.Number)
		i, err := n.Int64()
		if !ok || err != nil {
			found.add("record.value.type", path, plain(v), "a whole number")
		}
		into.SetInt(i)
	case reflect.Float64:
		n, ok := v.(json.Number)
		x, err := n.Float64()
		if !ok || err != nil {
			found.add("record.value.type", path, plain(v), "a number")
		}
		into.SetFloat(x)
	}
}

const longestText = 1000

// isText reports whether a text is short enough and has nothing in it that is
// not to be read. Line ends are allowed.
func isText(s string, most int) bool {
	return utf8.ValidString(s) && utf8.RuneCountInString(s) <= most && !strings.ContainsFunc(s, func(r rune) bool {
		return r < ' ' && r != '\n' && r != '\t' || r == 0x7f
	})
}

// plain shows a value of JSON in a fault.
func plain(v any) string {
	switch v := v.(type) {
	case tree:
		return "an object"
	case []any:
		return "a list"
	case nil:
		return "null"
	default:
		return fmt.Sprint(v)
	}
}

func words[S ~string](list []S) []string {
	out := make([]string, len(list))
	for i, s := range list {
		out[i] = string(s)
	}
	return out
}

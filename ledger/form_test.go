package ledger

import (
	"reflect"
	"regexp"
	"strings"
	"testing"
)

// An old body is raised step by step, and never rewritten: the bytes are the
// reader's own.
func TestOldSchemasAreRaised(t *testing.T) {
	f := form{
		empty: func() Body { return new(Turning) },
		raises: []func(tree) tree{
			func(old tree) tree { return tree{"batch": old["lot"]} },
			func(old tree) tree { return tree{"piece": old["batch"]} },
		},
	}
	for schema, body := range map[int]string{1: `{"lot":"P1"}`, 2: `{"batch":"P1"}`, 3: `{"piece":"P1"}`} {
		b, err := f.decode(schema, []byte(body))
		if err != nil || b.(*Turning).Piece != "P1" {
			t.Errorf("schema %d: %+v, %v", schema, b, err)
		}
	}
	for _, schema := range []int{-1, 0, 4} {
		if _, err := f.decode(schema, []byte(`{"piece":"P1"}`)); err == nil {
			t.Errorf("schema %d was read", schema)
		}
	}
}

// Every number in a body says its unit at the end of its key, or is a count, a number in a row,
// a year, or a figure whose quantity names its unit.
func TestKeysEndInTheirUnit(t *testing.T) {
	units := regexp.MustCompile(`_(kg|kg_dm|wb|db|c|ms)$`)
	bare := map[string]bool{"count": true, "series_n": true, "seal_n": true, "crop_year": true, "value": true, "u": true}
	var walk func(reflect.Type)
	walk = func(typ reflect.Type) {
		switch typ.Kind() {
		case reflect.Pointer, reflect.Slice:
			walk(typ.Elem())
		case reflect.Struct:
			for i := range typ.NumField() {
				f := typ.Field(i)
				key, _, _ := strings.Cut(f.Tag.Get("json"), ",")
				kind := f.Type.Kind()
				if kind == reflect.Pointer {
					kind = f.Type.Elem().Kind()
				}
				if (kind == reflect.Int64 || kind == reflect.Float64) && !units.MatchString(key) && !bare[key] {
					t.Errorf("%s.%s: %q has no unit", typ.Name(), f.Name, key)
				}
				walk(f.Type)
			}
		}
	}
	for kind, f := range forms {
		b := f.empty()
		if b.Kind() != kind {
			t.Errorf("%s makes a body of kind %s", kind, b.Kind())
		}
		walk(reflect.TypeOf(b).Elem())
	}
	if len(forms) != 26 {
		t.Errorf("%d kinds, want 26", len(forms))
	}
}

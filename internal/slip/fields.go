package slip

import (
	"cmp"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// Field is one field of a slip as a form shows it.
type Field struct {
	Name  string   // under which it is sent: "net", "although-held"
	Hint  string   // what may stand there, in capitals as on the command line: "MASS"
	Words []string // what it may be, if only that
	Usual string   // what it is where nothing is typed
	Must  bool     // has to be filled in
	Arg   bool     // stands by its place on a command line, without a flag
	Many  bool     // may be given several times
	Tick  bool     // is so or not

	at []int // index in the struct
}

// Fields lists the fields of a slip in the order of its struct. It is a
// pointer to a struct.
func Fields(s Slip) []Field { return fieldsOf(reflect.TypeOf(s).Elem(), nil) }

func fieldsOf(t reflect.Type, at []int) (out []Field) {
	for i := range t.NumField() {
		f := t.Field(i)
		here := append(append([]int{}, at...), i)
		switch {
		case f.Anonymous:
			out = append(out, fieldsOf(f.Type, here)...)
			continue
		case !f.IsExported() || f.Tag.Get("kong") == "-":
			continue
		}
		_, must := f.Tag.Lookup("required")
		_, arg := f.Tag.Lookup("arg")
		_, optional := f.Tag.Lookup("optional")
		one := Field{
			Name: f.Tag.Get("name"), Hint: f.Tag.Get("placeholder"), Usual: f.Tag.Get("default"), Must: must || arg && !optional, Arg: arg,
			Many: f.Type.Kind() == reflect.Slice, Tick: f.Type.Kind() == reflect.Bool, at: here,
		}
		if one.Name == "" {
			one.Name = hyphened(f.Name)
		}
		if words := cmp.Or(f.Tag.Get("enum"), f.Tag.Get("words")); words != "" { // by words only a form is bound: the record says more of others
			one.Words = strings.Split(words, ",")
		}
		out = append(out, one)
	}
	return out
}

// hyphened is the name of a flag: "AlthoughHeld" is "although-held".
func hyphened(name string) string {
	var b strings.Builder
	for i, r := range name {
		if unicode.IsUpper(r) && i > 0 {
			b.WriteByte('-')
		}
		b.WriteRune(unicode.ToLower(r))
	}
	return b.String()
}

// Fill writes what was sent into a slip and says what is missing or cannot
// stand where it does. Names that the slip does not have are left alone: they
// are the caller's.
func Fill(s Slip, sent map[string][]string) error {
	var faults Faults
	v := reflect.ValueOf(s).Elem()
	for _, f := range Fields(s) {
		texts := filled(sent[f.Name])
		if len(texts) == 0 && f.Usual != "" {
			texts = []string{f.Usual}
		}
		if len(texts) == 0 {
			if f.Must {
				faults.add(f.Name, "slip.value.missing", "")
			}
			continue
		}
		if len(texts) > 1 && !f.Many {
			faults.add(f.Name, "slip.value.twice", "")
			continue
		}
		if f.Words != nil && !slices.Contains(f.Words, texts[0]) {
			faults.add(f.Name, "slip.value.word", texts[0], f.Words...)
			continue
		}
		switch into := v.FieldByIndex(f.at); into.Kind() {
		case reflect.Slice:
			into.Set(reflect.ValueOf(texts))
		case reflect.Bool:
			into.SetBool(texts[0] != "false")
		case reflect.Int64:
			n, err := strconv.ParseInt(texts[0], 10, 64)
			if err != nil {
				faults.add(f.Name, "slip.value.whole", texts[0])
			}
			into.SetInt(n)
		default:
			into.SetString(texts[0])
		}
	}
	return faults.orNil()
}

// filled are the texts that say something.
func filled(texts []string) (out []string) {
	for _, t := range texts {
		if t = strings.TrimSpace(t); t != "" {
			out = append(out, t)
		}
	}
	return out
}

package paper

import (
	"io/fs"
	"reflect"
	"strings"
	"testing"

	"awn/examples"
)

// What a form makes of a document is that document: every example is taken
// apart, written again and read, and must come out the same.
func TestFormKeepsTheDocument(t *testing.T) {
	names, err := fs.Glob(examples.Files, "*.yaml")
	if err != nil || len(names) == 0 {
		t.Fatal(names, err)
	}
	for _, name := range names {
		data, err := fs.ReadFile(examples.Files, name)
		if err != nil {
			t.Fatal(err)
		}
		want, faults := ReadAny(name, data)
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		again, ok := Write(want.Kind(), ValuesOf(data))
		if !ok {
			t.Fatalf("%s: no kind %s", name, want.Kind())
		}
		got, faults := ReadAny(name, again)
		if len(faults) > 0 || !reflect.DeepEqual(got, want) {
			t.Errorf("%s is changed by the form: %v\n%s", name, faults, again)
		}
	}
}

func TestRowsOfAList(t *testing.T) {
	v := ValuesOf([]byte("awn: programme/1\nname: x\nsteep:\n  - immersion: {for: 1 h}\n  - drain: {for: 2 h}\n  - couch: {for: 3 h}\n"))
	v.Swap("steep", 0, 1)
	v.Insert("steep", 3, Values{"spray.for": "4 h"})
	v.Remove("steep", 2)
	v.Swap("steep", 2, 3) // there is no fourth
	text, _ := Write("programme/1", v)
	want := "awn: programme/1\nname: x\nsteep:\n  - drain: {for: 2 h}\n  - immersion: {for: 1 h}\n  - spray: {for: 4 h}\n"
	if string(text) != want {
		t.Errorf("%s\nwant\n%s", text, want)
	}
}

func TestFaultsStandAtTheirFields(t *testing.T) {
	v := Values{"name": "x", "steep[0].immersion.for": "1,234 h", "steep[0].immersion.water": "17", "germinate[0].for": "1 d"}
	text, _ := Write("programme/1", v)
	_, faults := Read[Programme]("programme.yaml", text)
	f, _ := Form("programme/1", v, faults)
	step := f.Part("steep").Parts[0].Part("immersion")
	for key, want := range map[string]string{"for": "number.ambiguous", "water": "unit.missing"} {
		if got := step.Part(key).Faults; len(got) != 1 || got[0].Code != want {
			t.Errorf("%s: %v, want %s", key, got, want)
		}
	}
	if got := f.Part("germinate").Parts[0].Part("air_on").Faults; len(got) != 1 || got[0].Code != "document.key.missing" {
		t.Errorf("air_on: %v", got)
	}
}

// Whatever is typed into a form is read as that text and as nothing else.
func FuzzTypedText(f *testing.F) {
	for _, s := range []string{"a: b", "# x", "true", "3", "'", "\"", "{", "- 1", "&a", "*a", "!x", "a, b", "°", "\t", "null", "a #b", "a\nb", "\u0085x", "2026-01-01", "|", "%", "% x", "-"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		s = strings.TrimSpace(strings.ToValidUTF8(s, ""))
		if s == "" || strings.ContainsRune(s, 0) || len([]rune(s)) > 200 {
			return
		}
		text, _ := Write("programme/1", Values{"name": s, "kiln[0].name": s})
		doc, faults := Read[Programme]("p.yaml", text)
		for _, fault := range faults {
			if strings.HasPrefix(fault.Code, "document.text") {
				t.Fatalf("%q is written as no YAML: %v", s, fault)
			}
		}
		if doc.Name != s {
			t.Fatalf("%q is read as %q", s, doc.Name)
		}
	})
}

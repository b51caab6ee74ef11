package paper

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/goccy/go-yaml"
	"github.com/santhosh-tekuri/jsonschema/v6"
)

// header is the first line of a broken document: the faults in reading order
// with their places, and the schema's verdict.
var header = regexp.MustCompile(`^# faults: (.+); schema: (refuses|silent)\n`)

func TestBrokenDocuments(t *testing.T) {
	names, err := filepath.Glob("testdata/broken/*.yaml")
	if err != nil || len(names) < 30 {
		t.Fatalf("%d broken documents, %v", len(names), err)
	}
	met := map[string]bool{}
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		m := header.FindStringSubmatch(string(data))
		if m == nil {
			t.Errorf("%s says nothing of its faults", name)
			continue
		}
		_, faults := ReadAny(name, data)
		var got []string
		for _, f := range faults {
			got = append(got, fmt.Sprintf("%s@%d:%d", f.Code, f.Line, f.Column))
			met[f.Code] = true
		}
		if strings.Join(got, " ") != m[1] {
			t.Errorf("%s: faults\n got %s\nwant %s\n%v", name, strings.Join(got, " "), m[1], faults)
		}
		visible := slices.ContainsFunc(faults, func(f Fault) bool { return find(f.Code).Level == OfShape })
		if visible != (m[2] == "refuses") {
			t.Errorf("%s: the faults %v, but the schema: %s", name, faults.Codes(), m[2])
		}
		if !anyLevel(faults, OfText) || m[2] == "refuses" {
			if refused := schemaRefuses(t, data); refused != (m[2] == "refuses") {
				t.Errorf("%s: the schema refuses: %v, want %s", name, refused, m[2])
			}
		}
	}
	for _, c := range Codes {
		if !met[c.Code] && !elsewhere[c.Code] {
			t.Errorf("no broken document shows %s", c.Code)
		}
	}
}

// elsewhere are the codes that a test of their own shows.
var elsewhere = map[string]bool{
	"document.text.empty": true, "document.text.size": true, "document.text.encoding": true,
	"document.file.name": true, "document.file.missing": true, "piece.vessel.unknown": true, "piece.vessel.combined": true, "piece.kiln.until-on-decks": true,
	"survey.price.currency": true, "silo.weather.gap": true, "silo.weather.past": true,
	"csv.text.size": true, "csv.text.encoding": true, "csv.text.syntax": true, "csv.head.unknown": true, "csv.head.twice": true, "csv.head.time": true,
	"csv.rows.none": true, "csv.cell.time": true, "csv.cell.number": true, "csv.cell.range": true,
}

func anyLevel(faults Faults, level Level) bool {
	return slices.ContainsFunc(faults, func(f Fault) bool { return find(f.Code).Level == level })
}

// schemaRefuses is the verdict of the schema on a document; a document without
// a kind that is known is held against that of a lot.
func schemaRefuses(t *testing.T, data []byte) bool {
	t.Helper()
	kind := kindWord(data)
	if !slices.Contains(Kinds(), kind) {
		kind = "lot/1"
	}
	var instance any
	if err := yaml.Unmarshal(data, &instance); err != nil {
		t.Fatal(err)
	}
	return compiled(t, kind).Validate(plain(instance)) != nil
}

// kindWord is the word behind "awn:".
func kindWord(data []byte) string {
	if m := regexp.MustCompile(`(?m)^awn: (\S+)$`).FindSubmatch(data); m != nil {
		return string(m[1])
	}
	return ""
}

var schemas = map[string]*jsonschema.Schema{}

func compiled(t *testing.T, kind string) *jsonschema.Schema {
	t.Helper()
	if s := schemas[kind]; s != nil {
		return s
	}
	data, ok := Schema(kind)
	if !ok {
		t.Fatalf("no schema of %s", kind)
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	c.DefaultDraft(jsonschema.Draft2020)
	if err := c.AddResource("schema.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("schema.json")
	if err != nil {
		t.Fatal(err)
	}
	schemas[kind] = s
	return s
}

// plain turns what the YAML library gives into what JSON would.
func plain(v any) any {
	switch v := v.(type) {
	case map[string]any:
		out := map[string]any{}
		for key, value := range v {
			out[key] = plain(value)
		}
		return out
	case map[any]any:
		out := map[string]any{}
		for key, value := range v {
			out[fmt.Sprint(key)] = plain(value)
		}
		return out
	case []any:
		for i := range v {
			v[i] = plain(v[i])
		}
		return v
	case uint64:
		return float64(v)
	case int64:
		return float64(v)
	}
	return v
}

func TestSchemaTakesGoodDocuments(t *testing.T) {
	names, err := filepath.Glob("testdata/good/*.yaml")
	if err != nil || len(names) == 0 {
		t.Fatal(err)
	}
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		var instance any
		if err := yaml.Unmarshal(data, &instance); err != nil {
			t.Fatal(err)
		}
		if err := compiled(t, kindWord(data)).Validate(plain(instance)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Each good document is held against its schema with one value changed at a
// time; the reader must come to the same verdict.
func TestReaderAndSchemaAgreeOnChangedDocuments(t *testing.T) {
	names, err := filepath.Glob("testdata/good/*.yaml")
	if err != nil {
		t.Fatal(err)
	}
	changes := []string{"1 % wb", "45 % wb", "-5 °C", "200 °F", "1 d 6 h", "300 m3/h/t", "0.4 kg/m2/s", "12 %", "5 g asis", "7/64 in", "true", "3", "2026.5", "x", "[]", "{}", "moisture 43 % wb", "999999 t", "~"}
	leaf := regexp.MustCompile(`: ([^\s{\[][^,}\]\n]*)`)
	tried, taken := 0, 0
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for i, at := range leaf.FindAllSubmatchIndex(data, -1) {
			if bytes.HasSuffix(data[:at[2]], []byte("awn: ")) {
				continue
			}
			for k := range 5 { // another five for each leaf
				change := changes[(i*7+k*3)%len(changes)]
				text := slices.Concat(data[:at[2]], []byte(change), data[at[3]:])
				_, faults := ReadAny(name, text)
				if anyLevel(faults, OfText) {
					continue
				}
				tried++
				refused := schemaRefuses(t, text)
				if refused != anyLevel(faults, OfShape) {
					t.Fatalf("%s with %q at %d: the schema refuses: %v, the reader: %v", name, change, at[2], refused, faults)
				}
				if !refused {
					taken++
				}
			}
		}
	}
	if tried < 900 || taken < 50 {
		t.Errorf("only %d changes tried, %d taken", tried, taken)
	}
	t.Logf("%d changes, %d taken", tried, taken)
}

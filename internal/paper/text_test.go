package paper

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"awn/unit"
)

func TestTextsThatAreNoDocument(t *testing.T) {
	for name, c := range map[string]struct{ text, code string }{
		"empty":          {"", "document.text.empty"},
		"only a comment": {"# nothing\n", "document.text.empty"},
		"large":          {"awn: lot/1\n" + strings.Repeat("#\n", 1<<19), "document.text.size"},
		"latin-1":        {"awn: lot/1\norigin: M\xfcnster\n", "document.text.encoding"},
		"zero byte":      {"awn: lot/1\x00", "document.text.encoding"},
		"deep lists":     {strings.Repeat("[", 1<<19), "document.text.depth"},
		"deep dashes":    {strings.Repeat("- ", 1<<19), "document.text.depth"},
		"deep questions": {strings.Repeat("? ", 1<<19), "document.text.depth"},
		"deep indent":    {"a:\n" + strings.Repeat(" ", 200) + "b: 1\n", "document.text.depth"},
		"staircase":      {staircase(500), "document.text.depth"},
		"alias bomb":     {"a: &a [x, x]\nb: &b [*a, *a]\nc: [*b, *b]\n", "document.text.reference"},
		"merge":          {"awn: lot/1\n<<: {code: A}\n", "document.text.reference"},
	} {
		_, faults := ReadAny(name, []byte(c.text))
		if len(faults) != 1 || faults[0].Code != c.code {
			t.Errorf("%s: %v, want %s", name, faults, c.code)
		}
	}
}

// staircase nests each line one deeper.
func staircase(levels int) string {
	var b strings.Builder
	for i := range levels {
		b.WriteString(strings.Repeat(" ", i) + "a:\n")
	}
	return b.String()
}

func TestExcerptPointsAtThePlace(t *testing.T) {
	_, faults := Read[Lot]("lot.yaml", []byte("awn: lot/1\r\ncode: A\r\nvariety: Ärmel\r\nmoisture: 12 %\r\n"))
	want := "lot.yaml:4:11: moisture: “12 %” does not say its basis; write one of % wb, % db. [unit.basis.missing]\n" +
		"    4 | moisture: 12 %\n" +
		"      |           ^"
	if len(faults) != 1 || faults[0].Error() != want {
		t.Errorf("got\n%v\nwant\n%s", faults, want)
	}
	_, faults = Read[Lot]("lot.yaml", []byte("awn: lot/1\ncode: A\ngermination_4ml: [{after: 1 d, germinated: 20, of: 100}, {after: 2 d, germinated: 30, of: 100}, {after: 3 days, germinated: 40, of: 100}]\n"))
	lines := strings.Split(faults.Error(), "\n")
	caret := strings.Index(lines[2], "^")
	if len(faults) != 1 || !strings.HasPrefix(lines[1][caret:], "3 days") {
		t.Errorf("the caret of a long line is astray:\n%v", faults)
	}
}

func TestLoadPieceWhoseFilesAreAtFault(t *testing.T) {
	good := func(name string) *fstest.MapFile {
		data, err := os.ReadFile("testdata/good/" + name)
		if err != nil {
			t.Fatal(err)
		}
		return &fstest.MapFile{Data: data}
	}
	piece := good("piece.yaml")
	change := func(from, to string) *fstest.MapFile {
		return &fstest.MapFile{Data: bytes.Replace(piece.Data, []byte(from), []byte(to), 1)}
	}
	files := func(piece *fstest.MapFile) fstest.MapFS {
		return fstest.MapFS{
			"a/piece.yaml": piece, "a/lot.yaml": good("lot.yaml"), "a/plant.yaml": good("plant.yaml"),
			"a/programme.yaml": good("programme.yaml"), "a/specification.yaml": good("specification.yaml"),
		}
	}
	broken := files(piece)
	broken["a/lot.yaml"] = &fstest.MapFile{Data: []byte("awn: lot/1\ncode: A\nmoisture: 12 %\n")}
	broken["a/programme.yaml"] = &fstest.MapFile{Data: []byte("awn: programme/1\nname: A\n")}
	combined := files(piece)
	combined["a/plant.yaml"] = &fstest.MapFile{Data: bytes.Replace(good("plant.yaml").Data, []byte("build: box"), []byte("build: combined"), 1)}
	for name, c := range map[string]struct {
		files fstest.MapFS
		codes []string
	}{
		"above":         {files(change("lot: lot.yaml", "lot: ../../lot.yaml")), []string{"document.file.name"}},
		"absolute":      {files(change("lot: lot.yaml", "lot: /etc/lot.yaml")), []string{"document.file.name"}},
		"missing":       {files(change("lot: lot.yaml", "lot: lots.yaml")), []string{"document.file.missing"}},
		"wrong kind":    {files(change("lot: lot.yaml", "lot: plant.yaml")), []string{"document.kind.wrong"}},
		"vessel":        {files(change("germinator: G1", "germinator: G2")), []string{"piece.vessel.unknown"}},
		"until":         {files(change("germinator: G1", "germinator: G1, kiln: K2")), []string{"piece.kiln.until-on-decks"}},
		"combined":      {combined, []string{"piece.vessel.combined"}},
		"two documents": {broken, []string{"unit.basis.missing", "programme.steps.none"}},
	} {
		_, _, faults := Load(c.files, "a/piece.yaml")
		if !slices.Equal(faults.Codes(), c.codes) {
			t.Errorf("%s: %v, want %v", name, faults, c.codes)
		}
	}
	if _, _, faults := Load(fstest.MapFS{}, "piece.yaml"); !slices.Equal(faults.Codes(), []string{"document.file.missing"}) {
		t.Errorf("no piece: %v", faults)
	}
}

func TestCodesAreComplete(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range Codes {
		if seen[c.Code] || c.Sentence == "" || strings.Count(c.Code, ".") < 1 {
			t.Errorf("%+v is listed twice or says nothing", c)
		}
		seen[c.Code] = true
	}
	for code := range unit.Sentences {
		if !seen[code] {
			t.Errorf("%s of unit is not listed", code)
		}
	}
}

// Every key explains itself, and the schema of each kind names itself.
func TestSchemasExplainEveryKey(t *testing.T) {
	for _, kind := range Kinds() {
		data, ok := Schema(kind)
		if !ok {
			t.Fatalf("no schema of %s", kind)
		}
		var schema map[string]any
		if err := json.Unmarshal(data, &schema); err != nil {
			t.Fatal(err)
		}
		if schema["$id"] != "urn:awn:"+strings.Replace(kind, "/", ":", 1) {
			t.Errorf("%s: $id %v", kind, schema["$id"])
		}
		explained(t, schema, kind)
	}
	if _, ok := Schema("lots"); ok {
		t.Error("a kind that is not there has a schema")
	}
}

func explained(t *testing.T, schema map[string]any, path string) {
	t.Helper()
	if properties, ok := schema["properties"].(map[string]any); ok {
		for key, property := range properties {
			p := property.(map[string]any)
			if p["description"] == nil || p["title"] == "" {
				t.Errorf("%s.%s does not explain itself", path, key)
			}
			explained(t, p, path+"."+key)
		}
	}
	if items, ok := schema["items"].(map[string]any); ok {
		explained(t, items, path+"[]")
	}
}

func TestQuantityThatIsNotGiven(t *testing.T) {
	var none *Temperature
	if !math.IsNaN(none.In("°C")) || none.Or("°C", 7) != 7 {
		t.Error("a quantity that is not given has a value")
	}
	a := shapeOf(reflect.TypeFor[Airflow](), "")
	got, err := a.read("300 m3/h/t")
	if err != nil {
		t.Fatal(err)
	}
	flow := got.(Airflow)
	if !near(flow.In("m3/h/t"), 300) || !math.IsNaN(flow.In("m/s")) || !math.IsNaN(flow.In("furlong")) {
		t.Error("a quantity is turned into another kind")
	}
}

// FuzzReadAny holds for any text: no panic, every fault is a listed one with a
// place in the text, and what is read without fault can be used.
func FuzzReadAny(f *testing.F) {
	for _, pattern := range []string{"testdata/good/*.yaml", "testdata/broken/*.yaml"} {
		names, err := filepath.Glob(pattern)
		if err != nil {
			f.Fatal(err)
		}
		for _, name := range names {
			data, err := os.ReadFile(name)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(data)
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		doc, faults := ReadAny("fuzz.yaml", data)
		for _, fault := range faults {
			if find(fault.Code).Sentence == "" || fault.Line < 1 || fault.Column < 1 || fault.Line > bytes.Count(data, []byte("\n"))+2 {
				t.Fatalf("%+v", fault)
			}
		}
		if len(faults) > 0 {
			return
		}
		switch d := doc.(type) {
		case Lot:
			d.Lot()
		case Plant:
			d.House()
		case Programme:
			d.Programme()
		case Specification:
			d.Specification()
		}
	})
}

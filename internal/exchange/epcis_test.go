package exchange

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"awn/internal/table"
	"awn/internal/tools/need"
	"awn/ledger"
)

var partner = Partner{Base: "https://id.example/hallow-sound/", GTIN: map[string]string{"lot": "09521234543213"}, CreatedMS: 1_790_100_000_000}

func events(t *testing.T) ([]byte, []map[string]any) {
	t.Helper()
	facts, _ := history(t)
	var b bytes.Buffer
	n, err := EPCIS(&b, facts, partner)
	if err != nil {
		t.Fatal(err)
	}
	var doc struct {
		Body struct {
			Events []map[string]any `json:"eventList"`
		} `json:"epcisBody"`
	}
	if err := json.Unmarshal(b.Bytes(), &doc); err != nil || len(doc.Body.Events) != n {
		t.Fatalf("%d events of %d, %v", len(doc.Body.Events), n, err)
	}
	return b.Bytes(), doc.Body.Events
}

// but is a pattern that forbids how a text begins: two of the schema are of
// this kind, which package regexp has no word for.
type but struct{ *regexp.Regexp }

func (b but) MatchString(s string) bool { return !b.Regexp.MatchString(s) }

func compile(pattern string) (jsonschema.Regexp, error) {
	forbidden, negative := strings.CutPrefix(pattern, "^(?!")
	if !negative {
		return regexp.Compile(pattern)
	}
	r, err := regexp.Compile("^(?:" + strings.TrimSuffix(forbidden, ")") + ")")
	return but{r}, err
}

// The published JSON Schema of GS1 EPCIS 2.0 accepts the document, and refuses
// it when a word is changed.
func TestEventsKeepToThePublishedSchema(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(os.Getenv("AWN_DATA"), "epcis", "EPCIS-JSON-Schema.json"))
	need.Met(t, "AWN_DATA", os.Getenv("AWN_DATA") != "" && err == nil)
	c := jsonschema.NewCompiler()
	c.AssertFormat()
	c.UseRegexpEngine(compile)
	schema, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	if err := c.AddResource("epcis.json", schema); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("epcis.json")
	if err != nil {
		t.Fatal(err)
	}
	data, _ := events(t)
	check := func(data []byte) error {
		doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		return s.Validate(doc)
	}
	if err := check(data); err != nil {
		t.Error(err)
	}
	for old, wrong := range map[string]string{
		`"receiving"`: `"recieving"`, `"OBSERVE"`: `"SEE"`, `"in_transit"`: `"moving"`, `"KGM"`: `"kilogram"`, `"+01:00"`: `"1 h"`,
		`"transformationID":"https://id.example/hallow-sound/piece/P26-0001"`: `"transformationID":"P 26"`, `"incorrect_data"`: `"wrong"`, `"recadv"`: `"ticket"`,
	} {
		if !bytes.Contains(data, []byte(old)) {
			t.Errorf("%s is not in the document", old)
		} else if check(bytes.Replace(data, []byte(old), []byte(wrong), 1)) == nil {
			t.Errorf("%s in place of %s was accepted", wrong, old)
		}
	}
	empty := &bytes.Buffer{}
	if _, err := EPCIS(empty, each(nil), partner); err != nil || check(empty.Bytes()) != nil {
		t.Errorf("an empty record: %v, %s", err, empty)
	}
}

// Each step that the record knows is told as the table says.
func TestStepsFollowTheTable(t *testing.T) {
	f, err := os.Open("testdata/epcis_map.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	sheet, err := table.Read(f, "")
	if err != nil {
		t.Fatal(err)
	}
	kinds := map[string][]ledger.Kind{
		"intake": {ledger.Received}, "probe sample": {ledger.Sampled}, "lab result": {ledger.Released}, "bin storage": {ledger.Moved}, "hold": {ledger.Held},
		"bin blend": {ledger.Blended}, "steep-germinate-kiln batch start": {ledger.Cast}, "kiln-off green side closed": {ledger.Dressed},
		"malt dispatch": {ledger.Shipped}, "stock count": {ledger.Adjusted},
	}
	met := 0
	for _, row := range sheet.Cells[1:] {
		for _, kind := range kinds[row[0]] {
			met++
			s := steps[kind]
			action := strings.TrimPrefix(row[2], "(none)")
			if s.kind != row[1] || s.action != action || s.step != row[3] || !slices.Contains(strings.Split(row[4], " or "), s.disposition) {
				t.Errorf("%s: %+v, the table has %v", row[0], s, row[1:])
			}
		}
	}
	if met != len(kinds) {
		t.Errorf("%d steps of the table were met, want %d", met, len(kinds))
	}
}

func TestEventsSayWhatTheFactsSay(t *testing.T) {
	_, all := events(t)
	var told []string
	for _, e := range all {
		told = append(told, e["bizStep"].(string))
	}
	want := "receiving receiving sampling inspecting holding inspecting storing commissioning commissioning creating_class_instance shipping receiving stock_taking receiving"
	if got := strings.Join(told, " "); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	show := func(i int, key string) string {
		text, err := json.Marshal(all[i][key])
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	const base = `https://id.example/hallow-sound/`
	for _, c := range []struct {
		i         int
		key, want string
	}{
		{0, "eventTime", `"2026-09-21T15:13:20.000+01:00"`},
		{0, "quantityList", `[{"epcClass":"` + base + `delivery/L26-0001","quantity":28460,"uom":"KGM"}]`},
		{0, "sourceList", `[{"source":"` + base + `party/Skerry%20\u0026%20Daughters","type":"possessing_party"}]`},
		{7, "transformationID", `"` + base + `piece/P26-0001"`},
		{8, "transformationID", `"` + base + `piece/P26-0001"`},
		{8, "outputQuantityList", `[{"epcClass":"https://id.gs1.org/01/09521234543213/10/M26-0001","quantity":16500,"uom":"KGM"},{"epcClass":"` + base + `byproduct/CULMS","quantity":600,"uom":"KGM"}]`},
		{9, "outputQuantityList", `[{"epcClass":"https://id.gs1.org/01/09521234543213/10/M26-0002","quantity":10000,"uom":"KGM"}]`},
		{10, "destinationList", `[{"destination":"` + base + `party/Tern%20Brewery","type":"possessing_party"}]`},
		{13, "errorDeclaration", `{"declarationTime":"2026-09-22T05:13:20.000Z","reason":"incorrect_data"}`},
	} {
		if got := show(c.i, c.key); got != c.want {
			t.Errorf("event %d, %s:\n got %s\nwant %s", c.i, c.key, got, c.want)
		}
	}
	if all[13]["eventID"] != all[1]["eventID"] || all[1]["errorDeclaration"] != nil {
		t.Errorf("the struck receipt: %v, %v", all[1], all[13])
	}
}

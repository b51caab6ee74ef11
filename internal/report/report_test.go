package report

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"flag"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"awn/internal/words"
	"awn/reckon"
)

var update = flag.Bool("update", false, "write the golden files anew")

// written is everything that a report writes.
func written(t *testing.T, r Report) map[string]string {
	t.Helper()
	out := map[string]string{}
	for name, write := range map[string]func(io.Writer) error{
		"account.txt": r.Text, "report.html": r.HTML, "curve.csv": r.CSV, "outcome.json": r.JSON,
	} {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		out[name] = b.String()
	}
	return out
}

// formulasOf cuts the appendix off a page: it follows the code and would make
// every formula's edit an edit of the golden file.
func formulasOf(html string) (page, appendix string) {
	i := strings.Index(html, `<section id="formulas">`)
	return html[:i], html[i:]
}

func TestReportIsAsItWas(t *testing.T) {
	for name, got := range written(t, sample()) {
		if name == "report.html" {
			got, _ = formulasOf(got)
		}
		file := filepath.Join("testdata", name)
		if name == "curve.csv" {
			file = filepath.Join("testdata", "curve.golden") // a .csv there is a published table
		}
		if *update {
			if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if got != string(want) {
			t.Errorf("%s differs from its golden file; if that is meant, run the test with -update", name)
		}
	}
}

func TestReportIsTheSameTwice(t *testing.T) {
	first, second := written(t, sample()), written(t, sample())
	for name := range first {
		if first[name] != second[name] {
			t.Errorf("%s differs from run to run", name)
		}
	}
}

// wideAccount is how many letters a line of the account may have, and
// tallAccount how many lines fit on a screen.
const (
	wideAccount = 80
	tallAccount = 45
)

func TestAccountFitsAScreen(t *testing.T) {
	for name, u := range map[string]words.Units{"metric": {}, "American": words.American, "comma": {Mark: words.MarkComma}} {
		r := sample()
		r.Units = u
		text := written(t, r)["account.txt"]
		lines := strings.Split(strings.TrimRight(text, "\n"), "\n")
		if len(lines) > tallAccount {
			t.Errorf("%s: %d lines, at most %d", name, len(lines), tallAccount)
		}
		for _, l := range lines {
			if letters(l) > wideAccount {
				t.Errorf("%s: a line of %d letters: %q", name, letters(l), l)
			}
			if strings.Contains(l, "\x1b") || strings.TrimRight(l, " ") != l {
				t.Errorf("%s: %q is not plain text", name, l)
			}
		}
	}
}

// mostPage is how long the report may be, in bytes.
const mostPage = 400_000

func TestPageOpensOffline(t *testing.T) {
	page := written(t, sample())["report.html"]
	if len(page) > mostPage {
		t.Errorf("%d bytes, at most %d", len(page), mostPage)
	}
	for _, no := range []string{"<script", "<link", "<iframe", "@import", "url(http", "javascript:", "ZgotmplZ"} {
		if strings.Contains(page, no) {
			t.Errorf("the page holds %q", no)
		}
	}
	if out := regexp.MustCompile(`(?:src|href)="[^#"]`).FindString(page); out != "" {
		t.Errorf("the page points outside itself: %s", out)
	}
	ids := regexp.MustCompile(` id="([^"]+)"`).FindAllStringSubmatch(page, -1)
	seen := map[string]bool{}
	for _, id := range ids {
		if seen[id[1]] {
			t.Errorf("two parts of the page are called %q", id[1])
		}
		seen[id[1]] = true
	}
}

// TestFormulasBehindFiguresExist follows every mark beside a figure to its
// formula in the appendix.
func TestFormulasBehindFiguresExist(t *testing.T) {
	page := written(t, sample())["report.html"]
	marks := regexp.MustCompile(`href="#([^"]+)"`).FindAllStringSubmatch(page, -1)
	if len(marks) < len(behind) {
		t.Errorf("only %d marks", len(marks))
	}
	for _, m := range marks {
		if !strings.Contains(page, ` id="`+m[1]+`"`) {
			t.Errorf("nothing is called %s", m[1])
		}
	}
	known := map[string]bool{}
	for _, f := range reckon.Catalogue() {
		known[f.Key()] = true
	}
	for key, formulas := range behind {
		for _, f := range formulas {
			if !known[f] {
				t.Errorf("%s rests on %s, which the catalogue does not have", key, f)
			}
		}
	}
}

// TestPicturesAreXML reads each picture as it stands in the page.
func TestPicturesAreXML(t *testing.T) {
	page := written(t, sample())["report.html"]
	pictures := regexp.MustCompile(`(?s)<svg xmlns.*?</svg>\n`).FindAllString(page, -1)
	const inSample = 10 // course, two beds twice, growth, marks, three flows
	if len(pictures) != inSample {
		t.Errorf("%d pictures, want %d", len(pictures), inSample)
	}
	for _, p := range pictures {
		if err := xml.Unmarshal([]byte(p), new(struct{})); err != nil {
			t.Errorf("%v in %.80s", err, p)
		}
	}
}

// fractions are the keys of JSON numbers without a unit: fractions, counts and
// numbers of places. The set is closed.
var fractions = []string{
	"model", "closure", "chance", "cost_share", "column", "layer", "class", "value", "least", "most", "margin", "guard",
	"chit", "acrospire", "acrospire_p10", "acrospire_p90", "acrospire_quarters", "recirculation", "oxygen_least", "co2_most", "co2_room", "floor_share", "dry_share",
	"overgrown", "undergrown", "idle", "friability", "limit_dextrinase", "alpha_amylase_left", "beta_amylase_left",
	"endo_glucanase_left", "exo_glucanase_left", "smm_left", "per_received", "per_cleaned", "per_steeped", "per_dry",
	"barley_per_malt", "break", "low", "high",
}

func TestJSONKeysEndInTheirUnit(t *testing.T) {
	text := written(t, sample())["outcome.json"]
	if strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
		t.Error("there is a number that is none")
	}
	var all map[string]any
	if err := json.Unmarshal([]byte(text), &all); err != nil {
		t.Fatal(err)
	}
	name := regexp.MustCompile(`^[a-z][a-z0-9]*(_[a-z0-9]+)*$`)
	money := regexp.MustCompile(`_(cost|value)$`)
	var walk func(key string, v any)
	walk = func(key string, v any) {
		switch v := v.(type) {
		case map[string]any:
			for k, x := range v {
				if !name.MatchString(k) {
					t.Errorf("%s is not a key in lower snake", k)
				}
				walk(k, x)
			}
		case []any:
			for _, x := range v {
				walk(key, x)
			}
		case float64:
			if !words.HasUnit(key) && !money.MatchString(key) && !slices.Contains(fractions, key) {
				t.Errorf("%s ends in no unit", key)
			}
		}
	}
	walk("", all)
	for _, key := range []string{"awn", "program", "model", "inputs", "result", "findings"} {
		if _, ok := all[key]; !ok {
			t.Errorf("the envelope has no %s", key)
		}
	}
}

// keptOut are words that the trade does not use and other programs do.
var keptOut = regexp.MustCompile(`(?i)\b(dashboard|board|card|tile|widget|pipeline|hub|insights?|smart|sync|brew day|inventory|batch|work order|tank|asset|tag|module|workspace|wizard)s?\b`)

func TestKeptOutWords(t *testing.T) {
	for name, text := range written(t, sample()) {
		text, _, _ = strings.Cut(text, `<section id="formulas">`)
		text = regexp.MustCompile(`(?s)<style>.*?</style>`).ReplaceAllString(text, "")
		if w := keptOut.FindString(text); w != "" {
			t.Errorf("%s uses the word %q", name, w)
		}
	}
}

// TestPhrasesAreThereAndUsed holds the phrases of the catalogue against the
// code of this package and of the pages.
func TestPhrasesAreThereAndUsed(t *testing.T) {
	var files []string
	for _, pattern := range []string{"*.*", "../web/*.go", "../web/templates/*.html", "../cli/rankfault.go"} {
		some, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, some...)
	}
	code := ""
	for _, f := range files {
		if strings.HasSuffix(f, "_test.go") {
			continue
		}
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		code += string(text)
	}
	phrases := words.Phrases()
	var prefixes []string // of keys that are put together
	for _, m := range regexp.MustCompile(`[sS]ay ?\(?(?:print )?"([a-z0-9.-]+)"( ?\+| \.)?`).FindAllStringSubmatch(code, -1) {
		if m[2] != "" {
			prefixes = append(prefixes, m[1])
		} else if !slices.Contains(phrases, m[1]) {
			t.Errorf("phrase %s is not in the catalogue", m[1])
		}
	}
	ofWords := regexp.MustCompile(`^(list|moment|day|span|fault)\b`) // put together by package words itself
	for _, p := range phrases {
		built := slices.ContainsFunc(prefixes, func(prefix string) bool { return strings.HasPrefix(p, prefix) })
		if !ofWords.MatchString(p) && !built && !strings.Contains(code, `"`+p+`"`) {
			t.Errorf("phrase %s is not used", p)
		}
	}
	for name, text := range written(t, sample()) {
		if name == "report.html" {
			text, _ = formulasOf(text)
		}
		if strings.HasSuffix(name, ".html") || strings.HasSuffix(name, ".txt") {
			if m := regexp.MustCompile(`\b(section|group|row|head|table|picture|says|line|band|panel|verdict|worst|cost|lot|left|corns|growth|brew|yield|formula)\.[a-z-]+\b|\{[a-z]+\}`).FindString(regexp.MustCompile(`(?s)<style>.*?</style>`).ReplaceAllString(text, "")); m != "" {
				t.Errorf("%s: %s came through unsaid", name, m)
			}
		}
	}
}

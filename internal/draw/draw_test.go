package draw

import (
	"encoding/xml"
	"flag"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the golden files anew")

func samples() map[string]Picture {
	p := samplePen
	return map[string]Picture{
		"course": p.Course(sampleCourse()), "bed": p.Bed(sampleBed()), "marks": p.Marks(sampleMarks()),
		"flow": p.Flow(sampleFlow()), "growth": p.Growth(sampleGrowth()),
		"years": p.Years(sampleYears()), "map": p.Map(sampleMap()),
		"rules": p.Rules(sampleRules()), "scatter": p.Scatter(sampleScatter()), "ends": p.Ends(sampleEnds()),
		"keeping": p.Keeping(sampleKeeping()), "sections": p.Sections(sampleSections()),
		"origin": p.Origin(sampleOrigin()),
	}
}

func TestPicturesAreAsTheyWere(t *testing.T) {
	for name, pic := range samples() {
		file := filepath.Join("testdata", name+".svg")
		if *update {
			if err := os.WriteFile(file, []byte(pic.SVG+"\n"), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if pic.SVG+"\n" != string(want) {
			t.Errorf("%s differs from %s; if that is meant, run the test with -update", name, file)
		}
	}
}

// TestPicturesAreXML reads every picture as XML and looks for what a reader
// who cannot see it needs: a title, a description, and a full table.
func TestPicturesAreXML(t *testing.T) {
	for name, pic := range samples() {
		found := map[string]bool{}
		for d := xml.NewDecoder(strings.NewReader(pic.SVG)); ; {
			token, err := d.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			if e, ok := token.(xml.StartElement); ok {
				found[e.Name.Local] = true
			}
		}
		if !found["title"] || !found["desc"] {
			t.Errorf("%s has no title or description", name)
		}
		if strings.Contains(pic.SVG, "NaN") || strings.Contains(pic.SVG, "Inf") {
			t.Errorf("%s has a place that is not a number", name)
		}
		if pic.Says == "" || len(pic.Table.Rows) == 0 {
			t.Errorf("%s says nothing or has no table", name)
		}
		for _, row := range pic.Table.Rows {
			if len(row) != len(pic.Table.Head) {
				t.Errorf("%s: a row of %d under a head of %d", name, len(row), len(pic.Table.Head))
			}
		}
	}
}

// TestWordsAreEscaped puts markup where a house's own words go.
func TestWordsAreEscaped(t *testing.T) {
	f := sampleFlow()
	f.Bars[0].Word, f.Title = `<b onload="x">&`, `"><script>`
	svg := samplePen.Flow(f).SVG
	if strings.Contains(svg, "<script") || strings.Contains(svg, "<b ") {
		t.Error("markup in a word gets through")
	}
}

// TestNothingToDraw gives empty data to every picture.
func TestNothingToDraw(t *testing.T) {
	p := samplePen
	for name, pic := range map[string]Picture{
		"course": p.Course(Course{ID: "a", Panels: []Panel{{Title: "t", Lines: []Line{{}}, Bands: []Band{{}}}}}),
		"bed":    p.Bed(Bed{ID: "a"}), "marks": p.Marks(Marks{ID: "a", Rows: []Mark{{}}}),
		"flow": p.Flow(Flow{ID: "a", Bars: []Bar{{}}}), "growth": p.Growth(Growth{ID: "a", Classes: []Grown{{}}}),
		"years": p.Years(Years{ID: "a", Rows: []YearRow{{}}}), "map": p.Map(Map{ID: "a", Places: []MapPlace{{}}}),
		"rules":   p.Rules(Rules{ID: "a", Words: []string{"w"}, Rows: []Ruled{{}, {Marks: []RuleMark{{Mid: math.NaN()}, {}}}}}),
		"scatter": p.Scatter(Scatter{ID: "a", Dots: []Dot{{X: math.NaN()}}}), "ends": p.Ends(Ends{ID: "a", Lines: []EndLine{{}}}),
	} {
		if err := xml.Unmarshal([]byte(pic.SVG), new(struct{})); err != nil || strings.Contains(pic.SVG, "NaN") {
			t.Errorf("%s: %v in %s", name, err, pic.SVG)
		}
	}
}

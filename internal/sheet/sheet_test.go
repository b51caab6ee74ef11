package sheet

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"awn/internal/draw"
	"awn/internal/tools/need"
)

// made lays out a sheet with everything in it, and the pictures that the
// golden files of package draw hold.
func made(t *testing.T) []byte {
	t.Helper()
	s := New(Options{Title: "Sheet", Lang: "en", Foot: "Hallow Sound", Of: "page %d of %s", At: time.UnixMilli(1785312000000)})
	s.QR("https://example.org/c/C26-0001", 28)
	s.Title("Barley at the gate", "Load 17, Wennemark")
	s.Pairs([][2]string{{"Variety", "Braemore"}, {"Moisture", "13.4 % wb"}, {"Left out", ""}})
	s.Strong("Accepted, at a discount for plump corns.")
	s.Heading("Factors")
	rows := [][]string{}
	for range 70 {
		rows = append(rows, []string{"corns over 2.5 mm", "88.4 %", "≥ 90 %", "fails by 1.6 in a sentence that is so long that it cannot stand in a line of a table that has four columns"})
	}
	s.Table([]string{"what", "found", "limit", "verdict"}, rows, "lrrl")
	s.Caution("Barley dust can explode.")
	for _, name := range pictures(t) {
		svg, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		s.Picture(draw.Picture{SVG: string(svg), Says: filepath.Base(name)})
	}
	s.Sign("early shift", "late shift")
	var b bytes.Buffer
	if _, err := s.WriteTo(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func pictures(t *testing.T) []string {
	t.Helper()
	names, err := filepath.Glob("../draw/testdata/*.svg")
	if err != nil || len(names) == 0 {
		t.Fatalf("no pictures: %v", err)
	}
	return names
}

func TestSameContentSameBytes(t *testing.T) {
	if !bytes.Equal(made(t), made(t)) {
		t.Error("two sheets of the same content differ")
	}
}

// TestEveryLookIsKnown holds what the pictures ask of a style sheet against
// what print can do.
func TestEveryLookIsKnown(t *testing.T) {
	known := "fill fill-opacity fill-rule stroke stroke-opacity stroke-width stroke-dasharray stroke-linejoin stroke-linecap font font-size font-style font-weight text-anchor overflow " +
		"paint-order font-variant-numeric vector-effect display margin margin-left width max-width height"
	for _, r := range rules {
		for name := range r.look {
			if !has(strings.Fields(known), name) {
				t.Errorf("%v sets %s", r.classes, name)
			}
		}
		for _, name := range []string{"fill", "stroke"} {
			v := r.look[name]
			if _, ok := named[v]; v != "" && v != "none" && !ok {
				t.Errorf("%v: %s %q is not a colour of print", r.classes, name, v)
			}
		}
	}
	if len(rules) < 30 {
		t.Errorf("%d rules were read", len(rules))
	}
}

// TestReadAsPDF gives the sheet to a reader of PDF, where there is one, and
// looks for its words.
func TestReadAsPDF(t *testing.T) {
	reader := need.Program(t, "pdftotext")
	name := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(name, made(t), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(reader, "-layout", name, "-").CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	for _, want := range []string{"Barley at the gate", "Braemore", "≥ 90 %", "page 1 of ", "late shift", "Barley dust can explode."} {
		if !strings.Contains(string(out), want) {
			t.Errorf("%q cannot be read from the sheet", want)
		}
	}
	if strings.Contains(string(out), "Left out") || strings.Contains(string(out), "{of}") {
		t.Error("an empty pair, or the place of the number of pages, is printed")
	}
}

func TestPictureThatCannotBePrinted(t *testing.T) {
	for _, svg := range []string{"", "<p/>", "<svg><text>", `<svg height="10"><video/></svg>`, `<svg height="10"><path d="M0 0R5 5"/></svg>`, `<svg height="10"><g transform="rotate(5)"/></svg>`} {
		s := New(Options{})
		s.Picture(draw.Picture{SVG: svg})
		if _, err := s.WriteTo(io.Discard); err == nil {
			t.Errorf("%q was printed", svg)
		}
	}
}

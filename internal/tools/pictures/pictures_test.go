package main

import (
	"encoding/xml"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"awn/internal/tools/targets"
)

func TestPicturesAreFresh(t *testing.T) {
	root, err := targets.Root()
	if err != nil {
		t.Fatal(err)
	}
	all, err := pictures()
	if err != nil {
		t.Fatal(err)
	}
	for name, svg := range all {
		got, err := os.ReadFile(filepath.Join(root, dir, name))
		if err != nil {
			t.Fatal(err)
		}
		if string(got) != svg {
			t.Errorf("%s/%s is not what the program draws: run go run ./internal/tools/pictures", dir, name)
		}
	}
	kept, err := os.ReadDir(filepath.Join(root, dir))
	if err != nil {
		t.Fatal(err)
	}
	if len(kept) != len(all) {
		t.Errorf("%d files in %s, and %d are made", len(kept), dir, len(all))
	}
}

// A picture that stands alone is sound XML and leans on no page: no variable
// of a style sheet is left.
func TestPicturesStandAlone(t *testing.T) {
	all, err := pictures()
	if err != nil {
		t.Fatal(err)
	}
	for name, svg := range all {
		if strings.Contains(svg, "var(--") {
			t.Errorf("%s has a colour of the page left", name)
		}
		for d := xml.NewDecoder(strings.NewReader(svg)); ; {
			if _, err := d.Token(); errors.Is(err, io.EOF) {
				break
			} else if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
		}
	}
}

func TestCutTakesTheWholePicture(t *testing.T) {
	const page = `<p><svg aria-labelledby="a-t a-d"><svg></svg></svg><svg aria-labelledby="b-t b-d"/>`
	if got, ok := cut(page, "a"); !ok || got != `<svg aria-labelledby="a-t a-d"><svg></svg></svg>` {
		t.Errorf("cut %q", got)
	}
	if _, ok := cut(page, "c"); ok {
		t.Error("cut a picture that is not there")
	}
}

package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"awn/course"
	"awn/examples"
	"awn/internal/paper"
	"awn/internal/tools/targets"
)

func TestTableIsFresh(t *testing.T) {
	root, err := targets.Root()
	if err != nil {
		t.Fatal(err)
	}
	got, err := os.ReadFile(filepath.Join(root, file))
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != table(course.Parameters()) {
		t.Errorf("%s is not what the program has: run go run ./internal/tools/parameters", file)
	}
}

// A key stands once, its default lies within its range, and it has a source.
func TestEveryLineIsWhole(t *testing.T) {
	all := course.Parameters()
	seen := map[string]bool{}
	for _, p := range all {
		switch {
		case seen[p.Key]:
			t.Errorf("%s stands twice", p.Key)
		case !(p.Low <= p.Default && p.Default <= p.High && p.Low < p.High):
			t.Errorf("%s: %g is not within %g to %g", p.Key, p.Default, p.Low, p.High)
		case p.Unit == "" || p.Distribution == "" || p.Source == "" || p.Mark == "":
			t.Errorf("%s lacks a unit, shape, source or standing", p.Key)
		}
		seen[p.Key] = true
	}
	if lines := strings.Count(table(all), "\n| `"); lines != len(all) {
		t.Errorf("%d parameters, and %d lines", len(all), lines)
	}
}

// The table says that a house can set every figure by its key.
func TestAHouseCanSetEveryParameter(t *testing.T) {
	files := fstest.MapFS{}
	err := fs.WalkDir(examples.Files, ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(examples.Files, path)
		files[path] = &fstest.MapFile{Data: data}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	plant := files["plant.yaml"]
	params := "params:\n"
	for _, p := range course.Parameters() {
		params += fmt.Sprintf("  %s: %s\n", p.Key, strconv.FormatFloat(p.High, 'f', -1, 64))
	}
	plant.Data = append(plant.Data, params...)
	piece, _, faults := paper.Load(files, examples.First)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	for _, p := range course.Parameters() {
		if got, ok := piece.House.Parameters[p.Key]; !ok || got != p.High {
			t.Errorf("%s was set to %g and arrived as %g", p.Key, p.High, got)
		}
	}
}

package main

import (
	"strings"
	"testing"
)

func TestReplaceKeepsTheOtherSections(t *testing.T) {
	text := "# Figures\n\nWords.\n"
	text = replace(text, "Fuzzing", "here, today.", "a 1\n")
	text = replace(text, "Benchmarks", "here, today.", "b 2\n")
	text = replace(text, "Fuzzing", "there, tomorrow.", "a 3\n")
	want := "# Figures\n\nWords.\n\n## Fuzzing\n\nthere, tomorrow.\n\n```\na 3\n```\n\n" +
		"## Benchmarks\n\nhere, today.\n\n```\nb 2\n```\n"
	if text != want {
		t.Errorf("got\n%s\nwant\n%s", text, want)
	}
	if again := replace(text, "Benchmarks", "here, today.", "b 2\n"); again != want {
		t.Errorf("writing the same again changed the file to\n%s", again)
	}
}

func TestPlaceNamesMachineAndModel(t *testing.T) {
	for _, part := range []string{"cores", "go1.", "model "} {
		if !strings.Contains(place(), part) {
			t.Errorf("%q lacks %q", place(), part)
		}
	}
}

func TestChoose(t *testing.T) {
	if _, err := choose(runner{}.parts(), "fuzz,polish"); err == nil {
		t.Error("a part that is not there was taken")
	}
	if parts, err := choose(runner{}.parts(), "peer"); err != nil || len(parts) != 1 || parts[0].name != "peer" {
		t.Errorf("chose %v, %v", parts, err)
	}
}

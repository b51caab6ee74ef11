package cli_test

import (
	"context"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"awn/internal/cli"
	"awn/internal/tools/targets"
)

// word is a word of a command line, in quotes or not.
var word = regexp.MustCompile(`"[^"]*"|[^\s"]+`)

// TestTourGoesAsItIsWritten runs the lines of docs/tour.md, in this year's
// codes.
func TestTourGoesAsItIsWritten(t *testing.T) {
	root, err := targets.Root()
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(filepath.Join(root, "docs", "tour.md"))
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	t.Setenv("AWN_AS", "anna")
	coded := regexp.MustCompile(`\b([LPMSC])26-`).ReplaceAllString(string(text), "${1}"+time.Now().Format("06")+"-")
	lines := 0
	for l := range strings.Lines(coded) {
		if !strings.HasPrefix(l, "    ./awn ") {
			continue
		}
		l, _, _ = strings.Cut(l, "#")
		for part := range strings.SplitSeq(l, ";") {
			var args []string
			for _, w := range word.FindAllString(part, -1) {
				args = append(args, strings.Trim(w, `"`))
			}
			lines++
			if status, out, said := run(context.Background(), args[1:]...); status != cli.Answered {
				t.Fatalf("%v ends with %d: %s%s", args, status, out, said)
			}
		}
	}
	if lines < 20 {
		t.Errorf("only %d lines were run", lines)
	}
}

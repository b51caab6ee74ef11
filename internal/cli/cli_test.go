package cli_test

import (
	"context"
	"strings"
	"sync/atomic"
	"testing"
	"unicode/utf8"

	"awn/internal/cli"
	"awn/reckon"
)

// run runs one command line.
func run(ctx context.Context, args ...string) (status int, out, err string) {
	var o, e strings.Builder
	status = cli.Main(ctx, args, cli.Streams{In: strings.NewReader(""), Out: &o, Err: &e})
	return status, o.String(), e.String()
}

func TestStoppedEndsWithoutAResult(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	status, out, said := run(ctx, "malt", "-q")
	if status != cli.Stopped || out != "" || !strings.Contains(said, "stopped") {
		t.Errorf("status %d, out %q, said %q", status, out, said)
	}
}

// A terminal is 80 letters wide. Only a line that a person typed, and the
// formula of the catalogue under -v, may be longer.
func TestNothingIsWiderThanATerminal(t *testing.T) {
	lines := [][]string{{}, {"reckon"}, {"reckon", "-h"}, {"malt", "-h"}, {"compare", "-h"}, {"malt", "-q", "--draws", "20"}, {"init", "-h"}, {"rank", "-h"}, {"rank", "-q"}, {"survey", "-h"}, {"survey", "-q"}, {"schema", "-h"}, {"version", "-h"}}
	for name := range strings.FieldsSeq("receive move count start act read book analyse release hold blend ship return decide strike person config stock piece trace balance export backup restore verify certify demo due handover close assurance complaint control") {
		lines = append(lines, []string{name, "-h"})
	}
	for _, e := range reckon.Entries() {
		lines = append(lines, []string{"reckon", "help", e.Name})
		for _, x := range e.Examples {
			lines = append(lines, []string{"reckon", x})
		}
	}
	for _, args := range lines {
		status, out, said := run(context.Background(), args...)
		if status != cli.Answered || said != "" {
			t.Errorf("%v ends with %d: %s", args, status, said)
		}
		for l := range strings.Lines(out) {
			if n := utf8.RuneCountInString(strings.TrimRight(l, "\n")); n > 80 {
				t.Errorf("%v: %d letters: %s", args, n, l)
			}
		}
	}
}

// Stopped in the midst of the draws, a command writes what it has, says so in
// the account and beside it, and ends as stopped.
func TestStoppedDrawsAreWritten(t *testing.T) {
	ctx := &impatient{Context: context.Background()}
	ctx.left.Store(30)
	status, text, said := run(ctx, "malt", "-q", "--draws", "10000")
	if status != cli.Stopped || !strings.Contains(said, "of 10000 draws") || !strings.Contains(text, "Stopped after") {
		t.Errorf("status %d, said %q, out %q", status, said, text)
	}
}

// impatient is a context that ends once it has been asked so many times.
type impatient struct {
	context.Context
	left atomic.Int64
}

func (i *impatient) Err() error {
	if i.left.Add(-1) < 0 {
		return context.Canceled
	}
	return nil
}

package cli_test

import (
	"context"
	"io"
	"path/filepath"
	"strings"
	"testing"

	"awn/internal/cli"
)

// TestStoppedLogger: what a logger sent before it was stopped is kept, and its
// seal is on record.
func TestStoppedLogger(t *testing.T) {
	record := filepath.Join(t.TempDir(), "awn.db")
	ctx, stop := context.WithCancel(t.Context())
	in, logger := io.Pipe()
	go func() {
		io.WriteString(logger, "KILN1,2026-01-20T08:00:00Z,64.8,°C\n")
		io.WriteString(logger, "KILN1,2026-01-20T08:00:01Z,64.9,°C\n") // is taken only once the first was
		stop()
	}()
	var out, wrong strings.Builder
	if got := cli.Main(ctx, []string{"log", "-", "-q", "--db", record, "--as", "anna"}, cli.Streams{In: in, Out: &out, Err: &wrong}); got != cli.Stopped {
		t.Errorf("ends with %d: %s", got, wrong.String())
	}
	if !strings.Contains(out.String(), "seals put on record: 1") || strings.Contains(out.String(), "kept: 0") {
		t.Errorf("said %q", out.String())
	}
	out.Reset()
	if got := cli.Main(t.Context(), []string{"verify", "-q", "--db", record, "--as", "anna"}, cli.Streams{Out: &out, Err: &wrong}); got != cli.Answered {
		t.Errorf("verify ends with %d: %s", got, wrong.String())
	}
}

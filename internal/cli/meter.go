package cli

import (
	"fmt"
	"io"
	"os"
	"time"
)

// meter says on a terminal how far a long sum is. Into a file or a pipe it
// says nothing.
type meter struct {
	to   io.Writer // nil: say nothing
	last time.Time
	wide int
}

// everyMs is how often the line is written anew.
const everyMs = 100

// meter is told to standard error, if that is a terminal and nobody asked for
// quiet.
func (j *job) meter() *meter {
	f, ok := j.err.(*os.File)
	if !ok || j.quiet {
		return &meter{}
	}
	info, err := f.Stat()
	if err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return &meter{}
	}
	return &meter{to: f}
}

// tell writes how far it is.
func (p *meter) tell(done, of int, what string) {
	if p.to == nil || time.Since(p.last) < everyMs*time.Millisecond && done < of {
		return
	}
	p.last = time.Now()
	line := fmt.Sprintf("awn: %d of %d %s", done, of, what)
	fmt.Fprintf(p.to, "\r%-*s", p.wide, line)
	p.wide = len(line)
}

// end wipes the line.
func (p *meter) end() {
	if p.to != nil && p.wide > 0 {
		fmt.Fprintf(p.to, "\r%*s\r", p.wide, "")
	}
}

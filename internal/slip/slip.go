// Package slip turns what somebody typed of one thing that happened into an
// entry of the record: the same words and the same faults, whether they come
// from the command line, a page or a program.
//
// A slip is a struct of texts. Its tags are those of a command line: help,
// placeholder, required, enum, arg. [Fields] reads them for a form.
package slip

import (
	"context"
	"fmt"
	"strings"

	"awn/internal/malthouse"
)

// Slip is what was typed of one thing that happened.
type Slip interface {
	// Use is what it asks to do.
	Use() malthouse.Use
	// Enter reads the slip and has the house enter it. What cannot be read
	// comes back as Faults, all at once, and nothing is entered.
	Enter(ctx context.Context, h *malthouse.House, a malthouse.Actor, e malthouse.Entry) (malthouse.Done, error)
}

// Fault is a field that cannot be read.
type Fault struct {
	Field string // as Fields names it
	Says  string // why, and what may stand there
}

// Faults are all that is wrong with a slip.
type Faults []Fault

// Error lists them.
func (f Faults) Error() string {
	lines := make([]string, len(f))
	for i := range f {
		lines[i] = f[i].Field + ": " + f[i].Says
	}
	return strings.Join(lines, "\n")
}

func (f *Faults) add(field, format string, args ...any) {
	*f = append(*f, Fault{field, fmt.Sprintf(format, args...)})
}

// orNil is nil where nothing is wrong.
func (f Faults) orNil() error {
	if len(f) == 0 {
		return nil
	}
	return f
}

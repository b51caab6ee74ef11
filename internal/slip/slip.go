// Package slip turns what somebody typed of one thing that happened into an
// entry of the record: the same words and the same faults, whether they come
// from the command line, a page or a program.
//
// A slip is a struct of texts. Its tags are those of a command line: help,
// placeholder, required, enum, arg. [Fields] reads them for a form.
package slip

import (
	"context"
	"errors"
	"strings"

	"awn/internal/malthouse"
	"awn/internal/paper"
	"awn/unit"
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
	Says  string // why, and what may stand there, in English

	Code    string // a key of Sentences, or of those of unit; "" for what only English says
	Within  string // the whole of what was typed, where Got is a part of it
	Got     string
	Allowed []string
	Nearest string
}

// Sentences has the English text of every code of this package.
var Sentences = map[string]string{
	"slip.value.missing":    "This has to be filled in.",
	"slip.value.twice":      "This was given more than once.",
	"slip.value.word":       "{got} cannot stand here; it should be one of {allowed}.",
	"slip.value.whole":      "{got} is not a whole number.",
	"slip.mark.ambiguous":   "{got} can be read in two ways; write {allowed}.",
	"slip.time.form":        "{got} is not a time; write {allowed}, or 14:30 for today.",
	"slip.draw.form":        "{got}: write a place and a mass, as in {allowed}.",
	"slip.figure.unknown":   "{got} is not a figure here{nearest}; they are {allowed}.",
	"slip.tare.heavy":       "The empty vehicle weighs more than the full one.",
	"slip.gross.alone":      "The vehicle full and empty go together.",
	"slip.net.missing":      "The weight is missing: give it, or the vehicle full and empty.",
	"slip.decision.missing": "Say what was decided, or how the place is drawn.",
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

// Of is the fault of a code of this package.
func Of(field, code, got string, allowed ...string) Fault {
	return Fault{Field: field, Says: unit.Fill(Sentences[code], got, allowed, ""), Code: code, Got: got, Allowed: allowed}
}

func (f *Faults) add(field, code, got string, allowed ...string) {
	*f = append(*f, Of(field, code, got, allowed...))
}

// unread adds why a text is no quantity or figure. Within is the whole of what
// was typed, if the text is a part of it.
func (f *Faults) unread(field, within string, err error) {
	one := Fault{Field: field, Says: err.Error(), Within: within}
	var quantity *unit.Error
	var figure *paper.FigureError
	switch {
	case errors.As(err, &quantity):
		one.Code, one.Got, one.Allowed, one.Nearest = quantity.Code, quantity.Got, quantity.Allowed, quantity.Nearest
	case errors.As(err, &figure):
		one.Code, one.Got, one.Allowed, one.Nearest = "slip.figure.unknown", figure.Name, figure.Names, figure.Nearest
	}
	if within != "" {
		one.Says = "“" + within + "”: " + one.Says
	}
	*f = append(*f, one)
}

// orNil is nil where nothing is wrong.
func (f Faults) orNil() error {
	if len(f) == 0 {
		return nil
	}
	return f
}

package ledger

import (
	"errors"
	"fmt"
	"strings"

	"awn/unit"
)

// Fault is one thing that is wrong with an entry.
type Fault struct {
	Code    string   // a key of Sentences
	Path    string   // "from[1].amount.fresh_kg"
	Got     string   // what stands there
	Allowed []string // what may stand there
	Nearest string   // which of those was probably meant, "" if none
}

// Error gives path, sentence and code.
func (f Fault) Error() string {
	s := unit.Fill(Sentences[f.Code], f.Got, f.Allowed, f.Nearest) + " [" + f.Code + "]"
	if f.Path != "" {
		return f.Path + ": " + s
	}
	return s
}

// Faults are all that is wrong with an entry.
type Faults []Fault

// Error lists them.
func (f Faults) Error() string {
	lines := make([]string, len(f))
	for i := range f {
		lines[i] = f[i].Error()
	}
	return strings.Join(lines, "\n")
}

func (f *Faults) add(code, path string, got any, allowed ...string) {
	text := fmt.Sprint(got)
	if r := []rune(text); len(r) > 40 {
		text = string(r[:39]) + "…"
	}
	*f = append(*f, Fault{code, path, text, allowed, unit.Nearest(text, allowed)})
}

func (f *Faults) join(err error) {
	var more Faults
	if errors.As(err, &more) {
		*f = append(*f, more...)
	}
}

func (f Faults) orNil() error {
	if len(f) == 0 {
		return nil
	}
	return f
}

// Refused makes a refusal of one entry that a store found out.
func Refused(code, path, got string) error { return Faults{{Code: code, Path: path, Got: got}} }

// Sentences has the English text of every code of this package.
var Sentences = map[string]string{
	"record.body.size":        `The body is longer than a fact may be: {got}.`,
	"record.body.encoding":    `The body is not UTF-8 text.`,
	"record.body.syntax":      `The body is not one JSON object: {got}.`,
	"record.key.twice":        `{got} stands here twice.`,
	"record.key.unknown":      `{got} is not a key here{nearest}; the keys are {allowed}.`,
	"record.key.missing":      `{got} is missing.`,
	"record.value.type":       `{got} is not {allowed}.`,
	"record.value.range":      `{got} is out of range; it must be {allowed}.`,
	"record.value.choice":     `{got} is not known here{nearest}; it should be {allowed}.`,
	"record.list.empty":       `At least one entry must stand here.`,
	"record.code.form":        `{got} is not a code: capital letters, digits and hyphens, at most 20.`,
	"record.account.form":     `{got} is not a place here{nearest}; it should be one of {allowed}, a colon and a code, as in silo:B7.`,
	"record.subject.form":     `{got} does not name a thing of the record{nearest}; it should be one of {allowed}, a colon and a code.`,
	"record.period.form":      `{got} is not a month such as 2026-11.`,
	"record.sha256.form":      `{got} is not a SHA-256 in 64 small hexadecimal digits.`,
	"record.quantity.form":    `{got} does not name a quantity in small letters and underscores that end in its unit.`,
	"record.mass.precision":   `{got} kg is finer than a gram.`,
	"record.moisture.missing": `The moisture is missing: give moisture_wb or moisture_db.`,
	"record.moisture.two":     `The moisture stands here on two bases that disagree: {got}.`,
	"record.net.differs":      `Gross less tare is {got} kg, which is not the net weight entered.`,
	"record.place.same":       `{got} is both where it came from and where it went.`,
	"record.span.order":       `The last moment is before the first: {got}.`,
	"record.id.form":          `{got} is not a UUID of version 7.`,
	"record.id.other":         `A fact with this id says something else: {got}.`,
	"record.house.form":       `{got} does not name a house: small letters, digits and hyphens, at most 40.`,
	"record.time.range":       `{got} is not a time between 1970 and 2200 in ms.`,
	"record.offset.range":     `{got} minutes is no offset of a clock from UTC.`,
	"record.who.form":         `{got} does not say who.`,
	"record.kind.unknown":     `{got} is not something that can happen here{nearest}; it should be {allowed}.`,
	"record.schema.unknown":   `Schema {got} of this kind is not known to this program; it knows up to {allowed}.`,
	"record.strike.unknown":   `There is no fact {got} to strike.`,
	"record.strike.twice":     `Fact {got} is struck already.`,
	"record.strike.strike":    `Fact {got} is a strike itself; enter what it struck anew.`,
	"record.chain.gap":        `a fact is missing here`,
	"record.chain.hash":       `this fact or the one before is not what was entered`,
	"record.chain.house":      `this fact is of another house`,
	"record.chain.head":       `the record parts here from a head printed earlier`,
}

package cli

import (
	"awn/internal/house"
	"awn/internal/report"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"awn/reckon"
)

type reckonCommand struct {
	JSON  bool     `help:"Write JSON: SI units, fractions."`
	Units bool     `help:"List every unit that is read, with its exchange codes; of a quantity, if one is named."`
	Words []string `arg:"" optional:"" name:"what" placeholder:"WHAT QUANTITIES ..." help:"Entry, and what it is given."`
}

// Help says how a line of the reckoner is read.
func (c *reckonCommand) Help() string {
	return `  awn reckon                          lists the entries
  awn reckon help air                 explains one
  awn reckon air 30 °C 50 %rh at 300 m
  awn reckon water 25 t from 16 % to 13.5 %
  awn reckon emc malt t=20°C moisture="4.5 % wb" --json

A line is quantities, each a number with its unit, in any order. The space
between them may be left out, and quotes are not needed. A name in front says
what a quantity is: “rh=50 %” or “rh 50 %”. Without one it goes to the first
input that takes its unit. Words such as “of”, “at” and “for” may join them.
“in lb” at the end asks for a unit. Where a sum has parts, “then” begins the
next. Below the answer stand what it means, the formula with the working, the
source, the range and the rule of rounding.

` + contents()
}

// Run answers one line, or lists what may be asked.
func (c *reckonCommand) Run(j *job) error {
	if c.Units {
		return listUnits(j.out, strings.Join(c.Words, " "), c.JSON)
	}
	if len(c.Words) == 0 {
		_, err := fmt.Fprint(j.out, contents())
		return err
	}
	words := strings.Fields(strings.Join(c.Words, " "))
	if len(words) > 1 && words[0] == "help" {
		words = []string{words[1]}
	}
	e, err := reckon.Find(words[0])
	if err != nil {
		return &sumError{words[0], "", faultsOf(err)}
	}
	if len(words) == 1 {
		_, err := fmt.Fprint(j.out, explained(e))
		return err
	}
	line := strings.Join(words[1:], " ")
	a, err := e.Ask(line)
	if err != nil {
		return &sumError{words[0], line, faultsOf(err)}
	}
	if c.JSON {
		return report.WriteJSON(j.out, report.Reckoning(a, house.ReadVersion()))
	}
	_, err = fmt.Fprint(j.out, answered(a, j.verbose))
	return err
}

// sumError is what is wrong with a line of the reckoner.
type sumError struct {
	entry, line string
	faults      reckon.Faults
}

// faultsOf are the faults behind an error of the reckoner.
func faultsOf(err error) reckon.Faults {
	var many reckon.Faults
	var one *reckon.Fault
	switch {
	case errors.As(err, &many):
		return many
	case errors.As(err, &one):
		return reckon.Faults{one}
	}
	return reckon.Faults{{Code: "reckon.answer.range", Got: err.Error(), Refused: true}}
}

func (e *sumError) status() int {
	if e.faults.Refused() {
		return Refused
	}
	return BadLine
}

// Error shows each fault with a caret under its place in the line.
func (e *sumError) Error() string {
	var b strings.Builder
	typed := strings.TrimSpace("awn reckon " + e.entry + " " + e.line)
	behind := utf8.RuneCountInString(typed) - utf8.RuneCountInString(e.line)
	if e.line == "" {
		behind = len("awn reckon ")
	}
	for _, f := range e.faults {
		fmt.Fprintf(&b, "%s\n", typed)
		if f.Width > 0 {
			fmt.Fprintf(&b, "%s%s\n", strings.Repeat(" ", behind+f.At), strings.Repeat("^", f.Width))
		}
		for _, l := range wrap(fmt.Sprintf("%s [%s]", f, f.Code), width) {
			fmt.Fprintln(&b, l)
		}
		fmt.Fprintln(&b)
	}
	if e.line != "" && !strings.HasPrefix(e.entry, "-") {
		fmt.Fprintf(&b, "“awn reckon help %s” says how it is asked.\n", e.entry)
	}
	return b.String()
}

package cli

import (
	"fmt"
	"strings"

	"github.com/alecthomas/kong"

	"awn/reckon"
	"awn/unit"
)

// minus makes "-5" a number and not a flag.
func minus(args []string) []string {
	out := make([]string, len(args))
	for i, a := range args {
		if len(a) > 1 && a[0] == '-' && a[1] >= '0' && a[1] <= '9' {
			a = "−" + a[1:]
		}
		out[i] = a
	}
	return out
}

// flagsLast puts the words in front of the flags, so that a flag may stand
// between words.
func flagsLast(parser *kong.Kong, args []string) []string {
	valued := map[string]bool{} // flags with a value behind them
	nodes := append([]*kong.Node{parser.Model.Node}, parser.Model.Children...)
	for _, n := range nodes {
		for _, f := range n.Flags {
			valued["--"+f.Name] = !f.IsBool()
			if f.Short != 0 {
				valued["-"+string(f.Short)] = !f.IsBool()
			}
		}
	}
	var words, flags []string
	for i := 0; i < len(args); i++ {
		a := args[i]
		switch {
		case a == "--":
			return append(append(append(words, flags...), a), args[i+1:]...)
		case len(a) < 2 || a[0] != '-':
			words = append(words, a)
		default:
			flags = append(flags, a)
			name := a
			if !strings.HasPrefix(a, "--") {
				name = "-" + a[len(a)-1:] // of "-qo" the last may have a value
			}
			if valued[name] && i+1 < len(args) {
				i++
				flags = append(flags, args[i])
			}
		}
	}
	return append(words, flags...)
}

// lineError is a command line that cannot be read.
type lineError struct{ text string }

func (e *lineError) Error() string { return e.text }

// unknownCommand says which command was probably meant.
func unknownCommand(parser *kong.Kong, args []string) error {
	var names []string
	for _, n := range parser.Model.Children {
		names = append(names, n.Name)
	}
	for i, a := range args {
		switch {
		case a == "-o" || a == "--output":
			return nil // kong says what follows it
		case strings.HasPrefix(a, "-"):
			continue
		}
		for _, name := range names {
			if a == name {
				return nil
			}
		}
		hint := ""
		if _, err := reckon.Find(a); err == nil {
			hint = fmt.Sprintf(" Did you mean “awn reckon %s”?", strings.Join(args[i:], " "))
		} else if near := unit.Nearest(a, names); near != "" {
			hint = fmt.Sprintf(" Did you mean “awn %s”?", near)
		}
		return &lineError{fmt.Sprintf("“%s” is not a command of awn.%s “awn” alone shows them all.", a, hint)}
	}
	return nil
}

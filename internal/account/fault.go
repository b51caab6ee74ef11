package account

import "strings"

// Fault is why somebody is not let in, or a password not taken.
type Fault struct {
	Code   string // a key of Sentences
	Detail string
}

// Error is the sentence with its code.
func (f *Fault) Error() string { return f.Says() + " [" + f.Code + "]" }

// Says is the sentence.
func (f *Fault) Says() string { return strings.ReplaceAll(Sentences[f.Code], "{detail}", f.Detail) }

// Sentences has the English text of every code of this package.
var Sentences = map[string]string{
	"account.sign-in.wrong":   `Name or password is wrong.`,
	"account.sign-in.often":   `Too many tries failed from here or for this name. Wait a quarter of an hour, or ask a manager for a link.`,
	"account.password.short":  `A password has at least ten characters, and at most two hundred. Four words that do not belong together are a good one.`,
	"account.password.plain":  `This password is the name itself. Take another.`,
	"account.password.wrong":  `The password so far is wrong.`,
	"account.name.wrong":      `“{detail}” cannot be typed at the keyboard as a name: letters, digits, dots and hyphens, at most 40 of them.`,
	"account.code.wrong":      `This is not the code that was printed when the house was opened.`,
	"account.first.late":      `There is an account already: sign in, or ask a manager for a link.`,
	"account.first.unknown":   `“{detail}” is no manager of this house. The first account is that of a manager whom the record knows.`,
	"account.link.ended":      `This link was used or has ended. Ask a manager for another.`,
	"account.token.scope":     `“{detail}” is not something that a token can be for.`,
	"account.token.days":      `A token holds for 1 to 366 days.`,
	"account.token.name":      `Give the token a name by which it is known, of at most 60 characters.`,
	"account.token.elsewhere": `There is no such token, or it is somebody else's.`,
}

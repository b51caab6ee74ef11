// Command codes writes docs/codes.md: every code by which awn names a fault, a
// finding or a change, with its English sentence.
package main

import (
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"awn/internal/account"
	"awn/internal/exchange"
	"awn/internal/malthouse"
	"awn/internal/paper"
	"awn/internal/slip"
	"awn/internal/sqlstore"
	"awn/internal/tools/targets"
	"awn/internal/web"
	"awn/internal/words"
	"awn/ledger"
	"awn/reckon"
)

// file is where the list lies, below the root of the module.
const file = "docs/codes.md"

func main() {
	root, err := targets.Root()
	if err == nil {
		err = os.WriteFile(filepath.Join(root, file), []byte(list()), 0o644)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "codes:", err)
		os.Exit(1)
	}
}

// list is the text of the file.
func list() string {
	var b strings.Builder
	b.WriteString(`# Codes

Every fault, finding and change has a code, the same on the terminal, in JSON and on pages. A code is never used again for
something else. A star in a code stands for any figure of an analysis. What stands in braces is filled in; what stands in square brackets is left out where a figure is not known.

This file is made by: go run ./internal/tools/codes

`)
	documents := map[string]string{}
	for _, c := range paper.Codes {
		documents[c.Code] = c.Sentence
	}
	record := map[string]string{}
	for code, w := range sqlstore.Codes {
		record[code] = w.Sentence + " " + w.Do
	}
	for code, sentence := range ledger.Sentences {
		record[code] = sentence
	}
	findings, acts := words.Texts()
	section(&b, "Faults of documents and quantities", "The input is refused, with file, line and column (exit 3; a quantity typed behind `awn reckon`, exit 2).", documents)
	section(&b, "Faults of a line of the pocket tables", "Exit 2 if the line cannot be read, 3 if it has no answer.", reckon.Sentences)
	section(&b, "Faults of a record", "Its entries, its chain, its file, its server, its backups (exit 4 if an entry is refused, 5 if the machine fails).", record)
	section(&b, "Faults of a file that is brought in", "Nothing of it comes in; each with row and column (exit 3).", exchange.Sentences)
	section(&b, "Faults of a page", "What was asked for cannot be given (`awn serve`); in /api/v1 as problem+json, urn:awn:fault: before the code.", web.Codes)
	section(&b, "Findings", "What a computed piece has to say.", findings)
	section(&b, "Changes", "What makes a finding vanish.", acts)
	section(&b, "Uses of a record that are refused", "Nothing was entered (exit 4).", malthouse.Sentences)
	section(&b, "Slips", "A field of what was typed cannot be read (exit 2; on a page, at its field).", slip.Sentences)
	section(&b, "Accounts", "Somebody is not let in, or a password, link or token is not taken.", account.Sentences)
	return strings.TrimRight(b.String(), "\n") + "\n"
}

// section lists codes in the order of the alphabet.
func section(b *strings.Builder, title, about string, sentences map[string]string) {
	fmt.Fprintf(b, "## %s\n\n%s\n\n| code | sentence |\n| --- | --- |\n", title, about)
	for _, code := range slices.Sorted(maps.Keys(sentences)) {
		fmt.Fprintf(b, "| `%s` | %s |\n", code, strings.ReplaceAll(sentences[code], "|", `\|`))
	}
	b.WriteString("\n")
}

// Command readme runs every command that README.md shows and writes what it
// prints below it.
//
// A command stands in a fenced block on a line that begins with a dollar; what
// follows up to the next command or the end of the block is its output. Where
// that ends in a line of three dots, it shows as many lines as there are and
// leaves out the rest.
package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"awn/internal/cli"
	"awn/internal/tools/targets"
)

const (
	file    = "README.md"
	fence   = "```"
	prompt  = "$ "
	command = prompt + "go run ./cmd/awn "
	more    = "..."
)

func main() {
	if err := write(); err != nil {
		fmt.Fprintln(os.Stderr, "readme:", err)
		os.Exit(1)
	}
}

func write() error {
	root, err := targets.Root()
	if err != nil {
		return err
	}
	path := filepath.Join(root, file)
	text, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	fresh, _, err := refresh(string(text))
	if err != nil {
		return err
	}
	return os.WriteFile(path, []byte(fresh), 0o644)
}

// refresh returns the text with the output of every command as it is now, and
// how many commands there are.
func refresh(text string) (fresh string, commands int, err error) {
	var out []string
	lines := strings.Split(text, "\n")
	for i := 0; i < len(lines); i++ {
		out = append(out, lines[i])
		line, ok := strings.CutPrefix(lines[i], command)
		if !ok {
			continue
		}
		end := i + 1
		for end < len(lines) && lines[end] != fence && !strings.HasPrefix(lines[end], prompt) {
			end++
		}
		if end == len(lines) {
			return "", 0, fmt.Errorf("the block of %q does not end", line)
		}
		printed, err := run(strings.Fields(line))
		if err != nil {
			return "", 0, err
		}
		out = append(out, shown(printed, lines[i+1:end])...)
		commands++
		i = end - 1
	}
	return strings.Join(out, "\n"), commands, nil
}

// shown is what of the output a block shows that had these lines.
func shown(printed, had []string) []string {
	n := len(had)
	if n == 0 || had[n-1] != more || n > len(printed) {
		return printed
	}
	return append(printed[:n-1:n-1], more)
}

// run returns the lines that a command line prints.
func run(args []string) ([]string, error) {
	var out, wrong bytes.Buffer
	status := cli.Main(context.Background(), args, cli.Streams{In: strings.NewReader(""), Out: &out, Err: &wrong})
	if status != cli.Answered {
		return nil, fmt.Errorf("awn %s ended with %d: %s", strings.Join(args, " "), status, wrong.String())
	}
	return strings.Split(strings.TrimRight(out.String(), "\n"), "\n"), nil
}

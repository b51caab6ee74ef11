package main

import (
	"fmt"
	"os"
	"runtime"
	"strings"
	"time"

	"awn/internal/house"
)

// place says on what and when the figures were made.
func place() string {
	return fmt.Sprintf("%s, %d cores, %s/%s, %s, model %d, %s.",
		processor(), runtime.NumCPU(), runtime.GOOS, runtime.GOARCH, runtime.Version(), house.Model,
		time.Now().UTC().Format(time.DateOnly))
}

// processor is the name that Linux gives the processor, where there is one.
func processor() string {
	text, err := os.ReadFile("/proc/cpuinfo")
	if err != nil {
		return "unnamed processor"
	}
	for line := range strings.Lines(string(text)) {
		if name, value, ok := strings.Cut(line, ":"); ok && strings.TrimSpace(name) == "model name" {
			return strings.TrimSpace(value)
		}
	}
	return "unnamed processor"
}

// record puts a section into the file, in place of the one with the same
// title if there is one.
func record(file, title, where, figures string) error {
	text, err := os.ReadFile(file)
	if err != nil {
		return err
	}
	return os.WriteFile(file, []byte(replace(string(text), title, where, figures)), 0o644)
}

func replace(text, title, where, figures string) string {
	heading := "## " + title + "\n"
	section := fmt.Sprintf("%s\n%s\n\n```\n%s\n```\n", heading, where, strings.Trim(figures, "\n"))
	before, after, found := strings.Cut(text, heading)
	if !found {
		return strings.TrimRight(text, "\n") + "\n\n" + section
	}
	if _, next, more := strings.Cut(after, "\n## "); more {
		section += "\n## " + next
	}
	return before + section
}

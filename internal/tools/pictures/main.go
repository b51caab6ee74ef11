// Command pictures writes docs/pictures: pictures out of the report of the
// example and out of the made-up house, each as a file that stands alone.
package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"

	"awn/internal/cli"
	"awn/internal/draw"
	"awn/internal/tools/targets"
)

// dir is where the pictures lie, below the root of the module.
const dir = "docs/pictures"

// shown are the pictures that are kept, by their id: those of the report of the
// example, and the weeks of the made-up house.
var shown = []struct {
	id, name string
	of       func() (string, error)
}{
	{"course", "course.svg", example},
	{"moisture-kiln-0", "kiln-bed.svg", example},
	{"weeks", "weeks.svg", weeks},
}

func main() {
	if err := write(); err != nil {
		fmt.Fprintln(os.Stderr, "pictures:", err)
		os.Exit(1)
	}
}

func write() error {
	root, err := targets.Root()
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Join(root, dir), 0o755); err != nil {
		return err
	}
	all, err := pictures()
	if err != nil {
		return err
	}
	for name, svg := range all {
		if err := os.WriteFile(filepath.Join(root, dir, name), []byte(svg), 0o644); err != nil {
			return err
		}
	}
	return nil
}

// pictures are the pictures shown, by file name.
func pictures() (map[string]string, error) {
	out := map[string]string{}
	for _, p := range shown {
		page, err := p.of()
		if err != nil {
			return nil, err
		}
		svg, ok := cut(page, p.id)
		if !ok {
			return nil, fmt.Errorf("there is no picture %s", p.id)
		}
		if out[p.name], err = alone(svg); err != nil {
			return nil, fmt.Errorf("picture %s: %w", p.id, err)
		}
	}
	return out, nil
}

// example is the report of the example that is built in.
func example() (string, error) {
	temp, err := os.MkdirTemp("", "awn")
	if err != nil {
		return "", err
	}
	defer os.RemoveAll(temp)
	file := filepath.Join(temp, "report.html")
	var wrong bytes.Buffer
	if cli.Main(context.Background(), []string{"malt", "--quiet", "--html", file}, cli.Streams{In: strings.NewReader(""), Out: io.Discard, Err: &wrong}) != cli.Answered {
		return "", fmt.Errorf("awn malt: %s", wrong.String())
	}
	page, err := os.ReadFile(file)
	return string(page), err
}

// cut takes one picture out of a page, with the plots within it.
func cut(page, id string) (string, bool) {
	at := strings.Index(page, `aria-labelledby="`+id+`-t `)
	if at < 0 {
		return "", false
	}
	page = page[strings.LastIndex(page[:at], "<svg"):]
	const end = "</svg>"
	for open, i := 0, 0; i < len(page); i++ {
		switch {
		case strings.HasPrefix(page[i:], "<svg"):
			open++
		case strings.HasPrefix(page[i:], end):
			if open--; open == 0 {
				return page[:i+len(end)], true
			}
		}
	}
	return "", false
}

// The sheet of paper that a picture is put on, px.
const (
	widePx   = 900.0
	gutterPx = 46.0
	marginPx = 14.0
	tailPx   = 26.0 // below, where the figures of the axis hang out
)

// inks are the colours of the page in the light.
var inks = strings.NewReplacer(
	"var(--ink)", "#23201c", "var(--paper)", "#fbf9f4", "var(--warm)", "#a8481c", "var(--faint)", "#6d665c", "var(--text,serif)", "Georgia,serif",
)

var height = regexp.MustCompile(`width="100%" height="([0-9.]+)"`)

// alone puts a picture of a page on its own sheet, with its style and colours.
func alone(svg string) (string, error) {
	found := height.FindStringSubmatch(svg)
	if found == nil {
		return "", fmt.Errorf("its height is not told")
	}
	highPx, err := strconv.ParseFloat(found[1], 64)
	if err != nil {
		return "", err
	}
	innerPx := widePx - gutterPx - marginPx
	svg = strings.Replace(svg, "<svg", fmt.Sprintf(`<svg x="%g" y="%g"`, gutterPx, marginPx), 1)
	svg = strings.Replace(svg, found[0], fmt.Sprintf(`width="%g" height="%g"`, innerPx, highPx), 1)
	sheetPx := highPx + marginPx + tailPx
	return inks.Replace(fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" width="%g" height="%g" viewBox="0 0 %g %g">
<style>%s
svg.awn{width:%gpx}</style>
<rect width="%g" height="%g" style="fill:var(--paper)"/>
%s
</svg>
`, widePx, sheetPx, widePx, sheetPx, strings.TrimSpace(draw.Style), innerPx, widePx, sheetPx, svg)), nil
}

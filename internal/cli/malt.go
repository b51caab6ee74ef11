package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"awn/course"
	"awn/examples"
	"awn/internal/house"
	"awn/internal/paper"
	"awn/internal/report"
	"awn/internal/words"
	"awn/unit"
)

type maltCommand struct {
	Piece string `arg:"" optional:"" placeholder:"PIECE.yaml" help:"The piece; - is standard input."`
	JSON  bool   `xor:"form" help:"Write the whole outcome as JSON."`
	CSV   bool   `xor:"form" help:"Write the course as CSV, a moment in each row."`
	HTML  string `placeholder:"FILE" help:"Write the report, one file that opens anywhere."`
	Units string `enum:"metric,us" default:"metric" env:"AWN_UNITS" placeholder:"WHICH" help:"Units of account and report: metric or us."`
}

// Help says what a piece is.
func (c *maltCommand) Help() string {
	return `  awn malt                            the example that is built in
  awn malt PIECE.yaml
  awn malt PIECE.yaml --html report.html
  awn malt PIECE.yaml --units us
  awn malt --json | jq .result.kilned
  awn malt - < PIECE.yaml

A piece names four documents that lie beside or below it: the lot with its
analysis, the house, the programme, and what the buyer asks. “awn init DIR”
writes some to start from. Quantities stand in your own units, such as
“12.4 % wb”, “62 °F” or “1200 bu”.`
}

// Run takes a piece through its course and writes what came of it.
func (c *maltCommand) Run(j *job) error {
	piece, inputs, err := c.load(j)
	if err != nil {
		return err
	}
	if err := j.ctx.Err(); err != nil {
		return err
	}
	outcome, err := course.Run(&piece)
	if err != nil {
		return &refusal{err}
	}
	if err := j.ctx.Err(); err != nil {
		return err
	}
	r := report.Report{Outcome: outcome, Version: house.ReadVersion(), Inputs: inputs}
	if c.Units == "us" {
		r.Units = words.American
	}
	if c.HTML != "" {
		if err := c.writeHTML(j, r); err != nil {
			return err
		}
	}
	switch {
	case c.JSON:
		return r.JSON(j.out)
	case c.CSV:
		return r.CSV(j.out)
	}
	return r.Text(j.out)
}

// load reads the piece from its file, from standard input, or from the
// examples.
func (c *maltCommand) load(j *job) (course.Piece, []report.Input, error) {
	var (
		piece  course.Piece
		inputs []paper.Input
		faults paper.Faults
		dir    string
	)
	switch c.Piece {
	case "":
		j.note("awn: no piece is named; this is the example, %s. “awn init DIR” writes it out.", examples.First)
		piece, inputs, faults = paper.Load(examples.Files, examples.First)
	case "-":
		data, err := io.ReadAll(j.in)
		if err != nil {
			return piece, nil, err
		}
		piece, inputs, faults = paper.LoadPiece(os.DirFS("."), "stdin", data)
	default:
		if err := readable(c.Piece); err != nil {
			return piece, nil, err
		}
		dir = filepath.Dir(c.Piece)
		piece, inputs, faults = paper.Load(os.DirFS(dir), filepath.Base(c.Piece))
	}
	if len(faults) > 0 {
		for i := range faults {
			faults[i].File = filepath.Join(dir, faults[i].File)
		}
		return piece, nil, faults
	}
	kinds := make([]report.Input, len(inputs))
	for i, in := range inputs {
		kinds[i] = report.Input{Kind: in.Kind, SHA256: in.SHA256}
	}
	return piece, kinds, nil
}

// readable refuses a file that is not there, with the nearest that is.
func readable(file string) error {
	switch info, err := os.Stat(file); {
	case errors.Is(err, fs.ErrNotExist):
		near := ""
		found, _ := filepath.Glob(filepath.Join(filepath.Dir(file), "*.yaml")) // the pattern is well formed
		if name := unit.Nearest(file, found); name != "" {
			near = fmt.Sprintf("; there is %s", name)
		}
		return &refusal{fmt.Errorf("there is no file %s%s", file, near)}
	case err != nil:
		return err
	case info.IsDir():
		return &refusal{fmt.Errorf("%s is a folder: name the piece in it", file)}
	}
	return nil
}

// writeHTML writes the report to its file.
func (c *maltCommand) writeHTML(j *job, r report.Report) error {
	f, err := os.Create(c.HTML)
	if err != nil {
		return err
	}
	if err := errors.Join(r.HTML(f), f.Close()); err != nil {
		return err
	}
	j.note("awn: the report is in %s.", c.HTML)
	return nil
}

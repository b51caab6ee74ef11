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
	"awn/unit"
)

type maltCommand struct {
	Piece string `arg:"" optional:"" placeholder:"PIECE.yaml" help:"The piece; - is standard input."`
	JSON  bool   `xor:"form" help:"Write the whole outcome as JSON."`
	CSV   bool   `xor:"form" help:"Write the course as CSV, a moment in each row; with --draws also P10, P50, P90."`
	HTML  string `placeholder:"FILE" help:"Write the report, one file that opens anywhere."`
	printing
	drawing
	Risk   string `default:"5%" placeholder:"P" help:"Risk of a wrong release that is taken."`
	Shares bool   `help:"Shares of the doubt by groups; a thousand runs more."`

	telling
}

// Help says what a piece is.
func (c *maltCommand) Help() string {
	return `  awn malt                            the example that is built in
  awn malt PIECE.yaml
  awn malt PIECE.yaml --html report.html
  awn malt PIECE.yaml --units us
  awn malt PIECE.yaml --draws 1000 --risk 2%
  awn malt --draws 200 --shares --html report.html
  awn malt --json | jq .result.kilned
  awn malt - < PIECE.yaml

A piece names four documents that lie beside or below it: the lot with its
analysis, the house, the programme, and what the buyer asks. “awn init DIR”
writes some to start from. Quantities stand in your own units, such as
“12.4 % wb”, “62 °F” or “1200 bu”.

With --draws the piece is run again and again, all that is uncertain drawn anew
each time: what was measured or assumed of the lot, the laboratory, the weather,
the instruments, the constants of the model, and what the model itself may be
off by. Every figure then has the range that eight draws in ten lie in, every
limit its odds; the account says what drives them, what to measure next and
whether to release, hold, blend or downgrade. The same seed gives the same
draws. Stopped by Ctrl-C, it tells what it has.`
}

// Run takes a piece through its course and writes what came of it.
func (c *maltCommand) Run(j *job) error {
	piece, inputs, err := load(j, c.Piece)
	if err != nil {
		return err
	}
	if err := j.ctx.Err(); err != nil {
		return err
	}
	r := report.Report{Version: house.ReadVersion(), Inputs: inputs, Units: c.reader()}
	err = c.compute(j, &piece, &r)
	if err != nil && !stopped(err) {
		return err
	}
	return errors.Join(forms{c.JSON, c.CSV, c.HTML, c.printing}.write(j, r), err)
}

// compute runs the piece, or draws it. A stop with something to show is a
// *partial.
func (c *maltCommand) compute(j *job, piece *course.Piece, r *report.Report) error {
	risk, err := chance(c.Risk)
	if err != nil {
		return err
	}
	if c.Shares && c.Draws == 0 {
		c.Draws = usualDraws
	}
	if c.Draws == 0 {
		if r.Outcome, err = course.Run(piece); err != nil {
			return &refusal{err}
		}
		return j.ctx.Err()
	}
	drawn, err := c.draw(j, piece)
	if drawn == nil {
		return err
	}
	r.Outcome, r.Odds = drawn[0].Outcome, drawn[0].Weigh(risk)
	if c.Shares && err == nil {
		err = totals(j, r.Odds)
	}
	return err
}

// load reads the piece from its file, from standard input, or from the
// examples, and says what it was read from.
func load(j *job, name string) (course.Piece, []report.Input, error) {
	piece, inputs, err := read(j, name)
	return piece, report.Inputs(inputs), err
}

// read is load with the documents themselves.
func read(j *job, name string) (course.Piece, []paper.Input, error) {
	var (
		piece  course.Piece
		inputs []paper.Input
		faults paper.Faults
		dir    string
	)
	switch name {
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
		if err := readable(name); err != nil {
			return piece, nil, err
		}
		dir = filepath.Dir(name)
		piece, inputs, faults = paper.Load(os.DirFS(dir), filepath.Base(name))
	}
	if len(faults) > 0 {
		for i := range faults {
			faults[i].File = filepath.Join(dir, faults[i].File)
		}
		return piece, nil, faults
	}
	return piece, inputs, nil
}

// readable refuses a file that is not there, with the nearest that is.
func readable(file string) error {
	switch info, err := os.Stat(file); {
	case errors.Is(err, fs.ErrNotExist):
		near := ""
		found, _ := filepath.Glob(filepath.Join(filepath.Dir(file), "*"+filepath.Ext(file))) // the pattern is well formed
		if name := unit.Nearest(file, found); name != "" {
			near = fmt.Sprintf("; there is %s", name)
		}
		return &refusal{fmt.Errorf("there is no file %s%s", file, near)}
	case err != nil:
		return err
	case info.IsDir():
		return &refusal{fmt.Errorf("%s is a folder: name the file in it", file)}
	}
	return nil
}

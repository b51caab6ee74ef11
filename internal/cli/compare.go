package cli

import (
	"errors"
	"fmt"

	"awn/course"
	"awn/internal/house"
	"awn/internal/paper"
	"awn/internal/report"
)

type compareCommand struct {
	Pieces []string `arg:"" optional:"" placeholder:"A.yaml B.yaml ..." help:"Two pieces or more, the first the one that the others are held against."`
	JSON   bool     `help:"Write the comparison as JSON."`
	HTML   string   `placeholder:"FILE" help:"Write it with pictures, one file that opens anywhere."`

	drawing
	telling
}

// Help says what is compared.
func (c *compareCommand) Help() string {
	return `  awn compare A.yaml B.yaml
  awn compare A.yaml B.yaml C.yaml --draws 1000 --html comparison.html
  awn compare A.yaml B.yaml --json | jq '.result.against[0].meet_all'

Programmes, lots or houses side by side: what is given differently, the curves
over each other, balances, cost, and the odds of every limit. All pieces are
drawn together, 200 times unless you say otherwise: the model, the laboratory,
the weather and the instruments are the same in each, and so is a lot that they
share, so that the difference is sharper than either.`
}

// Run draws the pieces together and writes how they compare.
func (c *compareCommand) Run(j *job) error {
	if len(c.Pieces) < 2 || len(c.Pieces) > report.MostCompared {
		return &lineError{fmt.Sprintf("compare takes 2 to %d pieces, not %d. “awn compare -h” says more.", report.MostCompared, len(c.Pieces))}
	}
	if c.Draws == 0 {
		c.Draws = usualDraws
	}
	pieces, documents, err := readAll(j, c.Pieces)
	if err != nil {
		return err
	}
	drawn, err := c.draw(j, pieces...)
	if drawn == nil {
		return err
	}
	out := report.Compare(report.Report{Version: house.ReadVersion(), Units: c.reader()}, c.Pieces, documents, drawn)
	return errors.Join(c.write(j, out), err)
}

// readAll reads the pieces; the faults of all are told together.
func readAll(j *job, names []string) ([]*course.Piece, [][]paper.Input, error) {
	pieces := make([]*course.Piece, len(names))
	documents := make([][]paper.Input, len(names))
	var all paper.Faults
	for i, name := range names {
		piece, inputs, err := read(j, name)
		var faults paper.Faults
		switch {
		case errors.As(err, &faults):
			all = append(all, faults...)
		case err != nil:
			return nil, nil, err
		}
		pieces[i], documents[i] = &piece, inputs
	}
	if len(all) > 0 {
		return nil, nil, all
	}
	return pieces, documents, nil
}

// write writes the comparison in the form that was asked for.
func (c *compareCommand) write(j *job, out *report.Comparison) error {
	if err := writeFile(j, c.HTML, "comparison", out.HTML); err != nil {
		return err
	}
	if c.JSON {
		return out.JSON(j.out)
	}
	return out.Text(j.out)
}

package cli

import (
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"awn/examples"
	"awn/intake"
	"awn/internal/house"
	"awn/internal/paper"
	"awn/internal/report"
)

type gradeCommand struct {
	Loads []string `arg:"" optional:"" placeholder:"LOAD.yaml" help:"Loads; - is standard input."`
	JSON  bool     `xor:"form" help:"Write each account as JSON."`
	CSV   bool     `xor:"form" help:"Write one row for each load, with its settlement."`
	HTML  string   `placeholder:"FILE" help:"Write all of them with pictures, one file that opens anywhere."`
	printing
	telling
}

// Help says what a load is.
func (c *gradeCommand) Help() string {
	return `  awn grade                           the example that is built in
  awn grade LOAD.yaml
  awn grade monday/*.yaml             many loads, with their totals
  awn grade monday/*.yaml --pdf sheets.pdf
  awn grade LOAD.yaml --html load.html
  awn grade LOAD.yaml --units us

A load holds what was found at the gate, and names a grade table, a contract,
or both. A factor that nobody read is named, with the best and the worst the
load could be; a reading near a limit gives its odds. “awn schema load” and
“awn schema contract” say what may stand in them.`
}

// Run grades, judges and prices loads.
func (c *gradeCommand) Run(j *job) error {
	names := c.Loads
	if len(names) == 0 {
		j.note("awn: no load is named; this is the example, %s. “awn init DIR” writes it out.", examples.FirstLoad)
		names = []string{""}
	}
	var loads []report.LoadAccount
	for _, name := range names {
		a, err := c.grade(j, name)
		if err != nil {
			return err
		}
		loads = append(loads, a)
	}
	if err := writeFile(j, c.HTML, "report", report.Loads(loads).HTML); err != nil {
		return err
	}
	if err := writeFile(j, c.PDF, "sheet", func(w io.Writer) error { return report.LoadSheets(w, loads, c.paper()) }); err != nil {
		return err
	}
	return c.write(j, loads)
}

// grade reads one load and works out all that its document asks for.
func (c *gradeCommand) grade(j *job, name string) (report.LoadAccount, error) {
	d, inputs, err := loadDocument(j, name, examples.FirstLoad, paper.LoadTicket)
	if err != nil {
		return report.LoadAccount{}, err
	}
	a := report.LoadAccount{Load: d.Load, Assessment: intake.Assess(&d.Load, d.Table, d.Contract, d.Bins), Version: house.ReadVersion(), Inputs: inputs, Units: c.reader()}
	return a, nil
}

// write writes the accounts in the form that was asked for.
func (c *gradeCommand) write(j *job, loads []report.LoadAccount) error {
	if c.CSV {
		return report.LoadsCSV(j.out, loads)
	}
	for i, a := range loads {
		write := a.Text
		if c.JSON {
			write = a.JSON
		} else if i > 0 {
			fmt.Fprintln(j.out)
		}
		if err := write(j.out); err != nil {
			return err
		}
	}
	if len(loads) > 1 && !c.JSON {
		return report.SumText(j.out, loads)
	}
	return nil
}

// loadDocument reads a document and what it names: from its file, from
// standard input, or the example if it has no name.
func loadDocument[T any](j *job, name, example string, load func(fs.FS, string, []byte) (T, []paper.Input, paper.Faults)) (T, []report.Input, error) {
	var (
		none  T
		data  []byte
		err   error
		files fs.FS = examples.Files
		dir   string
		file  = example
	)
	switch name {
	case "":
		data, err = fs.ReadFile(examples.Files, example)
	case "-":
		files, file = os.DirFS("."), "stdin"
		data, err = io.ReadAll(j.in)
	default:
		if err := readable(name); err != nil {
			return none, nil, err
		}
		dir, file = filepath.Split(name)
		files = os.DirFS(filepath.Clean(dir))
		data, err = os.ReadFile(name)
	}
	if err != nil {
		return none, nil, err
	}
	doc, inputs, faults := load(files, file, data)
	if len(faults) > 0 {
		for i := range faults {
			faults[i].File = filepath.Join(dir, faults[i].File)
		}
		return none, nil, faults
	}
	return doc, report.Inputs(inputs), nil
}

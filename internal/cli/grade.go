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
	"awn/internal/words"
)

type gradeCommand struct {
	Loads []string `arg:"" optional:"" placeholder:"LOAD.yaml" help:"Loads; - is standard input."`
	JSON  bool     `help:"Write each account as JSON."`
	Units string   `enum:"metric,us" default:"metric" env:"AWN_UNITS" placeholder:"WHICH" help:"Units of the account: metric or us."`
}

// Help says what a load is.
func (c *gradeCommand) Help() string {
	return `  awn grade                           the example that is built in
  awn grade LOAD.yaml
  awn grade monday/*.yaml             many loads, with their totals
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
	var judged []intake.Judgement
	currency := ""
	for i, name := range names {
		d, inputs, err := loadDocument(j, name, examples.FirstLoad, paper.LoadTicket)
		if err != nil {
			return err
		}
		a := report.LoadAccount{Load: d.Load, Contract: d.Contract, Version: house.ReadVersion(), Inputs: inputs, Units: unitsOf(c.Units)}
		if d.Table != nil {
			g := d.Table.Grade(&d.Load)
			a.Grade = &g
		}
		if d.Contract != nil {
			v := d.Contract.Judge(&d.Load)
			a.Judgement, currency = &v, d.Contract.Currency
			judged = append(judged, v)
		}
		if len(d.Bins) > 0 {
			a.Fits = intake.Fits(&d.Load, d.Bins)
		}
		if i > 0 && !c.JSON {
			fmt.Fprintln(j.out)
		}
		write := a.Text
		if c.JSON {
			write = a.JSON
		}
		if err := write(j.out); err != nil {
			return err
		}
	}
	if len(judged) > 1 && !c.JSON {
		return report.SumText(j.out, intake.Sum(judged), currency, unitsOf(c.Units))
	}
	return nil
}

// unitsOf is the reader that a flag names.
func unitsOf(which string) words.Units {
	if which == "us" {
		return words.American
	}
	return words.Units{}
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
	kinds := make([]report.Input, len(inputs))
	for i, in := range inputs {
		kinds[i] = report.Input{Kind: in.Kind, SHA256: in.SHA256}
	}
	return doc, kinds, nil
}

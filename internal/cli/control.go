package cli

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"awn/complaint"
	"awn/examples"
	"awn/internal/house"
	"awn/internal/report"
	"awn/internal/table"
	"awn/lab"
)

type controlCommand struct {
	Results string   `arg:"" optional:"" placeholder:"RESULTS.csv" help:"The results, CSV or XLSX; - is standard input."`
	Column  []string `sep:"none" placeholder:"NAME=WHAT" help:"What a column holds: Probe=sample."`
	DB      string   `name:"db" env:"AWN_DB" placeholder:"WHERE" help:"The record to look at, where no results are named."`
	As      string   `env:"AWN_AS" placeholder:"WHO" help:"Who you are; your login without it."`
	Sheet   string   `placeholder:"NAME" help:"Which sheet of a workbook."`
	Limits  string   `enum:"house,published" default:"house" placeholder:"WHICH" help:"Limits from the house's own readings, or as published for the method: house or published."`
	Base    int      `default:"20" placeholder:"N" help:"How many first readings the house's limits rest on."`
	JSON    bool     `xor:"form" help:"Write everything as JSON."`
	CSV     bool     `xor:"form" help:"Write the tables as CSV, a figure in each row."`
	HTML    string   `placeholder:"FILE" help:"Write the report, a file that opens anywhere."`
	printing
}

// Help says what results are.
func (c *controlCommand) Help() string {
	return `  awn control                         the example that is built in
  awn control RESULTS.csv
  awn control RESULTS.csv --html report.html --pdf report.pdf
  awn control RESULTS.xlsx --sheet 2026 --column Probe=sample
  awn control RESULTS.csv --limits published
  awn control --db awn.db             the results of the record

A row for each figure: date, sample, kind (check, piece or ring), quality, unit,
value, and who read it: laboratory, instrument, method (as in “combustion”),
matrix (barley or malt). Or a row for each sample with a column for each
quality, its unit in brackets: “colour [EBC]”. A check sample may have its
“reference” value and the “supply” it came from; what was done to an instrument
stands under “event”. A ring test has its assigned value under “reference” and
“ring_sd”. Of a piece say the barley “lot” and the vessels: kiln, steep,
germination, silo. Days are written 2026-03-14. A missing figure stays empty.

Check samples make control charts: an instrument that drifts is named, with the
day and the size. Pieces read on two benches show which reads high. Pieces with
lot and vessels answer a complaint: is it the barley, the vessel or the test?`
}

// Run looks at the results of a laboratory.
func (c *controlCommand) Run(j *job) error {
	const leastBase, mostBase = 8, 1000
	if c.Base < leastBase || c.Base > mostBase {
		return &lineError{fmt.Sprintf("--base %d: limits rest on %d to %d readings.", c.Base, leastBase, mostBase)}
	}
	a := report.ControlAccount{Version: house.ReadVersion()}
	results, err := c.given(j, &a)
	if err != nil {
		return err
	}
	a.Account = results.Control(lab.Options{Base: c.Base, Limits: lab.Basis(c.Limits)})
	if a.Comparisons, err = complaint.Compare(j.ctx, results); err != nil {
		return err
	}
	if err := writeFile(j, c.HTML, "report", a.HTML); err != nil {
		return err
	}
	if err := c.print(j, "report to print", a.PDF); err != nil {
		return err
	}
	switch {
	case c.JSON:
		return a.JSON(j.out)
	case c.CSV:
		return a.CSV(j.out)
	}
	return a.Text(j.out)
}

// given is the results that were asked about, of the record or of a table.
func (c *controlCommand) given(j *job, a *report.ControlAccount) (results lab.Results, err error) {
	if c.DB != "" && c.Results == "" {
		a.Name = c.DB
		err = recorded{DB: c.DB, As: c.As}.ask(j, func(ctx context.Context, d *desk) error {
			results, err = d.Laboratory(ctx, d.actor)
			results = report.InWords(results, d.units)
			return err
		})
		return results, err
	}
	data, name, err := c.read(j)
	if err != nil {
		return results, err
	}
	sum := sha256.Sum256(data)
	a.Name, a.Inputs = name, []report.Input{{Kind: "table", SHA256: hex.EncodeToString(sum[:])}}
	return c.results(name, data)
}

// read reads the file, from the disk, from standard input or from the program.
func (c *controlCommand) read(j *job) (data []byte, name string, err error) {
	switch c.Results {
	case "":
		j.note("awn: no results are named; this is the example, %s. “awn init DIR” writes it out.", examples.FirstControl)
		data, err = fs.ReadFile(examples.Files, examples.FirstControl)
		return data, examples.FirstControl, err
	case "-":
		data, err = io.ReadAll(j.in)
		return data, "stdin", err
	}
	if err := readable(c.Results); err != nil {
		return nil, "", err
	}
	data, err = os.ReadFile(c.Results)
	return data, filepath.Base(c.Results), err
}

// results reads the table.
func (c *controlCommand) results(name string, data []byte) (lab.Results, error) {
	roles := map[string]lab.Column{}
	for _, text := range c.Column {
		column, what, ok := strings.Cut(text, "=")
		if !ok || column == "" || what == "" {
			return lab.Results{}, &lineError{fmt.Sprintf("--column %s: write it as NAME=WHAT, such as Probe=sample.", text)}
		}
		if roles[column], ok = lab.ColumnNamed(what); !ok {
			return lab.Results{}, &lineError{fmt.Sprintf("--column %s: “%s” is nothing that a column holds.", text, what)}
		}
	}
	sheet, err := table.Read(bytes.NewReader(data), c.Sheet)
	if err != nil {
		return lab.Results{}, &refusal{fmt.Errorf("%s: %s", name, unreadable(err))}
	}
	results, faults := lab.Read(sheet.Cells, roles)
	if len(faults) > 0 {
		return results, &tableFaults{name, sheet, faults}
	}
	for i := range results.Rows {
		results.Rows[i].Line = sheet.Line[results.Rows[i].Line-1]
	}
	return results, nil
}

package cli

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"awn/examples"
	"awn/internal/house"
	"awn/internal/paper"
	"awn/internal/report"
	"awn/internal/table"
	"awn/variety"
)

type rankCommand struct {
	Trial       string   `arg:"" optional:"" placeholder:"TRIAL" help:"The trial: a table, CSV or XLSX, or a document that names one; - is standard input."`
	Check       string   `placeholder:"NAME" help:"The variety that all are compared with."`
	Trait       []string `sep:"none" placeholder:"COLUMN" help:"A trait alone; COLUMN=high or =low says what is wanted."`
	Entry       string   `placeholder:"COLUMN" help:"Which column names the variety."`
	Site        string   `placeholder:"COLUMN" help:"Which column names the place."`
	Year        string   `placeholder:"COLUMN" help:"Which column holds the year."`
	Environment string   `placeholder:"COLUMN" help:"Which column names place and year in one."`
	Sheet       string   `placeholder:"NAME" help:"Which sheet of a workbook."`
	Seed        uint64   `default:"1" placeholder:"N" help:"Seed of the draws behind the scores."`
	JSON        bool     `xor:"form" help:"Write everything as JSON."`
	CSV         bool     `xor:"form" help:"Write every variety in every trait as CSV, and its scores."`
	HTML        string   `placeholder:"FILE" help:"Write the report with its pictures, one file that opens anywhere."`
	printing
}

// Help says what a trial is.
func (c *rankCommand) Help() string {
	return `  awn rank                            the example that is built in
  awn rank TRIAL.csv --check "Old Wenn"
  awn rank TRIAL.xlsx --sheet plots --entry line --trait yield=high
  awn rank TRIAL.yaml --html report.html
  awn rank TRIAL.yaml -v              all tables: stability, indices, candidates
  awn rank - < TRIAL.csv

A trial has a row for each plot, or for each mean, and a column for each thing
measured. The usual headers are known: variety, site, year, rep, block, row,
column, plots, check; yield, protein, plump, screenings, extract, lodging and
others. A unit may stand behind one, “yield [t/ha]”; without, the usual one is
taken. With --trait, which may stand again, other columns are no traits. A
cell that is not known stays empty. Lines that begin with # are remarks. In a
column “check”, yes stands for the check.

A document beside the table says more: which way a trait is wanted, the weights
and hard limits of each customer, drought, candidates from the cross on.
“awn init DIR” writes one to start from, “awn schema trial” says what may stand
in it.

What is wrong with the data comes first. Then for each trait: where the
differences come from, how much of them belongs to the varieties, and each
variety against the check. Then what the varieties score with grower, maltster
and brewer.`
}

// draws behind the scores.
const rankDraws = 4000

// rankOrder is a trial as it was named: its table, and what is asked of it.
type rankOrder struct {
	name, file, sheet string
	table             []byte
	layout            variety.Layout
	brief             variety.Brief
	inputs            []report.Input
}

// Run ranks the varieties of a trial.
func (c *rankCommand) Run(j *job) error {
	o, err := c.order(j)
	if err != nil {
		return err
	}
	trials, err := c.trials(o)
	if err != nil {
		return err
	}
	a := report.TrialAccount{Name: o.name, Trials: trials, Draws: rankDraws, Seed: c.Seed, Full: j.verbose, Version: house.ReadVersion(), Inputs: o.inputs}
	m := j.meter()
	o.brief.Rank = variety.RankOptions{Draws: rankDraws, Seed: c.Seed}
	o.brief.Progress = func(done, of int) { m.tell(done, of, "traits") }
	a.Account, err = trials.Weigh(j.ctx, o.brief)
	m.end()
	if errors.Is(err, variety.ErrNothing) {
		if err := a.Remarks(j.err); err != nil {
			return err
		}
		return &refusal{fmt.Errorf("%s: no trait of this trial can be analysed", o.file)}
	}
	if err != nil {
		return err
	}
	return forms{c.JSON, c.CSV, c.HTML, c.printing}.write(j, a)
}

// order reads the document with the table it names, or the table alone: from the
// file, standard input, or the example.
func (c *rankCommand) order(j *job) (rankOrder, error) {
	var (
		files fs.FS = os.DirFS(".")
		dir   string
		data  []byte
		err   error
		file  = "stdin"
	)
	switch c.Trial {
	case "":
		j.note("awn: no trial is named; this is the example, %s. “awn init DIR” writes it out.", examples.FirstTrial)
		files, file = examples.Files, examples.FirstTrial
		data, err = fs.ReadFile(examples.Files, file)
	case "-":
		data, err = io.ReadAll(j.in)
	default:
		if err := readable(c.Trial); err != nil {
			return rankOrder{}, err
		}
		dir, file = filepath.Split(c.Trial)
		files = os.DirFS(filepath.Clean(dir))
		data, err = os.ReadFile(c.Trial)
	}
	if err != nil {
		return rankOrder{}, err
	}
	if !written(data) {
		return rankOrder{file, file, "", data, variety.Layout{}, variety.Brief{MoreYears: 1, MoreSites: 1}, []report.Input{tableInput(data)}}, nil
	}
	t, inputs, faults := paper.LoadTrial(files, file, data)
	if len(faults) > 0 {
		for i := range faults {
			faults[i].File = filepath.Join(dir, faults[i].File)
		}
		return rankOrder{}, faults
	}
	o := rankOrder{t.Name, t.File, t.Sheet, t.Table, t.Layout, t.Brief, nil}
	if o.name == "" {
		o.name = file
	}
	o.inputs = append(report.Inputs(inputs), tableInput(t.Table))
	return o, nil
}

// written reports whether a text is a document and not a table: its first line that
// is no remark begins with the word that says which document it is.
func written(data []byte) bool {
	for line := range bytes.Lines(data) {
		if line = bytes.TrimSpace(line); len(line) > 0 && line[0] != '#' {
			return bytes.HasPrefix(line, []byte("awn:"))
		}
	}
	return false
}

func tableInput(data []byte) report.Input {
	sum := sha256.Sum256(data)
	return report.Input{Kind: "table", SHA256: hex.EncodeToString(sum[:])}
}

// trials makes trials of the bytes of a table.
func (c *rankCommand) trials(o rankOrder) (variety.Trials, error) {
	layout, err := c.layout(o.layout)
	if err != nil {
		return variety.Trials{}, err
	}
	name := o.sheet
	if c.Sheet != "" {
		name = c.Sheet
	}
	sheet, err := table.Read(bytes.NewReader(o.table), name)
	if err != nil {
		return variety.Trials{}, &refusal{fmt.Errorf("%s: %s", o.file, unreadable(err))}
	}
	trials, faults := variety.Read(sheet.Cells, layout)
	if len(faults) > 0 {
		return trials, &tableFaults{o.file, sheet, faults}
	}
	for i := range trials.Records {
		trials.Records[i].Line = sheet.Line[trials.Records[i].Line-1]
	}
	return trials, nil
}

// layout is what document and flags say of the columns; the flags win.
func (c *rankCommand) layout(l variety.Layout) (variety.Layout, error) {
	if l.Roles == nil {
		l.Roles = map[string]variety.Role{}
	}
	given := l.Traits
	if l.Only = l.Only || len(c.Trait) > 0; len(c.Trait) > 0 {
		l.Traits = nil
	}
	for _, x := range []struct {
		column string
		role   variety.Role
	}{{c.Entry, variety.EntryColumn}, {c.Site, variety.SiteColumn}, {c.Year, variety.YearColumn}, {c.Environment, variety.EnvironmentColumn}} {
		if x.column != "" {
			l.Roles[x.column] = x.role
		}
	}
	if c.Check != "" {
		l.Checks = []string{c.Check}
	}
	for _, text := range c.Trait {
		column, way, told := strings.Cut(text, "=")
		t := variety.CommonTrait(column, "")
		if i := slices.IndexFunc(given, func(x variety.Trait) bool { return x.Name == column }); i >= 0 {
			t = given[i]
		}
		if told {
			direction, ok := map[string]variety.Direction{"high": variety.Higher, "low": variety.Lower}[way]
			if !ok {
				return l, &lineError{fmt.Sprintf("“%s”: behind = stands high or low.", text)}
			}
			t.Direction = direction
		}
		l.Traits = append(l.Traits, t)
	}
	return l, nil
}

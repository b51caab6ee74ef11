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
	"strings"

	"awn/examples"
	"awn/internal/house"
	"awn/internal/report"
	"awn/internal/table"
	"awn/variety"
)

type rankCommand struct {
	Trial       string   `arg:"" optional:"" placeholder:"TRIAL.csv" help:"The trial, CSV or XLSX; - is standard input."`
	Check       string   `placeholder:"NAME" help:"The variety that all are compared with."`
	Trait       []string `sep:"none" placeholder:"COLUMN" help:"A trait alone; COLUMN=high or =low says what is wanted."`
	Entry       string   `placeholder:"COLUMN" help:"Which column names the variety."`
	Site        string   `placeholder:"COLUMN" help:"Which column names the place."`
	Year        string   `placeholder:"COLUMN" help:"Which column holds the year."`
	Environment string   `placeholder:"COLUMN" help:"Which column names place and year in one."`
	Sheet       string   `placeholder:"NAME" help:"Which sheet of a workbook."`
	Seed        uint64   `default:"1" placeholder:"N" help:"Seed of the draws behind the scores."`
	JSON        bool     `help:"Write everything as JSON."`
}

// Help says what a trial is.
func (c *rankCommand) Help() string {
	return `  awn rank                            the example that is built in
  awn rank TRIAL.csv --check "Old Wenn"
  awn rank TRIAL.xlsx --sheet plots --entry line --trait yield=high
  awn rank - < TRIAL.csv

A trial has a row for each plot, or for each mean, and a column for each thing
measured. The usual headers are known: variety, site, year, rep, block, row,
column, plots, check; yield, protein, plump, screenings, extract, lodging and
others. A unit may stand behind one, “yield [t/ha]”; without, the usual one is
taken. With --trait, which may stand again, other columns are no traits. A
cell that is not known stays empty. Lines that begin with # are remarks. In a
column “check”, yes stands for the check.

What is wrong with the data comes first. Then for each trait: where the
differences come from, how much of them belongs to the varieties, and each
variety against the check. Then what the varieties score with grower, maltster
and brewer.`
}

// comparisons are made at this confidence: 5 % of wrong calls, as in trials at
// large.
const comparisons = 0.95

// draws behind the scores.
const rankDraws = 4000

// Run ranks the varieties of a trial.
func (c *rankCommand) Run(j *job) error {
	name, data, err := c.read(j)
	if err != nil {
		return err
	}
	trials, err := c.trials(name, data)
	if err != nil {
		return err
	}
	sum := sha256.Sum256(data)
	a := report.TrialAccount{Name: name, Trials: trials, Draws: rankDraws, Seed: c.Seed, Version: house.ReadVersion(),
		Inputs: []report.Input{{Kind: "table", SHA256: hex.EncodeToString(sum[:])}}}
	if len(trials.Checks) > 0 {
		a.Check = trials.Checks[0]
	}
	if err := c.analyse(j, &a); err != nil {
		return err
	}
	if c.JSON {
		return a.JSON(j.out)
	}
	return a.Text(j.out)
}

// analyse fills in the account: each trait, and the scores.
func (c *rankCommand) analyse(j *job, a *report.TrialAccount) error {
	m := j.meter()
	defer m.end()
	var good []*variety.Analysis
	var traits []variety.Trait
	for n, t := range a.Trials.Traits {
		told := func(int, float64) { m.tell(n, len(a.Trials.Traits), "traits") }
		x, err := a.Trials.Analyse(j.ctx, variety.Question{Trait: t.Name, Progress: told})
		if err != nil && !errors.Is(err, variety.ErrNothing) {
			return err
		}
		one := report.TrialTrait{Analysis: x, Failed: err != nil}
		if !one.Failed {
			good, traits = append(good, x), append(traits, t)
			one.Against = x.Against(a.Check, comparisons)
		}
		x.Trait = t
		a.Traits = append(a.Traits, one)
	}
	if len(good) == 0 {
		m.end()
		if err := a.Remarks(j.err); err != nil {
			return err
		}
		return &refusal{fmt.Errorf("%s: no trait of this trial can be analysed", a.Name)}
	}
	if customers := variety.Customers(traits); len(customers) > 0 && a.Check != "" {
		ranking, err := a.Trials.Rank(j.ctx, good, customers, a.Check, variety.RankOptions{Draws: a.Draws, Seed: a.Seed})
		if err != nil && !errors.Is(err, variety.ErrCheck) {
			return err
		}
		a.Ranking = ranking
	}
	return nil
}

// read reads the file, standard input, or the example.
func (c *rankCommand) read(j *job) (name string, data []byte, err error) {
	switch c.Trial {
	case "":
		j.note("awn: no trial is named; this is the example, %s. “awn init DIR” writes it out.", examples.FirstTrial)
		data, err = fs.ReadFile(examples.Files, examples.FirstTrial)
		return examples.FirstTrial, data, err
	case "-":
		data, err = io.ReadAll(j.in)
		return "stdin", data, err
	}
	if err := readable(c.Trial); err != nil {
		return "", nil, err
	}
	data, err = os.ReadFile(c.Trial)
	return filepath.Base(c.Trial), data, err
}

// trials makes trials of the bytes of a file.
func (c *rankCommand) trials(name string, data []byte) (variety.Trials, error) {
	layout, err := c.layout()
	if err != nil {
		return variety.Trials{}, err
	}
	sheet, err := table.Read(bytes.NewReader(data), c.Sheet)
	if err != nil {
		return variety.Trials{}, &refusal{fmt.Errorf("%s: %s", name, unreadable(err))}
	}
	trials, faults := variety.Read(sheet.Cells, layout)
	if len(faults) > 0 {
		return trials, &tableFaults{name, sheet, faults}
	}
	for i := range trials.Records {
		trials.Records[i].Line = sheet.Line[trials.Records[i].Line-1]
	}
	return trials, nil
}

// layout is what the flags say of the columns.
func (c *rankCommand) layout() (variety.Layout, error) {
	l := variety.Layout{Roles: map[string]variety.Role{}, Only: len(c.Trait) > 0}
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

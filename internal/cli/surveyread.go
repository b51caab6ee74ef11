package cli

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"math"
	"os"
	"strconv"
	"strings"

	"awn/crop"
	"awn/examples"
	"awn/finding"
	"awn/internal/report"
	"awn/internal/table"
)

// surveyReading reads all that a survey rests on.
type surveyReading struct {
	c      *surveyCommand
	j      *job
	inside bool   // the files are built in
	given  []byte // what stood on standard input
	name   string
	inputs []report.Input
}

// all reads the samples and what goes with them.
func (r *surveyReading) all() (*crop.Survey, crop.Question, error) {
	c := r.c
	q := crop.Question{ElsewhereT: math.NaN()}
	if c.Elsewhere > 0 {
		q.ElsewhereT = c.Elsewhere
	}
	q.Lonely = crop.Lonely(cmp.Or(c.Lonely, string(crop.Adjust)))
	if c.Drawn == "by-district" {
		q.Clusters = crop.FarmInDistrict
	}
	if c.Rest {
		q.Rest = crop.BinsRest
	}
	survey, err := r.samples(c.Samples)
	if err != nil {
		return nil, q, err
	}
	if c.Frame != "" {
		if err := r.table(c.Frame, survey.ReadFrame); err != nil {
			return nil, q, err
		}
	}
	for _, name := range c.Before {
		before, err := r.samples(name)
		if err != nil {
			return nil, q, err
		}
		survey.Add(before)
	}
	if len(c.Before) > 0 && len(survey.Seasons()) < 2 {
		return nil, q, &refusal{fmt.Errorf("%s is of the same season as %s: give each its “season” column", c.Before[0], r.name)}
	}
	if c.Places != "" {
		if err := r.table(c.Places, survey.ReadPlaces); err != nil {
			return nil, q, err
		}
	}
	if q.Buyers, err = r.buyers(); err != nil {
		return nil, q, err
	}
	q.Aims, err = aims(survey, c.Within)
	return survey, q, err
}

// read reads a file, from the disk, from standard input or from the program.
func (r *surveyReading) read(name string) ([]byte, error) {
	var data []byte
	var err error
	switch {
	case r.inside:
		data, err = fs.ReadFile(examples.Files, name)
	case name == "-":
		data = r.given
	default:
		if err := readable(name); err != nil {
			return nil, err
		}
		data, err = os.ReadFile(name)
	}
	sum := sha256.Sum256(data)
	r.inputs = append(r.inputs, report.Input{Kind: "table", SHA256: hex.EncodeToString(sum[:])})
	return data, err
}

// table reads a table into whatever takes its rows.
func (r *surveyReading) table(name string, into func([][]string) []finding.Cell) error {
	data, err := r.read(name)
	if err != nil {
		return err
	}
	sheet, err := table.Read(bytes.NewReader(data), r.c.Sheet)
	if err != nil {
		return &refusal{fmt.Errorf("%s: %s", name, unreadable(err))}
	}
	if faults := into(sheet.Cells); len(faults) > 0 {
		return &tableFaults{name, sheet, faults}
	}
	r.inputs[len(r.inputs)-1].Kind = "table"
	return nil
}

// samples reads samples.
func (r *surveyReading) samples(name string) (*crop.Survey, error) {
	roles, err := columnRoles(r.c.Column)
	if err != nil {
		return nil, err
	}
	var survey *crop.Survey
	err = r.table(name, func(rows [][]string) []finding.Cell {
		s, faults := crop.Read(rows, roles)
		survey = s
		return faults
	})
	return survey, err
}

// columnRoles reads what the user says of columns.
func columnRoles(texts []string) (map[string]crop.Column, error) {
	roles := map[string]crop.Column{}
	for _, text := range texts {
		name, what, ok := strings.Cut(text, "=")
		if !ok || name == "" || what == "" {
			return nil, &lineError{fmt.Sprintf("--column %s: write it as NAME=WHAT, such as Kreis=district.", text)}
		}
		if roles[name], ok = crop.ColumnNamed(what); !ok {
			return nil, &lineError{fmt.Sprintf("--column %s: “%s” is nothing that a column holds.", text, what)}
		}
	}
	return roles, nil
}

// aims reads how well means shall be known next time.
func aims(s *crop.Survey, texts []string) ([]crop.Aim, error) {
	var out []crop.Aim
	for _, text := range texts {
		name, half, _ := strings.Cut(text, "=")
		x, err := strconv.ParseFloat(half, 64)
		a, ok := s.AimOf(name, x)
		if err != nil || !(x > 0) || !ok {
			return nil, &lineError{fmt.Sprintf("--within %s: name a quality of the samples and a number above 0, such as protein=0.2.", text)}
		}
		out = append(out, a)
	}
	return out, nil
}

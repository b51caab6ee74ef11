package cli

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"awn/course"
	"awn/crop"
	"awn/examples"
	"awn/internal/paper"
	"awn/internal/report"
	"awn/internal/survey"
)

// surveyReading is where a survey is read from.
type surveyReading struct {
	c      *surveyCommand
	j      *job
	inside bool   // the files are built in
	given  []byte // what stood on standard input
	inputs []report.Input
}

// order finds out what is asked: the flags alone, or a document with the flags over
// it; without either, the example.
func (r *surveyReading) order() (survey.Order, error) {
	c := r.c
	var (
		files fs.FS = os.DirFS(".")
		dir   string
		data  []byte
		err   error
	)
	o := survey.Order{Name: filepath.Base(c.Samples), Samples: c.Samples, ElsewhereT: math.NaN()}
	switch c.Samples {
	case "":
		r.j.note("awn: no samples are named; this is the example, %s. “awn init DIR” writes it out.", examples.FirstSurvey)
		r.inside, files, o.Name = true, examples.Files, examples.FirstSurvey
		data, err = fs.ReadFile(files, o.Name)
	case "-":
		o.Name = "stdin"
		data, err = io.ReadAll(r.j.in)
		r.given = data
	default:
		if err := readable(c.Samples); err != nil {
			return o, err
		}
		dir = filepath.Dir(c.Samples)
		files = os.DirFS(dir)
		data, err = os.ReadFile(c.Samples)
	}
	if err != nil {
		return o, err
	}
	if written(data) {
		doc, inputs, faults := paper.LoadSurvey(files, o.Name, data)
		if len(faults) > 0 {
			for i := range faults {
				faults[i].File = filepath.Join(dir, faults[i].File)
			}
			return o, faults
		}
		r.inputs = append(r.inputs, report.Inputs(inputs)...)
		name := cmp.Or(doc.Name, o.Name)
		o = survey.OrderOf(doc, func(file string) string { return filepath.Join(dir, filepath.FromSlash(file)) })
		o.Name = name
	}
	return o, c.over(&o)
}

// over puts the flags over what a document asks for.
func (c *surveyCommand) over(o *survey.Order) error {
	o.Frame, o.Places = cmp.Or(c.Frame, o.Frame), cmp.Or(c.Places, o.Places)
	o.Sheet, o.Drawn, o.Lonely = cmp.Or(c.Sheet, o.Sheet), cmp.Or(c.Drawn, o.Drawn), cmp.Or(c.Lonely, o.Lonely)
	o.MostSeen = o.MostSeen || c.Rest
	if c.Elsewhere > 0 {
		o.ElsewhereT = c.Elsewhere
	}
	if len(c.Before) > 0 {
		o.Before = c.Before
	}
	var err error
	if len(c.Contract) > 0 {
		if o.Contracts, err = contracts(c.Contract); err != nil {
			return err
		}
	}
	if len(c.Within) > 0 {
		if o.Within, err = withins(c.Within); err != nil {
			return err
		}
	}
	if len(c.Column) > 0 {
		if o.Columns, err = columnRoles(c.Column); err != nil {
			return err
		}
	}
	c.overMalt(o)
	return nil
}

// overMalt puts the flags over how a document malts the harvest.
func (c *surveyCommand) overMalt(o *survey.Order) {
	if o.Malt == nil && c.Malt != "" {
		o.Malt = &survey.Malt{Lots: survey.UsualLots, Seed: survey.UsualSeed}
	}
	m := o.Malt
	if m == nil {
		return
	}
	m.Piece, m.Pilots = cmp.Or(c.Malt, m.Piece), cmp.Or(c.Pilots, m.Pilots)
	if len(c.Spec) > 0 {
		m.Specifications = c.Spec
	}
	if c.Lots != nil {
		m.Lots = *c.Lots
	}
	if c.Seed != nil {
		m.Seed = *c.Seed
	}
}

// contracts reads contracts, each with the tonnes wanted behind it.
func contracts(texts []string) (out []survey.Contract, err error) {
	for _, text := range texts {
		file, tonnes, told := strings.Cut(text, "=")
		one := survey.Contract{File: file, WantedT: math.NaN()}
		if told {
			one.WantedT, err = strconv.ParseFloat(tonnes, 64)
			if err != nil || !(one.WantedT > 0) || math.IsInf(one.WantedT, 0) {
				return nil, &lineError{fmt.Sprintf("--contract %s: “%s” is no number of tonnes.", text, tonnes)}
			}
		}
		out = append(out, one)
	}
	return out, nil
}

// withins reads how well means shall be known next time.
func withins(texts []string) (out []survey.Within, err error) {
	for _, text := range texts {
		quality, half, _ := strings.Cut(text, "=")
		x, err := strconv.ParseFloat(half, 64)
		if err != nil {
			return nil, notWithin(text)
		}
		out = append(out, survey.Within{Quality: quality, Half: x})
	}
	return out, nil
}

func notWithin(text string) error {
	return &lineError{fmt.Sprintf("--within %s: name a quality of the samples and a number above 0, such as protein=0.2.", text)}
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

// files are where the order's files are read: from the disk, from standard input
// or from the program.
func (r *surveyReading) files() survey.Files {
	return survey.Files{
		Read: func(name string) ([]byte, error) {
			switch {
			case r.inside:
				return fs.ReadFile(examples.Files, name)
			case name == "-":
				return r.given, nil
			}
			if err := readable(name); err != nil {
				return nil, err
			}
			return os.ReadFile(name)
		},
		Piece: func(name string) (course.Piece, []report.Input, error) {
			if !r.inside {
				return load(r.j, name)
			}
			piece, inputs, faults := paper.Load(examples.Files, name)
			if len(faults) > 0 {
				return piece, nil, faults
			}
			return piece, report.Inputs(inputs), nil
		},
	}
}

// refused says what is wrong with a survey as the command line says it.
func (r *surveyReading) refused(o survey.Order, err error) error {
	var (
		rows   *survey.TableError
		season *survey.SeasonError
		aim    *survey.AimError
	)
	switch {
	case errors.As(err, &rows) && rows.Whole != nil:
		return &refusal{fmt.Errorf("%s: %s", rows.File, unreadable(rows.Whole))}
	case rows != nil:
		return &tableFaults{rows.File, rows.Sheet, rows.Cells}
	case errors.As(err, &season):
		return &refusal{fmt.Errorf("%s is of the same season as %s: give each its “season” column", season.Before, o.Name)}
	case errors.As(err, &aim):
		return notWithin(fmt.Sprintf("%s=%g", aim.Quality, aim.Half))
	}
	return err
}

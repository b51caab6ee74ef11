package cli

import (
	"awn/internal/report"
	"cmp"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"

	"awn/examples"
	"awn/internal/paper"
)

// Lots and seed where nothing is said of them.
const (
	usualLots = 60
	usualSeed = 1
)

// order finds out what is asked: the flags alone, or a document with the flags over
// it; without either, the example.
func (r *surveyReading) order() error {
	c := r.c
	var (
		files fs.FS = os.DirFS(".")
		dir   string
		data  []byte
		err   error
	)
	name := filepath.Base(c.Samples)
	switch c.Samples {
	case "":
		r.j.note("awn: no samples are named; this is the example, %s. “awn init DIR” writes it out.", examples.FirstSurvey)
		r.inside, files, name = true, examples.Files, examples.FirstSurvey
		data, err = fs.ReadFile(files, name)
	case "-":
		name = "stdin"
		data, err = io.ReadAll(r.j.in)
		r.given = data
	default:
		if err := readable(c.Samples); err != nil {
			return err
		}
		dir = filepath.Dir(c.Samples)
		files = os.DirFS(dir)
		data, err = os.ReadFile(c.Samples)
	}
	if err != nil {
		return err
	}
	r.name = name
	if written(data) {
		doc, inputs, faults := paper.LoadSurvey(files, name, data)
		if len(faults) > 0 {
			for i := range faults {
				faults[i].File = filepath.Join(dir, faults[i].File)
			}
			return faults
		}
		r.inputs = append(r.inputs, report.Inputs(inputs)...)
		r.name = cmp.Or(doc.Name, name)
		c.take(doc, func(file string) string {
			if file == "" {
				return ""
			}
			return filepath.Join(dir, filepath.FromSlash(file))
		})
	}
	c.Lots, c.Seed = or(c.Lots, usualLots), or(c.Seed, usualSeed)
	return nil
}

// or is what was given, or what is usual.
func or[T any](given *T, usual T) *T {
	if given == nil {
		return &usual
	}
	return given
}

// take fills in what the document says and no flag does; place is where a file lies
// that it names.
func (c *surveyCommand) take(doc paper.Survey, place func(file string) string) {
	c.Samples = place(doc.Samples)
	c.Frame, c.Places = cmp.Or(c.Frame, place(doc.Frame)), cmp.Or(c.Places, place(doc.Places))
	c.Sheet, c.Drawn, c.Lonely = cmp.Or(c.Sheet, doc.Sheet), cmp.Or(c.Drawn, doc.Drawn), cmp.Or(c.Lonely, doc.Lonely)
	c.Rest = c.Rest || doc.MostSeen
	if len(c.Before) == 0 {
		for _, file := range doc.Before {
			c.Before = append(c.Before, place(file))
		}
	}
	if len(c.Contract) == 0 {
		for _, k := range doc.Contracts {
			text := place(k.Contract)
			if k.Wanted != nil {
				text += fmt.Sprintf("=%g", k.Wanted.In("t"))
			}
			c.Contract = append(c.Contract, text)
		}
	}
	if c.Elsewhere == 0 && doc.Elsewhere != nil {
		c.Elsewhere = doc.Elsewhere.In("¤/t")
	}
	if len(c.Within) == 0 {
		for _, quality := range slices.Sorted(maps.Keys(doc.Within)) {
			c.Within = append(c.Within, quality+"="+strconv.FormatFloat(doc.Within[quality], 'g', -1, 64))
		}
	}
	if len(c.Column) == 0 {
		for _, header := range slices.Sorted(maps.Keys(doc.Columns)) {
			c.Column = append(c.Column, header+"="+doc.Columns[header])
		}
	}
	if doc.Malt != nil {
		c.takeMalt(*doc.Malt, place)
	}
}

// takeMalt fills in how the harvest is malted.
func (c *surveyCommand) takeMalt(m paper.SurveyMalt, place func(file string) string) {
	c.Malt, c.Pilots = cmp.Or(c.Malt, place(m.Piece)), cmp.Or(c.Pilots, place(m.Pilots))
	if len(c.Spec) == 0 {
		for _, file := range m.Specifications {
			c.Spec = append(c.Spec, place(file))
		}
	}
	if c.Lots == nil {
		c.Lots = m.Lots
	}
	if c.Seed == nil && m.Seed != nil {
		seed := uint64(*m.Seed)
		c.Seed = &seed
	}
}

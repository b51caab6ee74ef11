package survey

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"runtime"

	"awn/course"
	"awn/crop"
	"awn/finding"
	"awn/internal/paper"
	"awn/internal/report"
	"awn/internal/table"
)

// Files give what an order names.
type Files struct {
	Read  func(name string) ([]byte, error)
	Piece func(name string) (course.Piece, []report.Input, error)
	Told  func(done, of int) // how many lots are malted; nil tells nobody
}

// TableError is a table that cannot be read: the whole of it, or cells of it.
type TableError struct {
	File  string
	Whole *table.Error // nil where cells are at fault
	Sheet table.Sheet
	Cells []finding.Cell
}

// Error names the table.
func (e *TableError) Error() string { return e.File + " cannot be read" }

// SeasonError says that samples of an earlier season are of the same one.
type SeasonError struct{ Before string }

// Error names the samples.
func (e *SeasonError) Error() string { return e.Before + " is of the same season" }

// AimError says that a quality is none of the samples', or is to be known to no
// number above 0.
type AimError struct{ Within }

// Error names the quality.
func (e *AimError) Error() string { return fmt.Sprintf("%s=%g cannot be aimed at", e.Quality, e.Half) }

// reading reads all that a survey rests on.
type reading struct {
	Order
	files  Files
	inputs []report.Input
}

// Report reads what an order names and fills an account with what comes of it.
// It already holds what the order itself was read from.
func Report(ctx context.Context, o Order, files Files, a *report.CropAccount) error {
	r := &reading{o, files, a.Inputs}
	survey, question, err := r.all()
	if err != nil {
		return err
	}
	a.Name, a.Seed = o.Name, UsualSeed
	a.Summary, a.Lonely = survey.Summarise(question), string(question.Lonely)
	if o.Malt != nil {
		a.Seed = o.Malt.Seed
		a.Malting, err = r.malt(ctx, survey, question.Buyers)
	}
	a.Inputs = r.inputs
	return err
}

// all reads the samples and what goes with them.
func (r *reading) all() (*crop.Survey, crop.Question, error) {
	q := r.question()
	survey, err := r.samples(r.Samples)
	if err != nil {
		return nil, q, err
	}
	if err := r.table(r.Frame, survey.ReadFrame); err != nil {
		return nil, q, err
	}
	for _, name := range r.Before {
		before, err := r.samples(name)
		if err != nil {
			return nil, q, err
		}
		survey.Add(before)
	}
	if len(r.Before) > 0 && len(survey.Seasons()) < 2 {
		return nil, q, &SeasonError{r.Before[0]}
	}
	if err := r.table(r.Places, survey.ReadPlaces); err != nil {
		return nil, q, err
	}
	for _, c := range r.Contracts {
		doc, err := read[paper.Contract](r, c.File)
		if err != nil {
			return nil, q, err
		}
		contract := doc.Contract()
		q.Buyers = append(q.Buyers, crop.Buyer{Contract: &contract, WantedT: c.WantedT})
	}
	for _, w := range r.Within {
		aim, known := survey.AimOf(w.Quality, w.Half)
		if !known || !(w.Half > 0) {
			return nil, q, &AimError{w}
		}
		q.Aims = append(q.Aims, aim)
	}
	return survey, q, nil
}

// malt takes lots of the harvest through the programme of a house.
func (r *reading) malt(ctx context.Context, s *crop.Survey, buyers []crop.Buyer) (*crop.Malting, error) {
	m := r.Malt
	piece, inputs, err := r.files.Piece(m.Piece)
	if err != nil {
		return nil, err
	}
	r.inputs = append(r.inputs, inputs...)
	q := crop.MaltQuestion{Piece: piece, Lots: m.Lots, Seed: m.Seed, Workers: runtime.GOMAXPROCS(0), Told: r.files.Told}
	for _, name := range m.Specifications {
		doc, err := read[paper.Specification](r, name)
		if err != nil {
			return nil, err
		}
		q.Others = append(q.Others, doc.Specification())
	}
	out, err := s.Malt(ctx, buyers, q)
	if err != nil {
		return nil, err
	}
	return out, r.table(m.Pilots, func(rows [][]string) []finding.Cell {
		pilots, faults := crop.ReadPilots(rows)
		out.Compare(pilots)
		return faults
	})
}

// file reads a file and notes it among what the account rests on.
func (r *reading) file(name, kind string) ([]byte, error) {
	data, err := r.files.Read(name)
	sum := sha256.Sum256(data)
	r.inputs = append(r.inputs, report.Input{Kind: kind, SHA256: hex.EncodeToString(sum[:])})
	return data, err
}

// read reads a document that an order names.
func read[T paper.Document](r *reading, name string) (doc T, err error) {
	data, err := r.file(name, doc.Kind())
	if err != nil {
		return doc, err
	}
	doc, faults := paper.Read[T](name, data)
	if len(faults) > 0 {
		return doc, faults
	}
	return doc, nil
}

// table reads a table, if one is named, into whatever takes its rows.
func (r *reading) table(name string, into func([][]string) []finding.Cell) error {
	if name == "" {
		return nil
	}
	data, err := r.file(name, "table")
	if err != nil {
		return err
	}
	sheet, err := table.Read(bytes.NewReader(data), r.Sheet)
	var wrong *table.Error
	if errors.As(err, &wrong) {
		return &TableError{File: name, Whole: wrong}
	}
	if err != nil {
		return err
	}
	if cells := into(sheet.Cells); len(cells) > 0 {
		return &TableError{File: name, Sheet: sheet, Cells: cells}
	}
	return nil
}

// samples reads samples.
func (r *reading) samples(name string) (survey *crop.Survey, err error) {
	err = r.table(name, func(rows [][]string) (faults []finding.Cell) {
		survey, faults = crop.Read(rows, r.Columns)
		return faults
	})
	return survey, err
}

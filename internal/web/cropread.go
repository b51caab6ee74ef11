package web

import (
	"cmp"
	"context"
	"errors"
	"io/fs"

	"awn/course"
	"awn/internal/paper"
	"awn/internal/report"
	"awn/internal/survey"
)

// surveyed reads a survey with all that it names, and reports on it as “awn
// survey” does.
func surveyed(ctx context.Context, files fs.FS, name string, data []byte, to report.Report) (report.CropAccount, error) {
	doc, in, faults := paper.LoadSurvey(files, name, data)
	if len(faults) > 0 {
		return report.CropAccount{}, faults
	}
	a := report.CropAccount{Units: to.Units, Version: to.Version, Inputs: report.Inputs(in)}
	o := survey.OrderOf(doc, func(file string) string { return file })
	o.Name = cmp.Or(o.Name, name)
	err := survey.Report(ctx, o, survey.Files{
		Read: func(name string) ([]byte, error) { return fs.ReadFile(files, name) },
		Piece: func(name string) (course.Piece, []report.Input, error) {
			piece, in, faults := paper.Load(files, name)
			if len(faults) > 0 {
				return piece, nil, faults
			}
			return piece, report.Inputs(in), nil
		},
	}, &a)
	return a, surveyFault(err, to)
}

// surveyFault says what is wrong with the tables of a survey as pages say it.
func surveyFault(err error, to report.Report) error {
	var (
		rows   *survey.TableError
		season *survey.SeasonError
		doc    paper.Faults
	)
	switch {
	case errors.As(err, &rows) && rows.Whole != nil:
		return &tableFaults{[]string{rows.File + ": " + to.Units.Say("table."+string(rows.Whole.Problem)) + "."}}
	case rows != nil:
		return &tableFaults{report.TableFaults(rows.File, rows.Sheet.Line, rows.Cells, to.Units)}
	case errors.As(err, &season):
		return &tableFaults{[]string{to.Units.Say("page.crop.seasons", "before", season.Before)}}
	case errors.As(err, &doc):
		return doc
	}
	return cannot(err)
}

package web

import (
	"bytes"
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io/fs"
	"maps"
	"math"
	"runtime"
	"slices"

	"awn/crop"
	"awn/finding"
	"awn/internal/paper"
	"awn/internal/report"
	"awn/internal/table"
)

// Lots and seed where the document says nothing of them, as “awn survey” has
// them.
const (
	cropLots = 60
	cropSeed = 1
)

// surveyReading reads the tables of a survey.
type surveyReading struct {
	files fs.FS
	doc   paper.Survey
	acc   *report.CropAccount
}

// surveyed reads a survey with all that it names, and reports on it as “awn
// survey” does.
func surveyed(ctx context.Context, files fs.FS, name string, data []byte, to report.Report) (report.CropAccount, error) {
	doc, in, faults := paper.LoadSurvey(files, name, data)
	if len(faults) > 0 {
		return report.CropAccount{}, faults
	}
	acc := report.CropAccount{Name: cmp.Or(doc.Name, name), Units: to.Units, Version: to.Version, Inputs: report.Inputs(in), Seed: cropSeed}
	x := &surveyReading{files, doc, &acc}
	survey, question, err := x.survey()
	if err != nil {
		return acc, err
	}
	acc.Summary, acc.Lonely = survey.Summarise(question), string(question.Lonely)
	if doc.Malt != nil {
		acc.Malting, err = x.malt(ctx, survey, question.Buyers)
	}
	return acc, err
}

// survey reads the samples and what goes with them.
func (x *surveyReading) survey() (*crop.Survey, crop.Question, error) {
	d := x.doc
	q := crop.Question{ElsewhereT: math.NaN()}
	q.Lonely = crop.Lonely(cmp.Or(d.Lonely, string(crop.Adjust)))
	if d.Elsewhere != nil {
		q.ElsewhereT = d.Elsewhere.In("¤/t")
	}
	if d.Drawn == "by-district" {
		q.Clusters = crop.FarmInDistrict
	}
	if d.MostSeen {
		q.Rest = crop.BinsRest
	}
	survey, err := x.samples(d.Samples)
	if err != nil {
		return nil, q, err
	}
	if err := x.table(d.Frame, survey.ReadFrame); err != nil {
		return nil, q, err
	}
	for _, name := range d.Before {
		before, err := x.samples(name)
		if err != nil {
			return nil, q, err
		}
		survey.Add(before)
	}
	if len(d.Before) > 0 && len(survey.Seasons()) < 2 {
		return nil, q, &tableFaults{[]string{x.acc.Units.Say("page.crop.seasons", "before", d.Before[0])}}
	}
	if err := x.table(d.Places, survey.ReadPlaces); err != nil {
		return nil, q, err
	}
	for _, c := range d.Contracts {
		b := crop.Buyer{WantedT: math.NaN()}
		data, err := x.read(c.Contract)
		if err != nil {
			return nil, q, err
		}
		doc, faults := paper.Read[paper.Contract](c.Contract, data)
		if len(faults) > 0 {
			return nil, q, faults
		}
		x.acc.Inputs[len(x.acc.Inputs)-1].Kind = doc.Kind()
		contract := doc.Contract()
		b.Contract = &contract
		if c.Wanted != nil {
			b.WantedT = c.Wanted.In("t")
		}
		q.Buyers = append(q.Buyers, b)
	}
	for _, quality := range slices.Sorted(maps.Keys(d.Within)) {
		if aim, known := survey.AimOf(quality, d.Within[quality]); known {
			q.Aims = append(q.Aims, aim)
		}
	}
	return survey, q, nil
}

// malt takes lots of the harvest through the programme of the document.
func (x *surveyReading) malt(ctx context.Context, s *crop.Survey, buyers []crop.Buyer) (*crop.Malting, error) {
	m := x.doc.Malt
	piece, in, faults := paper.Load(x.files, m.Piece)
	if len(faults) > 0 {
		return nil, faults
	}
	x.acc.Inputs = append(x.acc.Inputs, report.Inputs(in)...)
	out, err := s.Malt(ctx, buyers, crop.MaltQuestion{Piece: piece, Lots: cropLots, Seed: cropSeed, Workers: runtime.GOMAXPROCS(0)})
	if err != nil {
		return nil, cannot(err)
	}
	return out, x.table(m.Pilots, func(rows [][]string) []finding.Cell {
		pilots, faults := crop.ReadPilots(rows)
		out.Compare(pilots)
		return faults
	})
}

// read reads a file and notes it among what the account rests on.
func (x *surveyReading) read(name string) ([]byte, error) {
	data, err := fs.ReadFile(x.files, name)
	sum := sha256.Sum256(data)
	x.acc.Inputs = append(x.acc.Inputs, report.Input{Kind: "table", SHA256: hex.EncodeToString(sum[:])})
	return data, err
}

// table reads a table, if one is named, into whatever takes its rows.
func (x *surveyReading) table(name string, into func([][]string) []finding.Cell) error {
	if name == "" {
		return nil
	}
	data, err := x.read(name)
	if err != nil {
		return err
	}
	sheet, err := table.Read(bytes.NewReader(data), x.doc.Sheet)
	var wrong *table.Error
	if errors.As(err, &wrong) {
		return &tableFaults{[]string{name + ": " + x.acc.Units.Say("table."+string(wrong.Problem)) + "."}}
	}
	if err != nil {
		return err
	}
	if faults := into(sheet.Cells); len(faults) > 0 {
		return &tableFaults{report.TableFaults(name, sheet.Line, faults, x.acc.Units)}
	}
	return nil
}

// samples reads samples.
func (x *surveyReading) samples(name string) (survey *crop.Survey, err error) {
	roles := map[string]crop.Column{}
	for header, what := range x.doc.Columns {
		roles[header], _ = crop.ColumnNamed(what) // the document was checked
	}
	err = x.table(name, func(rows [][]string) (faults []finding.Cell) {
		survey, faults = crop.Read(rows, roles)
		return faults
	})
	return survey, err
}

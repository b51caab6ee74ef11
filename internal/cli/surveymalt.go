package cli

import (
	"awn/internal/report"
	"fmt"
	"math"
	"runtime"
	"strconv"
	"strings"

	"awn/course"
	"awn/crop"
	"awn/examples"
	"awn/finding"
	"awn/internal/paper"
)

// buyers reads the contracts, each with the tonnes wanted behind it.
func (r *surveyReading) buyers() ([]crop.Buyer, error) {
	var out []crop.Buyer
	for _, text := range r.c.Contract {
		name, tonnes, told := strings.Cut(text, "=")
		b := crop.Buyer{WantedT: math.NaN()}
		if told {
			x, err := strconv.ParseFloat(tonnes, 64)
			if err != nil || !(x > 0) || math.IsInf(x, 0) {
				return nil, &lineError{fmt.Sprintf("--contract %s: “%s” is no number of tonnes.", text, tonnes)}
			}
			b.WantedT = x
		}
		data, err := r.read(name)
		if err != nil {
			return nil, err
		}
		doc, faults := paper.Read[paper.Contract](name, data)
		if len(faults) > 0 {
			return nil, faults
		}
		r.inputs[len(r.inputs)-1].Kind = doc.Kind()
		contract := doc.Contract()
		b.Contract = &contract
		out = append(out, b)
	}
	return out, nil
}

// malt takes lots of the harvest through the standard programme.
func (r *surveyReading) malt(s *crop.Survey, buyers []crop.Buyer) (*crop.Malting, error) {
	piece, err := r.piece()
	if err != nil {
		return nil, err
	}
	m := r.j.meter()
	defer m.end()
	q := crop.MaltQuestion{Piece: piece, Lots: *r.c.Lots, Seed: *r.c.Seed, Workers: runtime.GOMAXPROCS(0), Told: func(done, of int) { m.tell(done, of, "lots") }}
	for _, name := range r.c.Spec {
		data, err := r.read(name)
		if err != nil {
			return nil, err
		}
		doc, faults := paper.Read[paper.Specification](name, data)
		if len(faults) > 0 {
			return nil, faults
		}
		q.Others = append(q.Others, doc.Specification())
	}
	out, err := s.Malt(r.j.ctx, buyers, q)
	if err != nil || r.c.Pilots == "" {
		return out, err
	}
	return out, r.table(r.c.Pilots, func(rows [][]string) []finding.Cell {
		pilots, faults := crop.ReadPilots(rows)
		out.Compare(pilots)
		return faults
	})
}

// piece is the house and programme that the harvest is malted by.
func (r *surveyReading) piece() (course.Piece, error) {
	if !r.inside {
		piece, inputs, err := load(r.j, r.c.Malt)
		r.inputs = append(r.inputs, inputs...)
		return piece, err
	}
	piece, inputs, faults := paper.Load(examples.Files, r.c.Malt)
	if len(faults) > 0 {
		return piece, faults
	}
	r.inputs = append(r.inputs, report.Inputs(inputs)...)
	return piece, nil
}

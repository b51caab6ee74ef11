// Package expect says what a piece is expected to do: worked out before it is
// cast and kept with the documents it rests on, and anew from what was done to
// it and measured of it since.
package expect

import (
	"context"
	"math"

	"awn/course"
	"awn/internal/house"
	"awn/internal/malthouse"
	"awn/internal/paper"
	"awn/programme"
)

// everyMin is how finely the course of a plan is kept.
const everyMin = 10

// Plan works out what a piece is expected to give. The inputs are the
// documents it was read from, that of the piece first.
func Plan(piece *course.Piece, inputs []paper.Input) (*malthouse.Plan, error) {
	o, err := course.Run(piece)
	if err != nil {
		return nil, err
	}
	y := o.Yield
	p := &malthouse.Plan{
		CastKg: piece.CastKg, MaltKg: y.Malt.Kg(), CulmsKg: y.Culms.Kg(), ScreeningsKg: y.Screens.Kg(),
		RespiredDM: y.Respired + y.RespiredKiln + y.DustShare, LeachedDM: y.Leached, Model: house.Model, Curve: curveOf(o),
	}
	if kg := y.Malt.Kg(); kg > 0 {
		p.MoistureWB = 1 - y.Malt.DryKg/kg
	}
	p.RestD, p.Stages = piece.Programme.RestD, stagesOf(o)
	for _, in := range inputs {
		p.Inputs = append(p.Inputs, malthouse.PlanInput{Kind: in.Kind, File: in.File, SHA256: in.SHA256, Text: in.Text})
	}
	return p, nil
}

// stagesOf is when each stage runs, and in which vessel of the plant.
func stagesOf(o *course.Outcome) (out []malthouse.PlanStage) {
	p := o.Piece
	for _, s := range o.Stages {
		vessel := ""
		switch s.Stage {
		case course.Steep:
			vessel = p.House.Steeps[p.Steep].Name
		case course.Germinate:
			vessel = p.House.Germinators[p.Germinator].Name
		case course.Kiln:
			vessel = p.House.Kilns[p.Kiln].Name
		}
		out = append(out, malthouse.PlanStage{Stage: s.Stage.String(), FromH: s.FromH, ToH: s.ToH, Vessel: vessel})
	}
	return out
}

// kept are the readings whose course is kept.
var kept = []programme.Reading{
	programme.Moisture, programme.WorstLayer, programme.TempMean, programme.TempHigh, programme.Chit, programme.Acrospire,
	programme.DryMatter, programme.AirOn, programme.AirOff,
}

// curveOf is the course at equal steps: the last moment of the curve until then.
func curveOf(o *course.Outcome) *malthouse.PlanCurve {
	c := &malthouse.PlanCurve{EveryMin: everyMin, Readings: map[string][]*float64{}}
	if len(o.Curve.TimeH) == 0 {
		return c
	}
	last := 0
	for h := 0.0; h <= o.Curve.TimeH[len(o.Curve.TimeH)-1]; h += everyMin / 60.0 {
		for last+1 < len(o.Curve.TimeH) && o.Curve.TimeH[last+1] <= h {
			last++
		}
		for _, r := range kept {
			c.Readings[r.Key()] = append(c.Readings[r.Key()], short(o.Curve.At[last][r]))
		}
	}
	return c
}

// short is a number to five digits, nil where it is not known: a course is not
// known more finely, and the record keeps it for good.
func short(x float64) *float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	if x != 0 {
		scale := math.Pow(10, 4-math.Floor(math.Log10(math.Abs(x))))
		x = math.Round(x*scale) / scale
	}
	return &x
}

// Piece reads the piece of a plan from the documents that the house kept with
// it. There is none if the plan was made without documents.
func Piece(ctx context.Context, h *malthouse.House, plan *malthouse.Plan) (piece *course.Piece, found bool, err error) {
	if plan == nil || len(plan.Inputs) == 0 {
		return nil, false, nil
	}
	files := paper.Files{}
	for _, in := range plan.Inputs {
		if files[in.File], err = h.Desk.Document(ctx, in.SHA256); err != nil {
			return nil, false, err
		}
	}
	read, _, faults := paper.Load(files, plan.Inputs[0].File)
	if len(faults) > 0 {
		return nil, false, faults
	}
	return &read, true, nil
}

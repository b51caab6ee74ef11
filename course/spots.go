package course

import (
	"awn/barley"
	"awn/finding"
	"awn/germinate"
	"awn/malt"
	"awn/plant"
	"awn/programme"
)

// Spot is one column of an uneven bed, as the kiln left it.
type Spot struct {
	barley.Column
	Name     string  // thin, mean or thick
	DryShare float64 // of the piece's dry matter
	// AirGrown and AirKilned are its air per floor over the bed's mean, at the
	// end of germination and of kilning.
	AirGrown, AirKilned float64
	Growth              germinate.Modification
	Kilned              Kilned
	Malt                malt.Analysis
	Judged              []malt.Verdict
}

// columns are the spots into which a vessel lays the piece.
func (p *Piece) columns(own []barley.Column) []barley.Column {
	if p.Level || len(own) == 0 {
		return level
	}
	return own
}

// liesLevel says whether the bed of the kiln is taken to be level.
func (p *Piece) liesLevel() bool {
	i := p.Kiln
	return i < 0 || i >= len(p.House.Kilns) || len(p.columns(p.House.Kilns[i].Columns)) == 1
}

// onto is how the grain goes into the next vessel: its columns there, and
// whether it is mixed on the way. Grain that is not mixed keeps its spots.
func (r *runner) onto(own []barley.Column, mixes bool) ([]barley.Column, bool) {
	if mixes || r.grain.Layers == 1 && len(r.grain.Columns) == 1 {
		return r.piece.columns(own), true
	}
	return r.grain.Columns, false
}

// spotLayers is how many of a level bed's layers each spot of an uneven one is
// cut into: what that costs in accuracy is far below what three spots leave out.
const spotLayers = 0.8

// layersOf is the layers of each column of a bed whose one would have so many.
func layersOf(columns []barley.Column, level int) int {
	if len(columns) == 1 {
		return level
	}
	return int(spotLayers * float64(level))
}

// toKilnMixes says whether loading the kiln mixes: it does not where the piece
// is kilned in the vessel in which it grew.
func (p *Piece) toKilnMixes() bool {
	grown := p.Begin == nil || p.Begin.Stage < Kiln
	return p.Programme.KilnTransferMixes && !(grown && p.House.Germinators[p.Germinator].Kind == plant.Combined)
}

// spots judges each column of an uneven bed by itself, and says where the
// piece passes over one that fails.
func (r *runner) spots(run kilning) {
	g := r.grain
	if len(g.Columns) == 1 {
		return
	}
	air := r.grownAir
	for column, c := range g.Columns {
		part := g.Part(column)
		s := Spot{Column: c, Name: barley.Spot(g.Columns, column), DryShare: part.TotalDryKg() / g.TotalDryKg(), AirGrown: nan, AirKilned: run.AirShare(column)}
		if len(air) == len(g.Columns) {
			s.AirGrown = air[column]
		}
		s.Growth = r.c.germinate.Modification(part, &r.lot)
		s.Kilned = kilnedOf(run.Break(column), part, r.c.own.GreenEBC)
		s.Malt = analysis(&r.lot, s.Growth, s.Kilned, r.sent(s.Kilned.MoistureMean))
		s.Judged = malt.Judge(r.piece.Specification, s.Malt)
		r.out.Spots = append(r.out.Spots, s)
	}
}

// hidden says where the piece passes a limit over a spot that fails it.
func (o *Outcome) hidden(dst []finding.Finding) []finding.Finding {
	for i, whole := range o.Judged {
		if whole.Word != malt.Passes {
			continue
		}
		worst := -1
		for n := range o.Spots {
			if v := o.Spots[n].Judged[i]; v.Word == malt.Fails && (worst < 0 || v.Margin < o.Spots[worst].Judged[i].Margin) {
				worst = n
			}
		}
		if worst >= 0 {
			dst = append(dst, o.hides(whole, worst, o.Spots[worst].Judged[i]))
		}
	}
	return dst
}

// hides is the finding of one limit that a spot fails unseen. Its cause is told
// by the air that the spot got, when it broke, and when damp air came back.
func (o *Outcome) hides(whole malt.Verdict, column int, v malt.Verdict) finding.Finding {
	s := &o.Spots[column]
	side, limit := "spot-below", v.Limit.Min
	if v.Found.Value.Mid > v.Limit.Max {
		side, limit = "spot-above", v.Limit.Max
	}
	key := v.Limit.Parameter.Key(v.Limit.Basis)
	f := finding.New("malt."+string(v.Limit.Parameter)+"."+side, finding.Caution, "malt",
		finding.Figure{Name: key, Value: v.Found.Value.Mid},
		finding.Figure{Name: "limit_" + key, Value: limit},
		finding.Figure{Name: "whole_" + key, Value: whole.Found.Value.Mid},
		finding.Figure{Name: "floor_share", Value: s.Share},
		finding.Figure{Name: "air_x", Value: s.AirKilned})
	f.Column, f.Spot, f.Act = column, s.Name, "act.bed.level"
	if back, first := o.recirculatedH(), o.firstBreakH(); s.Kilned.BreakH > first {
		f.Figures = append(f.Figures, finding.Figure{Name: "spot_break_h", Value: s.Kilned.BreakH}, finding.Figure{Name: "first_break_h", Value: first})
		if back < s.Kilned.BreakH {
			f.Figures = append(f.Figures, finding.Figure{Name: "recirculated_h", Value: back})
			f.Act = "act.kiln.recirculate-after-last-break"
		}
	}
	f.Chance, f.Cost, f.Source = missedChance, downgradeShare*s.DryShare, "common practice, no source"
	return f
}

// firstBreakH is when the first spot broke, NaN if none did.
func (o *Outcome) firstBreakH() float64 {
	first := nan
	for i := range o.Spots {
		if b := o.Spots[i].Kilned.BreakH; !(b >= first) {
			first = b
		}
	}
	return first
}

// recirculated is the share of return air that counts.
const recirculated = 0.05

// recirculatedH is when return air first came to the kiln, hours since the kiln
// began; NaN if it never did.
func (o *Outcome) recirculatedH() float64 {
	for _, s := range o.Stages {
		if s.Stage != Kiln {
			continue
		}
		for i, h := range o.Curve.TimeH {
			if h >= s.FromH && o.Curve.At[i][programme.Recirculation] > recirculated {
				return h - s.FromH
			}
		}
	}
	return nan
}

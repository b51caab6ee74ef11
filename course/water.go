package course

import (
	"math"
	"slices"

	"awn/finding"
	"awn/plant"
	"awn/programme"
	"awn/steep"
)

// SteepWater is what the water of a steep took. With reuse, the house is taken to
// steep such a piece after another: the last water of one is the first of the
// next.
type SteepWater struct {
	SupplyC                float64 // as it comes to the house
	FreshM3, ReusedM3      float64
	ReusedC                float64 // as it left the piece before; NaN if none was reused
	ReusedCODKg            float64 // load that it brings
	WarmedJ, CooledJ       float64 // to bring it to the temperatures of the programme
	HeatFuelJ, CoolWorkJ   float64 // fuel by its lower heating value, and power, for that
	PH, HardnessMgL, IronL float64 // as the house has recorded them; NaN if it has not
}

const waterJM3K = 4.186e6

// waterReached is the programme with the temperatures to which the house can
// bring its water while the vessel fills.
func (r *runner) waterReached(steps []programme.SteepStep, v plant.Steep) []programme.SteepStep {
	w, supply := &r.piece.House.Water, r.piece.waterC(r.atH)
	reach := func(kw float64) float64 {
		if kw == 0 || v.FillH == 0 {
			return math.Inf(1)
		}
		return kw * jPerKWh * v.FillH / (v.WaterM3T * r.castT() * waterJM3K)
	}
	warmest, coldest := supply+reach(w.HeatKW), supply-reach(w.CoolKW)
	asked := 0.0
	reached := slices.Clone(steps)
	for i := range reached {
		s := &reached[i]
		if s.Kind != programme.Immersion || math.IsNaN(s.WaterC) || s.Reused > 0 {
			continue
		}
		got := min(max(s.WaterC, coldest), warmest)
		if off := math.Abs(s.WaterC - got); off > math.Abs(asked) {
			asked = s.WaterC - got
		}
		s.WaterC = got
	}
	if math.Abs(asked) > missedWaterK {
		f := finding.New("steep.water.missed", finding.Caution, Steep.String(), finding.Figure{Name: "off_k", Value: math.Abs(asked)},
			finding.Figure{Name: "supply_c", Value: supply}, finding.Figure{Name: "fill_h", Value: v.FillH})
		f.Act, f.Chance, f.Cost, f.Source = "act.plant.make-water-before", 0.8, 0.02, "common practice, no source"
		r.out.Findings = append(r.out.Findings, f)
	}
	return reached
}

// missedWaterK is how far steep water may miss its temperature without a word.
const missedWaterK = 0.5

// waterLedger keeps what the steep had used and given when each step began.
type waterLedger struct {
	run  *steep.Bed
	seen []steep.Effluent
}

func (l *waterLedger) begin(s programme.SteepStep) error {
	l.seen = append(l.seen, l.run.Effluent())
	return l.run.Begin(s)
}

// close is what each step used, its draining counted with it.
func (l *waterLedger) close() []steep.Effluent {
	l.seen = append(l.seen, l.run.Effluent())
	out := make([]steep.Effluent, len(l.seen)-1)
	for i := range out {
		a, b := l.seen[i], l.seen[i+1]
		out[i] = steep.Effluent{UsedM3: b.UsedM3 - a.UsedM3, AbsorbM3: b.AbsorbM3 - a.AbsorbM3, CODKg: b.CODKg - a.CODKg}
	}
	return out
}

// water counts what the water took in warmth and cold, and what was reused.
func (r *runner) water(steps []programme.SteepStep, used []steep.Effluent, went []StepOutcome) {
	h := &r.piece.House
	w := SteepWater{SupplyC: r.piece.waterC(went[0].FromH), ReusedC: nan, PH: h.Water.PH, HardnessMgL: h.Water.HardnessMgL, IronL: h.Water.IronMgL}
	last := lastImmersion(steps)
	left, loadKg := 0.0, 0.0
	if last >= 0 {
		left, loadKg = min(max(0, used[last].UsedM3-used[last].AbsorbM3), r.steeped.DrainM3), used[last].CODKg
	}
	lastM3 := left
	for i, s := range steps {
		reused := min(s.Reused*used[i].UsedM3, left)
		left -= reused
		wantC := s.WaterC
		if math.IsNaN(wantC) {
			wantC = w.SupplyC
		}
		w.bring(used[i].UsedM3-reused, w.SupplyC, wantC)
		if reused > 0 {
			w.ReusedC = went[last].End[programme.WaterTemp]
			w.bring(reused, w.ReusedC, wantC)
		}
		w.ReusedM3 += reused
	}
	w.FreshM3 = r.steeped.UsedM3 - w.ReusedM3
	if w.ReusedM3 > 0 {
		w.ReusedCODKg = loadKg * w.ReusedM3 / lastM3
	}
	w.HeatFuelJ, w.CoolWorkJ = over(w.WarmedJ, h.Water.Efficiency), over(w.CooledJ, h.Water.COP)
	r.out.Water = w
	r.waterFindings()
}

// over is an amount of heat by how much of it a unit of what is bought gives; a
// house that does not say gets one for one.
func over(j, by float64) float64 {
	if by == 0 {
		return j
	}
	return j / by
}

// bring counts the warmth or cold that takes water from one temperature to another.
func (w *SteepWater) bring(m3, fromC, toC float64) {
	j := m3 * waterJM3K * (toC - fromC)
	w.WarmedJ += max(0, j)
	w.CooledJ += max(0, -j)
}

// lastImmersion is the step whose water the next piece may get; -1 if there is none.
func lastImmersion(steps []programme.SteepStep) int {
	for i := len(steps) - 1; i >= 0; i-- {
		if steps[i].Kind == programme.Immersion {
			return i
		}
	}
	return -1
}

// Between which steep water has no effect of its own on uptake.
//
// Source: LNCC undated: acidity of 4.5 to 8.5 and salts have no effect.
const (
	sourPH     = 4.5
	alkalinePH = 8.5
)

// waterFindings say what is to be said of the water.
func (r *runner) waterFindings() {
	w := &r.out.Water
	tell := func(code string, severity finding.Severity, act, source string, figures ...finding.Figure) {
		f := finding.New(code, severity, Steep.String(), figures...)
		f.Act, f.Chance, f.Cost, f.Source = act, 0.4, 0.01, source
		r.out.Findings = append(r.out.Findings, f)
	}
	if w.ReusedM3 > 0 {
		tell("steep.water.reused", finding.Note, "act.steep.fresh-water", "common practice, no source",
			finding.Figure{Name: "reused_m3", Value: w.ReusedM3}, finding.Figure{Name: "cod_g_m3", Value: 1000 * w.ReusedCODKg / w.ReusedM3},
			finding.Figure{Name: "reused_c", Value: w.ReusedC})
	}
	if w.PH > 0 && w.PH < sourPH || w.PH > alkalinePH {
		tell("steep.water.ph", finding.Caution, "act.plant.correct-water", "LNCC undated",
			finding.Figure{Name: "ph_x", Value: w.PH}, finding.Figure{Name: "low_x", Value: sourPH}, finding.Figure{Name: "high_x", Value: alkalinePH})
	}
}

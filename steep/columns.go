package steep

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"awn/barley"
	"awn/bed"
	"awn/finding"
	"awn/programme"
)

// Bed is one piece in the steep as it lies: its columns side by side, each a
// Run of its own, wetted and drained together, with one suction below them. Air
// goes where the bed is thin. A level bed is one column.
type Bed struct {
	setup   *Setup // of the whole; never changed after StartBed
	columns []barley.Column
	runs    []*Run
	mass    []float64 // share of the piece in each column
	parts   []*barley.Grain
	spots   []bed.Spot
	airMS   []float64
	lackM3H float64 // most suction that the vessel did not give
	lackAtH float64
}

// columnSteps is how much longer the steps of a column are than those of a level
// bed: what that costs in accuracy is far below what columns leave out.
const columnSteps = 1.5

// StartBed puts a piece into a vessel whose grain lies in the given columns.
func StartBed(s Setup, columns []barley.Column, from *barley.Grain) (*Bed, error) {
	b := &Bed{
		setup: &s, columns: slices.Clone(columns), mass: barley.MassShares(columns),
		spots: make([]bed.Spot, len(columns)), airMS: make([]float64, len(columns)),
	}
	for i, c := range columns {
		own, part := s, from
		if len(columns) > 1 {
			part = scaled(from, b.mass[i])
			own.CastT *= b.mass[i]
			own.StepS = min(columnSteps*cmp.Or(s.StepS, UsualStepS), longestStepS)
			v := &own.Vessel
			v.CapacityT *= c.Share // its floor follows from this
			v.VolumeM3 *= b.mass[i]
			v.AerationM3H *= b.mass[i]
			v.SuctionM3H = math.Inf(1) // shared out here
		}
		run, err := Start(own, part)
		if err != nil {
			return nil, err
		}
		b.runs, b.parts = append(b.runs, run), append(b.parts, run.Shape())
	}
	return b, nil
}

// scaled is a part of a piece, mixed.
func scaled(from *barley.Grain, share float64) *barley.Grain {
	g := from.Clone()
	for i := range g.DryKg {
		g.DryKg[i] *= share
	}
	for i := range g.WaterKg {
		g.WaterKg[i] *= share
	}
	return g
}

// Begin sets what is done from now on, and shares the suction out.
func (b *Bed) Begin(step programme.SteepStep) error {
	if len(b.runs) == 1 {
		return b.runs[0].Begin(step)
	}
	asked := step.SuctionM3HT * b.setup.CastT
	drawn := min(asked, b.setup.Vessel.SuctionM3H)
	if lack := asked - drawn; lack > b.lackM3H && step.Kind != programme.Couch && !step.UnderWater() {
		b.lackM3H, b.lackAtH = lack, b.runs[0].now.atH
	}
	if err := b.share(drawn); err != nil {
		return err
	}
	for i, run := range b.runs {
		own := step
		own.SuctionM3HT = b.airMS[i] * b.columns[i].Share * drawn / run.setup.CastT
		if err := run.Begin(own); err != nil {
			return err
		}
	}
	return nil
}

// stillMS is a suction that is none: how it is shared out makes no difference.
const stillMS = 1e-6

// share finds the air of each column over that of the whole bed.
func (b *Bed) share(m3h float64) error {
	mean := m3h / secondsPerHour / b.setup.floorM2()
	if mean < stillMS {
		for i := range b.airMS {
			b.airMS[i] = 1
		}
		return nil
	}
	for i, run := range b.runs {
		b.spots[i] = bed.Spot{
			Share: b.columns[i].Share, DepthM: run.now.bulkM3 / run.setup.floorM2(), Factor: b.columns[i].Packing,
		}
	}
	bed.Split(b.airMS, b.spots, mean)
	for i := range b.airMS {
		b.airMS[i] /= mean
		if !isNumber(b.airMS[i]) {
			return fmt.Errorf("steep: %g m³/h of suction through a bed of %g m²", m3h, b.setup.floorM2())
		}
	}
	return nil
}

// To advances the piece to tH hours since the start.
func (b *Bed) To(tH float64) error {
	for _, run := range b.runs {
		if err := run.To(tH); err != nil {
			return err
		}
	}
	return nil
}

// Shape returns a grain of the shape that Grain fills, with nothing in it yet.
func (b *Bed) Shape() *barley.Grain {
	return barley.NewGrain(slices.Clone(b.runs[0].grain.Classes), slices.Clone(b.columns), 1)
}

// Grain sets dst to the piece as it is now, one layer in each column. How many
// kernels of a class there are, and how much wetter than the mean it is, is told
// of the whole piece.
func (b *Bed) Grain(dst *barley.Grain) {
	classes := len(dst.Classes)
	for i, run := range b.runs {
		part := b.parts[i]
		run.Grain(part)
		dst.WaterKg[i], dst.TempC[i], dst.Heat[i] = part.WaterKg[0], part.TempC[0], part.Heat[0]
		copy(dst.Of(dst.DryKg, i), part.DryKg)
		copy(dst.Of(dst.ThermalTimeCH, i), part.ThermalTimeCH)
		copy(dst.Of(dst.AgeD, i), part.AgeD)
	}
	copy(dst.Classes, b.parts[0].Classes)
	for class := range classes {
		number, offset := 0.0, 0.0
		for i, part := range b.parts {
			number += b.mass[i] * part.Classes[class].Number
			offset += b.mass[i] * part.OffsetDB[class]
		}
		dst.Classes[class].Number, dst.OffsetDB[class] = number, offset
	}
}

// Bed sets the moistures, wet basis, film included, and temperatures of a
// column, which are the same from its floor to its top.
func (b *Bed) Bed(column int, moistureWB, tempC []float64) {
	b.runs[column].Bed(0, moistureWB, tempC)
}

// Clone returns a bed that goes on from here by itself.
func (b *Bed) Clone() *Bed {
	out := *b
	out.runs, out.parts = make([]*Run, len(b.runs)), make([]*barley.Grain, len(b.runs))
	for i, run := range b.runs {
		out.runs[i], out.parts[i] = run.Clone(), b.parts[i].Clone()
	}
	out.spots, out.airMS = slices.Clone(b.spots), slices.Clone(b.airMS)
	return &out
}

// Reset sets the bed to the state of another of the same piece.
func (b *Bed) Reset(from *Bed) {
	for i, run := range b.runs {
		run.Reset(from.runs[i])
	}
	copy(b.airMS, from.airMS)
	b.lackM3H, b.lackAtH = from.lackM3H, from.lackAtH
}

// Lines appends the account of all columns.
func (b *Bed) Lines(dst []barley.Line) []barley.Line {
	from := len(dst)
	for i, run := range b.runs {
		if i == 0 {
			dst = run.Lines(dst)
			continue
		}
		for n, l := range run.Lines(nil) {
			dst[from+n].Amount += l.Amount
		}
	}
	return dst
}

// Effluent is what all columns have used and let out.
func (b *Bed) Effluent() (e Effluent) {
	for _, run := range b.runs {
		x := run.Effluent()
		e.UsedM3 += x.UsedM3
		e.DrainM3 += x.DrainM3
		e.CODKg += x.CODKg
		e.DryKg += x.DryKg
		e.AbsorbM3 += x.AbsorbM3
	}
	if e.DrainM3 > 0 {
		e.CODKgM3 = e.CODKg / e.DrainM3
	}
	return e
}

// LossKg is the dry matter that has gone in breath and water since the start.
//
// Definition.
func (b *Bed) LossKg() (respired, leached float64) {
	for _, run := range b.runs {
		r, l := run.LossKg()
		respired, leached = respired+r, leached+l
	}
	return respired, leached
}

// Findings appends what the steep has to say: of each thing about the grain, of
// the column in which it is worst; of the vessel, for all of them.
func (b *Bed) Findings(dst []finding.Finding) []finding.Finding {
	if len(b.runs) == 1 {
		return b.runs[0].Findings(dst)
	}
	from := len(dst)
	for column, run := range b.runs {
		for _, f := range run.climateFindings(run.moistureFindings(run.lifeFindings(nil))) {
			f.Column = column
			i := slices.IndexFunc(dst[from:], func(x finding.Finding) bool { return x.Code == f.Code })
			switch {
			case i < 0:
				dst = append(dst, f)
			case worse(f, dst[from+i]):
				dst[from+i] = f
			}
		}
	}
	return b.whole().vesselFindings(dst)
}

// worse compares two findings of one thing by their first figure, which is the
// higher the worse, but for moisture that is too low.
func worse(a, b finding.Finding) bool {
	return a.Figures[0].Value > b.Figures[0].Value != (a.Code == "steep.moisture.low" || a.Code == "steep.grain.frozen")
}

// whole is what the vessel's findings ask of a run, for all columns together.
func (b *Bed) whole() *Run {
	r := *b.runs[0]
	r.setup = b.setup
	w, s := &r.now.watch, &r.now.sums
	w.suctionLack, w.suctionAtH = b.lackM3H, b.lackAtH
	for _, run := range b.runs[1:] {
		w.fullestM3 += run.now.watch.fullestM3
		w.aerLack += run.now.watch.aerLack
		s.usedM3 += run.now.sums.usedM3
		s.absorbedKg += run.now.sums.absorbedKg
		s.sprayedKg += run.now.sums.sprayedKg
	}
	return &r
}

// Read sets v to the readings of the moment over all columns: means by dry
// matter, moistures from what all of them hold, and the lowest and highest where
// that is what is read.
func (b *Bed) Read(v *programme.Values) {
	b.runs[0].Read(v)
	if len(b.runs) == 1 {
		return
	}
	var sum programme.Values
	dry, water, film, flow := 0.0, 0.0, 0.0, 0.0
	low, high := math.Inf(1), math.Inf(-1)
	oxygen, dioxide := math.Inf(1), math.Inf(-1)
	for i, run := range b.runs {
		var own programme.Values
		run.Read(&own)
		m := run.now.dryKg
		dry += m
		water += run.kernelWaterKg()
		film += run.filmKg()
		flow += b.columns[i].Share * own[programme.Flow]
		for _, of := range means {
			sum[of] += m * own[of]
		}
		low, high = min(low, run.now.tempC), max(high, run.now.tempC)
		oxygen, dioxide = min(oxygen, own[programme.OxygenLeast]), max(dioxide, own[programme.CarbonDioxideMost])
	}
	for _, of := range means {
		v[of] = sum[of] / dry
	}
	v[programme.Moisture], v[programme.Drained] = wetBasis(water, dry), wetBasis(water+film, dry)
	v[programme.TempLow], v[programme.TempHigh], v[programme.DryMatter] = low, high, dry
	v[programme.OxygenLeast], v[programme.CarbonDioxideMost], v[programme.Flow] = oxygen, dioxide, flow
}

// means are the readings of the whole bed that are means by dry matter.
var means = []programme.Reading{
	programme.TempMean, programme.Chit, programme.Age, programme.Respiration, programme.WaterTemp, programme.AirOff,
}

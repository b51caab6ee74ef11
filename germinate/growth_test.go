package germinate

import (
	"math"
	"testing"

	"awn/barley"
	"awn/finding"
	"awn/kernel"
	"awn/plant"
	"awn/programme"
)

// stoutly is a kernel whose respiration gives exactly 2.0 W/kg dry matter
// whatever its age, for comparison with figures worked at that rate.
func stoutly(t *testing.T, s *Setup, tempC float64) {
	k := *s.Kernel
	const wattsPerKg = 2.0
	k.PeakRate = 0
	k.RestRate = wattsPerKg * 3.6e6 / kernel.CombustionJKg / k.RespirationByTemp(tempC)
	s.Kernel = &k
}

// The rise of temperature through a bed that gives 2.0 W/kg, on saturated air of
// 13 °C, and what it dries by: worked by hand from tables of moist air with the
// air of each flow leaving saturated. Tolerance 10 %, as the table takes one
// figure for the heat that air carries per K.
func TestRiseThroughBed(t *testing.T) {
	for _, row := range table(t, "rise.csv") {
		s := setup(t, 20)
		s.Vessel.Air.Fan = plant.Fan{ShutOffPa: 5000, FreeM3S: 3, Efficiency: 0.63}
		s.Outside = Outside{MeanC: 13, RH: 1}
		stoutly(t, &s, 13+row[1]/2)
		r := start(t, s, even(20, 0.45, 13+row[1]/2, 3))
		run(t, r, programme.GerminateStep{Until: programme.Until{LatestH: 24}, AirOnC: 13, AirOnRH: 1, Flow: per(row[0])})
		v := read(r)
		// The row's heat is that at the bed's mean; the run's is 2 W/kg only there.
		q := v[programme.Respiration] / 1000 / 3600 * kernel.CombustionJKg
		near(t, "rise, K per 2 W/kg", (v[programme.AirOff]-v[programme.AirOn])*2/q, row[1], 0.1*row[1])
		if row[0] >= 500 {
			perDay := -r.now.sums.airWaterKg / testCastT / q * 2
			near(t, "evaporated, kg/t in a day", perDay, 37.5, 3.75)
		}
	}
}

// With oxygen in plenty and at 45 %, the share of dry matter gone by the end of
// each day from an age of 0.4 days, from an independent computation of the same law at 0.40 g/(kg h).
// Tolerance: the last printed digit and half of it again, for half-hour steps.
func TestCumulativeLoss(t *testing.T) {
	for _, row := range table(t, "loss.csv") {
		s := setup(t, 1)
		k := *s.Kernel
		k.PeakRate = 0.40
		s.Kernel = &k
		g := even(1, 0.45, row[0], 0.4)
		clock := kernel.NewClock(&k, g.Classes, nil, 380)
		for _, want := range row[1:] {
			for range 48 {
				clock.Step(0.5, row[0], 0.45, 1, g.DryKg, g.ThermalTimeCH, g.AgeD)
			}
			// The table integrates the rate; it counts from dry matter at the start.
			gone := -100 * math.Log(g.TotalDryKg()/testDryKg)
			near(t, "dry matter gone by day", gone, want, 0.015+0.01*want)
		}
	}
}

// A stopped fan with shut dampers: 0.44 g/(kg h) takes the 0.125 kg of oxygen
// that a m³ of bed holds (330 kg dry matter, voids 0.45) in 44 minutes, carbon
// dioxide rises by 29 points an hour and temperature by 1.6 K an hour; worked by
// hand. Oxygen runs out later than that by what corns slow down at the end, so
// the first quarter hour is compared.
func TestStoppedFan(t *testing.T) {
	s := setup(t, 10)
	c := *s.Constants
	c.DraughtM3HTK = 0
	k := *s.Kernel
	k.PeakRate, k.RestRate = 0, 0.44
	s.Constants, s.Kernel = &c, &k
	r := start(t, s, even(10, 0.45, 16, 3))
	stop := programme.GerminateStep{Until: programme.Until{LatestH: 6}, AirOnC: 14, AirOnRH: 1, FanOff: true}
	if err := r.Begin(stop); err != nil {
		t.Fatal(err)
	}
	before := read(r)
	const hours = 0.25
	if err := r.To(hours); err != nil {
		t.Fatal(err)
	}
	v := read(r)
	used := before[programme.OxygenLeast] - v[programme.OxygenLeast]
	near(t, "oxygen gone in, min", 60*hours*before[programme.OxygenLeast]/used, 44, 2)
	near(t, "carbon dioxide, points an hour", 100*(v[programme.CarbonDioxideMost]-freshAirDioxide)/hours, 29, 1.5)
	near(t, "heating, K an hour", (v[programme.TempMean]-before[programme.TempMean])/hours, 1.6, 0.05)

	if err := r.To(6); err != nil {
		t.Fatal(err)
	}
	f, ok := found(r, "germinate.oxygen.gone")
	if !ok {
		t.Fatal("six hours without air, and nothing said")
	}
	near(t, "minutes to the end of oxygen", figure(f, "after_stop_min"), 45, 4)
	if r.now.sums.burned.FermentedKg <= 0 {
		t.Error("nothing fermented without oxygen")
	}
	age := read(r)[programme.Age]
	run(t, r, stop)
	if grown := read(r)[programme.Age] - age; grown > 0.01 {
		t.Errorf("grew %.3f d without oxygen", grown)
	}
	run(t, r, plain(12))
	if grown := read(r)[programme.Age] - age; grown < 0.3 {
		t.Errorf("grew %.3f d in 12 h after the fan came back", grown)
	}
}

// A draught through open dampers keeps some oxygen in the bed.
func TestDraughtFeedsTheBed(t *testing.T) {
	least := map[float64]float64{}
	for _, draught := range []float64{0, 0.4} {
		s := setup(t, 10)
		c := *s.Constants
		c.DraughtM3HTK = draught
		s.Constants = &c
		r := start(t, s, even(10, 0.45, 16, 3))
		run(t, r, programme.GerminateStep{Until: programme.Until{LatestH: 6}, FanOff: true})
		least[draught] = read(r)[programme.OxygenLeast]
	}
	if !(least[0.4] > least[0]) {
		t.Errorf("oxygen %g shut, %g open", least[0], least[0.4])
	}
}

// A floor piece runs as far above its room as its depth makes it: 10 cm by 5 to
// 9 K and 20 cm by 9 to 17 K at the peak, worked by hand from 2.1 W/kg and 8 to
// 15 W/(m² K).
func TestFloorDepth(t *testing.T) {
	for depth, want := range map[float64][2]float64{0.10: {4.6, 9}, 0.20: {9, 17.3}} {
		for loss, end := range map[float64]int{15: 0, 8: 1} {
			s := setup(t, 4)
			s.Vessel = plant.Germinator{Kind: plant.Floor, AreaM2: testDryKg / 330 / depth, LossWM2K: loss, MixesTurn: 1}
			k := *s.Kernel
			k.PeakRate, k.RespireJMol, k.RestRate = 0, 0, 2.1*3.6e6/kernel.CombustionJKg
			s.Kernel = &k
			room := 14.0
			r := start(t, s, even(4, 0.45, 18, 3))
			run(t, r, programme.GerminateStep{Until: programme.Until{LatestH: 60}, AirOnC: room, AirOnRH: 1, TurnEvH: 8, SprayToWB: 0.45})
			above := read(r)[programme.TempMean] - room
			near(t, "K above the room", above, want[end], 0.2*want[end])
		}
	}
}

// The heat of the check above is that of 16 °C. At 11 W/(m² K) a floor of 20 cm
// stands so only in a room near freezing, by 9 to 17 K above it; in a room of
// 8 °C its heat feeds on itself, and that is said with what to do. A floor of
// 10 cm bears that room.
func TestDeepFloorRunsAwayInAWarmRoom(t *testing.T) {
	for _, c := range []struct {
		depth, room, low, high float64
		told                   bool
	}{{0.20, 2, 9, 17, false}, {0.20, 8, 25, 40, true}, {0.10, 8, 5, 9, false}} {
		s := setup(t, 4)
		s.Vessel = plant.Germinator{Kind: plant.Floor, AreaM2: testDryKg / 330 / c.depth, LossWM2K: 11, MixesTurn: 1}
		r := start(t, s, steeped(classes(), 4, 0.45, 16, 400, 0.2))
		if err := r.Begin(programme.GerminateStep{Until: programme.Until{LatestH: 120}, AirOnC: c.room, AirOnRH: 0.92, TurnEvH: 8, SprayToWB: 0.45}); err != nil {
			t.Fatal(err)
		}
		above := 0.0
		for h := 1.0; h <= 120; h++ {
			if err := r.To(h); err != nil {
				t.Fatal(err)
			}
			above = max(above, read(r)[programme.TempMean]-c.room)
		}
		if !(above >= c.low && above <= c.high) {
			t.Errorf("%g m in a room of %g °C: %.1f K above it, want %g to %g", c.depth, c.room, above, c.low, c.high)
		}
		if _, ok := found(r, "germinate.bed.warm"); ok != c.told {
			t.Errorf("%g m in a room of %g °C: told %v", c.depth, c.room, ok)
		}
	}
}

// A drum is one mixed layer, and needs no turner.
func TestDrumIsMixed(t *testing.T) {
	s := setup(t, 8)
	s.Vessel.Kind = plant.Drum
	r := start(t, s, steeped(classes(), 8, 0.45, 16, 400, 0.2))
	step := plain(72)
	step.TurnEvH = 0
	run(t, r, step)
	v := read(r)
	near(t, "moisture", v[programme.Moisture], 0.45, 0.002)
	near(t, "spread of temperature", v[programme.TempHigh]-v[programme.TempLow], 0, 1e-9)
	if _, ok := found(r, "germinate.turn.missing"); ok {
		t.Error("a drum is told to turn")
	}
}

// A turn with a perfect turner leaves one bed; half a turner halves the
// unevenness of temperature-free quantities.
func TestTurningEvensOut(t *testing.T) {
	for _, share := range []float64{1, 0.5} {
		s := setup(t, 10)
		s.Vessel.MixesTurn = share
		r := start(t, s, steeped(classes(), 10, 0.45, 16, 400, 0.2))
		step := plain(10)
		step.TurnEvH = 0
		run(t, r, step)
		before := r.cells[0].waterKg - r.cells[9].waterKg
		agesBefore := r.grain.Of(r.grain.AgeD, 9)[0] - r.grain.Of(r.grain.AgeD, 0)[0]
		r.mix(share)
		near(t, "water", r.cells[0].waterKg-r.cells[9].waterKg, (1-share)*before, 1e-9)
		near(t, "age", r.grain.Of(r.grain.AgeD, 9)[0]-r.grain.Of(r.grain.AgeD, 0)[0], (1-share)*agesBefore, 2e-4)
	}
}

// Common practice, no source: a pale piece of four days at 45 % loses 3 to 6 %
// of its dry matter by respiration here and in the steep, and bed and air stay
// where a maltster wants them.
func TestOrdinaryPiece(t *testing.T) {
	r := start(t, setup(t, 20), steeped(classes(), 20, 0.455, 16, 400, 0.1))
	run(t, r, plain(96))
	v := read(r)
	near(t, "respired, %", 100*r.RespiredKg()/testDryKg, 4, 1)
	near(t, "mean temperature", v[programme.TempMean], 16.2, 1)
	near(t, "moisture", v[programme.Moisture], 0.45, 0.006)
	near(t, "age, d", v[programme.Age], 4.0, 0.5)
	for _, f := range r.Findings(nil) {
		if f.Code != "germinate.bed.hot" {
			t.Errorf("an ordinary piece earns %s", f.Code)
		}
	}
}

// Without spray a piece dries by about 0.9 points a day; common practice, and
// what the heat of its respiration must carry off.
func TestUnsprayedPieceDries(t *testing.T) {
	step := plain(72)
	step.SprayToWB = 0
	r := start(t, setup(t, 20), steeped(classes(), 20, 0.455, 16, 400, 0.5))
	run(t, r, step)
	near(t, "points a day", 100*(0.455-read(r)[programme.Moisture])/3, 0.9, 0.35)
	if _, ok := found(r, "germinate.bed.dry"); !ok {
		t.Error("and nothing said")
	}
}

// On one plenum pressure the thick spot of an uneven bed has the least air per
// corn, runs warmer and grows further than the thin one.
func TestUnevenBed(t *testing.T) {
	s := setup(t, 10)
	s.Columns = []barley.Column{{Share: 0.3, Depth: 0.9, Packing: 1}, {Share: 0.4, Depth: 1, Packing: 1}, {Share: 0.3, Depth: 1.1, Packing: 1.25}}
	s.Mix = true
	r := start(t, s, steeped(classes(), 10, 0.455, 16, 400, 0.1))
	run(t, r, plain(71))
	air := 0.0
	for i, c := range s.Columns {
		air += c.Share * r.airMS[i]
	}
	near(t, "mean of the air's shares", air, 1, 1e-9)
	if !(r.airMS[0] > r.airMS[1] && r.airMS[1] > r.airMS[2]) {
		t.Errorf("air by column: %v", r.airMS)
	}
	if !(r.columnC(2) > r.columnC(1)+0.1 && r.columnC(1) > r.columnC(0)+0.1) {
		t.Errorf("temperature by column: %.2f, %.2f, %.2f", r.columnC(0), r.columnC(1), r.columnC(2))
	}
	end := r.Shape()
	r.Grain(end)
	m := s.Constants.Modification(end, testLot())
	if m.WorstColumn != 0 {
		t.Errorf("the least grown spot is column %d", m.WorstColumn)
	}
}

func found(r *Run, code string) (finding.Finding, bool) {
	for _, f := range r.Findings(nil) {
		if f.Code == code {
			return f, true
		}
	}
	return finding.Finding{}, false
}

func figure(f finding.Finding, name string) float64 {
	for _, x := range f.Figures {
		if x.Name == name {
			return x.Value
		}
	}
	return math.NaN()
}

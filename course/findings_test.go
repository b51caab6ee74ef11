package course_test

import (
	"math"
	"slices"
	"testing"

	"awn/barley"
	"awn/course"
	"awn/odds"
	"awn/plant"
	"awn/programme"
)

// scene is a finding: the piece that earns it, made from an example, and the change
// that its act names, on top of that.
type scene struct {
	from, code, act string
	cause, cure     func(p *course.Piece)
}

// Every finding comes for its cause and goes with the change that its act names.
func TestFindingsComeAndGo(t *testing.T) {
	t.Parallel()
	for _, s := range slices.Concat(scenesOfLots(), scenesOfSteeps(), scenesOfGrowth(), scenesOfKilns(), scenesOfCourses()) {
		t.Run(s.code, func(t *testing.T) {
			p := load(t, s.from)
			if s.cause != nil {
				s.cause(p)
			}
			o := run(t, p)
			f, ok := told(o, s.code)
			switch {
			case !ok:
				t.Fatalf("it does not come: %v", codes(o))
			case f.Act != s.act:
				t.Errorf("its act is %q", f.Act)
			case !(f.Weight() > 0):
				t.Error("it weighs nothing")
			}
			s.cure(p)
			if o := run(t, p); slices.Contains(codes(o), s.code) {
				t.Errorf("it does not go: %v", codes(o))
			}
		})
	}
}

func scenesOfLots() []scene {
	unknown, measured := barley.Unknown(), func(x float64) odds.Value { return odds.Alone(x, odds.Measured) }
	var out []scene
	for thing, at := range map[string]struct {
		figure func(l *barley.Lot) *odds.Value
		value  float64
	}{
		"moisture":          {func(l *barley.Lot) *odds.Value { return &l.Moisture }, 0.118},
		"protein":           {func(l *barley.Lot) *odds.Value { return &l.Protein }, 0.106},
		"kernel-mass":       {func(l *barley.Lot) *odds.Value { return &l.KernelMassMg }, 44},
		"test-weight":       {func(l *barley.Lot) *odds.Value { return &l.TestWeightKgHL }, 67},
		"capacity":          {func(l *barley.Lot) *odds.Value { return &l.Capacity }, 0.99},
		"dormancy":          {func(l *barley.Lot) *odds.Value { return &l.Dormant }, 0.01},
		"water-sensitivity": {func(l *barley.Lot) *odds.Value { return &l.WaterSensitivity }, 0.05},
		"vigour":            {func(l *barley.Lot) *odds.Value { return &l.ChitThermalTimeCH }, 380},
		"beta-glucan":       {func(l *barley.Lot) *odds.Value { return &l.BetaGlucan }, 0.039},
		"uptake":            {func(l *barley.Lot) *odds.Value { return &l.Uptake }, 1},
	} {
		out = append(out, scene{"piece.yaml", "lot." + thing + ".assumed", "act.lot.measure-" + thing,
			func(p *course.Piece) { p.Lot.Counts4mL, p.Lot.Counts8mL, *at.figure(&p.Lot) = nil, nil, unknown },
			func(p *course.Piece) { *at.figure(&p.Lot) = measured(at.value) }})
	}
	return append(out, scene{"piece.yaml", "lot.sieve.assumed", "act.lot.measure-sieve",
		func(p *course.Piece) { p.Lot.Sieve = [barley.SieveClasses]float64{} },
		func(p *course.Piece) { p.Lot.Sieve = [barley.SieveClasses]float64{0.6, 0.3, 0.08, 0.02} }})
}

// water and rest are steps in the steep.
func water(hours, waterC float64) programme.SteepStep {
	return programme.SteepStep{Kind: programme.Immersion, Until: programme.Until{LatestH: hours}, WaterC: waterC, AirC: waterC, AerationM3HT: 3}
}

func rest(hours, airC, suctionM3HT float64) programme.SteepStep {
	return programme.SteepStep{Kind: programme.AirRest, Until: programme.Until{LatestH: hours}, WaterC: math.NaN(), AirC: airC, SuctionM3HT: suctionM3HT}
}

func couch(hours float64) programme.SteepStep {
	return programme.SteepStep{Kind: programme.Couch, Until: programme.Until{LatestH: hours}, WaterC: 16, AirC: 16}
}

// steeping sets the whole steep.
func steeping(steps ...programme.SteepStep) func(p *course.Piece) {
	return func(p *course.Piece) { p.Programme.Steep = steps }
}

func scenesOfSteeps() []scene {
	good := steeping(water(6, 15), rest(17, 15, 45), water(10, 15), rest(14, 15, 60))
	steep := func(change func(v *plant.Steep)) func(p *course.Piece) {
		return func(p *course.Piece) {
			p.House.Steeps = slices.Clone(p.House.Steeps)
			change(&p.House.Steeps[p.Steep])
		}
	}
	return []scene{
		{"checks/stalled-chit.yaml", "steep.oxygen.short", "act.steep.shorter-immersion-longer-rest", nil,
			steeping(water(6, 16), rest(18, 17, 60), water(8, 16), rest(16, 17, 100))},
		{"checks/stalled-chit.yaml", "steep.chit.held", "act.steep.shorter-immersion-longer-rest", nil,
			steeping(water(7, 16), rest(18, 17, 60), water(8, 16), rest(16, 17, 100))},
		{"piece.yaml", "steep.moisture.low", "act.steep.longer-immersion-or-spray",
			steeping(water(8, 15), rest(14, 15, 45)), steeping(water(8, 15), rest(14, 15, 45), water(10, 15), rest(8, 15, 45))},
		{"piece.yaml", "steep.moisture.high", "act.steep.shorter-last-immersion",
			steeping(water(8, 18), rest(12, 18, 45), water(40, 18)), steeping(water(8, 18), rest(12, 18, 45), water(5, 18))},
		{"piece.yaml", "steep.rest.hot", "act.steep.more-suction-or-cast",
			steeping(water(9, 20), couch(16), water(8, 20), couch(24)), steeping(water(9, 20), rest(16, 15, 150), water(8, 15), rest(16, 15, 150))},
		{"piece.yaml", "steep.co2.high", "act.steep.more-suction", // of the rests: nothing is drawn while the vessel is emptied
			func(p *course.Piece) {
				steep(func(v *plant.Steep) { v.TransferH = 0 })(p)
				steeping(water(9, 18), couch(16), water(8, 18), couch(24))(p)
			}, steeping(water(9, 18), rest(16, 15, 150), water(8, 18), rest(24, 15, 150))},
		{"piece.yaml", "steep.grain.frozen", "act.steep.warmer-air-or-water",
			steeping(water(9, 5), rest(12, -15, 150)), steeping(water(9, 5), rest(12, 10, 150))},
		{"piece.yaml", "steep.water.warm", "act.steep.colder-water",
			func(p *course.Piece) { p.Programme.Steep[0].WaterC = 32 }, func(p *course.Piece) { p.Programme.Steep[0].WaterC = 20 }},
		{"piece.yaml", "steep.vessel.overfull", "act.steep.smaller-piece",
			steep(func(v *plant.Steep) { v.VolumeM3 = 110 }), func(p *course.Piece) { p.CastKg = 40e3 }},
		{"piece.yaml", "steep.suction.short", "act.plant.more-suction",
			steep(func(v *plant.Steep) { v.SuctionM3H = 2000 }), steep(func(v *plant.Steep) { v.SuctionM3H = 12e3 })},
		{"piece.yaml", "steep.aeration.short", "act.plant.more-aeration",
			steep(func(v *plant.Steep) { v.AerationM3H = 50 }), steep(func(v *plant.Steep) { v.AerationM3H = 240 })},
		{"piece.yaml", "steep.water.too-little", "act.plant.more-steep-water",
			func(p *course.Piece) { good(p); steep(func(v *plant.Steep) { v.WaterM3T = 0.2 })(p) },
			steep(func(v *plant.Steep) { v.WaterM3T = 1.1 })},
		{"piece.yaml", "steep.co2.high", "act.steep.draw-while-casting", // of the casting: a long one of warm grain
			func(p *course.Piece) {
				steep(func(v *plant.Steep) { v.TransferH = 6 })(p)
				steeping(water(9, 18), rest(16, 15, 150), water(8, 18), rest(24, 15, 150))(p)
			}, func(p *course.Piece) { p.Programme.Cast.SuctionM3HT = 100 }},
		{"piece.yaml", "steep.immersion.short", "act.steep.immerse-for-filling",
			func(p *course.Piece) { p.Programme.Steep[2].Until.LatestH = 0.5 }, func(p *course.Piece) { p.Programme.Steep[2].Until.LatestH = 6 }},
		{"piece.yaml", "steep.water.missed", "act.plant.make-water-before",
			func(p *course.Piece) { p.House.Water.HeatKW = 200 }, steep(func(v *plant.Steep) { v.FillH = 4 })},
		{"piece.yaml", "steep.water.reused", "act.steep.fresh-water",
			func(p *course.Piece) { p.Programme.Steep[0].Reused = 0.8 }, func(p *course.Piece) { p.Programme.Steep[0].Reused = 0 }},
		{"piece.yaml", "steep.water.ph", "act.plant.correct-water",
			func(p *course.Piece) { p.House.Water.PH = 9.5 }, func(p *course.Piece) { p.House.Water.PH = 7.6 }},
		{"piece.yaml", "steep.chit.impossible", "act.lot.do-not-malt",
			func(p *course.Piece) { p.Lot.Capacity = odds.Alone(0.03, odds.Measured) },
			func(p *course.Piece) { p.Lot.Capacity = odds.Alone(0.99, odds.Measured) }},
	}
}

func scenesOfGrowth() []scene {
	grow := func(change func(s *programme.GerminateStep)) func(p *course.Piece) {
		return func(p *course.Piece) {
			p.Programme.Germinate = slices.Clone(p.Programme.Germinate)
			for i := range p.Programme.Germinate {
				change(&p.Programme.Germinate[i])
			}
		}
	}
	handler := func(change func(a *plant.AirHandler)) func(p *course.Piece) {
		return func(p *course.Piece) {
			p.House.Germinators = slices.Clone(p.House.Germinators)
			change(&p.House.Germinators[p.Germinator].Air)
		}
	}
	outside := func(airC float64) func(p *course.Piece) {
		return func(p *course.Piece) {
			for m := range p.House.Weather.AirC {
				p.House.Weather.AirC[m] = airC
			}
		}
	}
	flow := func(m3ht float64) func(p *course.Piece) {
		return grow(func(s *programme.GerminateStep) { s.Flow = programme.Airflow{Value: m3ht, Per: programme.PerTonne} })
	}
	both := func(a, b func(p *course.Piece)) func(p *course.Piece) { return func(p *course.Piece) { a(p); b(p) } }
	return []scene{
		{"piece.yaml", "germinate.air.warm", "act.germinate.more-return-or-cooling",
			both(outside(30), handler(func(a *plant.AirHandler) { a.CoolingKW = 0 })), handler(func(a *plant.AirHandler) { a.CoolingKW, a.COP = 900, 4 })},
		{"piece.yaml", "germinate.air.cold", "act.germinate.more-return-or-heat",
			both(outside(-15), both(handler(func(a *plant.AirHandler) { a.HeatingKW = 0 }), grow(func(s *programme.GerminateStep) { s.Fresh = 1 }))),
			both(handler(func(a *plant.AirHandler) { a.HeatingKW = 900 }), grow(func(s *programme.GerminateStep) { s.Fresh = 0.1 }))},
		{"piece.yaml", "germinate.air.dry", "act.plant.better-humidifier",
			handler(func(a *plant.AirHandler) { a.Humidifier = 0 }), handler(func(a *plant.AirHandler) { a.Humidifier = 0.98 })},
		{"piece.yaml", "germinate.air.short", "act.germinate.less-air-or-bed", flow(3000), flow(600)},
		{"piece.yaml", "germinate.bed.hot", "act.germinate.more-air", flow(150), flow(900)},
		{"piece.yaml", "germinate.bed.warm", "act.germinate.colder-air",
			both(flow(300), grow(func(s *programme.GerminateStep) { s.AirOnC = 25 })), both(flow(700), grow(func(s *programme.GerminateStep) { s.AirOnC = 14 }))},
		{"piece.yaml", "germinate.bed.dry", "act.germinate.spray",
			grow(func(s *programme.GerminateStep) {
				s.SprayToWB, s.Until.Reading, s.Until.LatestH = 0, programme.None, 72
			}),
			grow(func(s *programme.GerminateStep) { s.SprayToWB = 0.45 })},
		{"piece.yaml", "germinate.turn.missing", "act.germinate.turn",
			grow(func(s *programme.GerminateStep) { s.TurnEvH, s.SprayToWB = 0, 0 }), grow(func(s *programme.GerminateStep) { s.TurnEvH = 12 })},
		{"piece.yaml", "germinate.co2.room", "act.germinate.air-the-room-before-entry",
			both(outside(28), both(handler(func(a *plant.AirHandler) { a.LeastFresh = 0.01 }), grow(func(s *programme.GerminateStep) { s.Fresh = 0.01 }))),
			grow(func(s *programme.GerminateStep) { s.Fresh = 0.5 })},
		{"piece.yaml", "germinate.corns.unmodified", "act.germinate.longer-or-sound-barley",
			func(p *course.Piece) { p.Lot.Capacity = odds.Alone(0.94, odds.Measured) },
			func(p *course.Piece) { p.Lot.Capacity = odds.Alone(0.99, odds.Measured) }},
		{"piece.yaml", "germinate.corns.overgrown", "act.germinate.shorter-or-colder",
			grow(func(s *programme.GerminateStep) { s.Until.Reading, s.Until.LatestH = programme.None, 96 }),
			grow(func(s *programme.GerminateStep) { s.Until.LatestH = 60 })},
		{"piece.yaml", "dress.loss.high", "act.germinate.shorter-or-colder",
			grow(func(s *programme.GerminateStep) { s.Until.Reading, s.Until.LatestH, s.AirOnC = programme.None, 84, 17 }),
			grow(func(s *programme.GerminateStep) { s.Until.LatestH = 54 })},
	}
}

func scenesOfKilns() []scene {
	kilning := func(change func(i int, s *programme.KilnStep)) func(p *course.Piece) {
		return func(p *course.Piece) {
			p.Programme.Kiln = slices.Clone(p.Programme.Kiln)
			for i := range p.Programme.Kiln {
				change(i, &p.Programme.Kiln[i])
			}
		}
	}
	kiln := func(change func(k *plant.Kiln)) func(p *course.Piece) {
		return func(p *course.Piece) {
			p.House.Kilns = slices.Clone(p.House.Kilns)
			change(&p.House.Kilns[p.Kiln])
		}
	}
	flow := func(m3ht float64) func(p *course.Piece) {
		return kilning(func(_ int, s *programme.KilnStep) { s.Flow = programme.Airflow{Value: m3ht, Per: programme.PerTonne} })
	}
	both := func(a, b func(p *course.Piece)) func(p *course.Piece) { return func(p *course.Piece) { a(p); b(p) } }
	const withering, curing, cooling = 0, 2, 3
	only := func(which int, change func(s *programme.KilnStep)) func(p *course.Piece) {
		return kilning(func(i int, s *programme.KilnStep) {
			if i == which {
				change(s)
			}
		})
	}
	return []scene{
		{"piece.yaml", "kiln.strip.wet", "act.kiln.extend-fresh-air",
			only(curing, func(s *programme.KilnStep) { s.Until.LatestH = 1 }), only(curing, func(s *programme.KilnStep) { s.Until.LatestH, s.Recirculation = 9, 0 })},
		{"piece.yaml", "kiln.strip.hot", "act.kiln.cool-longer",
			only(cooling, func(s *programme.KilnStep) { s.Until.LatestH = 0.1 }), only(cooling, func(s *programme.KilnStep) { s.Until.LatestH = 3 })},
		{"piece.yaml", "kiln.fan.short", "act.kiln.ask-less-flow", flow(6500), flow(3000)},
		{"piece.yaml", "kiln.air-on.missed", "act.kiln.ask-less-flow",
			kiln(func(k *plant.Kiln) { k.Burner.MostKW, k.Burner.RampKPerH = 2200, 0 }), flow(1500)},
		{"piece.yaml", "kiln.burner.cycling", "act.kiln.ask-more-flow",
			both(flow(1500), kiln(func(k *plant.Kiln) { k.Burner.TurnDown = 0.2 })), // more air, or a smaller burner
			both(flow(3000), kiln(func(k *plant.Kiln) { k.Burner.MostKW = 2500 }))},
		{"piece.yaml", "kiln.recirculation.limited", "act.kiln.ask-less-recirculation",
			only(curing, func(s *programme.KilnStep) { s.Recirculation = 0.95 }), only(curing, func(s *programme.KilnStep) { s.Recirculation = 0.7 })},
		{"piece.yaml", "kiln.recirculation.early", "act.kiln.recirculate-after-break",
			only(withering, func(s *programme.KilnStep) { s.Recirculation = 0.5 }), only(withering, func(s *programme.KilnStep) { s.Recirculation = 0 })},
		{"piece.yaml", "kiln.fan.stopped", "act.kiln.keep-fan-running",
			only(curing, func(s *programme.KilnStep) { s.FanOff, s.HeaterOff, s.Until.Reading = true, true, programme.None }),
			only(curing, func(s *programme.KilnStep) { s.FanOff, s.HeaterOff = false, false })},
		{"piece.yaml", "kiln.break.none", "",
			kilning(func(_ int, s *programme.KilnStep) { s.Until = programme.Until{LatestH: 1} }), only(withering, func(s *programme.KilnStep) { s.Until.LatestH = 16 })},
		{"piece.yaml", "kiln.break.top-wet", "act.kiln.wither-cooler-longer", nil,
			both(flow(1500), only(withering, func(s *programme.KilnStep) { s.AirOnC, s.Until.LatestH = 32, 60 }))},
	}
}

func scenesOfCourses() []scene {
	cooling := func(p *course.Piece) *programme.KilnStep {
		p.Programme.Kiln = slices.Clone(p.Programme.Kiln)
		return &p.Programme.Kiln[len(p.Programme.Kiln)-1]
	}
	route := func(kind string) func(p *course.Piece) {
		return func(p *course.Piece) {
			p.Programme.Route = nil
			if kind != "" {
				p.Programme.Route = &programme.Route{Kind: kind, Yield: 0.88, ColourEBC: 120}
			}
		}
	}
	adding := func(a programme.Addition) func(p *course.Piece) {
		return func(p *course.Piece) { p.Programme.Additions = []programme.Addition{a} }
	}
	thin := func(share float64) func(p *course.Piece) {
		return func(p *course.Piece) { p.Lot.Sieve = [barley.SieveClasses]float64{0.6, 0.4 - share, 0, share} }
	}
	return []scene{
		{"piece.yaml", "malt.rest.short", "act.malt.rest-longer",
			func(p *course.Piece) { p.Programme.RestD = 5 }, func(p *course.Piece) { p.Programme.RestD = 21 }},
		{"piece.yaml", "malt.store.damp", "act.malt.close-store",
			func(p *course.Piece) { p.House.MaltStore.AirM3HT = 10 }, func(p *course.Piece) { p.House.MaltStore.AirM3HT = 0 }},
		{"piece.yaml", "malt.store.sweats", "act.kiln.cool-longer",
			func(p *course.Piece) { cooling(p).Until = programme.Until{LatestH: 0.3} },
			func(p *course.Piece) { cooling(p).Until = programme.Until{LatestH: 4} }},
		{"piece.yaml", "lot.grain.as-barley", "act.lot.check-or-barley",
			func(p *course.Piece) {
				p.Lot.Grain, p.Lot.Factor = "wheat", map[string]float64{"dress.culms.ratio": 0.8}
			},
			func(p *course.Piece) { p.Lot.Grain, p.Lot.Factor = "", nil }},
		{"piece.yaml", "programme.route.caramel", "act.malt.analyse-finished", route("caramel"), route("")},
		{"piece.yaml", "programme.route.roast", "act.malt.analyse-finished", route("roast"), route("")},
		{"piece.yaml", "programme.route.smoked", "act.malt.analyse-finished", route("smoked"), route("")},
		{"piece.yaml", "programme.route.acid", "act.malt.analyse-finished", route("acid"), route("")},
		{"piece.yaml", "programme.addition.residue-unknown", "act.addition.measure-residue",
			adding(programme.Addition{Substance: "hypochlorite", Stage: "steep", Permitted: "the customer", LimitMgKg: 1, ResidueMgKg: math.NaN()}),
			func(p *course.Piece) { p.Programme.Additions[0].ResidueMgKg = 0.2 }},
		{"piece.yaml", "programme.addition.residue-high", "act.addition.below-limit",
			adding(programme.Addition{Substance: "hypochlorite", Stage: "steep", Permitted: "the customer", LimitMgKg: 1, ResidueMgKg: 3}),
			func(p *course.Piece) { p.Programme.Additions[0].ResidueMgKg = 0.2 }},
		{"piece.yaml", "programme.addition.sulphite", "act.addition.declare-sulphite",
			adding(programme.Addition{Substance: "Sulphur", Stage: "kiln", Permitted: "the customer", ResidueMgKg: math.NaN()}),
			func(p *course.Piece) { p.Programme.Additions[0].ResidueMgKg = 6 }},
		{"piece.yaml", "programme.addition.certificate", "act.addition.name-on-certificate",
			adding(programme.Addition{Substance: "lime", Stage: "steep", Permitted: "the customer"}),
			func(p *course.Piece) { p.Programme.Additions = nil }},
		{"piece.yaml", "lot.screenings.high", "act.lot.plumper-or-narrower-slot", thin(0.15), thin(0.02)},
		{"checks/case-p.yaml", "begin.age.assumed", "act.begin.measure-acrospire",
			func(p *course.Piece) { p.Begin.AgeD = math.NaN() }, func(p *course.Piece) { p.Begin.AgeD = 4.5 }},
		{"piece.yaml", "programme.condition.unmet", "act.programme.later",
			func(p *course.Piece) { p.Programme.Germinate[1].Until.LatestH = 20 }, func(p *course.Piece) { p.Programme.Germinate[1].Until.LatestH = 120 }},
		{"piece.yaml", "programme.addition.unpermitted", "act.addition.ask-permission",
			func(p *course.Piece) {
				p.Programme.Additions = []programme.Addition{{Substance: "lime", Stage: "steep"}}
			},
			func(p *course.Piece) { p.Programme.Additions[0].Permitted = "the customer" }},
		{"piece.yaml", "programme.addition.uncounted", "act.addition.give-factor",
			func(p *course.Piece) {
				p.Programme.Additions = []programme.Addition{{Substance: "lime", Stage: "steep"}}
			},
			func(p *course.Piece) {
				p.Programme.Additions[0].Factor = map[string]float64{"kernel.grow.per-ten-kelvin": 1}
			}},
		{"piece.yaml", "programme.addition.factor", "act.addition.drop-factor",
			func(p *course.Piece) {
				p.Programme.Additions = []programme.Addition{{Substance: "lime", Stage: "steep", Factor: map[string]float64{"kernel.respire.peak": 1}}}
			},
			func(p *course.Piece) { p.Programme.Additions[0].Factor = nil }},
	}
}

// A factor moves its parameter from the stage of its addition on, and no sooner;
// bromate that nobody permits is refused.
func TestAdditions(t *testing.T) {
	with := func(stage string) *course.Outcome {
		p := load(t, "piece.yaml")
		p.Programme.Additions = []programme.Addition{{Substance: "gibberellic acid", Stage: stage, Permitted: "the customer",
			Factor: map[string]float64{"kernel.respire.peak": 1.2}}}
		return run(t, p)
	}
	plain, kilned, grown := run(t, load(t, "piece.yaml")), with("kiln"), with("germinate")
	if a, b := plain.Yield.Respired, kilned.Yield.Respired; a != b {
		t.Errorf("an addition on the kiln moved what growth respires from %g to %g", a, b)
	}
	if a, b := plain.Yield.RespiredKiln, kilned.Yield.RespiredKiln; !(b > a) {
		t.Errorf("an addition on the kiln moved its own breath from %g to %g", a, b)
	}
	if a, b := plain.Yield.Respired, grown.Yield.Respired; !(b > 1.1*a) {
		t.Errorf("an addition in germination moved what growth respires from %g to %g", a, b)
	}
	p := load(t, "piece.yaml")
	p.Programme.Additions = []programme.Addition{{Substance: "Potassium bromate", Stage: "steep"}}
	if _, err := course.Run(p); err == nil {
		t.Error("bromate that nobody permits is accepted")
	}
}

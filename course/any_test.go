package course_test

import (
	"math"

	"pgregory.net/rapid"

	"awn/barley"
	"awn/course"
	"awn/lab"
	"awn/odds"
	"awn/plant"
	"awn/programme"
)

// anyPiece draws a piece that a house could run, around the first example: any
// lot, any weather from -15 to 40 °C, any altitude to 3000 m, every kind of step.
func anyPiece(t *rapid.T, base *course.Piece, kind plant.GerminatorKind) *course.Piece {
	p := *base
	p.Lot, p.House = anyLot(t), anyHouse(t, base.House, kind)
	p.Programme = programme.Programme{
		Name: "any", Steep: anySteep(t), Germinate: anyGrowth(t, kind), Kiln: anyKilning(t),
		StripC: rapid.Float64Range(20, 45).Draw(t, "strip below"), StripWorst: rapid.Float64Range(0.04, 0.08).Draw(t, "strip at"),
		RestD:              rapid.Float64Range(0, 60).Draw(t, "rest before dispatch"),
		SteepTransferMixes: true, KilnTransferMixes: kind != plant.Combined,
	}
	p.Programme.Cast.Wet = rapid.Bool().Draw(t, "wet cast")
	if !p.Programme.Cast.Wet {
		p.Programme.Cast.SuctionM3HT = rapid.SampledFrom([]float64{0, 40}).Draw(t, "suction while casting")
	}
	if n := len(p.Programme.Steep); p.Programme.Steep[n-1].Kind != programme.Immersion {
		p.Programme.Steep[0].Reused = rapid.SampledFrom([]float64{0, 0.8}).Draw(t, "reused water")
	}
	p.StartMs = rapid.Int64Range(1.6e12, 1.9e12).Draw(t, "start")
	p.OffsetMin = rapid.SampledFrom([]int{-300, 0, 60, 345}).Draw(t, "offset")
	p.CastKg = rapid.Float64Range(30, 60).Draw(t, "cast") * 1000
	p.Begin = nil
	if rapid.IntRange(0, 4).Draw(t, "begin") == 0 {
		p.Begin = &course.Begin{
			Stage: rapid.SampledFrom([]course.Stage{course.Germinate, course.Kiln}).Draw(t, "stage"),
			DryKg: p.CastKg * rapid.Float64Range(0.8, 0.88).Draw(t, "dry"), Moisture: rapid.Float64Range(0.38, 0.49).Draw(t, "moisture"),
			TempC: rapid.Float64Range(8, 28).Draw(t, "grain"), Chit: rapid.Float64Range(0, 1).Draw(t, "chitted"),
			AgeD: rapid.SampledFrom([]float64{math.NaN(), 0, 1, 4.5}).Draw(t, "age"),
		}
	}
	return &p
}

// anyLot draws a lot, some of it unknown.
func anyLot(t *rapid.T) barley.Lot {
	figure := func(name string, low, high float64) odds.Value {
		if rapid.IntRange(0, 5).Draw(t, name+" unknown") == 0 {
			return barley.Unknown()
		}
		return odds.Alone(rapid.Float64Range(low, high).Draw(t, name), odds.Measured)
	}
	l := barley.Lot{
		Code: "ANY", Rows: 2, Moisture: figure("lot moisture", 0.09, 0.16), Protein: figure("protein", 0.08, 0.15),
		KernelMassMg: figure("kernel", 30, 55), TestWeightKgHL: figure("test weight", 60, 72), Capacity: figure("capacity", 0.3, 1),
		Dormant: figure("dormant", 0, 0.2), WaterSensitivity: figure("sensitivity", 0, 0.6), ChitThermalTimeCH: figure("vigour", 200, 1200),
		BetaGlucan: figure("glucan", 0.027, 0.05), Uptake: figure("uptake", 0.6, 1.5), GreenSMM: figure("smm", 2, 15),
	}
	// Plump enough to be malted at all, at the kernel weights above.
	for i, most := range [barley.SieveClasses]float64{1, 1, 0.5, 0.2} {
		l.Sieve[i] = rapid.Float64Range(0, most).Draw(t, "sieve")
	}
	l.Sieve[0] += 0.2
	if rapid.Bool().Draw(t, "counted") {
		l.ChitThermalTimeCH, l.Dormant = barley.Unknown(), barley.Unknown()
		first := rapid.IntRange(0, 60).Draw(t, "first day")
		second := rapid.IntRange(first, 90).Draw(t, "second day")
		l.Counts4mL = []lab.Count{{AtH: 24, Germinated: first, Of: 100}, {AtH: 48, Germinated: second, Of: 100}, {AtH: 72, Germinated: 95, Of: 100}}
	}
	return l
}

// anyHouse draws the plant, its place and its weather.
func anyHouse(t *rapid.T, h plant.House, kind plant.GerminatorKind) plant.House {
	h.AltitudeM = rapid.Float64Range(0, 3000).Draw(t, "altitude")
	h.Weather = plant.Weather{SwingK: rapid.Float64Range(0, 8).Draw(t, "swing")}
	airC, rh := rapid.Float64Range(-15, 40).Draw(t, "outside"), rapid.Float64Range(0.1, 1).Draw(t, "humidity")
	for m := range h.Weather.AirC {
		h.Weather.AirC[m], h.Weather.RH[m] = airC, rh
		h.Weather.WaterC[m] = min(max(airC, 2), 30)
	}
	h.Cleaning = plant.Cleaning{
		ScreenMM: rapid.SampledFrom([]float64{0, 2.2, 2.4}).Draw(t, "screen"), GradeMM: rapid.SampledFrom([]float64{0, 2.5}).Draw(t, "grade"),
		DustShare: rapid.Float64Range(0, 0.02).Draw(t, "barley dust"), ForeignShare: rapid.Float64Range(0, 0.05).Draw(t, "foreign"),
	}
	h.MaltStore.AirM3HT = rapid.SampledFrom([]float64{0, 2, 20}).Draw(t, "silo air")
	h.Water = plant.Water{
		HeatKW: rapid.SampledFrom([]float64{0, 100, 900}).Draw(t, "water heating"), CoolKW: rapid.SampledFrom([]float64{0, 100}).Draw(t, "water cooling"),
		Efficiency: 0.85, COP: 4, PH: math.NaN(), HardnessMgL: math.NaN(), IronMgL: math.NaN(),
	}
	v := h.Steeps[0]
	if rapid.IntRange(0, 3).Draw(t, "uneven steep") == 0 {
		v.Columns = barley.Uneven(rapid.Float64Range(0.02, 0.2).Draw(t, "steep depth"), rapid.Float64Range(1, 1.25).Draw(t, "steep packing"))
	}
	h.Steeps = []plant.Steep{v}
	g := h.Germinators[0]
	g.Kind, g.LossWM2K = kind, rapid.Float64Range(0, 8).Draw(t, "walls")
	if kind == plant.Floor {
		g.AreaM2 = rapid.Float64Range(600, 1500).Draw(t, "floor")
	}
	g.Air.FanPlace = rapid.SampledFrom([]plant.FanPlace{plant.FanBeforeConditioning, plant.FanAfterConditioning, plant.FanAirOff}).Draw(t, "fan place")
	g.Air.LeastFresh = rapid.Float64Range(0, 0.5).Draw(t, "least fresh")
	g.Air.Humidifier = rapid.Float64Range(0, 1).Draw(t, "humidifier")
	g.Air.CoolingKW = rapid.Float64Range(0, 600).Draw(t, "cooling")
	k := h.Kilns[0]
	if rapid.IntRange(0, 3).Draw(t, "uneven") == 0 {
		g.Columns = barley.Uneven(rapid.Float64Range(0.02, 0.2).Draw(t, "depth"), rapid.Float64Range(1, 1.25).Draw(t, "packing"))
		k.Columns = barley.Uneven(0.1, 1.1)
	}
	h.Germinators = []plant.Germinator{g}

	k.FanPush = rapid.Bool().Draw(t, "push")
	k.Burner.Firing = rapid.SampledFrom([]plant.Firing{plant.Indirect, plant.Direct}).Draw(t, "firing")
	k.Burner.MostKW = rapid.Float64Range(2000, 9000).Draw(t, "burner")
	k.HeatRecovery = rapid.Float64Range(0, 0.7).Draw(t, "recovery")
	k.LeakShare = rapid.Float64Range(0, 0.1).Draw(t, "leak")
	k.LossWK = rapid.Float64Range(0, 5000).Draw(t, "structure")
	k.DampersOpenKg = rapid.SampledFrom([]float64{0, 0.003, 0.01}).Draw(t, "draught")
	h.Kilns = []plant.Kiln{k}
	return h
}

// anyUntil draws when a step ends: by time, or by a reading that may never come.
func anyUntil(t *rapid.T, latestH float64, readings ...programme.Until) programme.Until {
	u := programme.Until{}
	if rapid.IntRange(0, 3).Draw(t, "conditional") == 0 {
		u = rapid.SampledFrom(readings).Draw(t, "until")
	}
	u.LatestH = rapid.Float64Range(0.1, latestH).Draw(t, "hours")
	return u
}

func rises(r programme.Reading, to float64) programme.Until {
	return programme.Until{Reading: r, Value: to, Rising: true}
}

func falls(r programme.Reading, to float64) programme.Until {
	return programme.Until{Reading: r, Value: to}
}

func anySteep(t *rapid.T) []programme.SteepStep {
	step := func(kind programme.SteepKind) programme.SteepStep {
		s := programme.SteepStep{
			Kind:   kind,
			Until:  anyUntil(t, 14, rises(programme.Moisture, 0.40), rises(programme.Drained, 0.44), rises(programme.Chit, 0.5)),
			WaterC: rapid.SampledFrom([]float64{math.NaN(), 5, 15, 28}).Draw(t, "water"), AirC: rapid.SampledFrom([]float64{math.NaN(), 4, 16, 30}).Draw(t, "rest air"),
			AerationM3HT: rapid.Float64Range(0, 5).Draw(t, "aeration"), SuctionM3HT: rapid.Float64Range(0, 250).Draw(t, "suction"),
		}
		if kind == programme.SteepSpray {
			s.SprayKgT = rapid.Float64Range(1, 80).Draw(t, "steep spray")
		}
		return s
	}
	var steps []programme.SteepStep
	for range rapid.IntRange(1, 3).Draw(t, "immersions") {
		steps = append(steps, step(programme.Immersion))
		for range rapid.IntRange(0, 2).Draw(t, "rests") {
			steps = append(steps, step(rapid.SampledFrom([]programme.SteepKind{programme.AirRest, programme.Couch, programme.Drain, programme.SteepSpray}).Draw(t, "kind")))
		}
	}
	return steps
}

func anyGrowth(t *rapid.T, kind plant.GerminatorKind) []programme.GerminateStep {
	var steps []programme.GerminateStep
	for range rapid.IntRange(1, 4).Draw(t, "stretches") {
		s := programme.GerminateStep{
			Until:  anyUntil(t, 48, rises(programme.Acrospire, 0.6), rises(programme.Chit, 0.8), falls(programme.Moisture, 0.43)),
			AirOnC: rapid.Float64Range(6, 26).Draw(t, "air-on"), AirOnRH: rapid.Float64Range(0.5, 1).Draw(t, "air-on humidity"),
			Flow:  programme.Airflow{Value: rapid.Float64Range(200, 900).Draw(t, "growth flow"), Per: programme.PerTonne},
			Fresh: rapid.Float64Range(0, 1).Draw(t, "fresh"), TurnEvH: rapid.SampledFrom([]float64{0, 6, 12, 24}).Draw(t, "turns"),
		}
		switch {
		case s.TurnEvH == 0:
		case rapid.Bool().Draw(t, "sprayed to"):
			s.SprayToWB = rapid.Float64Range(0.42, 0.48).Draw(t, "spray to")
		default:
			s.SprayKgT = rapid.Float64Range(0, 40).Draw(t, "growth spray")
		}
		if kind == plant.Floor || rapid.IntRange(0, 4).Draw(t, "fan off") == 0 {
			s.FanOff, s.Flow, s.DampersShut = true, programme.Airflow{}, rapid.Bool().Draw(t, "dampers shut")
		}
		steps = append(steps, s)
	}
	return steps
}

func anyKilning(t *rapid.T) []programme.KilnStep {
	var steps []programme.KilnStep
	for range rapid.IntRange(1, 4).Draw(t, "kiln steps") {
		s := programme.KilnStep{
			Until:  anyUntil(t, 10, rises(programme.Break, 1), falls(programme.WorstLayer, 0.10), rises(programme.AirOff, 50)),
			RampH:  rapid.SampledFrom([]float64{0, 0, 0.5, 3}).Draw(t, "ramp"),
			AirOnC: rapid.Float64Range(25, 105).Draw(t, "kiln air-on"), Flow: programme.Airflow{Value: rapid.Float64Range(0.05, 0.5).Draw(t, "kiln flow")},
			Recirculation: rapid.SampledFrom([]float64{0, 0, 0.3, 0.8}).Draw(t, "return"),
		}
		if rapid.IntRange(0, 5).Draw(t, "kiln fan off") == 0 {
			s.FanOff, s.Flow, s.DampersShut = true, programme.Airflow{}, rapid.Bool().Draw(t, "kiln dampers shut")
		}
		steps = append(steps, s)
	}
	return append(steps, programme.KilnStep{
		Name: "cooling", Until: anyUntil(t, 4, falls(programme.AirOff, 30)), AirOnC: 15, HeaterOff: true,
		Flow: programme.Airflow{Value: rapid.Float64Range(0.1, 0.5).Draw(t, "cooling flow")},
	})
}

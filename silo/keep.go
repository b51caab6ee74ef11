package silo

import (
	"fmt"
	"math"

	"awn/air"
	"awn/barley"
	"awn/finding"
	"awn/odds"
	"awn/unit"
)

// Store is a silo with what is known of it. Figures not known are NaN.
type Store struct {
	Name     string
	IntakeWB float64 // moisture at filling
	IntakeC  float64
	Readings []Reading

	Energy   []Look // germinated in 4 mL at 72 h
	Capacity []Look // living
	Sprouted bool   // germination before harvest was shown

	Today    float64 // day since filling
	SteepDay float64 // day on which it is to be steeped, NaN not set
	KeepDays float64 // for how long from today it must keep, NaN not set
	OutsideC float64 // mean outside of late

	Constants Constants // the zero value takes those of the table

	Geometry *Setup // for the simulation; nil if not known
	Weather  []Air  // from today on
}

// Account is how a store stands.
type Account struct {
	Moisture, TempC float64 // the moistest and warmest, last read or of the intake
	HumidityLow     float64 // of the air at rest with it, over the isotherms known
	HumidityHigh    float64

	Used     float64 // share of the safe time; NaN where it cannot be told of a single day
	LeftDays float64 // at the present moisture and temperature
	PlanDays float64 // what a plan may count on
	Beyond   float64 // days warmer or wetter than the clock was found for

	Living  odds.Value // today
	AtSteep odds.Value // on the day of steeping, if the grain stays as it is
	Dormant odds.Value // today

	Energy, Capacity *Trend
	To95, To90       Days // from today

	RespirationMgKgD float64
	HeatWT           float64
	WarmK5Days       float64 // to warm itself by 5 K if it keeps all its heat

	CoreDays  float64 // in which the core follows the outside by conduction alone
	CoolHours float64 // of the fan to the target of its aeration, by rule of thumb

	StorageWB float64 // moisture at which it keeps for KeepDays at its temperature

	Still, Aired *Run // the time to come without and with the fan; nil if not known
	Findings     []finding.Finding
}

// Keep works out how a store stands and what to do about it.
func Keep(s Store) (Account, error) {
	if !(s.Today >= 0) || math.IsInf(s.Today, 1) {
		return Account{}, fmt.Errorf("silo: today is day %g of the store", s.Today)
	}
	if s.Constants == (Constants{}) {
		s.Constants = Defaults()
	}
	a := Account{Moisture: s.IntakeWB, TempC: s.IntakeC, CoreDays: math.NaN(), CoolHours: math.NaN()}
	spells := s.spells(&a)
	a.clock(&s, spells)
	a.germination(&s, spells)
	a.breath(&s)
	if err := a.future(&s); err != nil {
		return Account{}, err
	}
	a.say(&s)
	return a, nil
}

// Dormant reports whether the last counts show more dormant kernels than a
// lot for the steep may hold.
func (s *Store) Dormant() bool {
	ge, gc := last(s.Energy, s.Today), last(s.Capacity, s.Today)
	return ge != nil && gc != nil && gc.Count.Fraction()-ge.Count.Fraction() > 1-energyLimit
}

// spells is the history up to today; where nothing was read, the grain is
// taken to lie as it came.
func (s *Store) spells(a *Account) []Spell {
	spells, _ := History(s.Readings, s.IntakeWB, s.Today)
	if len(spells) == 0 && s.Today > 0 {
		spells = []Spell{{s.Today, s.IntakeWB, s.IntakeC}}
	}
	for _, d := range byDay(s.Readings) {
		if d.day > s.Today {
			break
		}
		a.TempC = d.warmestC
		if !math.IsNaN(d.moistest) {
			a.Moisture = d.moistest
		}
	}
	return spells
}

func (a *Account) clock(s *Store, spells []Spell) {
	inside, beyond := atEdges(spells)
	a.Beyond = beyond
	a.Used = Used(FraserMuir{}, inside) / s.Constants.ClockFactor
	if len(inside) == 0 && s.Today > 0 {
		a.Used = math.NaN() // no day of which it could be told
	}
	now, outside := atEdge(Spell{1, a.Moisture, a.TempC})
	w, t := unit.WetBasis(now.Moisture), unit.Celsius(now.TempC)
	if outside {
		a.LeftDays, a.PlanDays = math.NaN(), math.NaN()
	} else {
		a.LeftDays = s.Constants.ClockFactor * Left(FraserMuir{}, a.Used, 1, w, t)
		a.PlanDays = s.Constants.ClockFactor * Left(FraserMuir{}, a.Used, PlanShare, w, t)
	}
	low, high := barley.BarleySpread().Humidity(unit.Celsius(a.TempC), unit.WetBasis(a.Moisture).DryBasis())
	a.HumidityLow, a.HumidityHigh = float64(low), float64(high)
	a.StorageWB = float64(MoistureFor(s.KeepDays, t))
}

// germination is what the counts say, and the laws from the last of them on.
func (a *Account) germination(s *Store, spells []Spell) {
	unknown := odds.Alone(math.NaN(), odds.Weak)
	a.Living, a.AtSteep, a.Dormant = unknown, unknown, unknown
	a.To95, a.To90 = Days{math.NaN(), math.NaN(), math.NaN()}, Days{math.NaN(), math.NaN(), math.NaN()}
	if t, ok := Fit(upTo(s.Energy, s.Today)); ok {
		a.Energy = &t
	}
	if t, ok := Fit(upTo(s.Capacity, s.Today)); ok {
		a.Capacity = &t
	}
	ge, gc := last(s.Energy, s.Today), last(s.Capacity, s.Today)
	life := gc
	if life == nil {
		life = ge // without a capacity the energy is the least that lives
	}
	if gc != nil && ge != nil {
		start := max(0, gc.Count.Fraction()-ge.Count.Fraction())
		a.Dormant = Dormant(start, WarmDays(since(spells, ge.Day), ReleaseC), s.Constants.dormancy())
	}
	if life == nil {
		return
	}
	after, _ := atEdges(since(spells, life.Day))
	pace := s.Constants.AgeingFactor
	after = aged(after, pace)
	now, beyond := atEdge(Spell{0, a.Moisture, a.TempC})
	a.Living = Forecast(EllisRoberts, life.Count, after)
	if beyond {
		return
	}
	if s.SteepDay >= s.Today {
		ahead := Spell{(s.SteepDay - s.Today) / pace, now.Moisture, now.TempC}
		a.AtSteep = Forecast(EllisRoberts, life.Count, append(after[:len(after):len(after)], ahead))
	}
	if t := a.Capacity; t != nil && t.Going() == Falling {
		a.To95, a.To90 = t.Reaches(0.95).from(s.Today), t.Reaches(0.90).from(s.Today)
		return
	}
	a.To95, a.To90 = daysTo(0.95, life.Count, after, now, pace), daysTo(0.90, life.Count, after, now, pace)
}

// aged are the spells of a lot that lives so many times as long as the law
// says.
func aged(spells []Spell, times float64) []Spell {
	for i := range spells {
		spells[i].Days /= times
	}
	return spells
}

// from counts the days from a day on; what is past is 0.
func (d Days) from(day float64) Days {
	cut := func(x float64) float64 {
		if math.IsNaN(x) {
			return x
		}
		return max(0, x-day)
	}
	return Days{cut(d.Mid), cut(d.Low), cut(d.High)}
}

// daysTo is when the law brings a counted lot to a level at one moisture and
// temperature.
func daysTo(level float64, count odds.Proportion, after []Spell, now Spell, pace float64) Days {
	sigma := pace * EllisRoberts.ProbitDays(unit.WetBasis(now.Moisture), unit.Celsius(now.TempC))
	gone := EllisRoberts.Lost(after) // after is aged already
	v := odds.Combine(func(x []float64) float64 { return (x[0]-Probits(level))*sigma*x[1] - gone*sigma },
		start(count), odds.Default(Parameters[ageingFactor]))
	return Days{v.Mid, v.Low, v.High}.from(0)
}

// upTo is the looks up to a day.
func upTo(looks []Look, day float64) (out []Look) {
	for _, l := range looks {
		if l.Day <= day {
			out = append(out, l)
		}
	}
	return out
}

// last is the last look up to a day; nil if there is none.
func last(looks []Look, day float64) (out *Look) {
	for i := range looks {
		if l := &looks[i]; l.Count.Valid() && l.Day <= day && (out == nil || l.Day >= out.Day) {
			out = l
		}
	}
	return out
}

// since is the part of a history after a day.
func since(spells []Spell, day float64) (out []Spell) {
	at := 0.0
	for _, s := range spells {
		from := max(at, day)
		at += s.Days
		if at > from {
			s.Days = at - from
			out = append(out, s)
		}
	}
	return out
}

func (a *Account) breath(s *Store) {
	w, t := unit.WetBasis(a.Moisture), unit.Celsius(a.TempC)
	a.RespirationMgKgD = Respiration(w, t, min(s.Today, breathMostDays))
	a.HeatWT = BreathHeat(a.RespirationMgKgD)
	a.WarmK5Days = WarmingDays(w, t, t+5)
}

// future runs the time to come, with the fan and without.
func (a *Account) future(s *Store) (err error) {
	if s.Geometry == nil || len(s.Weather) == 0 || math.IsNaN(a.Moisture) || math.IsNaN(a.TempC) {
		return nil
	}
	g := *s.Geometry
	g.Days, g.UsedBefore = s.Today, a.Used
	g.Moisture, g.TempC = []float64{a.Moisture}, []float64{a.TempC}
	still := g
	still.Aeration = Aeration{}
	if a.Still, err = Start(still); err != nil {
		return err
	}
	a.Still.Through(s.Weather)
	if !g.Aeration.Allowed {
		return nil
	}
	if a.Aired, err = Start(g); err != nil {
		return err
	}
	a.Aired.Through(s.Weather)
	a.cooling(s, &g)
	return nil
}

// cooling is how long the fan takes to the target if the air is right, and how
// slowly the core would get there by itself.
func (a *Account) cooling(s *Store, g *Setup) {
	w := unit.WetBasis(a.Moisture)
	a.CoreDays = CoreDays(g.RadiusM, g.Constants.ConductivityWMK, g.BulkKgM3, grainJKgK(w))
	rh := g.Isotherm.Humidity(unit.Celsius(a.TempC), w.DryBasis())
	t := unit.Celsius(g.Aeration.TargetC)
	airKgHT := a.Aired.FlowM3HT() / air.SpecificVolume(t, air.HumidityRatio(t, rh, g.PressurePa), g.PressurePa)
	a.CoolHours = s.Constants.CoolingEffort * CoolingHours(grainJKgK(w), unit.Celsius(a.TempC), t, rh, airKgHT, g.PressurePa)
}

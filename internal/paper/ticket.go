package paper

import (
	"cmp"
	"math"
	"slices"

	"awn/intake"
	"awn/odds"
	"awn/unit"
)

// Ticket is one load of barley with what was found of it.
type Ticket struct {
	Code    string   `key:"code" match:"[A-Z0-9][A-Z0-9-]{0,19}" doc:"The house's own code of the load. Capital letters, digits and hyphens, at most 20."`
	Variety string   `key:"variety?" doc:"Variety as declared."`
	Rows    string   `key:"rows?" one:"two|six" doc:"Two-row or six-row barley."`
	Arrived *Date    `key:"arrived" doc:"Day of arrival. The edition of a grade table follows it."`
	Net     *Mass    `key:"net" min:"1 kg" max:"500 t" doc:"Mass, gross less tare."`
	Dockage *Percent `key:"dockage" max:"50 %" doc:"What an approved device takes out. None, if it is not given."`

	Moisture       *Moisture          `key:"moisture" min:"5 % wb" max:"40 % wb" doc:"Moisture."`
	MoistureProbes []Moisture         `key:"moisture_probes?" min:"2" max:"50" doc:"Moisture of each probe, in place of moisture. Its scatter says how far the mean can be trusted."`
	Protein        *MassFraction      `key:"protein" min:"4 % dm, 4 % asis" max:"22 % dm, 22 % asis" doc:"Protein, nitrogen times 6.25. Of dry matter or as is, and it must say which."`
	TestWeight     *TestWeight        `key:"test_weight" min:"25 kg/hL" max:"90 kg/hL" doc:"Test weight. A lb/bu is of the Winchester bushel unless it says imperial."`
	Sieves         []SieveHeld        `key:"sieves?" max:"10" doc:"What each slot held, coarser fractions included."`
	Factors        map[string]Percent `key:"factors?" match:"suitable_type|sound|damaged|heat_damaged|injured_by_heat|frost_damaged|injured_by_frost|mould_damaged|injured_by_mould|fungus_damaged|wild_oats|foreign_material|other_grains|skinned_broken|broken|ergot|smut_balls|stones_mass|fireburnt|frost|fusarium_damaged|heated|rotted_mildewed|small_seeds|seeds_and_dust|not_sound_cereal|broken_grains|grain_impurities|other_cereals|overheated|sprouted|miscellaneous_impurities|noxious_seeds|admixture|variety_purity|skinned" doc:"Factors in per cent, on grain free of dockage."`
	Found          map[string]int     `key:"found?" match:"garlic_bulblets|stones|glass|infested|odour|heating" doc:"What was counted in the sample. Insects, odour and heating as 1 or 0."`
	NotedAll       bool               `key:"noted_all?" doc:"Frost, heat, mould, ergot, smut, garlic, stones, glass, odour, heating and insects are noted where they were found. What is not noted then counts as none."`

	Energy        *Germinated `key:"germination_energy" doc:"Germinated in 4 mL of water at 72 h."`
	Energy8       *Germinated `key:"germination_8ml" doc:"Germinated in 8 mL of water at 72 h."`
	Capacity      *Germinated `key:"capacity" doc:"Living kernels, dormant ones included."`
	FallingNumber *Duration   `key:"falling_number" max:"1000 s" doc:"Falling number."`
	Viscosity     *float64    `key:"rva_viscosity" min:"0" max:"1000" doc:"Viscosity of the slurry in the units of a rapid visco analyser."`
	DON           *Toxin      `key:"don" doc:"Deoxynivalenol."`
	Ochratoxin    *Toxin      `key:"ochratoxin" doc:"Ochratoxin A."`
	T2HT2         *Toxin      `key:"t2_ht2" doc:"T-2 and HT-2 toxin together."`

	TrueToType    string       `key:"true_to_type?" one:"yes|no" doc:"Whether a test of identity agrees with the declared variety."`
	PreviousCargo string       `key:"previous_cargo?" doc:"What the vehicle carried before."`
	FumigantClear *Date        `key:"fumigant_clear" doc:"First day on which fumigated grain may be handled."`
	Temperature   *Temperature `key:"temperature" min:"-40 °C" max:"70 °C" doc:"Temperature of the grain."`
	Meter         string       `key:"meter?" doc:"The moisture meter used."`
	Vehicle       *Vehicle     `key:"vehicle" doc:"What the load lies in, and where it is probed."`

	Table    string          `key:"table?" one:"us-two-row|us-six-row|us-barley|canada-select-two-row|canada-select-six-row|canada-export|eu-intervention" doc:"Grade table to grade it by."`
	Contract *Link[Contract] `key:"contract" doc:"Contract to judge and price it by."`
	Silos    []Bin           `key:"silos?" max:"100" doc:"Silos that it may go to."`
}

// Vehicle is what a load lies in.
type Vehicle struct {
	Length Length  `key:"length" min:"0.5 m" max:"40 m" doc:"Length of the body."`
	Width  Length  `key:"width" min:"0.5 m" max:"10 m" doc:"Width of the body."`
	Probes []Probe `key:"probes?" max:"50" doc:"The house's own pattern. Without it the places are laid evenly."`
}

// Probe is one place of a pattern.
type Probe struct {
	Along  Length `key:"along" min:"0 m" max:"40 m" doc:"From the front."`
	Across Length `key:"across" min:"0 m" max:"10 m" doc:"From the left side."`
}

// Check finds probes that miss the vehicle.
func (v Vehicle) Check() []Fault {
	for _, p := range v.Probes {
		if p.Along.Value > v.Length.Value || p.Across.Value > v.Width.Value {
			return []Fault{{Code: "load.probe.outside", Path: "probes"}}
		}
	}
	return nil
}

// SieveHeld is what one slot held.
type SieveHeld struct {
	Slot Length  `key:"slot" min:"1 mm" max:"4 mm" doc:"Width of the slot, in mm or in 64ths of an inch as the sieve is made."`
	Held Percent `key:"held" doc:"Share of the sample by mass that it holds, coarser fractions included."`
}

// Germinated is a count.
type Germinated struct {
	Germinated int `key:"germinated" min:"0" max:"100000" doc:"Kernels that did."`
	Of         int `key:"of" min:"1" max:"100000" doc:"Kernels laid out."`
}

// Toxin is what was found of a mycotoxin, and how it was sampled.
type Toxin struct {
	Value    Concentration `key:"value" min:"0 mg/kg" max:"100 mg/kg" doc:"What was found, per mass of grain."`
	Below    bool          `key:"below_detection?" doc:"Nothing was found; the value is what the method can see."`
	Sample   *Mass         `key:"sample" min:"10 g" max:"100 kg" doc:"Ground sample."`
	Portion  *Mass         `key:"portion" min:"1 g" max:"10 kg" doc:"Portion of it that was extracted."`
	Analyses *int          `key:"analyses" min:"1" max:"100" doc:"How often the portion was analysed."`
}

// Bin is a silo as a load may go into it.
type Bin struct {
	Name         string         `key:"name" doc:"Name of the silo."`
	Variety      string         `key:"variety?" doc:"Variety kept in it. Any, if it is not given."`
	Held         *Mass          `key:"held" doc:"What lies in it."`
	Free         Mass           `key:"free" doc:"What it can still take."`
	LeastProtein *MassFraction  `key:"least_protein" doc:"Least protein it is kept for, of dry matter."`
	MostProtein  *MassFraction  `key:"most_protein" doc:"Most protein it is kept for, of dry matter."`
	HeldProtein  *MassFraction  `key:"held_protein" doc:"Mean protein of what lies in it, of dry matter."`
	MostMoisture *Moisture      `key:"most_moisture" doc:"Most moisture that it takes."`
	LeastLiving  *Percent       `key:"least_capacity" doc:"Least capacity that it takes."`
	MostDON      *Concentration `key:"most_don" doc:"Most deoxynivalenol that it takes."`
	Sprouted     bool           `key:"for_sprouted?" doc:"It is set apart for sprouted grain."`
}

// Kind is the word behind the first key.
func (Ticket) Kind() string { return "load/1" }

// Check finds what does not agree within a load.
func (t Ticket) Check() (faults []Fault) {
	add := func(code, path, got string) { faults = append(faults, Fault{Code: code, Path: path, Got: got}) }
	if t.Moisture == nil && t.MoistureProbes == nil && isAsIs(t.Protein) {
		add("lot.moisture.needed", "protein", "protein")
	}
	if t.Moisture != nil && t.MoistureProbes != nil {
		add("load.moisture.twice", "moisture_probes", "")
	}
	sieves := slices.Clone(t.Sieves)
	slices.SortStableFunc(sieves, func(a, b SieveHeld) int { return cmp.Compare(a.Slot.Value, b.Slot.Value) })
	for i := 1; i < len(sieves); i++ {
		switch a, b := sieves[i-1], sieves[i]; {
		case a.Slot.Value == b.Slot.Value:
			add("load.sieve.twice", "sieves", "")
		case b.Held.Value > a.Held.Value:
			add("load.sieve.not-running", "sieves", "")
		}
	}
	return faults
}

// Check finds more kernels than were laid out.
func (g Germinated) Check() []Fault {
	if g.Germinated > g.Of {
		return []Fault{{Code: "lot.count.too-many", Path: "germinated"}}
	}
	return nil
}

// Check finds a portion larger than its sample, and a value per volume.
func (t Toxin) Check() []Fault {
	switch {
	case t.Value.Kind != unit.KindPerMass:
		return []Fault{{Code: "load.toxin.per-mass", Path: "value", Got: t.Value.Symbol}}
	case t.Portion.Or("g", 0) > t.Sample.Or("g", math.Inf(1)):
		return []Fault{{Code: "load.toxin.portion", Path: "portion"}}
	}
	return nil
}

// Load is the load that the document describes.
func (t Ticket) Load() intake.Load {
	l := intake.Load{
		Code: t.Code, Variety: t.Variety, Rows: map[string]int{"two": 2, "six": 6}[t.Rows], NetKg: t.Net.In("kg"), Dockage: t.Dockage.Or("%", 0) / 100,
		Readings: map[intake.Factor]intake.Reading{}, NotedAll: t.NotedAll, TrueToType: map[string]intake.Seen{"yes": intake.Yes, "no": intake.No}[t.TrueToType],
		PreviousCargo: t.PreviousCargo, Arrived: intake.Day(t.Arrived.text()), FumigantClear: intake.Day(t.FumigantClear.text()),
		GrainC: t.Temperature.In("°C"), Meter: t.Meter, Vehicle: t.Vehicle.vehicle(),
	}
	read := func(f intake.Factor, x float64) {
		if !math.IsNaN(x) {
			l.Readings[f] = intake.Read(x)
		}
	}
	wet := t.Moisture.In("% wb") / 100
	if t.MoistureProbes != nil {
		probes := make([]float64, len(t.MoistureProbes))
		for i := range probes {
			probes[i] = t.MoistureProbes[i].In("% wb") / 100
		}
		mean := intake.MeanOfProbes(probes)
		wet = mean.Mid
		l.Readings[intake.Moisture] = intake.Reading{Value: mean}
	} else {
		read(intake.Moisture, wet)
	}
	read(intake.Protein, perDry(t.Protein, wet))
	read(intake.TestWeight, t.TestWeight.In("kg/hL"))
	read(intake.FallingNumber, t.FallingNumber.In("s"))
	if t.Viscosity != nil {
		read(intake.Viscosity, *t.Viscosity)
	}
	for f, p := range t.Factors {
		read(intake.Factor(f), p.In("%")/100)
	}
	for f, n := range t.Found {
		read(intake.Factor(f), float64(n))
	}
	for f, g := range map[intake.Factor]*Germinated{intake.Energy: t.Energy, intake.Energy8: t.Energy8, intake.Capacity: t.Capacity} {
		if g != nil {
			l.Readings[f] = intake.Counted(g.Germinated, g.Of)
		}
	}
	for f, x := range map[intake.Factor]*Toxin{intake.DON: t.DON, intake.Ochratoxin: t.Ochratoxin, intake.T2HT2: t.T2HT2} {
		if x != nil {
			l.Readings[f] = x.reading()
		}
	}
	for _, s := range t.Sieves {
		l.Sieves = append(l.Sieves, intake.Sieve{SlotM: s.Slot.In("m"), Held: odds.Alone(s.Held.In("%")/100, odds.Measured)})
	}
	return l
}

// reading is a mycotoxin with its plan, if all of that is known.
func (t *Toxin) reading() intake.Reading {
	r := intake.Read(t.Value.In("mg/kg") * 1e-6)
	r.Below = t.Below
	if t.Sample != nil && t.Portion != nil && t.Analyses != nil {
		r.Plan = intake.ToxinPlan{SampleG: t.Sample.In("g"), PortionG: t.Portion.In("g"), Analyses: *t.Analyses}
	}
	return r
}

// bins are the silos of the document.
func (t Ticket) bins() []intake.Bin {
	out := make([]intake.Bin, len(t.Silos))
	for i, b := range t.Silos {
		out[i] = intake.Bin{
			Name: b.Name, Variety: b.Variety, HeldKg: b.Held.Or("kg", 0), FreeKg: b.Free.In("kg"), ForSprouted: b.Sprouted,
			Protein:      [2]float64{b.LeastProtein.In("% dm") / 100, b.MostProtein.In("% dm") / 100},
			MostMoisture: b.MostMoisture.In("% wb") / 100, LeastLiving: b.LeastLiving.In("%") / 100, MostDON: b.MostDON.In("mg/kg") * 1e-6,
			HeldProtein: b.HeldProtein.In("% dm") / 100,
		}
	}
	return out
}

// Check finds protein of a silo that is not of dry matter.
func (b Bin) Check() (faults []Fault) {
	for path, q := range map[string]*MassFraction{"least_protein": b.LeastProtein, "most_protein": b.MostProtein, "held_protein": b.HeldProtein} {
		if isAsIs(q) {
			faults = append(faults, Fault{Code: "load.silo.dry-matter", Path: path, Got: q.Symbol})
		}
	}
	return faults
}

// vehicle is what the document describes; nothing is said if there is none.
func (v *Vehicle) vehicle() intake.Vehicle {
	if v == nil {
		return intake.Vehicle{}
	}
	out := intake.Vehicle{LengthM: v.Length.In("m"), WidthM: v.Width.In("m")}
	for _, p := range v.Probes {
		out.Probes = append(out.Probes, intake.Point{Along: p.Along.In("m") / out.LengthM, Across: p.Across.In("m") / out.WidthM})
	}
	return out
}

package paper

import (
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"

	"awn/barley"
	"awn/lab"
	"awn/odds"
	"awn/unit"
)

// Lot is a parcel of barley with its analysis. What is not known is left out
// and is given a usual value with a wide range.
type Lot struct {
	Code     string             `key:"code" match:"[A-Z0-9][A-Z0-9-]{0,19}" doc:"The house's own code of the lot. Capital letters, digits and hyphens, at most 20."`
	Variety  string             `key:"variety?" doc:"Variety of the barley."`
	Grain    string             `key:"grain?" one:"barley|wheat|rye|oats" doc:"What it is. Barley, if nothing is said. The model is one of barley: other grain runs only with factors of its own."`
	Factor   map[string]float64 `key:"factor?" match:"[a-z0-9_.-]+" min:"0" max:"10" doc:"What this grain multiplies in the model, by the key of the parameter table."`
	Rows     string             `key:"rows?" one:"two|six" doc:"Two-row or six-row barley."`
	CropYear *int               `key:"crop_year" min:"1990" max:"2100" doc:"Year of harvest."`
	Origin   string             `key:"origin?" doc:"Where it grew."`

	Moisture     *Moisture     `key:"moisture" min:"5 % wb" max:"25 % wb" doc:"Moisture as it will be steeped. On wet or dry basis, and it must say which."`
	Received     *Moisture     `key:"received_moisture" min:"5 % wb" max:"30 % wb" doc:"Moisture as received, if it was dried between pit and steep. That of moisture, if it is not given."`
	Protein      *MassFraction `key:"protein" min:"5 % dm, 5 % asis" max:"20 % dm, 20 % asis" doc:"Protein, nitrogen times 6.25. Of dry matter or as is, and it must say which."`
	KernelWeight *KernelWeight `key:"thousand_kernel_weight" min:"15 g dm, 15 g asis" max:"80 g dm, 80 g asis" doc:"Weight of a thousand kernels. Of dry matter or as is, and it must say which."`
	TestWeight   *TestWeight   `key:"test_weight" min:"40 kg/hL" max:"85 kg/hL" doc:"Weight of a measure of barley as is. A lb/bu is of the Winchester bushel unless it says imperial."`
	SievesEBC    *SievesEBC    `key:"sieves_ebc" doc:"Sieving on the EBC slots of the barley as received, by mass. Give this or sieves_us."`
	SievesUS     *SievesUS     `key:"sieves_us" doc:"Sieving on the United States slots of the barley as received, by mass. Give this or sieves_ebc."`

	Germination4mL   []Count  `key:"germination_4ml?" max:"30" doc:"Germinated kernels in 4 mL of water, look by look. Running totals, not the newly germinated alone."`
	Germination8mL   []Count  `key:"germination_8ml?" max:"30" doc:"Germinated kernels in 8 mL of water, look by look. Running totals."`
	Capacity         *Percent `key:"capacity" doc:"Germinative capacity. Living kernels by number, dormant ones included."`
	Dormant          *Percent `key:"dormant" doc:"Living kernels that will not yet chit, by number."`
	WaterSensitivity *Percent `key:"water_sensitivity" doc:"Kernels that germinate in 4 mL but not in 8 mL of water, by number."`

	BetaGlucan     *MassFraction   `key:"beta_glucan" min:"1 % dm, 1 % asis" max:"10 % dm, 10 % asis" doc:"Beta-glucan of the barley. Of dry matter or as is."`
	FirstImmersion *FirstImmersion `key:"first_immersion" doc:"One measured first immersion. It fixes how fast this lot takes up water better than any analysis."`
	Uptake         *float64        `key:"uptake" min:"0.3" max:"3" doc:"Rate of water uptake against that of the usual kernel. Only if it is known and no first immersion was measured."`
	GreenSMM       *Trace          `key:"green_smm" doc:"S-methylmethionine of green malt made from this lot. Without it only the share left in the malt is given."`
}

// SievesEBC are the fractions held by each EBC slot.
type SievesEBC struct {
	Over28  Percent  `key:"2.8 mm" doc:"Held by the 2.8 mm slot."`
	Over25  Percent  `key:"2.5 mm" doc:"Held by 2.5 mm, through 2.8 mm."`
	Over22  Percent  `key:"2.2 mm" doc:"Held by 2.2 mm, through 2.5 mm."`
	Through *Percent `key:"through" doc:"Through 2.2 mm. The rest, if it is not given."`
}

// SievesUS are the fractions held by each United States slot.
type SievesUS struct {
	Over7   Percent  `key:"7/64 in" doc:"Held by the 7/64 in slot."`
	Over6   Percent  `key:"6/64 in" doc:"Held by 6/64 in, through 7/64 in."`
	Over5   Percent  `key:"5/64 in" doc:"Held by 5/64 in, through 6/64 in."`
	Through *Percent `key:"through" doc:"Through 5/64 in. The rest, if it is not given."`
}

// Count is one look at a germination test.
type Count struct {
	After      Duration `key:"after" min:"1 h" max:"30 d" doc:"Time since wetting."`
	Germinated int      `key:"germinated" min:"0" max:"10000" doc:"Kernels germinated by then, all earlier ones included."`
	Of         int      `key:"of" min:"1" max:"10000" doc:"Kernels laid out."`
}

// FirstImmersion is a measured moisture at the end of a first immersion.
type FirstImmersion struct {
	Lasted   Duration    `key:"lasted" min:"30 min" max:"48 h" doc:"Time under water."`
	Water    Temperature `key:"water" min:"1 °C" max:"45 °C" doc:"Temperature of the water."`
	Moisture Moisture    `key:"moisture" min:"15 % wb" max:"60 % wb" doc:"Moisture at its end. Drained, not blotted."`
}

// Kind is the word behind the first key.
func (Lot) Kind() string { return "lot/1" }

// Check finds what does not agree within a lot.
func (l Lot) Check() (faults []Fault) {
	if l.Grain != "" && l.Grain != "barley" && len(l.Factor) == 0 {
		faults = append(faults, Fault{Code: "lot.grain.needs-factors", Path: "grain", Got: l.Grain})
	}
	known := parameterKeys()
	for _, key := range slices.Sorted(maps.Keys(l.Factor)) {
		if !slices.Contains(known, key) {
			faults = append(faults, Fault{Code: "lot.factor.unknown", Path: "factor." + key, Got: key, Nearest: unit.Nearest(key, known)})
		}
	}
	if l.SievesEBC != nil && l.SievesUS != nil {
		faults = append(faults, Fault{Code: "lot.sieves.two-series", Path: "sieves_us"})
	}
	if l.FirstImmersion != nil && l.Uptake != nil {
		faults = append(faults, Fault{Code: "lot.uptake.twice", Path: "uptake"})
	}
	if l.Capacity != nil && l.Dormant.Or("%", 0) > l.Capacity.In("%") {
		faults = append(faults, Fault{Code: "lot.dormant.over-capacity", Path: "dormant"})
	}
	if l.Moisture == nil {
		needing := map[string]bool{
			"protein":                isAsIs(l.Protein),
			"beta_glucan":            isAsIs(l.BetaGlucan),
			"thousand_kernel_weight": !math.IsNaN(l.KernelWeight.In("g dm")),
		}
		for path, needs := range needing {
			if needs {
				faults = append(faults, Fault{Code: "lot.moisture.needed", Path: path, Got: path})
			}
		}
	}
	faults = append(faults, checkCounts(l.Germination4mL, "germination_4ml")...)
	return append(faults, checkCounts(l.Germination8mL, "germination_8ml")...)
}

func isAsIs(q *MassFraction) bool { return !math.IsNaN(q.In("% asis")) }

// sieveSlack is what the fractions of a sheet may lack or exceed 100 % by, in
// points: each of four is rounded to a tenth, and dust is lost.
const sieveSlack = 0.5

// Check finds fractions that do not make up the whole.
func (s SievesEBC) Check() []Fault { return checkSieves(s.fractions()) }

// Check finds fractions that do not make up the whole.
func (s SievesUS) Check() []Fault { return checkSieves(s.fractions()) }

func (s SievesEBC) fractions() ([3]Percent, *Percent) {
	return [3]Percent{s.Over28, s.Over25, s.Over22}, s.Through
}

func (s SievesUS) fractions() ([3]Percent, *Percent) {
	return [3]Percent{s.Over7, s.Over6, s.Over5}, s.Through
}

func checkSieves(held [3]Percent, through *Percent) []Fault {
	sum := through.Or("%", 0)
	for _, p := range held {
		sum += p.In("%")
	}
	got := fmt.Sprintf("%.1f %%", sum)
	switch {
	case sum > 100+sieveSlack:
		return []Fault{{Code: "lot.sieves.over-100", Got: got}}
	case through != nil && sum < 100-sieveSlack:
		return []Fault{{Code: "lot.sieves.under-100", Got: got}}
	}
	return nil
}

// checkCounts says which look of a test cannot be.
func checkCounts(counts []Count, path string) []Fault {
	if len(counts) == 0 {
		return nil
	}
	var e *lab.CountError
	if err := lab.CheckCounts(looks(counts)); errors.As(err, &e) {
		return []Fault{{Code: "lot.count." + string(e.Problem), Path: path + "[" + strconv.Itoa(e.Look) + "]"}}
	}
	return nil
}

func looks(counts []Count) []lab.Count {
	out := make([]lab.Count, len(counts))
	for i, c := range counts {
		out[i] = lab.Count{AtH: c.After.In("h"), Germinated: c.Germinated, Of: c.Of}
	}
	return out
}

// Lot is the parcel that the document describes; what it leaves out is unknown.
func (l Lot) Lot() barley.Lot {
	wet := l.Moisture.In("% wb") / 100
	lot := barley.Lot{
		Code: l.Code, Variety: l.Variety, Origin: l.Origin,
		Rows: map[string]int{"two": 2, "six": 6}[l.Rows],

		Moisture:       measured(wet),
		ReceivedWB:     l.Received.Or("% wb", 0) / 100,
		Protein:        measured(perDry(l.Protein, wet)),
		KernelMassMg:   measured(asIs(l.KernelWeight, wet)),
		TestWeightKgHL: measured(l.TestWeight.In("kg/hL")),

		Counts4mL: looks(l.Germination4mL), Counts8mL: looks(l.Germination8mL),
		Capacity:          measured(l.Capacity.In("%") / 100),
		Dormant:           measured(l.Dormant.In("%") / 100),
		WaterSensitivity:  measured(l.WaterSensitivity.In("%") / 100),
		ChitThermalTimeCH: barley.Unknown(),

		BetaGlucan: measured(perDry(l.BetaGlucan, wet)),
		Uptake:     barley.Unknown(),
		GreenSMM:   measured(greenSMM(l.GreenSMM)),
	}
	if l.Grain != "barley" {
		lot.Grain = l.Grain
	}
	lot.Factor = l.Factor
	if l.CropYear != nil {
		lot.CropYear = *l.CropYear
	}
	if l.Uptake != nil {
		lot.Uptake = measured(*l.Uptake)
	}
	switch {
	case l.SievesUS != nil:
		lot.Sieving, lot.Sieve = barley.SieveUS, shares(l.SievesUS.fractions())
	case l.SievesEBC != nil:
		lot.Sieve = shares(l.SievesEBC.fractions())
	}
	if f := l.FirstImmersion; f != nil {
		lot.FirstImmersion = &barley.FirstImmersion{Hours: f.Lasted.In("h"), WaterC: f.Water.In("°C"), Moisture: f.Moisture.In("% wb") / 100}
	}
	return lot
}

// measured is a figure of the lot's own analysis; NaN is unknown.
func measured(x float64) odds.Value {
	if math.IsNaN(x) {
		return barley.Unknown()
	}
	return odds.Alone(x, odds.Measured)
}

// perDry is a share of dry matter, of a lot of that moisture.
func perDry(q *MassFraction, wet float64) float64 {
	if isAsIs(q) {
		return q.In("% asis") / 100 / (1 - wet)
	}
	return q.In("% dm") / 100
}

// asIs is a thousand-kernel weight as is, in g.
func asIs(q *KernelWeight, wet float64) float64 {
	if dry := q.In("g dm"); !math.IsNaN(dry) {
		return dry / (1 - wet)
	}
	return q.In("g asis")
}

// shares are the four fractions, made to sum to 1.
func shares(held [3]Percent, through *Percent) (out [barley.SieveClasses]float64) {
	sum := 0.0
	for i, p := range held {
		out[i] = p.In("%")
		sum += out[i]
	}
	out[3] = through.Or("%", max(0, 100-sum))
	sum += out[3]
	for i := range out {
		out[i] /= sum
	}
	return out
}

// greenSMM is in mg per kg of dry matter.
func greenSMM(q *Trace) float64 { return q.In("mg/kg dm") }

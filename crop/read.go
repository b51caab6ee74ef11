package crop

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"awn/intake"
	"awn/unit"
)

// Ranges of what stands in a table beside qualities.
const (
	firstSeason, lastSeason = 1800, 2200
	mostTonnes              = 1e9
	mostCount               = 1e6
)

// table is samples while they are read.
type table struct {
	cells
	role    []Column
	quality []int     // by column, the place in Survey.Qualities; -1
	inside  []float64 // by column, what one of its unit is
	out     Survey
	given   map[Column]int // where each role stands
}

// Read makes a survey of a table of cells whose first row names the columns. A
// header may carry a unit in brackets, and a sieve column its slot: "plump [2.5
// mm]", "don [µg/kg]". roles says what columns hold that are not known by their
// name. All that cannot be read is returned together.
func Read(rows [][]string, roles map[string]Column) (*Survey, []Fault) {
	t := &table{given: map[Column]int{}}
	if len(rows) == 0 {
		return &t.out, []Fault{{Code: "survey.table.empty", Row: 1}}
	}
	if !t.columns(rows[0], roles) {
		return &t.out, t.faults
	}
	for i, row := range rows[1:] {
		if !blank(row) {
			t.row(i+2, row)
		}
	}
	if len(t.out.Samples) == 0 {
		t.fault("survey.table.empty", 1, -1, "")
	}
	t.weigh()
	t.out.complete()
	return &t.out, t.faults
}

// columns settles what each column holds, and reports whether rows can be read.
func (t *table) columns(row []string, roles map[string]Column) bool {
	t.head(row)
	t.role = t.roles(roles)
	t.out.Slots = true
	for i, name := range t.header {
		t.quality, t.inside = append(t.quality, -1), append(t.inside, 1)
		if _, ok := formOf(string(t.role[i])); ok {
			name, t.role[i] = string(t.role[i]), ""
		}
		if t.role[i] == "" {
			t.newQuality(i, name)
		} else {
			t.given[t.role[i]] = i
		}
	}
	ok := t.needs(t.role, DistrictColumn, VarietyColumn, FarmColumn)
	if len(t.out.Qualities) == 0 {
		f := t.fault("survey.header.missing", 1, -1, "protein")
		f.Meant = unit.Nearest("protein", t.header)
		ok = false
	}
	return ok
}

// newQuality takes a column as a quality. A header that nobody knows is a fault
// only if it is nearly one that is known; a survey may hold more than is asked.
func (t *table) newQuality(column int, name string) {
	f, ok := formOf(unit.Spelled(name))
	if !ok {
		if near := unit.Nearest(unit.Spelled(name), knownWords()); near != "" {
			t.fault("survey.header.unknown", 1, column, name).Meant = near
		}
		t.role[column] = IgnoredColumn
		return
	}
	q := Quality{Key: f.key, Column: name}
	text := strings.ToLower(t.unit[column])
	if f.key.Factor.Sieved() {
		slot, rest, found := slotOf(text)
		if found {
			q.SlotM, text = slot, rest
		} else {
			t.out.Slots = false
		}
	}
	by, ok := f.units[text]
	if !ok {
		t.fault("survey.header.unit", 1, column, t.unit[column]).Meant = unitsOf(f)
		by = f.units[""]
	}
	q.inside = by
	q.AsIs = strings.HasSuffix(text, "asis") || strings.HasSuffix(text, "as is")
	if t.out.Quality(q.Key) >= 0 {
		t.fault("survey.header.twice", 1, column, name)
		t.role[column] = IgnoredColumn
		return
	}
	t.quality[column], t.inside[column] = len(t.out.Qualities), by
	t.out.Qualities = append(t.out.Qualities, q)
}

// knownWords are all headers that mean something.
func knownWords() []string {
	var out []string
	for word := range columnWords {
		out = append(out, word)
	}
	for _, f := range forms {
		out = append(out, f.names...)
	}
	slices.Sort(out)
	return out
}

// unitsOf lists the units that a quality may stand in.
func unitsOf(f form) string {
	var out []string
	for u := range f.units {
		if u != "" {
			out = append(out, u)
		}
	}
	slices.Sort(out)
	return strings.Join(out, ", ")
}

// slotOf reads the width of a slot off a unit: "% 2.5 mm" and "6/64 in". The two
// series are never turned into each other.
func slotOf(text string) (slotM float64, rest string, ok bool) {
	words := strings.Fields(text)
	for i := 0; i+1 < len(words); i++ {
		number := words[i]
		var err error
		switch words[i+1] {
		case "mm":
			slotM, err = strconv.ParseFloat(number, 64)
			slotM /= 1000
		case "in":
			of64, found := strings.CutSuffix(number, "/64")
			if !found {
				continue
			}
			slotM, err = strconv.ParseFloat(of64, 64)
			slotM = intake.Slot64(slotM)
		default:
			continue
		}
		if err == nil && slotM > 0.001 && slotM < 0.004 {
			return slotM, strings.Join(append(words[:i:i], words[i+2:]...), " "), true
		}
	}
	return 0, text, false
}

func (t *table) row(number int, row []string) {
	x := Sample{Line: number, Loads: 1, Bins: math.NaN(), BinsSampled: math.NaN(), FarmsFrame: math.NaN(), WeightT: math.NaN()}
	x.Readings = slices.Repeat([]Reading{missing}, len(t.out.Qualities))
	for i := range t.header {
		t.cell(&x, number, i, cellOf(row, i))
	}
	if len(row) > len(t.header) {
		t.fault("survey.row.long", number, -1, "")
	}
	whole := true
	for _, n := range []struct {
		name   string
		column Column
	}{{x.District, DistrictColumn}, {x.Variety, VarietyColumn}, {x.Farm, FarmColumn}} {
		if n.name == "" {
			t.fault("survey.name.missing", number, -1, string(n.column))
			whole = false
		}
	}
	if whole {
		t.asDry(&x)
		t.out.Samples = append(t.out.Samples, x)
	}
}

func (t *table) cell(x *Sample, number, i int, text string) {
	switch t.role[i] {
	case DistrictColumn:
		x.District = text
	case VarietyColumn:
		x.Variety = text
	case FarmColumn:
		x.Farm = text
	case SeasonColumn:
		if y := t.between(number, i, text, firstSeason, lastSeason); y == math.Trunc(y) {
			x.Season = int(y)
		} else if !math.IsNaN(y) {
			t.fault("survey.cell.not-a-number", number, i, text)
		}
	case LoadsColumn:
		if n := t.between(number, i, text, 1, mostCount); n == math.Trunc(n) {
			x.Loads = int(n)
		}
	case FarmsColumn:
		x.FarmsFrame = t.between(number, i, text, 1, mostCount)
	case BinsColumn:
		x.Bins = t.between(number, i, text, 1, mostCount)
	case LookedColumn:
		x.BinsSampled = t.between(number, i, text, 1, mostCount)
	case WeightColumn, TonnesColumn, AreaColumn, SampledColumn:
		x.put(t.role[i], t.between(number, i, text, 0, mostTonnes))
	case "":
		x.Readings[t.quality[i]] = t.reading(number, i, text)
	}
}

// put notes a figure that a weight may be made of.
func (x *Sample) put(role Column, y float64) {
	if x.weights == nil {
		x.weights = map[Column]float64{}
	}
	x.weights[role] = y
}

// reading reads a figure, or that it lies below what the method sees.
func (t *table) reading(number, i int, text string) Reading {
	f := t.out.Qualities[t.quality[i]].form()
	rest, below := strings.CutPrefix(text, "<")
	if below && !f.below {
		t.fault("survey.cell.below", number, i, text)
		return missing
	}
	if slices.Contains([]string{"nd", "n.d.", "bdl", "trace"}, strings.ToLower(text)) {
		t.fault("survey.cell.no-limit", number, i, text)
		return missing
	}
	by := t.inside[i]
	x := t.between(number, i, strings.TrimSpace(rest), 0, f.most/by)
	if below && x == 0 {
		t.fault("survey.cell.no-limit", number, i, text)
		return missing
	}
	return Reading{X: x * by, Below: below && !math.IsNaN(x)}
}

// asDry brings protein that was read of the grain as it stands to dry matter.
func (t *table) asDry(x *Sample) {
	moisture := t.out.Quality(intake.Of(intake.Moisture))
	for i, q := range t.out.Qualities {
		if !q.AsIs {
			continue
		}
		wet := math.NaN()
		if moisture >= 0 {
			wet = x.Readings[moisture].X
		}
		x.Readings[i].X /= 1 - wet
	}
}

// weigh settles what each sample stands for, by the best that the table has.
func (t *table) weigh() {
	has := func(columns ...Column) bool {
		return !slices.ContainsFunc(columns, func(c Column) bool { _, ok := t.given[c]; return !ok })
	}
	s := &t.out
	switch {
	case has(WeightColumn):
		s.Weighting = ByWeight
	case has(TonnesColumn, FarmsColumn, SampledColumn, BinsColumn, LookedColumn):
		s.Weighting = ByFrame
	case has(TonnesColumn):
		s.Weighting = ByTonnes
	case has(AreaColumn):
		s.Weighting = ByArea
	default:
		s.Weighting = ByNone
	}
	kept := s.Samples[:0]
	for _, x := range s.Samples {
		x.WeightT = x.weight(s.Weighting)
		x.weights = nil
		if x.WeightT > 0 {
			kept = append(kept, x)
			continue
		}
		t.fault("survey.weight.missing", x.Line, -1, string(s.Weighting))
	}
	s.Samples = kept
}

// weight is what a sample stands for.
func (x Sample) weight(by Weighting) float64 {
	switch by {
	case ByWeight:
		return x.weights[WeightColumn]
	case ByFrame:
		return x.FarmsFrame / x.weights[SampledColumn] * x.Bins / x.BinsSampled * x.weights[TonnesColumn]
	case ByTonnes:
		return x.weights[TonnesColumn]
	case ByArea:
		return x.weights[AreaColumn]
	}
	return 1
}

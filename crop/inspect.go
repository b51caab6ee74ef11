package crop

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"awn/finding"
)

// Bounds beyond which a survey is remarked on. Common practice, no source.
const (
	weightsOff   = 0.2  // weights of a stratum against its tonnes
	allOff       = 0.1  // of all together
	farmWeighs   = 0.1  // share of the weight that one farm carries
	holesWorth   = 0.1  // share of samples without a figure
	underWorth   = 0.5  // share of samples below detection
	mostUnlikely = 10   // unlikely figures that are told one by one
	tonnesSlack  = 1e-9 // of a frame without tonnes
)

// Inspect says what is wrong with the samples of a season, or worth knowing before
// any result is believed, gravest first.
func (s *Survey) Inspect() []Remark {
	i := inspection{s: s, d: s.Design(Options{})}
	if len(s.Samples) == 0 {
		i.say("survey.season.empty", finding.Alarm)
		return i.out
	}
	i.strata()
	i.weights()
	i.farms()
	i.qualities()
	i.names()
	i.doubles()
	slices.SortStableFunc(i.out, func(a, b Remark) int { return cmp.Compare(b.Severity, a.Severity) })
	return i.out
}

type inspection struct {
	s   *Survey
	d   *Design
	out []Remark
}

func (i *inspection) say(code string, severity finding.Severity, figures ...finding.Figure) *Remark {
	i.out = append(i.out, Remark{Finding: finding.New(code, severity, ofData, figures...)})
	return &i.out[len(i.out)-1]
}

// strata looks for strata that cannot be told, or not by themselves.
func (i *inspection) strata() {
	single := 0
	for _, n := range i.d.farms {
		if n == 1 {
			single++
		}
	}
	switch {
	case single > 0 && single == len(i.d.farms):
		i.say("survey.farm.single-everywhere", finding.Alarm, count("strata_n", single))
	case single > 0:
		i.say("survey.farm.single", finding.Caution, count("strata_n", single), count("of_n", len(i.d.farms)))
	}
	seen, unseen := i.s.Tonnes(func(Stratum) bool { return true })
	if unseen > tonnesSlack {
		n := 0
		for _, f := range i.s.Frames {
			if f.Tonnes > 0 && !slices.ContainsFunc(i.s.Samples, func(x Sample) bool { return x.stratum() == f.Stratum }) {
				n++
			}
		}
		i.say("survey.stratum.unseen", finding.Caution, count("strata_n", n), figure("tonnes_t", unseen), figure("share", unseen/(seen+unseen)))
	}
}

// weights holds what samples stand for against what was harvested.
func (i *inspection) weights() {
	switch i.s.Weighting {
	case ByNone:
		i.say("survey.weight.none", finding.Caution)
	case ByArea:
		i.say("survey.weight.area", finding.Caution)
	case ByTonnes:
		i.say("survey.weight.bins", finding.Note)
	}
	total, frame := 0.0, 0.0
	for _, f := range i.s.Frames {
		sum := i.d.total(i.s.domain(func(x Sample) bool { return x.stratum() == f.Stratum }))
		if !f.Counted {
			if slices.ContainsFunc(i.s.Frames, func(f Frame) bool { return f.Counted }) {
				m := i.say("survey.frame.stranger", finding.Caution, figure("tonnes_t", f.Tonnes))
				m.District, m.Variety = f.District, f.Variety
			}
			continue
		}
		if sum == 0 {
			continue
		}
		total, frame = total+sum, frame+f.Tonnes
		if off := sum/f.Tonnes - 1; i.s.tonnes() && math.Abs(off) > weightsOff {
			m := i.say("survey.weight.sum", finding.Note, figure("sum_t", sum), figure("tonnes_t", f.Tonnes), figure("share", sum/f.Tonnes))
			m.District, m.Variety = f.District, f.Variety
		}
	}
	if i.s.tonnes() && frame > 0 && math.Abs(total/frame-1) > allOff {
		i.say("survey.weight.sum-all", finding.Caution, figure("sum_t", total), figure("tonnes_t", frame), figure("share", total/frame))
	}
}

// tonnes reports whether weights are meant to be tonnes of the harvest.
func (s *Survey) tonnes() bool { return s.Weighting == ByWeight || s.Weighting == ByFrame }

// farms looks at who gave samples.
func (i *inspection) farms() {
	weight, strata, districts := map[string]float64{}, map[string]map[string]bool{}, map[string]map[string]bool{}
	mixed := 0
	for _, x := range i.s.Samples {
		weight[x.Farm] += x.WeightT
		if strata[x.Farm] == nil {
			strata[x.Farm], districts[x.Farm] = map[string]bool{}, map[string]bool{}
		}
		strata[x.Farm][x.District+"\x00"+x.Variety] = true
		districts[x.Farm][x.District] = true
		if x.Loads > 1 {
			mixed++
		}
	}
	if n := len(weight); n < FewestFarms {
		i.say("survey.farm.few", finding.Caution, count("farms_n", n), count("least_n", FewestFarms))
	}
	several, apart, heaviest := 0, 0, 0.0
	for farm, w := range weight {
		heaviest = max(heaviest, w)
		if len(strata[farm]) > 1 {
			several++
		}
		if len(districts[farm]) > 1 {
			apart++
		}
	}
	if share := heaviest / i.d.total(i.s.All()); share > farmWeighs && len(weight) > 1 {
		i.say("survey.farm.heavy", finding.Caution, figure("share", share))
	}
	if several > 0 {
		i.say("survey.farm.several", finding.Note, count("farms_n", several))
	}
	if apart > 0 {
		i.say("survey.farm.two-districts", finding.Note, count("farms_n", apart))
	}
	if mixed > 0 {
		i.say("survey.loads.mixed", finding.Caution, count("samples_n", mixed), count("of_n", len(i.s.Samples)))
	}
	over := 0
	for h, n := range i.d.farms {
		if i.d.frame[h] > 0 && float64(n) > i.d.frame[h] {
			over++
		}
	}
	if over > 0 {
		i.say("survey.frame.short", finding.Caution, count("strata_n", over))
	}
}

// qualities looks at each column of figures.
func (i *inspection) qualities() {
	told := 0
	for q, quality := range i.s.Qualities {
		var under, missing, zeros int
		low, high := math.Inf(1), math.Inf(-1)
		likely := quality.form().likely
		for _, x := range i.s.Samples {
			r := x.Readings[q]
			switch {
			case !r.Known():
				missing++
				continue
			case r.Below:
				under++
			case quality.Below() && r.X == 0:
				zeros++
			case r.X < likely[0] || r.X > likely[1]:
				if told++; told <= mostUnlikely {
					m := i.say("survey.value.unlikely", finding.Caution, quality.figure("value", r.X))
					m.Line, m.Key = x.Line, quality.Key
				}
			}
			low, high = min(low, r.X), max(high, r.X)
		}
		if zeros > 0 {
			i.say("survey.value.zero", finding.Caution, count("samples_n", zeros)).Key = quality.Key
		}
		i.column(quality, missing, under, low, high)
	}
	if !i.s.Slots {
		i.say("survey.sieve.slot-assumed", finding.Note, figure("plump_mm", 1000*plumpSlotM), figure("thin_mm", 1000*thinSlotM))
	}
}

// column looks at what a column comes to.
func (i *inspection) column(q Quality, missing, under int, low, high float64) {
	n := len(i.s.Samples)
	say := func(code string, severity finding.Severity, figures ...finding.Figure) {
		i.say(code, severity, figures...).Key = q.Key
	}
	seen := n - missing
	switch {
	case seen == 0:
		say("survey.quality.empty", finding.Alarm)
		return
	case under == seen:
		say("survey.quality.all-below", finding.Caution, q.figure("limit", high))
	case float64(under) > underWorth*float64(seen):
		say("survey.quality.many-below", finding.Caution, figure("share", float64(under)/float64(seen)))
	case low == high && seen > 1:
		say("survey.quality.constant", finding.Caution, q.figure("value", low))
	}
	if share := float64(missing) / float64(n); share > holesWorth {
		say("survey.quality.holes", finding.Caution, figure("share", share), count("missing_n", missing))
	} else if missing > 0 {
		say("survey.quality.holes", finding.Note, figure("share", share), count("missing_n", missing))
	}
}

// names looks for names that differ in nothing that counts.
func (i *inspection) names() {
	for _, set := range []struct {
		names    []string
		district bool
	}{{i.s.Districts(), true}, {i.s.Varieties(), false}} {
		seen := map[string]string{}
		for _, name := range set.names {
			plain := strings.ToLower(strings.Join(strings.Fields(name), " "))
			if other, ok := seen[plain]; ok {
				m := i.say("survey.name.lookalike", finding.Caution)
				if m.Variety = other + ", " + name; set.district {
					m.District, m.Variety = m.Variety, ""
				}
			}
			seen[plain] = name
		}
	}
}

// doubles looks for lines that are the same in everything.
func (i *inspection) doubles() {
	seen := map[string]int{}
	for _, x := range i.s.Samples {
		var b strings.Builder
		b.WriteString(x.District + "\x00" + x.Variety + "\x00" + x.Farm)
		known := 0
		for _, r := range x.Readings {
			if r.Known() {
				known++
			}
			b.WriteByte(0)
			b.WriteString(short(r.X))
		}
		b.WriteString(short(x.WeightT))
		if first, ok := seen[b.String()]; ok && known > 1 {
			i.say("survey.sample.twice", finding.Caution, count("first_line_n", first)).Line = x.Line
			continue
		}
		seen[b.String()] = x.Line
	}
}

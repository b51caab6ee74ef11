package variety

import (
	"math"
	"slices"
	"strings"

	"awn/finding"
)

// Bounds beyond which a trial is remarked on.
const (
	holesWorth   = 0.2 // share of cells missing
	thinEntries  = 3   // entries in an environment below which it hardly compares
	farDeviates  = 6   // robust deviates of a cell from what row and column say
	scaleFactor  = 4   // median of an environment over the median of all: totals among means?
	fewYears     = 3   // below it the variance of varieties by years is a guess
	normalByMAD  = 1.4826
	polishRounds = 10
)

// Inspect says what is wrong with the data of one trait, or worth knowing before
// any result is believed, gravest first. A trait that the trials do not have
// gives one alarm.
func (t Trials) Inspect(trait string) []Remark {
	at := t.Trait(trait)
	if at < 0 {
		return []Remark{remark("trial.trait.unknown", finding.Alarm, trait)}
	}
	i := inspection{t: t, trait: t.Traits[at], at: at, records: t.with(at)}
	i.whole()
	if len(i.records) > 0 {
		i.cells()
		i.links()
		i.places()
		i.years()
		i.checks()
		i.figures()
	}
	i.names()
	slices.SortStableFunc(i.out, func(a, b Remark) int { return int(b.Severity) - int(a.Severity) })
	return i.out
}

type inspection struct {
	t       Trials
	trait   Trait
	at      int
	records []Record
	out     []Remark
}

func (i *inspection) say(code string, severity finding.Severity, figures ...finding.Figure) *Remark {
	i.out = append(i.out, remark(code, severity, i.trait.Name, figures...))
	return &i.out[len(i.out)-1]
}

// whole looks at what there is at all.
func (i *inspection) whole() {
	if len(i.records) == 0 {
		i.say("trial.trait.empty", finding.Alarm)
		return
	}
	if n := len(labels(i.records, entryOf)); n == 1 {
		i.say("trial.entry.single", finding.Alarm).Entry = i.records[0].Entry
	}
	if len(labels(i.records, Record.where)) == 1 {
		i.say("trial.environment.single", finding.Caution).Environment = i.records[0].where()
	}
	first := i.records[0].Value[i.at]
	if !slices.ContainsFunc(i.records, func(r Record) bool { return r.Value[i.at] != first }) {
		i.say("trial.trait.constant", finding.Alarm, figure("value", first))
	}
	if i.trait.Direction == Neither {
		i.say("trial.trait.direction-missing", finding.Note)
	}
}

func entryOf(r Record) string { return r.Entry }

// cell is an entry in an environment.
type cell struct{ entry, environment string }

func (r Record) cell() cell { return cell{r.Entry, r.where()} }

// cells looks for holes, doubles and replication.
func (i *inspection) cells() {
	plots := map[cell]int{}
	seen := map[[6]string]int{}
	for _, r := range i.records {
		plots[r.cell()]++
		key := [6]string{r.Entry, r.where(), r.Rep, r.Block, r.Row, r.Column}
		if r.Rep+r.Block+r.Row+r.Column != "" && seen[key] > 0 {
			m := i.say("trial.cell.twice", finding.Caution, count("first_line", seen[key]))
			m.Entry, m.Environment, m.Line = r.Entry, r.where(), r.Line
		}
		seen[key] = r.Line
	}
	all := len(labels(i.records, entryOf)) * len(labels(i.records, Record.where))
	holes := 1 - float64(len(plots))/float64(all)
	switch {
	case holes >= holesWorth:
		i.say("trial.cell.holes", finding.Caution, figure("share", holes), count("missing", all-len(plots)))
	case holes > 0:
		i.say("trial.cell.holes", finding.Note, figure("share", holes), count("missing", all-len(plots)))
	}
	if len(plots) == len(i.records) {
		// Interaction and plot error are one figure.
		i.say("trial.cell.unreplicated", finding.Note)
		if uneven(i.records) {
			i.say("trial.plots.uneven", finding.Note)
		}
	}
}

// links looks for groups of environments that no entry joins.
func (i *inspection) links() {
	groups := connected(i.records)
	if len(groups) < 2 {
		return
	}
	for _, g := range groups[1:] {
		m := i.say("trial.environment.disconnected", finding.Alarm, count("environments", len(g)), count("groups", len(groups)))
		m.Environment = g[0]
	}
}

// connected parts the environments into groups such that only within a group
// entries can be compared, the largest first.
func connected(records []Record) [][]string {
	parent := map[string]string{}
	var root func(string) string
	root = func(x string) string {
		if p, ok := parent[x]; ok && p != x {
			parent[x] = root(p)
			return parent[x]
		}
		parent[x] = x
		return x
	}
	for _, r := range records {
		parent[root("e\x00"+r.Entry)] = root("p\x00" + r.where())
	}
	groups := map[string][]string{}
	var order []string
	for _, env := range labels(records, Record.where) {
		at := root("p\x00" + env)
		if groups[at] == nil {
			order = append(order, at)
		}
		groups[at] = append(groups[at], env)
	}
	var out [][]string
	for _, at := range order {
		out = append(out, groups[at])
	}
	slices.SortStableFunc(out, func(a, b []string) int { return len(b) - len(a) })
	return out
}

// places looks at each environment.
func (i *inspection) places() {
	by := map[string][]float64{}
	entries := map[string]map[string]bool{}
	var all []float64
	for _, r := range i.records {
		env := r.where()
		if entries[env] == nil {
			entries[env] = map[string]bool{}
		}
		entries[env][r.Entry] = true
		by[env] = append(by[env], r.Value[i.at])
		all = append(all, r.Value[i.at])
	}
	middle := median(all)
	for _, env := range labels(i.records, Record.where) {
		x := by[env]
		if n := len(entries[env]); n < thinEntries && len(labels(i.records, entryOf)) >= thinEntries {
			i.say("trial.environment.thin", finding.Caution, count("entries", n)).Environment = env
		}
		if len(x) > 1 && slices.Min(x) == slices.Max(x) {
			i.say("trial.environment.no-spread", finding.Caution, figure("value", x[0])).Environment = env
		}
		// Shares and scores may well differ that much; a yield hardly.
		if ratio := median(x) / middle; i.trait.Scale == Measure && middle > 0 && (ratio > scaleFactor || ratio < 1.0/scaleFactor) {
			i.say("trial.environment.scale", finding.Caution, figure("ratio", ratio)).Environment = env
		}
	}
}

// years looks at how many crops the trial has seen.
func (i *inspection) years() {
	switch n := len(labels(i.records, Record.when)); {
	case n == 1:
		// What a variety does and what it did that year are one figure.
		i.say("trial.year.single", finding.Caution)
	case n < fewYears:
		i.say("trial.year.few", finding.Note, count("years", n))
	}
}

// checks looks for the check and for where it is missing.
func (i *inspection) checks() {
	if len(i.t.Checks) == 0 {
		i.say("trial.check.none", finding.Caution)
		return
	}
	check := i.t.Checks[0]
	there := map[string]bool{}
	for _, r := range i.records {
		if r.Entry == check {
			there[r.where()] = true
		}
	}
	all := labels(i.records, Record.where)
	if len(there) == 0 {
		i.say("trial.check.absent", finding.Alarm).Entry = check
	} else if len(there) < len(all) {
		i.say("trial.check.holes", finding.Note, count("missing", len(all)-len(there))).Entry = check
	}
}

// figures looks for values that cannot be, or that stand far off.
func (i *inspection) figures() {
	for _, r := range i.records {
		x := r.Value[i.at]
		if i.trait.Scale == Percent && (x < 0 || x > 100) || i.trait.Scale == Measure && i.trait.Direction != Neither && x < 0 {
			m := i.say("trial.value.impossible", finding.Alarm, figure("value", x))
			m.Entry, m.Environment, m.Line = r.Entry, r.where(), r.Line
		}
	}
	if i.trait.Scale != Measure {
		return // shares are skewed: what stands far off is the rule
	}
	rest, spread := polish(i.records, i.at)
	for n, x := range rest {
		if spread > 0 && math.Abs(x) > farDeviates*spread {
			r := i.records[n]
			m := i.say("trial.value.far", finding.Caution, figure("value", r.Value[i.at]), figure("deviates", x/spread))
			m.Entry, m.Environment, m.Line = r.Entry, r.where(), r.Line
		}
	}
}

// polish takes medians of entries and environments out of the records in turn
// and returns what is left, with its spread from the median absolute deviation.
// As many of the smallest are left out of it as there are medians: those are near
// zero of themselves. Common practice, no source.
func polish(records []Record, trait int) (rest []float64, spread float64) {
	rest = make([]float64, len(records))
	for i, r := range records {
		rest[i] = r.Value[trait]
	}
	for round := range polishRounds {
		of := Record.where
		if round%2 == 1 {
			of = entryOf
		}
		groups := map[string][]int{}
		for i, r := range records {
			groups[of(r)] = append(groups[of(r)], i)
		}
		for _, members := range groups {
			var x []float64
			for _, i := range members {
				x = append(x, rest[i])
			}
			middle := median(x)
			for _, i := range members {
				rest[i] -= middle
			}
		}
	}
	size := make([]float64, len(rest))
	for i, x := range rest {
		size[i] = math.Abs(x)
	}
	slices.Sort(size)
	medians := len(labels(records, entryOf)) + len(labels(records, Record.where)) - 1
	if medians >= len(size) {
		return rest, 0
	}
	return rest, normalByMAD * median(size[medians:])
}

// median of x; NaN if there is none.
func median(x []float64) float64 {
	if len(x) == 0 {
		return math.NaN()
	}
	sorted := slices.Sorted(slices.Values(x))
	n := len(sorted)
	return (sorted[(n-1)/2] + sorted[n/2]) / 2
}

// names looks for entries whose names differ in nothing that counts.
func (i *inspection) names() {
	seen := map[string]string{}
	for _, entry := range i.t.Entries() {
		key := strings.ReplaceAll(plain(entry), "_", "")
		if other, ok := seen[key]; ok {
			i.say("trial.entry.lookalike", finding.Caution).Entry = other + " / " + entry
			continue
		}
		seen[key] = entry
	}
}

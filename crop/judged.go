package crop

import (
	"math"
	"slices"

	"awn/intake"
	"awn/odds"
)

// Buyer is a contract with the tonnes that are wanted under it.
type Buyer struct {
	Contract *intake.Contract
	WantedT  float64 // NaN where nobody has said
}

// fate is what becomes of a sample under a contract.
type fate int

const (
	open fate = iota // a figure is missing, or the buyer is called
	taken
	cheaper // taken at a discount
	refused
)

// judged is every sample under a contract.
type judged struct {
	limits   []intake.Limit
	unjudged []intake.Key // factors of the contract that the survey did not look at
	fate     []fate
	fails    [][]bool // by sample and limit
	unsaid   [][]bool
	lessT    []float64 // what is taken off the price of a tonne
}

// load is a sample as the intake sees it.
func (s *Survey) load(x Sample) intake.Load {
	l := intake.Load{Variety: x.Variety, TrueToType: intake.Yes, GrainC: math.NaN(), Readings: map[intake.Factor]intake.Reading{}, NetKg: 1000}
	for i, q := range s.Qualities {
		r := x.Readings[i]
		switch {
		case !r.Known():
		case q.Factor == intake.Held:
			l.Sieves = append(l.Sieves, intake.Sieve{SlotM: q.SlotM, Held: odds.Exact(r.X, odds.Measured)})
		case q.Factor == intake.Through:
			l.Sieves = append(l.Sieves, intake.Sieve{SlotM: q.SlotM, Held: odds.Exact(1-r.X, odds.Measured)})
		default:
			l.Readings[q.Factor] = intake.Reading{Value: odds.Alone(r.X, odds.Measured), Below: r.Below}
		}
	}
	return l
}

// measurable is the contract without what the survey did not look at, and that.
func (s *Survey) measurable(c *intake.Contract) (intake.Contract, []intake.Key) {
	out := *c
	out.Terms, out.Variety = nil, ""
	var without []intake.Key
	for _, t := range c.Terms {
		if s.looked(t.Key) {
			out.Terms = append(out.Terms, t)
		} else {
			without = append(without, t.Key)
		}
	}
	return out, without
}

// looked reports whether the survey has a factor. What a slot holds and what
// falls through it are one figure.
func (s *Survey) looked(k intake.Key) bool {
	return slices.ContainsFunc(s.Qualities, func(q Quality) bool {
		return (q.Factor == k.Factor || q.Factor.Sieved() && k.Factor.Sieved()) && sameSlot(q.SlotM, k.SlotM)
	})
}

// judge holds every sample against a contract.
func (s *Survey) judge(c *intake.Contract) *judged {
	contract, without := s.measurable(c)
	out := &judged{unjudged: without}
	for _, x := range s.Samples {
		l := s.load(x)
		j := contract.Judge(&l)
		fails, unsaid := make([]bool, len(j.Verdicts)), make([]bool, len(j.Verdicts))
		out.limits = out.limits[:0]
		for i, v := range j.Verdicts {
			out.limits = append(out.limits, v.Limit)
			fails[i], unsaid[i] = v.Refuses, v.Outcome == intake.Unsaid
		}
		less := 0.0
		for _, line := range j.Settlement.Lines {
			if line.PriceT < 0 {
				less -= line.PriceT
			}
		}
		f := map[intake.Decision]fate{intake.Accept: taken, intake.AcceptDiscount: cheaper, intake.Hold: open, intake.Refuse: refused}[j.Decision]
		out.fate, out.fails, out.unsaid, out.lessT = append(out.fate, f), append(out.fails, fails), append(out.unsaid, unsaid), append(out.lessT, less)
	}
	return out
}

// complete reports whether every limit could be judged.
func (j *judged) complete(i int) bool { return !slices.Contains(j.unsaid[i], true) }

// in reports whether sample i would be taken.
func (j *judged) in(i int) bool { return j.fate[i] == taken || j.fate[i] == cheaper }

// column is 1 where a rule says yes and 0 where no; NaN where it cannot say.
func (j *judged) column(say func(i int) (yes, can bool)) []float64 {
	out := make([]float64, len(j.fate))
	for i := range out {
		switch yes, can := say(i); {
		case !can:
			out[i] = math.NaN()
		case yes:
			out[i] = 1
		}
	}
	return out
}

// onlyFails reports whether limit k is all that a sample fails.
func (j *judged) onlyFails(i, k int) bool {
	for l, fails := range j.fails[i] {
		if fails != (l == k) {
			return false
		}
	}
	return true
}

// gap is the limits that a sample lacks a figure for, with whom else lacks them.
type gap struct {
	samples []int
	like    []int // complete samples that meet all other limits
	pass    []int // those of them that meet these too
}

// gaps sorts the samples whose fate is open for want of a figure.
func (j *judged) gaps() []gap {
	var out []gap
	at := map[string]int{}
	for i := range j.fate {
		if j.fate[i] != open || j.complete(i) {
			continue
		}
		key := ""
		for _, u := range j.unsaid[i] {
			key += map[bool]string{false: ".", true: "?"}[u]
		}
		n, ok := at[key]
		if !ok {
			n = len(out)
			at[key] = n
			out = append(out, j.gap(i))
		}
		out[n].samples = append(out[n].samples, i)
	}
	return out
}

// gap finds the samples that can stand in for those that lack what sample i
// lacks.
func (j *judged) gap(i int) (g gap) {
	for k := range j.fate {
		if !j.complete(k) || j.fate[k] == open {
			continue
		}
		like := true
		for l, fails := range j.fails[k] {
			like = like && (!fails || j.unsaid[i][l])
		}
		if !like {
			continue
		}
		g.like = append(g.like, k)
		if j.in(k) {
			g.pass = append(g.pass, k)
		}
	}
	return g
}

// fill gives every sample the chance that it is taken: 0 or 1 where its fate is
// known, and else the share of those like it that are taken, under the given
// weights. A sample that waits for a call of the buyer counts as not taken.
func (j *judged) fill(gaps []gap, w, chance []float64) {
	for i := range j.fate {
		chance[i] = 0
		if j.in(i) {
			chance[i] = 1
		}
	}
	for _, g := range gaps {
		like, pass := 0.0, 0.0
		for _, k := range g.like {
			like += w[k]
		}
		for _, k := range g.pass {
			pass += w[k]
		}
		share := 0.5 // nobody can stand in
		if like > 0 {
			share = pass / like
		}
		for _, i := range g.samples {
			chance[i] = share
		}
	}
}

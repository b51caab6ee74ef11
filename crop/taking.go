package crop

import (
	"math"

	"awn/intake"
)

// Taking is what a contract takes of the harvest.
type Taking struct {
	Buyer
	Unjudged []intake.Key // factors it asks for that the survey did not look at
	All      Taken
	District []Taken // in the order of the survey's districts
	Variety  []Taken
	Reasons  []Reason
}

// Taken is what a contract takes of a part of the harvest.
type Taken struct {
	Name        string
	TonnesT     float64 // of the strata that gave a sample
	UnseenT     float64 // of those that gave none, about which nothing is said
	Share       Share   // taken; samples that lack a figure count by how likely they are taken
	Complete    Share   // taken, of samples that lack nothing
	Least, Most float64 // the share if all that lack a figure were refused, or taken
	Open        int     // samples that lack a figure, or wait for the buyer's word
	Cheaper     float64 // share taken at a discount
	Lost        Estimate
	Met         float64 // chance that the tonnes wanted are there; NaN where none are
}

// Tonnes is the part taken, in tonnes, with its interval.
//
//	T p        (T the tonnes of the strata that gave a sample)
//
// Definition.
func (t Taken) Tonnes() (value, low, high float64) {
	return t.TonnesT * t.Share.Value, t.TonnesT * t.Share.Low, t.TonnesT * t.Share.High
}

// Reason is how often one limit is missed.
type Reason struct {
	Limit    intake.Limit
	Complete Share // of samples that lack nothing
	All      Share // of all that have the figure
	Only     Share // where it is the only limit missed, of samples that lack nothing
}

// confidence of the intervals that the survey gives.
const confidence = 0.95

// Take holds the harvest against a contract. elsewhereT is what a tonne earns
// that the contract refuses; NaN where nobody has said.
func (s *Survey) Take(d *Design, b Buyer, elsewhereT float64) Taking {
	j := s.judge(b.Contract)
	suits := func(v string) bool { return b.Contract.Variety == "" || v == b.Contract.Variety }
	t := Taking{Buyer: b, Unjudged: j.unjudged}
	parts := []part{{keep: func(st Stratum) bool { return suits(st.Variety) }}}
	for _, name := range s.Districts() {
		parts = append(parts, part{name, func(st Stratum) bool { return st.District == name && suits(st.Variety) }})
	}
	for _, name := range s.Varieties() {
		parts = append(parts, part{name, func(st Stratum) bool { return st.Variety == name && suits(name) }})
	}
	all := s.taken(d, j, parts, b, elsewhereT)
	n := len(s.Districts())
	t.All, t.District, t.Variety = all[0], all[1:1+n], all[1+n:]
	if b.WantedT > 0 {
		tonnes := t.All.Share.times(t.All.TonnesT)
		t.All.Met = tonnes.ChanceAbove(b.WantedT)
	}
	in := s.domain(func(x Sample) bool { return suits(x.Variety) })
	for k, limit := range j.limits {
		t.Reasons = append(t.Reasons, Reason{
			Limit:    limit,
			Complete: d.Share(j.column(func(i int) (bool, bool) { return j.fails[i][k], j.complete(i) }), in, confidence),
			All:      d.Share(j.column(func(i int) (bool, bool) { return j.fails[i][k], !j.unsaid[i][k] }), in, confidence),
			Only:     d.Share(j.column(func(i int) (bool, bool) { return j.onlyFails(i, k), j.complete(i) }), in, confidence),
		})
	}
	return t
}

// part is a part of the harvest by its strata.
type part struct {
	name string
	keep func(Stratum) bool
}

// taken works out every part at once: leaving out a farm serves them all.
func (s *Survey) taken(d *Design, j *judged, parts []part, b Buyer, elsewhereT float64) []Taken {
	out, domains := make([]Taken, len(parts)), make([]Domain, len(parts))
	for k, p := range parts {
		domains[k] = s.domain(func(x Sample) bool { return p.keep(x.stratum()) })
		out[k] = Taken{Name: p.name, Met: math.NaN()}
		out[k].TonnesT, out[k].UnseenT = s.Tonnes(p.keep)
		out[k].Complete = d.Share(j.column(func(i int) (bool, bool) { return j.in(i), j.complete(i) && j.fate[i] != open }), domains[k], confidence)
		out[k].edges(d, j, domains[k])
	}
	gaps := j.gaps()
	chance := make([]float64, len(j.fate))
	short := b.Contract.PriceT - elsewhereT // NaN where it cannot be told
	values := d.withoutEach(func(w []float64) []float64 {
		j.fill(gaps, w, chance)
		at := make([]float64, 0, 2*len(parts))
		for _, in := range domains {
			at = append(at, j.sums(w, chance, in, short)...)
		}
		return at
	})
	for k := range out {
		e := nothing()
		e.Samples, e.Farms, e.Strata = d.freedom(domains[k])
		e.Freedom = e.Farms - e.Strata
		share, lost := e, e
		share.Value, share.SE = values[2*k].Value, values[2*k].SE
		lost.Value, lost.SE = values[2*k+1].Value, values[2*k+1].SE
		out[k].Share, out[k].Lost = shareOf(share, confidence), lost.times(out[k].TonnesT)
	}
	return out
}

// edges are the share if every open sample were refused, or taken.
func (t *Taken) edges(d *Design, j *judged, in Domain) {
	total, least, most, less := d.total(in), 0.0, 0.0, 0.0
	for i, w := range d.weight {
		if !in[i] {
			continue
		}
		if j.in(i) {
			least += w
		}
		if j.fate[i] != refused {
			most += w
		}
		if j.fate[i] == cheaper {
			less += w
		}
		if j.fate[i] == open {
			t.Open++
		}
	}
	t.Least, t.Most, t.Cheaper = least/total, most/total, less/total
}

// sums are the share taken, and what refusals and discounts take off a tonne of
// the harvest.
func (j *judged) sums(w, chance []float64, in Domain, short float64) []float64 {
	total, share, lost := 0.0, 0.0, 0.0
	for i := range j.fate {
		if in[i] && w[i] > 0 {
			total += w[i]
			share += w[i] * chance[i]
			lost += w[i] * chance[i] * j.lessT[i]
			if chance[i] < 1 {
				lost += w[i] * (1 - chance[i]) * short
			}
		}
	}
	return []float64{share / total, lost / total}
}

// withoutEach is a list of figures with errors found by leaving out one farm at a
// time, the others of its stratum counting for it. The farm of a stratum of one
// is left out with all that it stands for.
//
//	v = Σ_h (n_h - 1)/n_h Σ_i (x_(hi) - x)²
func (d *Design) withoutEach(of func(w []float64) []float64) []Estimate {
	base := of(d.weight)
	out := make([]Estimate, len(base))
	members := make([][]int, len(d.farms)) // samples of each stratum
	for i, f := range d.farm {
		members[d.stratum[f]] = append(members[d.stratum[f]], i)
	}
	w := append([]float64(nil), d.weight...)
	for f, h := range d.stratum {
		n := float64(d.farms[h])
		scale, part := 1.0, 1.0
		if n > 1 {
			scale, part = n/(n-1), (n-1)/n
		}
		for _, i := range members[h] {
			w[i] = d.weight[i] * scale
			if d.farm[i] == f {
				w[i] = 0
			}
		}
		for k, x := range of(w) {
			if !math.IsNaN(x) {
				out[k].SE += part * (x - base[k]) * (x - base[k])
			}
		}
		for _, i := range members[h] {
			w[i] = d.weight[i]
		}
	}
	for k := range out {
		out[k].Value, out[k].SE = base[k], math.Sqrt(out[k].SE)
	}
	return out
}

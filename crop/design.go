package crop

import "math"

// Lonely is what is done about a stratum of one farm, whose spread cannot be
// told.
type Lonely string

// The ways.
const (
	Adjust   Lonely = "adjust"   // its distance from the mean of all counts in full
	Remove   Lonely = "remove"   // it counts as known without error
	Average  Lonely = "average"  // it counts as the other strata do on average
	Collapse Lonely = "collapse" // it is joined to the stratum of its district with most farms
)

// Clusters is what chance has drawn.
type Clusters int

// The ways to draw.
const (
	FarmInStratum  Clusters = iota // farms were drawn for each variety of a district by itself
	FarmInDistrict                 // farms were drawn by district, and all that they grow was sampled
)

// Rest is what is left of the spread because much of the frame was sampled.
type Rest int

// The ways.
const (
	NoRest    Rest = iota // farms are taken as drawn from very many
	FarmsRest             // the share of farms sampled counts
	BinsRest              // so does the share of bins within a farm
)

// Design is how samples were drawn: strata, farms in them, and what each sample
// stands for.
type Design struct {
	weight  []float64
	farm    []int // of each sample
	stratum []int // of each farm
	farms   []int // of each stratum
	frame   []float64
	bins    []float64 // of each farm, on it
	sampled []int     // of each farm, bins looked at
	lonely  Lonely
	rest    Rest
}

// Options choose among designs; the zero value is the usual one.
type Options struct {
	Lonely   Lonely
	Clusters Clusters
	Rest     Rest
}

// Design is the design of the survey.
func (s *Survey) Design(o Options) *Design {
	if o.Lonely == "" {
		o.Lonely = Adjust
	}
	d := &Design{lonely: o.Lonely, rest: o.Rest}
	strata, farms := map[Stratum]int{}, map[string]int{}
	grown := map[Stratum]float64{}
	for _, f := range s.Frames {
		grown[f.Stratum] = f.Farms
	}
	var named []Stratum
	for _, x := range s.Samples {
		st := x.stratum()
		if o.Clusters == FarmInDistrict {
			st.Variety = ""
		}
		h, ok := strata[st]
		if !ok {
			h = len(d.farms)
			strata[st], named = h, append(named, st)
			d.farms, d.frame = append(d.farms, 0), append(d.frame, grown[st]) // 0 where nobody knows
		}
		name := st.District + "\x00" + st.Variety + "\x00" + x.Farm
		i, ok := farms[name]
		if !ok {
			i = len(d.stratum)
			farms[name] = i
			d.stratum, d.bins, d.sampled = append(d.stratum, h), append(d.bins, x.Bins), append(d.sampled, 0)
			d.farms[h]++
		}
		d.sampled[i]++
		d.weight, d.farm = append(d.weight, x.WeightT), append(d.farm, i)
	}
	if o.Lonely == Collapse {
		d.collapse(named)
	}
	return d
}

// collapse joins every stratum of one farm to that of its district with most.
func (d *Design) collapse(named []Stratum) {
	into := make([]int, len(named))
	for h := range named {
		into[h] = h
		for k := range named {
			if d.farms[h] == 1 && k != h && named[k].District == named[h].District && (into[h] == h || d.farms[k] > d.farms[into[h]]) {
				into[h] = k
			}
		}
	}
	farms := make([]int, len(d.farms))
	for i, h := range d.stratum {
		d.stratum[i] = into[h]
		farms[into[h]]++
	}
	d.farms = farms
}

// Farms is how many farms there are, each counted once in every stratum where it
// grew.
func (d *Design) Farms() int { return len(d.stratum) }

// total is the weight of a domain.
func (d *Design) total(in Domain) (sum float64) {
	for i, w := range d.weight {
		if in[i] {
			sum += w
		}
	}
	return sum
}

// variance is that of the sum of z over all samples.
//
//	v = Σ_h (1 - f_h) n_h/(n_h - 1) Σ_i (z_hi - z̄_h)²        (z_hi the sum over farm i)
func (d *Design) variance(z []float64, in Domain) float64 {
	byFarm := make([]float64, len(d.stratum))
	present := make([]bool, len(d.farms))
	for i, f := range d.farm {
		byFarm[f] += z[i]
		present[d.stratum[f]] = present[d.stratum[f]] || in[i]
	}
	mean := make([]float64, len(d.farms))
	for f, h := range d.stratum {
		mean[h] += byFarm[f] / float64(d.farms[h])
	}
	sum, strata, single := 0.0, 0, 0
	for h := range d.farms {
		if present[h] {
			strata++
			if d.farms[h] == 1 {
				single++
			}
		}
	}
	for f, h := range d.stratum {
		n := float64(d.farms[h])
		switch {
		case n > 1:
			sum += d.left(h) * n / (n - 1) * (byFarm[f] - mean[h]) * (byFarm[f] - mean[h])
		case d.lonely == Adjust || d.lonely == Collapse:
			sum += d.left(h) * byFarm[f] * byFarm[f]
		}
	}
	if d.lonely == Average && single > 0 && strata > single {
		sum *= float64(strata) / float64(strata-single)
	}
	if d.rest == BinsRest {
		sum += d.within(z, byFarm)
	}
	return sum
}

// left is one less the share of farms sampled.
func (d *Design) left(h int) float64 {
	if d.rest == NoRest || !(d.frame[h] > 0) {
		return 1
	}
	return max(0, 1-float64(d.farms[h])/d.frame[h])
}

// within is what the bins of a farm add where farms are few (Bellhouse's
// recursion). A farm of one bin looked at of several adds its whole distance.
func (d *Design) within(z, byFarm []float64) float64 {
	sum := 0.0
	for i, f := range d.farm {
		m := float64(d.sampled[f])
		if !(d.bins[f] > 0) || m >= d.bins[f] {
			continue
		}
		part := (1 - d.left(d.stratum[f])) * (1 - m/d.bins[f])
		if m == 1 {
			sum += part * z[i] * z[i]
			continue
		}
		distance := z[i] - byFarm[f]/m
		sum += part * m / (m - 1) * distance * distance
	}
	return sum
}

// freedom is how many degrees of freedom a domain has, and what there is in it.
func (d *Design) freedom(in Domain) (samples, farms, strata int) {
	farm, stratum := make([]bool, len(d.stratum)), make([]bool, len(d.farms))
	for i, f := range d.farm {
		if !in[i] {
			continue
		}
		samples++
		if !farm[f] {
			farm[f] = true
			farms++
		}
		if h := d.stratum[f]; !stratum[h] {
			stratum[h] = true
			strata++
		}
	}
	return samples, farms, strata
}

// known is the part of a domain that has a figure.
func known(y []float64, in Domain) Domain {
	out := make(Domain, len(y))
	for i := range y {
		out[i] = in[i] && !math.IsNaN(y[i])
	}
	return out
}

package crop

import (
	"cmp"
	"math"
	"slices"
)

// Reading is one figure of a sample, in the unit of the intake.
type Reading struct {
	X     float64 // NaN where it is missing
	Below bool    // below X, which is what the method sees
}

// missing is no reading.
var missing = Reading{X: math.NaN()}

// Known reports whether there is a figure.
func (r Reading) Known() bool { return !math.IsNaN(r.X) }

// Sample is what one sample says, and how much of the harvest it speaks for.
type Sample struct {
	Line                    int // of the table it came from
	Season                  int // 0 if not given
	District, Variety, Farm string
	WeightT                 float64 // tonnes it stands for
	Loads                   int     // how many loads it is mixed of; 1 if it is one
	Bins, BinsSampled       float64 // of the farm; NaN where not given
	FarmsFrame              float64 // farms that grow this stratum; NaN where not given
	Readings                []Reading

	weights map[Column]float64 // what its weight is made of, while it is read
}

// Stratum is one variety in one district.
type Stratum struct{ District, Variety string }

func (s Sample) stratum() Stratum { return Stratum{s.District, s.Variety} }

// Frame is what is known of a stratum apart from samples.
type Frame struct {
	Stratum
	Farms   float64 // that grow it; NaN where not known
	Tonnes  float64 // harvested
	Counted bool    // the tonnes were given, and not added up from the samples
}

// Weighting is where the weights of samples came from.
type Weighting string

// The sources of weights.
const (
	ByWeight Weighting = "weight" // a column gave them
	ByFrame  Weighting = "frame"  // farms and bins on the frame over those sampled, times tonnes
	ByTonnes Weighting = "tonnes" // the tonnes that the sample was taken from
	ByArea   Weighting = "area"   // hectares
	ByNone   Weighting = "none"   // each sample counts alike
)

// Survey is the samples of a season or of several.
type Survey struct {
	Qualities []Quality
	Samples   []Sample
	Frames    []Frame // by district and variety, those without a sample included
	Weighting Weighting
	Slots     bool // every sieve column names its slot
	Places    []Place
}

// Place is a district on the map: one point, or the corners of its outline.
type Place struct {
	District string
	At       []Point
}

// Point is a place in the user's own coordinates: to the east and to the north.
type Point struct{ X, Y float64 }

// Seasons lists the seasons, oldest first.
func (s *Survey) Seasons() []int {
	var out []int
	for _, x := range s.Samples {
		if !slices.Contains(out, x.Season) {
			out = append(out, x.Season)
		}
	}
	slices.Sort(out)
	return out
}

// Of is the survey of one season. Tonnes of the frame belong to the last one
// alone; those of another season are added up from its samples.
func (s *Survey) Of(season int) *Survey {
	out := *s
	out.Samples = nil
	for _, x := range s.Samples {
		if x.Season == season {
			out.Samples = append(out.Samples, x)
		}
	}
	if all := s.Seasons(); len(all) > 0 && season != all[len(all)-1] {
		out.Frames = nil
	}
	out.complete()
	return &out
}

// Districts lists the names in order.
func (s *Survey) Districts() []string {
	return s.names(func(x Sample) string { return x.District }, func(f Frame) string { return f.District })
}

// Varieties lists the names in order.
func (s *Survey) Varieties() []string {
	return s.names(func(x Sample) string { return x.Variety }, func(f Frame) string { return f.Variety })
}

func (s *Survey) names(ofSample func(Sample) string, ofFrame func(Frame) string) []string {
	var out []string
	add := func(name string) {
		if name != "" && !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	for _, x := range s.Samples {
		add(ofSample(x))
	}
	for _, f := range s.Frames {
		add(ofFrame(f))
	}
	slices.Sort(out)
	return out
}

// complete gives every stratum with a sample its line in the frame.
func (s *Survey) complete() {
	frames := slices.DeleteFunc(slices.Clone(s.Frames), func(f Frame) bool { return !f.Counted })
	at := map[Stratum]int{}
	for i, f := range frames {
		at[f.Stratum] = i
	}
	for _, x := range s.Samples {
		i, ok := at[x.stratum()]
		if !ok {
			i = len(frames)
			at[x.stratum()] = i
			frames = append(frames, Frame{Stratum: x.stratum(), Farms: x.FarmsFrame})
		}
		if !frames[i].Counted {
			frames[i].Tonnes += x.WeightT
		}
		if math.IsNaN(frames[i].Farms) {
			frames[i].Farms = x.FarmsFrame
		}
	}
	slices.SortStableFunc(frames, func(a, b Frame) int {
		return cmp.Or(cmp.Compare(a.District, b.District), cmp.Compare(a.Variety, b.Variety))
	})
	s.Frames = frames
}

// Column is one quality of every sample, NaN where it is missing. What lies
// below detection stands at what the method sees.
func (s *Survey) Column(q int) []float64 {
	out := make([]float64, len(s.Samples))
	for i, x := range s.Samples {
		out[i] = x.Readings[q].X
	}
	return out
}

// Domain is a part of the samples.
type Domain []bool

// domain is the samples that a rule keeps.
func (s *Survey) domain(keep func(Sample) bool) Domain {
	out := make(Domain, len(s.Samples))
	for i, x := range s.Samples {
		out[i] = keep(x)
	}
	return out
}

// All is every sample.
func (s *Survey) All() Domain { return s.domain(func(Sample) bool { return true }) }

// InDistrict is the samples of a district.
func (s *Survey) InDistrict(name string) Domain {
	return s.domain(func(x Sample) bool { return x.District == name })
}

// OfVariety is the samples of a variety.
func (s *Survey) OfVariety(name string) Domain {
	return s.domain(func(x Sample) bool { return x.Variety == name })
}

// Tonnes is what the frame holds of the strata that a rule keeps: those with a
// sample, and those without.
//
//	T = Σ_h T_h
//
// Definition.
func (s *Survey) Tonnes(keep func(Stratum) bool) (sampled, unseen float64) {
	seen := map[Stratum]bool{}
	for _, x := range s.Samples {
		seen[x.stratum()] = true
	}
	for _, f := range s.Frames {
		switch {
		case !keep(f.Stratum):
		case seen[f.Stratum]:
			sampled += f.Tonnes
		default:
			unseen += f.Tonnes
		}
	}
	return sampled, unseen
}

package variety

import (
	"math"
	"slices"
)

// Wish is what a customer makes of one trait.
type Wish struct {
	Trait    string
	Weight   float64 // of one standard deviation between entries, in the good direction of the trait
	Min, Max float64 // hard limits on the mean of an entry, in the unit of the trait; NaN if there is none
}

// Customer is one for whom varieties are ranked.
type Customer struct {
	Name   string
	Wishes []Wish
	// Needed is the chance with which every hard limit must hold, each by itself,
	// for an entry not to be culled; a half if 0.
	Needed float64
}

// needed is the chance that applies.
func (c Customer) needed() float64 {
	if c.Needed == 0 {
		return 0.5
	}
	return c.Needed
}

// Weights are per standard deviation between entries. They are a start for a
// house to set its own: common practice, no source.
var customers = []Customer{
	{Name: "grower", Wishes: []Wish{
		wish("yield", 1), wish("lodging", 0.5), wish("disease", 0.5), wish("protein", 0.5), wish("plump", 0.25),
		wish("screenings", 0.25), wish("test_weight", 0.25), wish("height", 0.25),
	}},
	{Name: "maltster", Wishes: []Wish{
		wish("extract", 1), wish("protein", 0.5), wish("diastatic_power", 0.5), wish("alpha_amylase", 0.5),
		wish("beta_glucan", 0.5), wish("germination", 0.5), wish("plump", 0.25), wish("yield", 0.25),
	}},
	{Name: "brewer", Wishes: []Wish{
		wish("extract", 1), wish("fermentability", 0.5), wish("fan", 0.5), wish("kolbach", 0.25), wish("protein", 0.5),
		wish("beta_glucan", 0.5), wish("alpha_amylase", 0.5), wish("diastatic_power", 0.25),
	}},
}

// byTheWay is the weight below which a trait alone does not make a score.
const byTheWay = 0.5

func wish(trait string, weight float64) Wish { return Wish{trait, weight, math.NaN(), math.NaN()} }

// Customers are grower, maltster and brewer with the usual weights on those of
// the traits that are known by their names; a customer whom none concerns is
// left out, and so is one for whom they are by the way.
func Customers(traits []Trait) []Customer {
	var out []Customer
	for _, c := range customers {
		kept := Customer{Name: c.Name}
		for _, w := range c.Wishes {
			for _, t := range traits {
				if kind(t.Name) == w.Trait {
					w.Trait = t.Name
					kept.Wishes = append(kept.Wishes, w)
					break
				}
			}
		}
		if slices.ContainsFunc(kept.Wishes, func(w Wish) bool { return w.Weight >= byTheWay }) {
			out = append(out, kept)
		}
	}
	return out
}

// kind is the usual word for a trait; "" if it is not a common one.
func kind(name string) string {
	for _, c := range common {
		if slices.Contains(c.words, plain(name)) {
			return c.Name
		}
	}
	return ""
}

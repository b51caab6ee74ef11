package crop

// FewestFarms is how many farms a figure must stand on to be shown: with fewer, a
// grower may be known by it.
//
// Assumed: common practice, no source.
const FewestFarms = 5

// growers is how many different farms gave samples of a part.
func (s *Survey) growers(keep func(Stratum) bool) int {
	seen := map[string]bool{}
	for _, x := range s.Samples {
		if keep(x.stratum()) {
			seen[x.Farm] = true
		}
	}
	return len(seen)
}

// withhold marks the strata that are not to be shown: those of too few farms, and
// where a district or a variety has but one such, the next smallest beside it, or
// it could be had by subtracting the others.
func withhold(strata []Small) {
	for i := range strata {
		strata[i].Withheld = strata[i].Farms < FewestFarms
	}
	for again := true; again; {
		again = false
		for i := range strata {
			if !strata[i].Withheld {
				continue
			}
			for _, along := range []func(a, b Stratum) bool{
				func(a, b Stratum) bool { return a.District == b.District },
				func(a, b Stratum) bool { return a.Variety == b.Variety },
			} {
				if k := alone(strata, i, along); k >= 0 {
					strata[k].Withheld, again = true, true
				}
			}
		}
	}
}

// alone gives the stratum to withhold beside one that is the only one withheld
// along its row; -1 if it is not the only one, or has none beside it.
func alone(strata []Small, i int, along func(a, b Stratum) bool) int {
	least := -1
	for k, s := range strata {
		if k == i || !along(s.Stratum, strata[i].Stratum) {
			continue
		}
		if s.Withheld {
			return -1
		}
		if least < 0 || s.Farms < strata[least].Farms {
			least = k
		}
	}
	return least
}

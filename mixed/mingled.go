package mixed

// leastExtent is how much of a level the data must tell for a variance to be
// sought: below it there is only rounding.
const leastExtent = 1e-7

// mingled returns an *Error that names a random term whose variance the data
// cannot tell, or nil: one that parts the observations like another, that gives
// every observation a level of its own, or that lies within the fixed part.
func (s *system) mingled(start []float64) error {
	for k, at := range s.random {
		t := s.model.Terms[s.blocks[at].term]
		if s.model.Weight == nil && t.alone() {
			return &Error{Mingled, t.Name}
		}
		for _, before := range s.random[:k] {
			if t.sameAs(s.model.Terms[s.blocks[before].term]) {
				return &Error{Mingled, t.Name}
			}
		}
	}
	if _, ok := s.evaluate(start, false); !ok {
		return &Error{Singular, ""}
	}
	for k, extent := range s.extents() {
		if extent < leastExtent {
			return &Error{Mingled, s.randomName(k)}
		}
	}
	return nil
}

// alone reports whether every observation has a level of its own.
func (t Term) alone() bool {
	seen := make([]bool, t.Levels)
	for _, l := range t.Level {
		if seen[l] {
			return false
		}
		seen[l] = true
	}
	return true
}

// sameAs reports whether two terms part the observations alike.
func (t Term) sameAs(other Term) bool {
	there, back := make([]int, t.Levels), make([]int, other.Levels)
	for i, l := range t.Level {
		m := other.Level[i]
		if there[l] == 0 && back[m] == 0 {
			there[l], back[m] = m+1, l+1
		}
		if there[l] != m+1 || back[m] != l+1 {
			return false
		}
	}
	return true
}

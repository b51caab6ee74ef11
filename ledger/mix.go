package ledger

import "slices"

// part is what a mass holds of one origin, in grams of dry matter: what it
// would be if all were well mixed, and the least and most it can be.
type part struct {
	origin         int
	mean, low, top float64
}

// mix is a mass and what it is made of, sorted by origin.
type mix struct {
	mass  float64
	parts []part
}

func pure(origin int, mass float64) mix {
	return mix{mass, []part{{origin, mass, mass, mass}}}
}

// draw takes a mass m out, of whole corns: how they are spread in what is
// there is not known, so an origin may have given all of it or none.
//
//	out:   max(0, low - (M - m)) to min(top, m)
//	rest:  max(0, low - m)       to min(top, M - m)
func (x *mix) draw(m float64) mix {
	if m >= x.mass {
		out := *x
		*x = mix{}
		return out
	}
	rest := x.mass - m
	out := mix{m, make([]part, 0, len(x.parts))}
	kept := x.parts[:0]
	for _, p := range x.parts {
		mean := p.mean * (m / x.mass)
		o := part{p.origin, mean, max(0, p.low-rest), min(p.top, m)}
		p.mean, p.low, p.top = p.mean-mean, max(0, p.low-m), min(p.top, rest)
		out.parts = append(out.parts, o)
		kept = append(kept, p)
	}
	x.mass, x.parts = rest, kept
	x.tighten()
	out.tighten()
	return out
}

// shed takes a mass m from every corn alike: what goes and what stays have the
// same make-up as what was there.
func (x *mix) shed(m float64) mix {
	if m >= x.mass {
		return x.draw(m)
	}
	f := m / x.mass
	out := mix{m, make([]part, len(x.parts))}
	for i, p := range x.parts {
		out.parts[i] = part{p.origin, p.mean * f, p.low * f, p.top * f}
		x.parts[i] = part{p.origin, p.mean - p.mean*f, p.low - p.low*f, p.top - p.top*f}
	}
	x.mass -= m
	return out
}

// add puts another mass to it.
func (x *mix) add(y mix) {
	sum := make([]part, 0, len(x.parts)+len(y.parts))
	i, j := 0, 0
	for i < len(x.parts) || j < len(y.parts) {
		switch {
		case j == len(y.parts) || i < len(x.parts) && x.parts[i].origin < y.parts[j].origin:
			sum = append(sum, x.parts[i])
			i++
		case i == len(x.parts) || y.parts[j].origin < x.parts[i].origin:
			sum = append(sum, y.parts[j])
			j++
		default:
			a, b := x.parts[i], y.parts[j]
			sum = append(sum, part{a.origin, a.mean + b.mean, a.low + b.low, a.top + b.top})
			i, j = i+1, j+1
		}
	}
	x.mass, x.parts = x.mass+y.mass, sum
	x.tighten()
}

// tighten uses that the origins make up the whole: one can be no more than the
// others leave at least, and no less than they leave at most.
func (x *mix) tighten() {
	var low, top float64
	for _, p := range x.parts {
		low += p.low
		top += p.top
	}
	for i := range x.parts {
		p := &x.parts[i]
		p.bound(x.mass-(top-p.top), x.mass-(low-p.low))
	}
}

// bound narrows what a part can be. Should rounding make the two cross, they
// meet.
func (p *part) bound(least, most float64) {
	p.low = min(max(p.low, least), p.top)
	p.top = max(min(p.top, most), p.low)
}

func (x mix) find(origin int) (part, bool) {
	i, ok := slices.BinarySearchFunc(x.parts, origin, func(p part, o int) int { return p.origin - o })
	if !ok {
		return part{}, false
	}
	return x.parts[i], true
}

// clone is a copy that shares nothing.
func (x mix) clone() mix { return mix{x.mass, slices.Clone(x.parts)} }

package schedule

// Gap is a stretch in which a vessel stands empty.
type Gap struct {
	Vessel   Vessel
	From, To float64
}

// Gaps are the stretches of at least so many hours between two moments in which
// a vessel takes one piece more, vessel by vessel.
func Gaps(runs []Run, vessels []Vessel, fromH, toH, leastH float64) (out []Gap) {
	for _, v := range vessels {
		if v.Road == Silo || v.Road == Store {
			continue
		}
		out = append(out, v.gaps(stays(runs, v), fromH, toH, leastH)...)
	}
	return out
}

// gaps walks through the moments at which the number of pieces in a vessel
// changes.
func (v Vessel) gaps(all []stay, fromH, toH, leastH float64) (out []Gap) {
	at := fromH
	for at < toH {
		held, next := 0, toH
		for _, s := range all {
			last := s.last()
			if s.From.H <= at && last > at {
				held++
			}
			for _, change := range []float64{s.From.H, last} {
				if change > at {
					next = min(next, change)
				}
			}
		}
		if held < max(v.Room, 1) {
			if n := len(out); n > 0 && out[n-1].To == at {
				out[n-1].To = next
			} else {
				out = append(out, Gap{v, at, next})
			}
		}
		at = next
	}
	long := out[:0]
	for _, g := range out {
		if g.To-g.From >= leastH {
			long = append(long, g)
		}
	}
	return long
}

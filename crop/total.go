package crop

import "math"

// SeparateTotal is the tonnes for which y holds, stratum by stratum: the share of
// each times its own tonnes. It is sharper than the share of all times all tonnes,
// and biased where strata have few farms.
//
//	Y = Σ_h T_h m_h;   z = T_h w (y - m_h)/W_h
//
// Recalled: Cochran 1977, ch. 6.
// Valid: a frame with tonnes; strata without a figure are left out.
// Check: invented samples, by a calculation in R.
func (s *Survey) SeparateTotal(d *Design, y []float64) Estimate {
	in := known(y, s.All())
	var e Estimate
	e.Samples, e.Farms, e.Strata = d.freedom(in)
	e.Freedom = e.Farms - e.Strata
	e.DesignEffect, e.WeightEffect = math.NaN(), math.NaN()
	z := make([]float64, len(y))
	for _, f := range s.Frames {
		part := known(y, s.domain(func(x Sample) bool { return x.stratum() == f.Stratum }))
		total := d.total(part)
		if !(total > 0) {
			continue
		}
		mean := d.weighted(y, part) / total
		e.Value += f.Tonnes * mean
		for i, w := range d.weight {
			if part[i] {
				z[i] = f.Tonnes * w * (y[i] - mean) / total
			}
		}
	}
	e.SE = math.Sqrt(d.variance(z, in))
	return e
}

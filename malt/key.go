package malt

// Key is the name of a figure on a basis, ending in its unit: what findings,
// JSON and tables call it, such as "extract_fine_dm" or "viscosity_mpas".
// What has no unit is a fraction.
func (p Parameter) Key(b Basis) string {
	switch p {
	case SpiritYield:
		return "spirit_yield_l_t_" + string(b)
	case AlphaAmylase:
		return "alpha_amylase_du_" + string(b)
	case DMSPrecursor:
		return "smm_mg_kg_" + string(b)
	case Viscosity:
		return "viscosity_mpas"
	}
	if b == NoBasis {
		return string(p)
	}
	return string(p) + "_" + string(b)
}

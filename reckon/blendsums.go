package reckon

import (
	"fmt"
	"math"
	"strings"

	"awn/finding"
	"awn/malt"
	"awn/unit"
)

// blendLimits are the limits that a blend may be held against: the figure,
// whether it is a least, and the analysis parameter by which it is named. A
// guard is the limit that a house keeps to inside the one agreed.
var blendLimits = []struct {
	key, figure, doc string
	least, guard     bool
	parameter        malt.Parameter
	basis            malt.Basis
}{
	{"friability-min", "friability", "least friability", true, false, malt.Friability, malt.NoBasis},
	{"friability-guard", "friability", "least friability that the house itself keeps to", true, true, malt.Friability, malt.NoBasis},
	{"wug-max", "wug", "most wholly unmodified grains", false, false, malt.WhollyUnmodified, malt.NoBasis},
	{"wug-guard", "wug", "most of them that the house itself keeps to", false, true, malt.WhollyUnmodified, malt.NoBasis},
	{"st-min", "st", "least S/T", true, false, malt.KolbachIndex, malt.NoBasis},
	{"st-max", "st", "most S/T", false, false, malt.KolbachIndex, malt.NoBasis},
	{"extract-min", "extract", "least fine extract", true, false, malt.ExtractFine, malt.Dry},
	{"moisture-max", "moisture", "most moisture", false, false, malt.Moisture, malt.WetBasis},
}

// mixed is a blend in the making.
type mixed struct {
	parts  []*given
	shares []float64 // of the mass
	dry    []float64 // of the dry matter, or of the mass where a moisture is missing
}

func blend(g *given) ([]Result, error) {
	m, err := mixedOf(g)
	if err != nil {
		return nil, err
	}
	if m.has("tn") != m.has("sn") {
		return nil, &Fault{Code: "reckon.blend.parts", Got: "S/T", Allowed: []string{"tn and sn of every part"}}
	}
	var out []Result
	if m.has("tn") {
		out = append(out, m.ratio(g)...)
	}
	for _, x := range blendFigures {
		if m.has(x.key) {
			out = append(out, bare(x.as, x.name, m.of(x.key), 100, x.decimals, x.unit, "malt.Blended", m.worked(x.key)))
		}
	}
	if len(out) == 0 {
		return nil, &Fault{Code: "reckon.blend.parts", Got: "a blend", Allowed: []string{"a figure of every part, such as friability"}}
	}
	more, err := m.judged(g)
	return append(out, more...), err
}

// mixedOf reads the shares of a blend.
func mixedOf(g *given) (mixed, error) {
	m := mixed{parts: make([]*given, g.parts)}
	if g.parts < 2 {
		return m, &Fault{Code: "reckon.blend.parts", Got: "a blend", Allowed: []string{"two parts or more, “then” between them"}}
	}
	sum, kind := 0.0, g.filled[0].In.Name
	for i := range m.parts {
		m.parts[i] = g.part(i)
		s := m.parts[i].get("share")
		if !(s.Value > 0) {
			return m, &Fault{Code: "reckon.blend.shares", Got: s.Written, Allowed: []string{"shares above 0"}}
		}
		if s.In.Name != kind {
			return m, &Fault{Code: "reckon.blend.shares", Got: s.Written, Allowed: []string{"all shares in “%”, or all as masses"}}
		}
		m.shares = append(m.shares, s.Value)
		sum += s.Value
	}
	if kind == unit.Percent.Name && math.Abs(sum-1) > sharesSlack {
		return m, &Fault{Code: "reckon.blend.shares", Got: plain(round(100*sum, 4)) + " % in all", Allowed: []string{"shares that add up to 100 %"}}
	}
	for _, in := range blendFigures {
		if n := m.count(in.key); n > 0 && n < len(m.parts) {
			return m, &Fault{Code: "reckon.blend.parts", Got: in.key, Allowed: []string{"it of every part, or of none"}}
		}
	}
	for i := range m.shares {
		m.shares[i] /= sum
		m.dry = append(m.dry, m.shares[i])
		if m.has("moisture") {
			m.dry[i] *= 1 - m.parts[i].at("moisture")
		}
	}
	return m, nil
}

// sharesSlack is how far written shares may be from 100 % by their rounding:
// three thirds of 33.3 %.
const sharesSlack = 0.0015

// blendFigures are what each part of a blend may bring.
var blendFigures = []struct {
	key, name, as, unit string
	decimals            int
}{
	{"tn", "total nitrogen", "total_nitrogen_dm", "% dm", 3},
	{"sn", "soluble nitrogen", "soluble_nitrogen_dm", "% dm", 3},
	{"friability", "friability", "friability", "%", 1},
	{"wug", "wholly unmodified", "wug", "%", 2},
	{"extract", "fine extract", "extract_fine_dm", "% dm", 2},
	{"moisture", "moisture", "moisture_wb", "% wb", 2},
}

// count is how many parts have a figure.
func (m mixed) count(key string) (n int) {
	for _, p := range m.parts {
		if p.has(key) {
			n++
		}
	}
	return n
}

// has reports whether every part has a figure.
func (m mixed) has(key string) bool { return m.count(key) == len(m.parts) }

// figures are those of the parts.
func (m mixed) figures(key string) []float64 {
	out := make([]float64, len(m.parts))
	for i, p := range m.parts {
		out[i] = p.at(key)
	}
	return out
}

// weights are the shares by which a figure mixes.
func (m mixed) weights(key string) []float64 {
	if key == "tn" || key == "sn" || key == "extract" {
		return m.dry
	}
	return m.shares
}

// of is a figure of the blend.
func (m mixed) of(key string) float64 { return malt.Blended(m.weights(key), m.figures(key)) }

// worked is the working of a figure.
func (m mixed) worked(key string) string {
	var terms []string
	w, all := m.weights(key), 0.0
	for _, s := range w {
		all += s
	}
	for i, x := range m.figures(key) {
		terms = append(terms, figures(w[i]/all, 4)+" × "+figures(100*x, 5))
	}
	return strings.Join(terms, " + ") + " = " + figures(100*m.of(key), 5)
}

// ratio is S/T of the blend, and beside it what it is not.
func (m mixed) ratio(g *given) []Result {
	s, t := m.figures("sn"), m.figures("tn")
	own := make([]float64, len(s))
	for i := range own {
		own[i] = malt.Kolbach(s[i], t[i])
	}
	k, mean := malt.BlendedKolbach(m.dry, s, t), malt.Blended(m.shares, own)
	f := finding.New("malt.kolbach.mean-of-ratios", finding.Note, "malt",
		finding.Figure{Name: "kolbach", Value: k}, finding.Figure{Name: "mean_kolbach", Value: mean})
	g.say(f)
	return []Result{
		bare("kolbach", "Kolbach index, S/T", k, 100, 1, "%", "malt.BlendedKolbach", fmt.Sprintf("KI = %s/%s = %s", figures(100*m.of("sn"), 5), figures(100*m.of("tn"), 5), figures(k, 4))),
		bare("mean_of_kolbachs", "mean of the parts' own S/T, which is not it", mean, 100, 1, "%", "malt.Blended", ""),
	}
}

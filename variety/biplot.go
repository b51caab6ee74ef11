package variety

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// Biplot is entries and environments on common axes: a product of scores gives
// back the table, less what the kind of plot takes out before.
type Biplot struct {
	Entries, Environments          []string
	EntryScores, EnvironmentScores [][]float64 // by entry or environment, then axis: times the root of the singular value
	Singular                       []float64
	Share                          []float64 // of the sum of squares that each axis holds
	Freedom                        []float64 // of each axis by Gollob; of AMMI only
}

// AMMI takes entries and environments out of the table and splits what is left,
// the interaction. A table with holes, or of fewer than three entries or
// environments, gives nothing.
func (t Table) AMMI() *Biplot {
	if !t.sized(3, 3) {
		return nil
	}
	b := split(t, t.interaction(), min(len(t.Entries), len(t.Environments))-1)
	if b == nil {
		return nil
	}
	for k := range b.Singular {
		b.Freedom = append(b.Freedom, float64(len(t.Entries)+len(t.Environments)-1-2*(k+1)))
	}
	return b
}

// GGE takes only environments out: what is left is what matters for choosing,
// the entry with its interaction. A table with holes, or of fewer than three
// entries or two environments, gives nothing.
func (t Table) GGE() *Biplot {
	if !t.sized(3, 2) {
		return nil
	}
	_, environment, _ := t.means()
	centred := make([][]float64, len(t.Entries))
	for i, row := range t.Cell {
		centred[i] = make([]float64, len(row))
		for j, x := range row {
			centred[i][j] = x - environment[j]
		}
	}
	return split(t, centred, min(len(t.Entries)-1, len(t.Environments)))
}

// split is the singular value decomposition with scores. Each axis points so
// that the entry with the largest score is positive.
func split(t Table, cells [][]float64, axes int) *Biplot {
	m := mat.NewDense(len(cells), len(cells[0]), nil)
	for i, row := range cells {
		m.SetRow(i, row)
	}
	var svd mat.SVD
	if !svd.Factorize(m, mat.SVDThin) {
		return nil
	}
	var u, v mat.Dense
	svd.UTo(&u)
	svd.VTo(&v)
	values := svd.Values(nil)[:axes]
	b := &Biplot{Entries: t.Entries, Environments: t.Environments, Singular: values}
	total := 0.0
	for _, s := range values {
		total += s * s
	}
	sign := make([]float64, axes)
	for k, s := range values {
		b.Share = append(b.Share, s*s/total)
		sign[k] = math.Sqrt(s) * direction(mat.Col(nil, k, &u))
	}
	if total == 0 {
		return nil
	}
	b.EntryScores, b.EnvironmentScores = scores(&u, sign), scores(&v, sign)
	return b
}

// direction is the sign of the largest entry.
func direction(x []float64) float64 {
	far := 0.0
	for _, v := range x {
		// A lead within rounding does not turn an axis.
		if math.Abs(v) > math.Abs(far)*(1+1e-9) {
			far = v
		}
	}
	return math.Copysign(1, far)
}

func scores(m *mat.Dense, times []float64) [][]float64 {
	rows, _ := m.Dims()
	out := make([][]float64, rows)
	for i := range out {
		for k, f := range times {
			out[i] = append(out[i], f*m.At(i, k))
		}
	}
	return out
}

// StabilityValue is how far an entry lies from the origin of the first two axes
// of AMMI, each by its share: small is stable.
//
//	ASV = sqrt((SS1/SS2 IPC1)² + IPC2²)
//
// Recalled: Purchase 2000.
// Valid: an AMMI of two axes or more and an entry of it; NaN else.
// Check: testdata/immer_stability.csv.
func (b *Biplot) StabilityValue(entry int) float64 {
	if b == nil || len(b.Singular) < 2 || entry < 0 || entry >= len(b.EntryScores) || b.Singular[1] == 0 {
		return math.NaN()
	}
	ratio := b.Singular[0] / b.Singular[1]
	return math.Hypot(ratio*ratio*b.EntryScores[entry][0], b.EntryScores[entry][1])
}

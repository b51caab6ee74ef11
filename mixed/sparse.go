package mixed

import (
	"math"
	"slices"
)

// rows is the lower triangle of a symmetric matrix by rows, the columns of each
// row rising and the diagonal last.
type rows struct {
	start  []int
	column []int
	value  []float64
}

func (r *rows) n() int { return len(r.start) - 1 }

// factor is the sparse Cholesky factor L of a symmetric matrix, A = L L'. The
// pattern is worked out once; compute then refills it.
type factor struct {
	start []int // of each column in row and value, the diagonal first
	row   []int
	value []float64

	rowStart  []int // of each row in rowColumn: the columns left of the diagonal
	rowColumn []int

	dropped []bool // columns that depend on those before: their effect is set to 0

	next []int
	work []float64
	at   []int // where in the column that is worked on a row stands, plus one
}

// pivotTolerance is the share of a diagonal below which what is left of it
// after elimination is rounding: sixteen digits less six for the summing of
// thousands of terms.
const pivotTolerance = 1e-10

// analyse finds the pattern of the factor of a.
func analyse(a *rows) *factor {
	n := a.n()
	parent, mark := make([]int, n), make([]int, n)
	f := &factor{
		start: make([]int, n+1), rowStart: make([]int, n+1), dropped: make([]bool, n),
		next: make([]int, n), work: make([]float64, n), at: make([]int, n),
	}
	for k := range n {
		parent[k], mark[k] = -1, k
		first := len(f.rowColumn)
		for p := a.start[k]; p < a.start[k+1]-1; p++ {
			// Walk up the elimination tree from each entry of the row.
			for i := a.column[p]; mark[i] != k; i = parent[i] {
				if parent[i] < 0 {
					parent[i] = k
				}
				f.rowColumn = append(f.rowColumn, i)
				mark[i] = k
			}
		}
		slices.Sort(f.rowColumn[first:])
		f.rowStart[k+1] = len(f.rowColumn)
	}
	f.layOut()
	return f
}

// layOut places the columns of the factor, from the pattern of its rows.
func (f *factor) layOut() {
	n := len(f.dropped)
	for _, i := range f.rowColumn {
		f.start[i+1]++
	}
	for k := range n {
		f.start[k+1] += f.start[k] + 1
	}
	f.row, f.value = make([]int, f.start[n]), make([]float64, f.start[n])
	copy(f.next, f.start[:n])
	for k := range n {
		for _, i := range f.rowColumn[f.rowStart[k]:f.rowStart[k+1]] {
			f.next[i]++
			f.row[f.next[i]] = k
		}
		f.row[f.start[k]] = k
	}
}

// compute refills the factor with that of a plus the given diagonal. With find
// it also decides which columns depend on those before them and are dropped; a
// column may be dropped only where mayDrop says so. It reports whether every
// other pivot is positive.
func (f *factor) compute(a *rows, diagonal []float64, mayDrop []bool, find bool) bool {
	for k := range a.n() {
		last := a.start[k+1] - 1
		for p := a.start[k]; p < last; p++ {
			f.work[a.column[p]] = a.value[p]
		}
		whole := a.value[last] + diagonal[k]
		pivot := whole
		f.next[k] = f.start[k] + 1
		for _, i := range f.rowColumn[f.rowStart[k]:f.rowStart[k+1]] {
			x := f.work[i] / f.value[f.start[i]]
			f.work[i] = 0
			if f.dropped[i] {
				x = 0
			}
			for p := f.start[i] + 1; p < f.next[i]; p++ {
				f.work[f.row[p]] -= f.value[p] * x
			}
			pivot -= x * x
			f.value[f.next[i]] = x
			f.next[i]++
		}
		if find && mayDrop[k] {
			f.dropped[k] = pivot <= pivotTolerance*whole
		}
		if f.dropped[k] {
			f.drop(k)
			continue
		}
		if !(pivot > 0) {
			return false
		}
		f.value[f.start[k]] = math.Sqrt(pivot)
	}
	return true
}

// drop makes row k of the factor that of the unit matrix.
func (f *factor) drop(k int) {
	for _, i := range f.rowColumn[f.rowStart[k]:f.rowStart[k+1]] {
		f.value[f.next[i]-1] = 0
	}
	f.value[f.start[k]] = 1
}

// logDeterminant is the logarithm of the determinant, dropped columns left out.
func (f *factor) logDeterminant() float64 {
	sum := 0.0
	for k, dropped := range f.dropped {
		if !dropped {
			sum += math.Log(f.value[f.start[k]])
		}
	}
	return 2 * sum
}

// solve puts A⁻¹x in the place of x. Only rows from first on are non-zero in x
// or wanted of the solution.
func (f *factor) solve(x []float64, first int) {
	n := len(f.dropped)
	for k := first; k < n; k++ {
		if f.dropped[k] {
			x[k] = 0
			continue
		}
		if x[k] == 0 {
			continue
		}
		x[k] /= f.value[f.start[k]]
		for p := f.start[k] + 1; p < f.start[k+1]; p++ {
			x[f.row[p]] -= f.value[p] * x[k]
		}
	}
	for k := n - 1; k >= first; k-- {
		if f.dropped[k] {
			continue
		}
		sum := x[k]
		for p := f.start[k] + 1; p < f.start[k+1]; p++ {
			sum -= f.value[p] * x[f.row[p]]
		}
		x[k] = sum / f.value[f.start[k]]
	}
}

// inverse returns the entries of A⁻¹ at the places where the factor has any,
// laid out like it (Takahashi's recursion, from the last column to the first).
// Rows and columns of dropped columns are 0.
func (f *factor) inverse(into []float64) []float64 {
	n := len(f.dropped)
	if into == nil {
		into = make([]float64, len(f.value))
	}
	for j := n - 1; j >= 0; j-- {
		first, end := f.start[j], f.start[j+1]
		if f.dropped[j] {
			clear(into[first:end])
			continue
		}
		for p := first + 1; p < end; p++ {
			f.at[f.row[p]] = p - first
			f.work[p-first] = 0
		}
		f.gather(into, first, end)
		root := f.value[first]
		sum := 1 / (root * root)
		for p := first + 1; p < end; p++ {
			z := -f.work[p-first] / root
			into[p] = z
			sum -= f.value[p] / root * z
			f.at[f.row[p]] = 0
			f.work[p-first] = 0
		}
		into[first] = sum
	}
	return into
}

// gather adds up, for the column that lies at first to end, the products of the
// inverse of the later rows with the column of the factor, in work.
func (f *factor) gather(inverse []float64, first, end int) {
	for p := first + 1; p < end; p++ {
		k, l := f.row[p], f.value[p]
		q := f.start[k]
		f.work[p-first] += l * inverse[q]
		for q++; q < f.start[k+1]; q++ {
			if i := f.at[f.row[q]]; i > 0 {
				f.work[i] += l * inverse[q]
				f.work[p-first] += f.value[first+i] * inverse[q]
			}
		}
	}
}

package crop

import (
	"fmt"
	"math"
	"os"
	"strconv"
	"testing"
)

func near(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.10g, want %.10g ± %.2g", what, got, want, tolerance)
	}
}

// Cochran 1977, table 5.1, recalled: 64 cities in strata of 16 and 48, 24 of them
// drawn. The variances are printed to the unit.
func TestVarianceOfACensusOfCities(t *testing.T) {
	strata := []PlanStratum{{Weight: 0.25, S2: 53843, Frame: 16}, {Weight: 0.75, S2: 5581, Frame: 48}}
	const cities = 64.0
	for _, c := range []struct {
		what  string
		farms []int
		want  float64
	}{{"in proportion", []int{6, 18}, 1882293}, {"by halves", []int{12, 12}, 1090827}} {
		near(t, c.what, cities*cities*PlanVariance(strata, c.farms, true), c.want, 1)
	}
	one := []PlanStratum{{Weight: 1, S2: 52448, Frame: cities}}
	near(t, "without strata", cities*cities*PlanVariance(one, []int{24}, true), 5594453, 1)
}

// Cochran 1977, ch. 6, recalled: 49 of 196 cities, with the people of 1920 and of
// 1930. The sums alone are known, so the sample is laid out as two rows that have
// them; a total by ratio turns on nothing else.
func TestTotalByRatio(t *testing.T) {
	const y, x, all = 6262.0, 5054.0, 22919.0
	s := &Survey{Samples: []Sample{
		{District: "d", Variety: "v", Farm: "a", WeightT: x / 4}, {District: "d", Variety: "v", Farm: "b", WeightT: 3 * x / 4},
	}}
	ratio := []float64{0.5 * y / (x / 4), 0.5 * y / (3 * x / 4)}
	near(t, "people", all*s.Design(Options{}).Mean(ratio, s.All()).Value, 28397, 0.5)
}

// Cochran 1977, ch. 3, recalled: 30 households of 104 persons, of whom 30 say
// yes; the persons are those of the book, the answers are laid out so that their
// sums of squares (86) and of products with the persons (113) are those of the
// book, on which alone the variance turns.
func TestHouseholds(t *testing.T) {
	persons := []int{5, 6, 3, 3, 2, 3, 3, 3, 4, 4, 3, 2, 7, 4, 3, 5, 4, 4, 3, 3, 4, 3, 3, 1, 2, 4, 3, 4, 2, 4}
	yes := []int{0, 0, 0, 3, 2, 0, 0, 0, 3, 0, 0, 0, 5, 0, 2, 2, 0, 0, 3, 1, 0, 0, 0, 0, 2, 0, 3, 2, 2, 0}
	s := &Survey{}
	var y []float64
	for i, n := range persons {
		for k := range n {
			s.Samples = append(s.Samples, Sample{District: "d", Variety: "v", Farm: strconv.Itoa(i), WeightT: 1})
			y = append(y, map[bool]float64{true: 1}[k < yes[i]])
		}
	}
	share := s.Design(Options{}).Share(y, s.All(), confidence)
	near(t, "share", share.Value, 0.2885, 5e-5)
	near(t, "variance", share.SE*share.SE, 0.00520, 1e-5) // a unit of its last figure
	// The book's binomial variance is p q/n, ours over n - 1: hence the hundredth.
	near(t, "design effect", share.DesignEffect*104/103, 2.64, 0.01)
}

// The 43 areas of Arora and Lahiri 1997: REML with the major area as the only
// factor, against the sae package of R at commit c5904ed.
func TestFortyThreeAreas(t *testing.T) {
	f, err := os.Open("testdata/areas43.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var areas []Area
	for _, row := range rows(t, f)[1:] {
		sd := number(t, row[3], false)
		a := Area{Direct: number(t, row[2], false), Variance: sd * sd, X: []float64{1, 0, 0, 0}}
		if major := int(number(t, row[4], false)); major > 1 {
			a.X[major-1] = 1
		}
		areas = append(areas, a)
	}
	got, err := Borrow(areas)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "variance between areas", got.Between, 0.0185503347628, 1e-7)
	for i, want := range []float64{0.968188987, 0.1327803055, 0.2269462245, -0.2413010399} {
		near(t, fmt.Sprintf("slope %d", i), got.Slopes[i], want, 1e-6)
	}
	for i, want := range []float64{1.021970544, 1.047601951, 1.067951426} {
		near(t, fmt.Sprintf("area %d", i+1), got.Area[i].Value, want, 1e-6)
	}
	for i, want := range []float64{0.01346025646, 0.00537287973, 0.00570199472} {
		near(t, fmt.Sprintf("error of area %d", i+1), got.Area[i].MSE, want, 1e-6*want)
	}
}

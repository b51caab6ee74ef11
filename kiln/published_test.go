package kiln

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
)

// table reads a file of testdata by column name, its comments skipped.
func table(t testing.TB, name string) map[string][]float64 {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	out := map[string][]float64{}
	for _, row := range rows[1:] {
		for i, field := range row {
			x, err := strconv.ParseFloat(field, 64)
			if err != nil {
				t.Fatal(err)
			}
			out[rows[0][i]] = append(out[rows[0][i]], x)
		}
	}
	return out
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s is %.5g, want %.5g within %.2g", what, got, want, within)
	}
}

func wetPercent(x float64) float64 { return 100 * x / (1 + x) }

// The literal computation in reference_test.go, by the path integral of the
// sorption heat, gives the table of the computations it was written to repeat.
func TestReferenceRepeatsThePaleRun(t *testing.T) {
	want := table(t, "pale.csv")
	got := refPale().run(want["hour"]...)
	for i, row := range got.rows {
		top := row.moisture[len(row.moisture)-1]
		near(t, "air-on", row.tempOn, want["air_on_c"][i], 0.05)
		near(t, "air-off", row.tempOff, want["air_off_c"][i], 0.01)
		near(t, "air-off humidity", 100*row.rhOff, want["air_off_rh"][i], 0.1)
		near(t, "bottom", wetPercent(row.moisture[0]), want["bottom_wb"][i], 0.01)
		near(t, "top", wetPercent(top), want["top_wb"][i], 0.01)
		near(t, "mean", 100*row.meanWB, want["mean_wb"][i], 0.01)
	}
	// The converged end of the same run, to seven figures, and its sums.
	end := got.end.moisture
	near(t, "end mean", 100*got.end.meanWB, 3.502628, 0.0005)
	near(t, "end bottom", wetPercent(end[0]), 2.775047, 0.0005)
	near(t, "end top", wetPercent(end[len(end)-1]), 4.828089, 0.0005)
	near(t, "break", got.breakH, 7.3523, 0.001)
	near(t, "heat, MJ", got.heatJ/1e6, 1145.0275, 0.06)
	near(t, "water, kg", got.waterKg, 258.0278, 0.001)
	malt := 0.96 * got.dryKg / (1 - got.end.meanWB) / 1000 // 4 % of culms
	near(t, "heat, kWh/t", got.heatJ/3.6e6/malt, 968.8214, 0.06)
}

func TestReferenceRepeatsTheSimpleRun(t *testing.T) {
	want := table(t, "simple.csv")
	for i, row := range refSimple().run(want["hour"]...).rows {
		near(t, "air-off", row.tempOff, want["air_off_c"][i], 0.006)
		near(t, "mean", row.meanWB/(1-row.meanWB), want["mean_db"][i], 0.0001)
		for _, z := range []string{"at_0.1", "at_0.3", "at_0.5", "at_0.7", "at_0.9"} {
			depth, _ := strconv.ParseFloat(z[3:], 64)
			k := int(math.Round(depth * 60)) // the depth lies between layers k-1 and k
			near(t, z, (row.moisture[k-1]+row.moisture[k])/2, want[z][i], 0.001)
		}
	}
}

func TestInnerRate(t *testing.T) {
	want := table(t, "rate.csv")
	for i, k := range want["per_s"] {
		near(t, "rate", InnerRate(want["temp_c"][i], want["moisture_db"][i])/k, 1, 0.0003)
	}
}

// A thin layer at 60 °C and 10 % humidity, the film left out, reaches these
// moistures after so many minutes by a second computation (Euler, 1 s).
func TestThinLayer(t *testing.T) {
	const equilibrium = 0.03364
	x, minutes := 0.8, 0.0
	for _, point := range [][2]float64{{.6, 21.3}, {.4, 52.0}, {.3, 77.5}, {.2, 141.7}, {.15, 213.8}, {.10, 353.6}, {.08, 471.6}, {.06, 712.8}} {
		for x > point[0] {
			x -= InnerRate(60, x) * (x - equilibrium)
			minutes += 1.0 / 60
		}
		near(t, "minutes", minutes, point[1], 0.15)
	}
}

// Half of the film moves the break of the pale run by 0.2 h and its end by 0.06
// points, by an independent computation that gave so many digits.
func TestFilm(t *testing.T) {
	near(t, "film at 0.5", Film(0.5), 30560, 10)
	run := func(film float64) (breakH, mean float64) {
		s := paleSetup(t)
		s.Constants.Film = film
		r := start(t, s, greenMalt(330, 0.8182, 18))
		kilned(t, r, paleSteps())
		_, water, _ := inventoryOf(r)
		return r.Break(-1).DryH, 100 * water / (water + 330)
	}
	break1, mean1 := run(1)
	breakHalf, meanHalf := run(0.5)
	near(t, "break moves by", math.Abs(breakHalf-break1), 0.2, 0.05)
	near(t, "end moves by", math.Abs(meanHalf-mean1), 0.06, 0.02)
}

// The tables that the march uses agree with the formulas that they tabulate:
// within 0.0006 K, and within what that makes of the rest.
func TestSideAgreesWithFormulas(t *testing.T) {
	s := paleSetup(t)
	r := start(t, s, greenMalt(330, 0.8, 20))
	c := &r.columns[0]
	gab := s.Barley
	for _, tempC := range []float64{-15.03, 0.4, 24.31, 60.07, 84.9, 109.93} {
		for _, x := range []float64{0.02, 0.06, 0.11, 0.25, 0.45, 0.85} {
			setLayer(c, 0, tempC, x)
			r.law.look(c, 0)
			g := c.sides[0]
			near(t, "temperature", g.tempC, tempC, 0.0006)
			near(t, "rate", g.rate/InnerRate(tempC, x), 1, 1e-4)
			near(t, "vapour pressure", g.surfacePa/surfacePa(gab.MaltEMC, tempC, x), 1, 1e-4)
		}
	}
}

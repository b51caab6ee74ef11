package report

import (
	"encoding/csv"
	"io"
	"math"
	"strconv"

	"awn/programme"
)

// CSV writes the curve: one row for each moment, one column for each reading
// under its key, in SI and fractions, empty where a stage has no such reading.
// Where there are draws, the percentiles of each reading follow, as key_p10,
// key_p50 and key_p90.
func (r Report) CSV(w io.Writer) error {
	c := csv.NewWriter(w)
	head := []string{"time_h", "stage"}
	for reading := programme.None + 1; reading < programme.Readings; reading++ {
		head = append(head, reading.Key())
	}
	more, columns := r.percentiles()
	head = append(head, more...)
	if err := c.Write(head); err != nil {
		return err
	}
	line := make([]string, len(head))
	for i, t := range r.Outcome.Curve.TimeH {
		line[0], line[1] = plain(t), r.stageAt(t)
		for k := range int(programme.Readings) - 1 {
			line[2+k] = plain(r.Outcome.Curve.At[i][k+1])
		}
		for k, column := range columns {
			line[len(line)-len(columns)+k] = plain(column[i])
		}
		if err := c.Write(line); err != nil {
			return err
		}
	}
	c.Flush()
	return c.Error()
}

// percentiles are those of the curves of all draws, each with its name: none
// without draws.
func (r Report) percentiles() (names []string, columns [][]float64) {
	if r.Odds == nil {
		return nil, nil
	}
	c := r.Odds.Curve
	for reading := programme.None + 1; reading < programme.Readings; reading++ {
		names = append(names, reading.Key()+"_p10", reading.Key()+"_p50", reading.Key()+"_p90")
		columns = append(columns, r.percentile(c.P10, reading), r.percentile(c.P50, reading), r.percentile(c.P90, reading))
	}
	return names, columns
}

// stageAt is the stage that a moment belongs to.
func (r Report) stageAt(h float64) string {
	for i := len(r.Outcome.Stages) - 1; i >= 0; i-- {
		if s := r.Outcome.Stages[i]; h >= s.FromH && (h < s.ToH || i == len(r.Outcome.Stages)-1) {
			return s.Stage.String()
		}
	}
	return ""
}

// plain writes a number to six figures for a machine.
func plain(x float64) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return ""
	}
	return strconv.FormatFloat(x, 'g', 6, 64)
}

// exact writes a number with all figures that weights and money can have.
func exact(x float64) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return ""
	}
	return strconv.FormatFloat(x, 'g', 12, 64)
}

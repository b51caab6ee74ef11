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
func (r Report) CSV(w io.Writer) error {
	c := csv.NewWriter(w)
	head := []string{"time_h", "stage"}
	for reading := programme.None + 1; reading < programme.Readings; reading++ {
		head = append(head, reading.Key())
	}
	if err := c.Write(head); err != nil {
		return err
	}
	line := make([]string, len(head))
	for i, t := range r.Outcome.Curve.TimeH {
		line[0], line[1] = plain(t), r.stageAt(t)
		for k := range line[2:] {
			line[2+k] = plain(r.Outcome.Curve.At[i][k+1])
		}
		if err := c.Write(line); err != nil {
			return err
		}
	}
	c.Flush()
	return c.Error()
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

package cli

import (
	"bufio"
	"encoding/csv"
	"errors"
	"os"
	"path/filepath"
	"strings"

	"awn/internal/exchange"
	"awn/internal/malthouse"
	"awn/internal/report"
)

type logCommand struct {
	File string `arg:"" placeholder:"FILE" help:"CSV or XLSX with columns series, time, value, unit; - takes lines from a logger."`
	recorded
	Sheet string `placeholder:"NAME" help:"Which sheet of a workbook."`
}

// Help says what a reading is.
func (c *logCommand) Help() string {
	return `  awn log kiln.csv
  logger | awn log -

  series,time,value,unit
  KILN1-AIR-ON,2026-11-20T08:00:00Z,64.8,°C

Times carry their offset, or are by the clock of the house. The unit says what a
series reads; where it fits several quantities, a fifth column “quantity” says
which. A file comes in whole or not at all. Of a logger, lines that cannot be
read are named and left out, and the rest is kept, a thousand lines at a time.
Every 1 000 rows or 60 s of a series are sealed, and each seal goes into the
record. The same readings twice change nothing.`
}

// Run brings readings in.
func (c *logCommand) Run(j *job) (err error) {
	var data []byte
	if c.File != "-" {
		if err := readable(c.File); err != nil {
			return err
		}
		if data, err = os.ReadFile(c.File); err != nil {
			return err
		}
	}
	d, err := c.open(j, true)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, d.DB.Close()) }()
	known, err := d.Sensors.Series(j.ctx)
	if err != nil {
		return err
	}
	if c.File == "-" {
		return c.stream(j, d, exchange.NewSensor("standard input", known, d.Zone))
	}
	s := exchange.NewSensor(filepath.Base(c.File), known, d.Zone)
	batch := s.File(data, c.Sheet)
	if len(s.Faults) > 0 {
		return s.Faults
	}
	out, err := d.Log(j.ctx, d.actor, batch, true)
	if err != nil {
		return err
	}
	return c.told(j, d, out)
}

// loggedAtOnce is how many lines of a logger are kept together.
const loggedAtOnce = 1000

// stream takes lines until there are no more.
func (c *logCommand) stream(j *job, d *desk, s *exchange.Sensor) error {
	var sum malthouse.Logged
	var batch []exchange.Sensed
	faults := 0
	keep := func(last bool) error {
		for _, f := range s.Faults {
			j.note("%v", f)
		}
		faults, s.Faults = faults+len(s.Faults), nil
		out, err := d.Log(j.ctx, d.actor, batch, last)
		sum.Stored, sum.Again, sum.Seals, batch = sum.Stored+out.Stored, sum.Again+out.Again, sum.Seals+out.Seals, batch[:0]
		return err
	}
	lines := bufio.NewScanner(j.in)
	for n := 1; lines.Scan(); n++ {
		row, err := csv.NewReader(strings.NewReader(lines.Text())).Read()
		if err != nil || strings.HasPrefix(row[0], "#") || exchange.IsHead(row) {
			continue // empty, a remark, or the headers again
		}
		if r, ok := s.Row(n, row); ok {
			batch = append(batch, r)
		}
		if len(batch)+len(s.Faults) >= loggedAtOnce {
			if err := keep(false); err != nil {
				return err
			}
		}
	}
	if err := errors.Join(lines.Err(), keep(true)); err != nil {
		return err
	}
	if err := c.told(j, d, sum); err != nil || faults == 0 {
		return err
	}
	return &refusal{errors.New(counted(faults, "line") + " could not be read and were left out; the rest is kept")}
}

func (c *logCommand) told(j *job, d *desk, out malthouse.Logged) error {
	if c.JSON {
		return report.LoggedJSON(j.out, out)
	}
	return d.record().Logged(j.out, out)
}

package cli

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"

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
read are named and left out, and the rest is kept, every 1 000 lines or minute.
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

// A logger's readings are kept once there are so many, or so often.
const (
	loggedAtOnce = 1000
	loggedEvery  = time.Minute
)

// stream takes lines until there are no more or it is stopped. What came in is
// kept in either case.
func (c *logCommand) stream(j *job, d *desk, s *exchange.Sensor) error {
	l := &logging{job: j, desk: d, sensor: s}
	err := l.run()
	if err != nil && !errors.Is(err, context.Canceled) {
		return err
	}
	if told := c.told(j, d, l.sum); told != nil || err != nil {
		return errors.Join(told, err)
	}
	if l.faults > 0 {
		return &refusal{errors.New(counted(l.faults, "line") + " could not be read and were left out; the rest is kept")}
	}
	return nil
}

// logging is a logger being listened to.
type logging struct {
	*job
	desk   *desk
	sensor *exchange.Sensor
	batch  []exchange.Sensed
	sum    malthouse.Logged
	faults int
}

func (l *logging) run() error {
	lines, ended := make(chan string), make(chan error, 1)
	go func() {
		in := bufio.NewScanner(l.in)
		for in.Scan() {
			select {
			case lines <- in.Text():
			case <-l.ctx.Done():
				return
			}
		}
		ended <- in.Err()
	}()
	tick := time.NewTicker(loggedEvery)
	defer tick.Stop()
	for n := 1; ; {
		var err error
		select {
		case text := <-lines:
			if r, ok := l.sensor.Line(n, text); ok {
				l.batch = append(l.batch, r)
			}
			if n++; len(l.batch)+len(l.sensor.Faults) >= loggedAtOnce {
				err = l.keep(false)
			}
		case <-tick.C:
			err = l.keep(false)
		case err := <-ended:
			return errors.Join(err, l.keep(true))
		case <-l.ctx.Done():
			return errors.Join(l.ctx.Err(), l.keep(true))
		}
		if err != nil {
			return err
		}
	}
}

// keep keeps what came in, and names the lines that could not be read. A stop
// does not stop it.
func (l *logging) keep(last bool) error {
	for _, f := range l.sensor.Faults {
		fmt.Fprintln(l.err, f)
	}
	l.faults, l.sensor.Faults = l.faults+len(l.sensor.Faults), nil
	if len(l.batch) == 0 && !last {
		return nil
	}
	out, err := l.desk.Log(context.WithoutCancel(l.ctx), l.desk.actor, l.batch, last)
	l.sum.Stored, l.sum.Again, l.sum.Seals, l.batch = l.sum.Stored+out.Stored, l.sum.Again+out.Again, l.sum.Seals+out.Seals, l.batch[:0]
	return err
}

func (c *logCommand) told(j *job, d *desk, out malthouse.Logged) error {
	if c.JSON {
		return report.LoggedJSON(j.out, out)
	}
	return d.record().Logged(j.out, out)
}

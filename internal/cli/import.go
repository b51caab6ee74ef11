package cli

import (
	"context"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"awn/internal/exchange"
	"awn/internal/malthouse"
	"awn/internal/office"
	"awn/internal/paper"
	"awn/internal/slip"
	"awn/ledger"
)

type importCommand struct {
	File string `arg:"" placeholder:"FILE" help:"Tickets of a weighbridge or results of a laboratory, CSV or XLSX."`
	recorded
	Map  string `required:"" placeholder:"MAP" help:"How it is read: a file, or the name of one that the house kept."`
	Dry  bool   `name:"dry-run" help:"Say all that is wrong, and enter nothing."`
	Keep string `placeholder:"NAME" help:"Keep the map under this name, for the next file."`
}

// Help says how files come in.
func (c *importCommand) Help() string {
	return `  awn import tickets.csv --map import-tickets.yaml --dry-run
  awn import tickets.csv --map import-tickets.yaml --keep weighbridge
  awn import next.csv --map weighbridge

All of a file comes in or nothing does, and every problem is told by row and
column. The same file twice changes nothing. “awn init” writes two maps with
their files; docs/record.md says what a map holds.`
}

// settingMap begins the key of a map that the house kept.
const settingMap = "map."

// Run brings a file in.
func (c *importCommand) Run(j *job) error {
	if err := readable(c.File); err != nil {
		return err
	}
	data, err := os.ReadFile(c.File)
	if err != nil {
		return err
	}
	d, err := c.open(j, true)
	if err != nil {
		return err
	}
	return errors.Join(c.bring(j, d, data), d.DB.Close())
}

func (c *importCommand) bring(j *job, d *desk, data []byte) error {
	text, err := c.how(j, d)
	if err != nil {
		return err
	}
	how, faults := paper.Read[paper.ImportMap](c.Map, text)
	if len(faults) > 0 {
		return faults
	}
	read := func(r ledger.Reader) (b exchange.Batch, err error) {
		known, err := exchange.Deliveries(r.Facts(j.ctx, ledger.Query{}))
		if err != nil {
			return b, err
		}
		b, wrong := exchange.Import(exchange.File{Name: filepath.Base(c.File), Data: data}, how, exchange.Entry{Who: d.actor.ID, AtMS: d.Clock().UnixMilli(), Known: known})
		if len(wrong) > 0 {
			return b, wrong
		}
		return b, nil
	}
	if c.Dry {
		b, err := read(d.Store.Read(d.Code))
		if err != nil {
			return refusedFile(err)
		}
		fmt.Fprintf(j.out, "%s: nothing is wrong; %s would be entered.\n", c.File, counted(len(b.Drafts)-1, "row"))
		return nil
	}
	if err := d.keepMap(j.ctx, c.Keep, text); err != nil {
		return err
	}
	return c.enter(j, d, data, read)
}

// enter enters what the file comes to.
func (c *importCommand) enter(j *job, d *desk, data []byte, read func(ledger.Reader) (exchange.Batch, error)) error {
	media := "text/csv"
	if strings.EqualFold(filepath.Ext(c.File), ".xlsx") {
		media = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
	}
	done, err := d.Bring(j.ctx, d.actor, media, data, func(r ledger.Reader) ([]ledger.Draft, error) {
		b, err := read(r)
		return b.Drafts, err
	})
	switch {
	case err != nil:
		return refusedFile(err)
	case done.Again:
		fmt.Fprintf(j.out, "%s was brought in before; nothing is changed.\n", c.File)
	default:
		fmt.Fprintf(j.out, "%s: %s entered.\n", c.File, counted(done.Entries-1, "row"))
	}
	return nil
}

// refusedFile makes the faults of a file an input that is refused.
func refusedFile(err error) error {
	var wrong exchange.Faults
	if errors.As(err, &wrong) {
		return &refusal{fmt.Errorf("%w\nawn: %s; nothing was entered", wrong, counted(len(wrong), "fault"))}
	}
	return err
}

// how is the text of the map: of a file, or of one that was kept.
func (c *importCommand) how(j *job, d *desk) ([]byte, error) {
	text, err := os.ReadFile(c.Map)
	if !errors.Is(err, os.ErrNotExist) {
		return text, err
	}
	kept, found, err := d.Desk.Setting(j.ctx, settingMap+c.Map)
	if err == nil && !found {
		err = &refusal{fmt.Errorf("%s is neither a file nor a map that the house kept", c.Map)}
	}
	return []byte(kept), err
}

// keepMap keeps a map under a name.
func (d *desk) keepMap(ctx context.Context, name string, text []byte) error {
	if name == "" {
		return nil
	}
	if err := d.actor.Permit(malthouse.UseImport); err != nil {
		return err
	}
	return d.DB.Set(ctx, d.Code, settingMap+name, string(text))
}

type logCommand struct {
	File string `arg:"" placeholder:"FILE.csv" help:"Readings of sensors; - is standard input."`
	recorded
}

// Help says what a file of readings is.
func (c *logCommand) Help() string {
	return `  awn log kiln.csv
  logger | awn log -

A head and a row for each reading: series, quantity, unit, at, value. A time is
written 2026-11-25T14:30:00Z, or in ms since 1970. Readings that came before
change nothing. Every thousand, or every minute, what came is sealed: an entry
says how many there were and what they add up to, and “awn verify” compares.`
}

// Run takes readings in.
func (c *logCommand) Run(j *job) error {
	in := j.in
	if c.File != "-" {
		if err := readable(c.File); err != nil {
			return err
		}
		f, err := os.Open(c.File)
		if err != nil {
			return err
		}
		defer f.Close()
		in = f
	}
	readings, err := readLog(in)
	if err != nil {
		return &refusal{fmt.Errorf("%s: %w; nothing was entered", c.File, err)}
	}
	d, err := c.open(j, true)
	if err != nil {
		return err
	}
	t, err := d.TakeReadings(j.ctx, d.actor, readings)
	if err == nil {
		fmt.Fprintf(j.out, "Readings kept: %d. There before: %d. Sealed: %d.\n", t.Stored, t.Repeated, t.Sealed)
	}
	return errors.Join(err, d.DB.Close())
}

// logHead are the columns of a file of readings.
var logHead = []string{"series", "quantity", "unit", "at", "value"}

// mostLogFaults is how many faults of a file of readings are told.
const mostLogFaults = 20

// readLog reads a file of readings, and tells all that is wrong with it.
func readLog(in io.Reader) (out []office.Reading, err error) {
	rows := csv.NewReader(in)
	rows.FieldsPerRecord = len(logHead)
	head, err := rows.Read()
	if err != nil || strings.Join(head, ",") != strings.Join(logHead, ",") {
		return nil, fmt.Errorf("row 1: the columns are %s", strings.Join(logHead, ", "))
	}
	var wrong []string
	units := map[string]string{}
	for n := 2; ; n++ {
		row, err := rows.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		one := office.Reading{}
		if err == nil {
			one, err = reading(row)
		}
		if err == nil && units[one.Series] != "" && units[one.Series] != one.Unit {
			err = fmt.Errorf("%s is in %s above: to read in another unit is to begin another series", one.Series, units[one.Series])
		}
		if err != nil {
			wrong = append(wrong, fmt.Sprintf("row %d: %v", n, err))
			if len(wrong) == mostLogFaults {
				break
			}
			continue
		}
		units[one.Series] = one.Unit
		out = append(out, one)
	}
	if len(wrong) > 0 {
		return nil, errors.New(strings.Join(wrong, "\n"))
	}
	return out, nil
}

// reading reads a row.
func reading(row []string) (r office.Reading, err error) {
	r = office.Reading{Series: strings.TrimSpace(row[0]), Quantity: strings.TrimSpace(row[1]), Unit: strings.TrimSpace(row[2])}
	if r.Series == "" || r.Quantity == "" {
		return r, errors.New("a reading names its series and its quantity")
	}
	if r.Value, err = strconv.ParseFloat(strings.TrimSpace(row[4]), 64); err != nil || math.IsNaN(r.Value) || math.IsInf(r.Value, 0) {
		return r, fmt.Errorf("“%s” is not a number", row[4])
	}
	if r.AtMS, err = strconv.ParseInt(row[3], 10, 64); err == nil {
		return r, nil
	}
	at, err := slip.Moment(row[3], utcNow())
	r.AtMS = at.UnixMilli()
	return r, err
}

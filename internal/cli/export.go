package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"iter"
	"os"
	"path/filepath"

	"awn/internal/exchange"
	"awn/internal/malthouse"
	"awn/internal/table"
)

type exportCommand struct {
	recorded
	CSV      string `name:"csv" placeholder:"DIR" help:"Write the tables of the record as CSV files to a new folder."`
	XLSX     string `name:"xlsx" placeholder:"FILE" help:"Write them as the sheets of a workbook."`
	Readings string `placeholder:"FILE" help:"Write what the sensors read as Parquet."`
	EPCIS    string `name:"epcis" placeholder:"FILE" help:"Write what trading partners are told as events of GS1 EPCIS 2.0."`
	Base     string `placeholder:"URL" help:"Begin of the names of the house in those events; the setting house.url without it."`
}

// Help says what is exported.
func (c *exportCommand) Help() string {
	return `  awn export > facts.jsonl
  awn export --csv year
  awn export --xlsx year.xlsx --readings year.parquet
  awn export --epcis events.json --base https://id.example/hallow/

Without a file, every fact as a line of JSON in the order of the record, with
its hash: enough to check the chain without this program (docs/method/record.md
says how). Tables are facts, postings, flows, results and subjects.`
}

// Run exports the record.
func (c *exportCommand) Run(j *job) error {
	return c.ask(j, func(ctx context.Context, d *desk) error {
		facts, err := d.Facts(ctx, d.actor)
		if err != nil {
			return err
		}
		if c.CSV+c.XLSX+c.Readings+c.EPCIS == "" {
			return exchange.Lines(j.out, facts)
		}
		return errors.Join(c.tables(j, facts), c.readings(j, d), c.events(j, d, facts))
	})
}

// tables writes the tables as files and as a workbook.
func (c *exportCommand) tables(j *job, facts exchange.Facts) error {
	if c.CSV+c.XLSX == "" {
		return nil
	}
	pages, err := exchange.Tables(facts)
	if err != nil {
		return err
	}
	if err := writeFile(j, c.XLSX, "workbook", func(w io.Writer) error { return table.WriteXLSX(w, pages...) }); err != nil {
		return err
	}
	if c.CSV == "" {
		return nil
	}
	if err := os.Mkdir(c.CSV, 0o777); errors.Is(err, os.ErrExist) {
		return &refusal{fmt.Errorf("%s is there already; name a folder that is not", c.CSV)}
	} else if err != nil {
		return err
	}
	for _, p := range pages {
		name := filepath.Join(c.CSV, p.Name+".csv")
		if err := writeFile(j, name, "table of "+p.Name, func(w io.Writer) error { return table.WriteCSV(w, p) }); err != nil {
			return err
		}
	}
	return nil
}

// readings writes every series.
func (c *exportCommand) readings(j *job, d *desk) error {
	return writeFile(j, c.Readings, "file of readings", func(w io.Writer) error {
		n, err := exchange.Readings(w, everyReading(j.ctx, d))
		if err == nil {
			j.note("awn: %s.", counted(int(n), "reading"))
		}
		return err
	})
}

// everyReading goes through the readings of a house, series by series.
func everyReading(ctx context.Context, d *desk) iter.Seq2[exchange.Reading, error] {
	return func(yield func(exchange.Reading, error) bool) {
		all, err := d.DB.SeriesOf(ctx, d.Code)
		if err != nil {
			yield(exchange.Reading{}, err)
			return
		}
		for _, s := range all {
			for r, err := range d.DB.EveryReading(ctx, d.Code, s.ID) {
				if !yield(exchange.Reading{Series: s.Code, Quantity: s.Quantity, Unit: s.Unit, AtMS: r.AtMS, Value: r.Value}, err) || err != nil {
					return
				}
			}
		}
	}
}

// events writes what trading partners are told.
func (c *exportCommand) events(j *job, d *desk, facts exchange.Facts) error {
	if c.EPCIS == "" {
		return nil
	}
	base := c.Base
	if base == "" {
		var err error
		if base, _, err = d.Desk.Setting(j.ctx, malthouse.SettingURL); err != nil {
			return err
		}
	}
	if base == "" {
		return &lineError{"--epcis: say with --base how the names of the house begin, as in https://id.example/hallow/."}
	}
	return writeFile(j, c.EPCIS, "file of events", func(w io.Writer) error {
		n, err := exchange.EPCIS(w, facts, exchange.Partner{Base: base, CreatedMS: d.Clock().UnixMilli()})
		if err == nil {
			j.note("awn: %s.", counted(n, "event"))
		}
		return err
	})
}

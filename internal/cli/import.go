package cli

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"

	"awn/internal/exchange"
	"awn/internal/malthouse"
	"awn/internal/paper"
	"awn/internal/report"
)

type importCommand struct {
	File string `arg:"" optional:"" placeholder:"FILE" help:"CSV or XLSX; - is standard input."`
	recorded
	Map     string `required:"" placeholder:"MAP" help:"How the file is read: a document (import-map/1), or the name of one that is kept."`
	Sheet   string `placeholder:"NAME" help:"Which sheet of a workbook; goes before that of the map."`
	DryRun  bool   `help:"Say all that is wrong, or that nothing is, and enter nothing."`
	SaveMap string `placeholder:"NAME" help:"Keep the map in the record under this name."`
}

// Help says what comes in and how.
func (c *importCommand) Help() string {
	return `  awn import tickets.csv --map import-tickets.yaml --dry-run
  awn import tickets.csv --map import-tickets.yaml --save-map weighbridge
  awn import august.xlsx --map weighbridge --sheet Tickets
  awn import results.csv --map import-results.yaml

Weighbridge tickets become receipts, results of a laboratory analyses. All of a
file comes in or nothing, and every problem is named by its row and column. The
file is kept in the record. The same file twice changes nothing.`
}

// Run brings a file in, keeps a map, or both.
func (c *importCommand) Run(j *job) (err error) {
	if c.File == "" && (c.SaveMap == "" || c.DryRun) {
		return &lineError{"name a file, or keep a map with --save-map."}
	}
	var file exchange.File
	if c.File != "" {
		if file, err = c.read(j); err != nil {
			return err
		}
	}
	d, err := c.open(j, true)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, d.DB.Close()) }()
	how, text, err := c.how(j.ctx, d)
	if err != nil {
		return err
	}
	if c.File != "" {
		if err := c.bring(j, d, file, how); err != nil {
			return err
		}
	}
	if c.SaveMap == "" || c.DryRun {
		return nil
	}
	done, err := d.SaveMap(j.ctx, d.actor, malthouse.Entry{}, c.SaveMap, text)
	if err == nil {
		j.note("awn: %s", report.Say(done.Said, d.units))
	}
	return err
}

func (c *importCommand) read(j *job) (exchange.File, error) {
	if c.File == "-" {
		data, err := io.ReadAll(j.in)
		return exchange.File{Name: "standard input", Data: data}, err
	}
	if err := readable(c.File); err != nil {
		return exchange.File{}, err
	}
	data, err := os.ReadFile(c.File)
	return exchange.File{Name: filepath.Base(c.File), Data: data}, err
}

// how is the map: a file if there is one of that name, else one that is kept.
func (c *importCommand) how(ctx context.Context, d *desk) (how paper.ImportMap, text []byte, err error) {
	text, err = os.ReadFile(c.Map)
	switch {
	case err == nil:
		var faults paper.Faults
		if how, faults = paper.Read[paper.ImportMap](c.Map, text); len(faults) > 0 {
			return how, nil, faults
		}
	case errors.Is(err, os.ErrNotExist) && filepath.Ext(c.Map) == "":
		if how, text, err = d.SavedMap(ctx, d.actor, c.Map); err != nil {
			return how, nil, err
		}
	default:
		return how, nil, err
	}
	if c.Sheet != "" {
		how.Sheet = c.Sheet
	}
	return how, text, nil
}

func (c *importCommand) bring(j *job, d *desk, file exchange.File, how paper.ImportMap) error {
	b, err := d.Bring(j.ctx, d.actor, file, how, c.DryRun)
	if err != nil {
		return err
	}
	if c.JSON {
		return report.BroughtJSON(j.out, b)
	}
	return d.record().Brought(j.out, b)
}

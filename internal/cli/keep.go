package cli

import (
	"fmt"

	"awn/examples"
	"awn/internal/house"
	"awn/internal/paper"
	"awn/internal/report"
	"awn/silo"
)

type keepCommand struct {
	Silos []string `arg:"" optional:"" placeholder:"SILO.yaml" help:"Silos; - is standard input."`
	JSON  bool     `help:"Write each account as JSON, and the order of use."`
	HTML  string   `placeholder:"FILE" help:"Write all of them with pictures, one file that opens anywhere."`
	printing
	telling
}

// Help says what a silo is.
func (c *keepCommand) Help() string {
	return `  awn keep                            the example that is built in
  awn keep SILO.yaml
  awn keep silos/*.yaml               many silos, and the order in which to use them
  awn keep silos/*.yaml --html silos.html
  awn keep SILO.yaml --units us

A silo holds when it was filled and how moist and warm, the readings of its
sensors (here or in a CSV file; gaps are allowed) and the counts of
germination. With its build and the weather, of a CSV file or month by month,
the time to come is worked out with and without the fan.`
}

// Run says how silos stand.
func (c *keepCommand) Run(j *job) error {
	names := c.Silos
	if len(names) == 0 {
		j.note("awn: no silo is named; this is the example, %s. “awn init DIR” writes it out.", examples.FirstSilo)
		names = []string{""}
	}
	var all report.Stores
	for _, name := range names {
		store, inputs, err := loadDocument(j, name, examples.FirstSilo, paper.LoadSilo)
		if err != nil {
			return err
		}
		account, err := silo.Keep(store)
		if err != nil {
			return &refusal{err}
		}
		all = append(all, report.StoreAccount{Store: store, Account: account, Version: house.ReadVersion(), Inputs: inputs, Units: c.reader()})
	}
	if err := writeFile(j, c.HTML, "report", all.HTML); err != nil {
		return err
	}
	if err := c.print(j, "report to print", all.PDF); err != nil {
		return err
	}
	return c.write(j, all)
}

// write writes the accounts in the form that was asked for.
func (c *keepCommand) write(j *job, all report.Stores) error {
	for i, a := range all {
		write := a.Text
		if c.JSON {
			write = a.JSON
		} else if i > 0 {
			fmt.Fprintln(j.out)
		}
		if err := write(j.out); err != nil {
			return err
		}
	}
	switch {
	case len(all) < 2:
		return nil
	case c.JSON:
		return all.OrderJSON(j.out)
	}
	return all.OrderText(j.out)
}

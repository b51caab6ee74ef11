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
	JSON  bool     `help:"Write each account as JSON."`
	Units string   `enum:"metric,us" default:"metric" env:"AWN_UNITS" placeholder:"WHICH" help:"Units of the account: metric or us."`
}

// Help says what a silo is.
func (c *keepCommand) Help() string {
	return `  awn keep                            the example that is built in
  awn keep SILO.yaml
  awn keep silos/*.yaml               many silos, and the order in which to use them
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
	var stocks []silo.Stock
	for i, name := range names {
		store, inputs, err := loadDocument(j, name, examples.FirstSilo, paper.LoadSilo)
		if err != nil {
			return err
		}
		account, err := silo.Keep(store)
		if err != nil {
			return &refusal{err}
		}
		stocks = append(stocks, account.Stock(&store))
		a := report.StoreAccount{Store: store, Account: account, Version: house.ReadVersion(), Inputs: inputs, Units: unitsOf(c.Units)}
		if i > 0 && !c.JSON {
			fmt.Fprintln(j.out)
		}
		write := a.Text
		if c.JSON {
			write = a.JSON
		}
		if err := write(j.out); err != nil {
			return err
		}
	}
	if len(stocks) > 1 && !c.JSON {
		return report.OrderText(j.out, stocks, silo.Order(stocks), unitsOf(c.Units))
	}
	return nil
}

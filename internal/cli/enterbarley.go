package cli

import (
	"awn/internal/paper"
	"awn/internal/slip"
)

type receiveCommand struct {
	Load string `arg:"" optional:"" placeholder:"LOAD.yaml" help:"A load, as “awn grade” reads it; what was found of it is recorded too."`
	slip.Receive
	entering
}

// Help shows how a load is received.
func (c *receiveCommand) Help() string {
	return `  awn receive --net "28.1 t" --moisture "13.2 % wb" --silo B7
  awn receive --gross "44.6 t" --tare "16.5 t" --moisture "13 % wb" --silo B7
  awn receive load.yaml --silo 3

Enters a load of barley. A load document gives weight, moisture, variety and
what was found; flags go before it.`
}

// Run receives a load.
func (c *receiveCommand) Run(j *job) error {
	if c.Load != "" {
		d, _, err := loadDocument(j, c.Load, "", paper.LoadTicket)
		if err != nil {
			return err
		}
		c.Take(&d.Load)
	}
	return c.enter(j, &c.Receive)
}

type moveCommand struct {
	slip.Move
	entering
}

// Help shows how grain is moved.
func (c *moveCommand) Help() string {
	return `  awn move B7 B8 "12 t"
  awn move malt:M1 malt:M2 "9.2 t" --estimated

A code without its kind is the place of that code that the record knows, or a
new silo; new malt stores are written malt:CODE, those of by-products
byproduct:CODE.`
}

// Run moves grain.
func (c *moveCommand) Run(j *job) error { return c.enter(j, &c.Move) }

type countCommand struct {
	slip.Count
	entering
}

// Help shows how stock is counted and opened.
func (c *countCommand) Help() string {
	return `  awn count B7 "0 t" --reason "emptied and swept"
  awn count malt:M1 "12 t" --moisture "5 % wb" --against adjustment \
      --lot M25-0390 --reason "opening stock"

Sets the book of a place to what is there. What the book cannot explain is
said with its odds, and is an alarm from 1 % of what went through.`
}

// Run counts a place.
func (c *countCommand) Run(j *job) error { return c.enter(j, &c.Count) }

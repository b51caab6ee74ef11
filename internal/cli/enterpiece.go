package cli

import (
	"strings"

	"awn/internal/expect"
	"awn/internal/malthouse"
	"awn/internal/report"
	"awn/internal/slip"
)

type startCommand struct {
	slip.Start
	entering
}

// Help shows how a piece is started.
func (c *startCommand) Help() string {
	return `  awn start --from "B7 60 t" --vessel "steep 2"
  awn start --from "B7 40 t" --from "B8 20 t" --plan house/piece.yaml
  awn start --from "B7 60 t" --plan "Pale two-row"

Casts a piece of barley from silos. Its moisture is that of the silo by the book
unless it is given. With a plan, what it is expected to give is kept and held
against what came.`
}

// Run casts a piece.
func (c *startCommand) Run(j *job) (err error) {
	if c.Expected, err = workedOut(j, c.Plan); err != nil {
		return err
	}
	return c.enter(j, &c.Start)
}

// workedOut is the plan of a piece in a file; nil of a name, which is that of a
// plan that the house keeps.
func workedOut(j *job, plan string) (*malthouse.Plan, error) {
	if !strings.HasSuffix(plan, ".yaml") && !strings.HasSuffix(plan, ".yml") {
		return nil, nil
	}
	piece, inputs, err := read(j, plan)
	if err != nil {
		return nil, err
	}
	out, err := expect.Plan(&piece, inputs)
	if err != nil {
		return nil, &refusal{err}
	}
	return out, nil
}

type intendCommand struct {
	slip.Intend
	entering
}

// Help shows how a piece is intended.
func (c *intendCommand) Help() string {
	return `  awn intend --begin "2026-12-01 06:00" --plan "Pale two-row" --vessel "steep 2" \
      --order "Tern Rock 31" --due 2026-12-24
  awn intend --begin "2026-12-02 06:00" --plan house/piece.yaml --replaces UUID
  awn weeks
  awn start --from "B7 60 t" --does UUID

Enters a piece that is to be cast, so that “awn weeks” says which vessels it needs
and when its order is ready. “awn strike” takes it out, --replaces moves it, and
the piece that is cast names it with --does.`
}

// Run enters the intention.
func (c *intendCommand) Run(j *job) (err error) {
	if c.Expected, err = workedOut(j, c.Plan); err != nil {
		return err
	}
	return c.enter(j, &c.Intend)
}

type actCommand struct {
	slip.Act
	entering
}

// Help shows what can be done to a piece.
func (c *actCommand) Help() string {
	return `  awn act P26-0001 immerse --water "70 m3" --temp "14 °C"
  awn act P26-0001 drain --water "40 m3"
  awn act P26-0001 couch --vessel "box 3"
  awn act P26-0001 turn
  awn act P26-0001 kiln
  awn act P26-0001 strip --at 06:30`
}

// Run records what was done to a piece.
func (c *actCommand) Run(j *job) error { return c.enter(j, &c.Act) }

type bookCommand struct {
	slip.Book
	entering
}

// Help shows how malt is booked.
func (c *bookCommand) Help() string {
	return `  awn book P26-0001 --malt "M1 49.8 t" --moisture "4.2 % wb" \
      --culms "FEED 1.9 t 6 % wb" --screenings "FEED 0.4 t"

Ends a piece: malt, culms and screenings as they were weighed, each with its own
moisture behind it or that of --moisture. What the corn breathed away and the
water that left are worked out; what is then missing or too much is unexplained,
and said with its odds. What came is held against what was expected.`
}

// Run books the malt of a piece.
func (c *bookCommand) Run(j *job) error {
	if err := c.enter(j, &c.Book); err != nil || c.JSON {
		return err
	}
	return report.BookedText(j.out, c.Came, c.reader())
}

type readCommand struct {
	slip.Read
	entering
}

// Help shows what can be read by hand.
func (c *readCommand) Help() string {
	return `  awn read P26-0001 "moisture 42.9 % wb" "chit 93 %"
  awn read silo:B7 "temperature 14 °C"

Enters what somebody on the floor measured by hand.`
}

// Run records readings by hand.
func (c *readCommand) Run(j *job) error { return c.enter(j, &c.Read) }

type analyseCommand struct {
	slip.Analyse
	entering
}

// Help shows how results are entered.
func (c *analyseCommand) Help() string {
	return `  awn analyse L26-0417 "don 1.6 mg/kg" --method "strip test" --lab house
  awn analyse M26-0001 "moisture 4.2 % wb" --method "EBC 4.2"
  awn analyse S26-0001 "friability 91 %" --method "EBC 4.15" --lab "Tern Rock"
  awn analyse CHECK-1 "extract_fine 81.1 % dm" --lab "house / mash bath 2"

Behind a stroke stands the instrument, so that it can be watched. Each
result says its unit and basis. A certificate names the method of each.`
}

// Run records results.
func (c *analyseCommand) Run(j *job) error { return c.enter(j, &c.Analyse) }

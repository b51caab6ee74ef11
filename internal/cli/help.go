package cli

import (
	"fmt"
	"strings"

	"github.com/alecthomas/kong"

	"awn/reckon"
)

// overview is what awn says when nothing is asked of it: the commands in the
// order in which grain moves.
const overview = `awn: from a lot of barley to finished malt, computed before a kilogram is cast.

  awn reckon             pocket tables: moist air, moisture, bushels, extract
  awn reckon air 30 °C 50 %rh at 300 m

  awn grade LOAD.yaml    a load at the gate: its grade, whether a contract takes
                         it and at what price, and which silo takes it.
  awn keep SILO.yaml     a silo of barley: how long it keeps, what germinates on
                         the day of steeping, what to mind, when the fan helps.

  awn rank TRIAL.csv     barley varieties in the field: each against the check,
                         with how sure one can be, and its score with grower,
                         maltster and brewer.
  awn survey SAMPLES.csv samples of many farms: what the harvest is like, how
                         much of it each contract takes, what malt it makes.

  awn malt               one piece through steep, germination and kiln: what it
                         will weigh and hold at each stage, whether it meets the
                         specification, what it costs, what is its weak point.
                         Without a file it takes the example that is built in.
  awn malt PIECE.yaml    the same for your own piece
  awn malt --html FILE   as a report with pictures; --csv, --json for machines
  awn malt --draws 200   with the odds of every figure and limit, what to
                         measure next, and whether to release, hold or blend

  awn compare A B        pieces side by side on common draws: programmes, lots
                         or houses, and how sure the difference is

  awn control RESULTS.csv
                         the laboratory: which instrument drifts since when,
                         two laboratories side by side; and whether a difference
                         is the barley, the vessel or the test

  awn receive, move, count           The record: what happened is entered as it
  awn start, act, read, book         happens, and nothing is deleted; what is
  awn analyse, release, hold         wrong is struck. Every tonne is accounted
  awn blend, ship, return, certify   for, every bag traced.
  awn strike, decide, person, config
  awn documents FILE     plant, programme, specifications of the house
  awn import FILE        weighbridge tickets or results of a laboratory
  awn log FILE           what sensors read
  awn key                the key that signs, and a new one

  awn stock              what the house holds, where, and what is unexplained
  awn piece CODE         all that is known of a piece
  awn trace CODE         where something came from, where it went; --recall
  awn balance            a period: barley in, malt out, losses, stock
  awn due, handover, close           what comes due; a shift on a page; a day
  awn assurance PIECE    control points: measured, beyond, decided
  awn complaint LOT      what the record holds on a complaint
  awn verify [FILE]      is the record whole? is a certificate as it was signed?
  awn export, backup, restore

  awn demo               a made-up year of a made-up malthouse, in the browser
  awn demo DIR           its record in a folder, to play with

  awn serve --db FILE    a house in the browser, for those who have an account
  awn serve              the pages that compute and keep nothing
  awn init DIR           write the examples to a folder, to start from
  awn schema lot         what may stand in a document, for your editor
  awn version            version, and number of the model

  awn COMMAND -h         explains a command, with examples.
`

// printHelp prints what a command is for, its flags and its examples.
func printHelp(_ kong.HelpOptions, k *kong.Context) error {
	n := k.Selected()
	if n != nil && n.Name == "reckon" {
		if e := entryAmong(k.Args); e != nil {
			_, err := fmt.Fprint(k.Stdout, explained(e))
			return err
		}
	}
	if n == nil {
		_, err := fmt.Fprint(k.Stdout, overview)
		return err
	}
	var b strings.Builder
	fmt.Fprintf(&b, "awn %s%s\n\n%s\n\n", n.Name, usage(n), n.Help)
	if n.Detail != "" {
		fmt.Fprintf(&b, "%s\n\n", strings.Trim(n.Detail, "\n"))
	}
	for _, group := range k.Flags() {
		head := "--" + group.Name
		if group.Short != 0 {
			head = "-" + string(group.Short) + ", " + head
		}
		if !group.IsBool() {
			head += " " + group.FormatPlaceHolder()
		}
		hang(&b, "  "+pad(head, 22)+" ", group.Help)
	}
	_, err := fmt.Fprint(k.Stdout, b.String())
	return err
}

// entryAmong is the first word that names an entry of the pocket tables.
func entryAmong(words []string) *reckon.Entry {
	for _, w := range words {
		if e, err := reckon.Find(w); err == nil {
			return e
		}
	}
	return nil
}

// usage is what may stand behind the name of a command.
func usage(n *kong.Node) string {
	out := ""
	for _, p := range n.Positional {
		name := p.Tag.PlaceHolder
		if name == "" {
			name = strings.ToUpper(p.Name)
		}
		if p.Required {
			out += " " + name
		} else {
			out += " [" + name + "]"
		}
	}
	return out + " [flags]"
}

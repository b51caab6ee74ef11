// Package cli is the command awn: it reads a line of words and flags, has the
// other packages compute, and writes what came of it.
//
// Results go to standard output, all else to standard error.
package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"runtime/debug"
	"strings"

	"github.com/alecthomas/kong"

	"awn/internal/exchange"
	"awn/internal/malthouse"
	"awn/internal/paper"
)

// The ways a command ends.
const (
	Answered      = 0
	No            = 1   // the answer is no; only of commands that check
	BadLine       = 2   // the command line cannot be read
	Refused       = 3   // the input is refused
	RecordRefused = 4   // the record refuses the entry
	Broken        = 5   // the machine: a file, a disk, the program itself
	Stopped       = 130 // stopped by the user
)

// Streams are where a command reads and writes.
type Streams struct {
	In       io.Reader
	Out, Err io.Writer
}

// commands is the command line as kong reads it.
type commands struct {
	Quiet   bool   `short:"q" help:"Say nothing but the result and what is wrong."`
	Verbose bool   `short:"v" help:"Say more: each formula with its range and check."`
	Output  string `short:"o" placeholder:"FILE" help:"Write the result to a file."`

	Reckon  reckonCommand  `cmd:"" help:"Pocket tables: one small sum at a time."`
	Grade   gradeCommand   `cmd:"" help:"Grade a load of barley, hold it against a contract, price it and say where it may lie."`
	Keep    keepCommand    `cmd:"" help:"Say how a silo of barley stands: safe time, germination, warnings, when to run the fan."`
	Rank    rankCommand    `cmd:"" help:"Rank the barley varieties of a field trial for grower, maltster and brewer."`
	Survey  surveyCommand  `cmd:"" help:"Say from samples what a harvest is like, whom it serves, how it malts."`
	Malt    maltCommand    `cmd:"" help:"Take a piece through its whole course, from the lot to finished malt."`
	Control controlCommand `cmd:"" help:"Say whether the laboratory reads true: is it the barley, the vessel or the test?"`
	Compare compareCommand `cmd:"" help:"Hold pieces against each other on common draws."`

	Receive receiveCommand `cmd:"" help:"Enter a load of barley."`
	Move    moveCommand    `cmd:"" help:"Enter that grain or malt went from one place to another."`
	Count   countCommand   `cmd:"" help:"Set the book of a place to what was counted."`
	Intend  intendCommand  `cmd:"" help:"Enter a piece that is to be cast, and for which order."`
	Start   startCommand   `cmd:"" help:"Start a piece from silos."`
	Act     actCommand     `cmd:"" help:"Enter what was done to a piece."`
	Read    readCommand    `cmd:"" help:"Enter what was measured by hand."`
	Book    bookCommand    `cmd:"" help:"End a piece: book its malt, culms and screenings."`
	Analyse analyseCommand `cmd:"" help:"Enter results of a laboratory."`
	Release releaseCommand `cmd:"" help:"Let something go out."`
	Hold    holdCommand    `cmd:"" help:"Keep something in."`
	Blend   blendCommand   `cmd:"" help:"Make one lot of several."`
	Ship    shipCommand    `cmd:"" help:"Send a load out."`
	Return  returnCommand  `cmd:"" help:"Take a load back."`
	Decide  decideCommand  `cmd:"" help:"Enter a decision, such as how a silo is drawn."`
	Strike  strikeCommand  `cmd:"" help:"Declare an earlier entry wrong."`
	Import  importCommand  `cmd:"" help:"Bring in weighbridge tickets or results of a laboratory from a file."`
	Log     logCommand     `cmd:"" help:"Bring in what sensors read."`
	Person  personCommand  `cmd:"" help:"Make somebody known to the record."`

	Certify   certifyCommand   `cmd:"" help:"Issue a certificate for a load, or take one back."`
	Stock     stockCommand     `cmd:"" help:"Say what the house holds, where, and what is unexplained."`
	Piece     pieceCommand     `cmd:"" help:"Tell a piece."`
	Weeks     weeksCommand     `cmd:"" help:"Say which piece goes where through the weeks, and when each order is ready."`
	Trace     traceCommand     `cmd:"" help:"Say where something came from and where it went."`
	Due       dueCommand       `cmd:"" help:"Say what comes due, and for whom."`
	Handover  handoverCommand  `cmd:"" help:"Write the handover of a shift on one page, and sign it."`
	Close     closeCommand     `cmd:"" help:"Close a day."`
	Assurance assuranceCommand `cmd:"" help:"Set what was measured beside the limits of the control points."`
	Complaint complaintCommand `cmd:"" help:"Gather the evidence on a complaint about a lot."`
	Balance   balanceCommand   `cmd:"" help:"Add up a period: barley in, malt out, losses, stock."`
	Export    exportCommand    `cmd:"" help:"Write the record for others to read."`
	Key       keyCommand       `cmd:"" help:"Show the key that certificates are signed with, or take a new one."`
	Backup    backupCommand    `cmd:"" help:"Back the record up."`
	Restore   restoreCommand   `cmd:"" help:"Make a record from a backup."`
	Config    configCommand    `cmd:"" help:"Show or set what the house has set."`
	Documents documentsCommand `cmd:"" help:"Show or keep the documents that the house goes by."`

	Verify verifyCommand `cmd:"" help:"Check that a certificate is as it was signed, or that the record is whole."`

	Serve   serveCommand   `cmd:"" help:"Show the pages of awn in the browser."`
	Demo    demoCommand    `cmd:"" help:"Write the record of a made-up year, to play with."`
	Init    initCommand    `cmd:"" help:"Write the examples to a folder, to start from."`
	Schema  schemaCommand  `cmd:"" help:"Print the JSON Schema of a kind of document."`
	Version versionCommand `cmd:"" help:"Print the version and the number of the model."`
}

// job is what a command has to work with.
type job struct {
	ctx            context.Context
	in             io.Reader
	out, err       io.Writer
	quiet, verbose bool
}

// note says something that is not a result.
func (j *job) note(format string, args ...any) {
	if !j.quiet {
		fmt.Fprintf(j.err, format+"\n", args...)
	}
}

// helped stops kong once it has printed its help.
type helped struct{}

// Main runs one command line, without the name of the program, and returns
// how it ended.
func Main(ctx context.Context, args []string, s Streams) (status int) {
	if len(args) == 0 {
		fmt.Fprint(s.Out, overview)
		return Answered
	}
	var c commands
	parser, err := kong.New(&c, kong.Name("awn"), kong.Writers(s.Out, s.Err), kong.Help(printHelp), kong.Exit(func(int) { panic(helped{}) }))
	if err != nil {
		return ends(s.Err, err)
	}
	defer func() {
		switch r := recover(); r {
		case nil:
		case helped{}:
			status = Answered
		default:
			fmt.Fprintf(s.Err, "awn: this is a fault of the program, not of what you gave it: %v\n%s", r, debug.Stack())
			status = Broken
		}
	}()
	parser.Model.HelpFlag.Help = "Explain the command."
	if args = minus(args); args[0] == "help" {
		args = append(args[1:], "--help")
	}
	if err := unknownCommand(parser, args); err != nil {
		return ends(s.Err, err)
	}
	k, err := parser.Parse(flagsLast(parser, args))
	if err != nil {
		return ends(s.Err, err)
	}
	return ends(s.Err, run(ctx, k, &c, s))
}

// run runs the command that was read. A file for the result is written only
// once there is one.
func run(ctx context.Context, k *kong.Context, c *commands, s Streams) error {
	j := &job{ctx: ctx, in: s.In, out: s.Out, err: s.Err, quiet: c.Quiet, verbose: c.Verbose}
	var text strings.Builder
	if c.Output != "" {
		j.out = &text
	}
	err := k.Run(j)
	if err != nil && !stopped(err) || c.Output == "" {
		return err
	}
	return errors.Join(err, os.WriteFile(c.Output, []byte(text.String()), 0o666))
}

// ends reports how a command ended, and says why if it did not answer.
func ends(w io.Writer, err error) int {
	var (
		parse  *kong.ParseError
		line   *lineError
		faults paper.Faults
		sums   *sumError
		refuse *refusal
		part   *partial
		cells  *tableFaults
		not    *no
		rows   exchange.Faults
	)
	switch {
	case err == nil:
		return Answered
	case errors.As(err, &part):
		fmt.Fprintf(w, "awn: %s.\n", part)
		return Stopped
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(w, "awn: stopped.")
		return Stopped
	case errors.As(err, &not):
		fmt.Fprintf(w, "awn: no: %s.\n", not)
		return No
	case errors.As(err, &parse):
		fmt.Fprintf(w, "awn: %s\n", asked(parse))
		return BadLine
	case errors.As(err, &line):
		fmt.Fprintf(w, "awn: %s\n", line)
		return BadLine
	case errors.As(err, &sums):
		fmt.Fprint(w, sums)
		return sums.status()
	case errors.As(err, &faults):
		fmt.Fprintf(w, "%s\n\nawn: %s; nothing was computed.\n", faults, counted(len(faults), "fault"))
		return Refused
	case errors.As(err, &cells):
		fmt.Fprintf(w, "%s\nawn: %s; nothing was computed.\n", cells, counted(len(cells.faults), "fault"))
		return Refused
	case errors.As(err, &rows):
		fmt.Fprintf(w, "%s\n\nawn: %s; nothing was entered.\n", rows, counted(len(rows), "fault"))
		if rows.OfRecord() {
			return RecordRefused
		}
		return Refused
	case malthouse.IsRefused(err):
		fmt.Fprintf(w, "awn: %v\n", err)
		return RecordRefused
	case errors.As(err, &refuse):
		fmt.Fprintf(w, "awn: %s.\n", refuse)
		return Refused
	}
	fmt.Fprintf(w, "awn: %v\n", err)
	return Broken
}

// asked is what kong found wrong, as a sentence, and where to look.
func asked(e *kong.ParseError) string {
	help := "awn -h"
	if e.Context != nil {
		if n := e.Context.Selected(); n != nil {
			help = "awn " + n.Name + " -h"
		}
	}
	text := e.Error()
	if !strings.HasSuffix(text, "?") {
		text += "."
	}
	return fmt.Sprintf("%s “%s” says what may stand here.", text, help)
}

// refusal is an input that could be read and is refused all the same.
type refusal struct{ err error }

func (e *refusal) Error() string { return e.err.Error() }

func (e *refusal) Unwrap() error { return e.err }

// counted is a number of things: "1 fault", "3 faults".
func counted(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

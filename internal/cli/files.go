package cli

import (
	"errors"
	"io"
	"os"
	"time"

	"awn/internal/report"
	"awn/internal/sheet"
)

// printing is what is asked of sheets to print on the command line.
type printing struct {
	PDF   string `placeholder:"FILE" help:"Write sheets to print."`
	Paper string `enum:"a4,letter" default:"a4" env:"AWN_PAPER" placeholder:"SIZE" help:"Paper of the sheets: a4 or letter."`
}

// paper is the size that was asked for.
func (p printing) paper() sheet.Paper {
	if p.Paper == "letter" {
		return sheet.Letter
	}
	return sheet.A4
}

// print writes a report as sheets, if that was asked for.
func (p printing) print(j *job, what string, write func(io.Writer, report.Print) error) error {
	return writeFile(j, p.PDF, what, func(w io.Writer) error { return write(w, report.Print{Paper: p.paper(), At: time.Now()}) })
}

// writeFile writes a file, if one was named, and says where it is. It leaves
// none behind that is not whole.
func writeFile(j *job, file, what string, write func(io.Writer) error) error {
	if file == "" {
		return nil
	}
	f, err := os.Create(file)
	if err != nil {
		return err
	}
	if err := errors.Join(write(f), f.Close()); err != nil {
		return errors.Join(err, os.Remove(file))
	}
	j.note("awn: the %s is in %s.", what, file)
	return nil
}

// answer is what a command works out, in all forms.
type answer interface {
	Text(io.Writer) error
	JSON(io.Writer) error
	CSV(io.Writer) error
	HTML(io.Writer) error
	PDF(io.Writer, report.Print) error
}

// forms are the forms of an account that a command line asks for.
type forms struct {
	json, csv bool
	html      string
	printing
}

// write writes an account: as files what was asked for as files, and then one
// form to the output.
func (f forms) write(j *job, a answer) error {
	if err := writeFile(j, f.html, "report", a.HTML); err != nil {
		return err
	}
	if err := f.print(j, "report to print", a.PDF); err != nil {
		return err
	}
	switch {
	case f.json:
		return a.JSON(j.out)
	case f.csv:
		return a.CSV(j.out)
	}
	return a.Text(j.out)
}

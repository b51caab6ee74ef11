package cli

import (
	"errors"
	"fmt"
	"io"
	"os"

	"awn/certificate"
	"awn/internal/house"
	"awn/internal/report"
)

type verifyCommand struct {
	File string `arg:"" optional:"" placeholder:"FILE" help:"A signed certificate; - is standard input. Without it the record itself is checked."`
	JSON bool   `help:"Write the certificate alone as JSON."`
	printing
	Key string `placeholder:"FINGERPRINT" help:"Say no unless it is signed with the key of this fingerprint."`

	DB      string `name:"db" env:"AWN_DB" placeholder:"WHERE" help:"The record to check: a file, or postgres://user@host/database."`
	As      string `env:"AWN_AS" placeholder:"WHO" help:"Who you are; your login without it."`
	Rebuild bool   `help:"Make all that follows from the facts of the record again, and compare."`
	Head    string `placeholder:"NUMBER:HASH" help:"An end of the record known from elsewhere, as a certificate prints it."`

	telling
}

// Help says what is checked, and what cannot be.
func (c *verifyCommand) Help() string {
	return `  awn verify C26-0007.json
  awn verify C26-0007.json --key "21FE 31DF A154 A261 626B F854 046F D227"
  awn verify C26-0007.json --pdf certificate.pdf
  awn verify                                     the record itself
  awn verify --rebuild --head 4117:9f86d081…

Without a file, goes through all facts of the record from the first, and names
the first that is not what was entered. With a file, checks that nothing in a
certificate has been changed since it was signed, and prints it. That needs
neither database nor network. Whose key it is no file can prove: compare the
fingerprint with the one that the house makes known, or give that one with
--key. Ends with 1 if the answer is no.`
}

// Run checks a certificate.
func (c *verifyCommand) Run(j *job) error {
	if c.File == "" {
		return c.verifyRecord(j)
	}
	file, err := c.read(j)
	if err != nil {
		return err
	}
	cert, key, err := certificate.Verify(file)
	switch {
	case errors.Is(err, certificate.ErrChanged):
		return &no{fmt.Errorf("%s: %w", c.File, err)}
	case err != nil:
		return &refusal{fmt.Errorf("%s: %w", c.File, err)}
	case c.Key != "" && !certificate.SameFingerprint(c.Key, key):
		return &no{fmt.Errorf("%s: it is signed with the key %s, which is not the one you gave", c.File, certificate.Fingerprint(key))}
	}
	s := report.CertificateSheet{Certificate: cert, Key: key, Units: c.reader(), Version: house.ReadVersion()}
	if err := writeFile(j, c.PDF, "certificate", func(w io.Writer) error { return s.PDF(w, c.paper()) }); err != nil {
		return err
	}
	if c.JSON {
		return report.WriteJSON(j.out, cert)
	}
	return s.Text(j.out)
}

// read reads the file, or standard input.
func (c *verifyCommand) read(j *job) ([]byte, error) {
	if c.File == "-" {
		return io.ReadAll(j.in)
	}
	if err := readable(c.File); err != nil {
		return nil, err
	}
	return os.ReadFile(c.File)
}

// no is an answer: what was asked is not so.
type no struct{ err error }

func (e *no) Error() string { return e.err.Error() }

func (e *no) Unwrap() error { return e.err }

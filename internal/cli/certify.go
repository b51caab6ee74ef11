package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"

	"awn/certificate"
	"awn/internal/house"
	"awn/internal/malthouse"
	"awn/internal/paper"
	"awn/internal/report"
	"awn/internal/slip"
	"awn/ledger"
	"awn/malt"
)

type certifyCommand struct {
	Shipment string `arg:"" optional:"" placeholder:"SHIPMENT" help:"Code of the load."`
	entering
	Specification string   `placeholder:"FILE.yaml" help:"What the buyer asks, as “awn malt” reads it, or the name of a specification that the house keeps."`
	Product       string   `default:"Malt" placeholder:"NAME" help:"What the malt is called."`
	Order         string   `placeholder:"NUMBER" help:"The buyer's order."`
	Typical       []string `sep:"none" placeholder:"“NAME VALUE”" help:"A usual figure of the house, said to be that and not of this malt."`
	Deviation     []string `sep:"none" placeholder:"“NAME: WHAT IS OFFERED”" help:"What is offered for a limit that is missed; a certificate does not go out with one in silence."`
	AgreedBy      string   `placeholder:"WHO, WHEN" help:"Who agreed to the deviations."`
	State         []string `sep:"none" placeholder:"TEXT" help:"A statement, such as on allergens."`
	Replaces      string   `placeholder:"CERTIFICATE" help:"The certificate that this one takes the place of."`
	Withdraw      string   `placeholder:"CERTIFICATE" help:"Take a certificate back, in place of issuing one."`
	Again         string   `placeholder:"CERTIFICATE" help:"Write the files of a certificate that was issued once more."`
	Reason        string   `placeholder:"TEXT" help:"Why it is taken back."`
	printing
}

// Help says what a certificate is.
func (c *certifyCommand) Help() string {
	return `  awn certify S26-0001 --specification pale.yaml
  awn certify S26-0001 --specification pale.yaml --replaces C26-0007
  awn certify --withdraw C26-0007 --reason "moisture was of another lot"
  awn certify --again C26-0007

Writes NUMBER.json, signed, and NUMBER.pdf. Figures are those of the load, else
of its lots by their shares; each says its method and on what it was found. The
number is taken as it is issued, without gaps. The key lies beside the record
(or where AWN_KEY says) and is in no backup: keep a copy where only you find it.
“awn verify FILE” checks a certificate without the record.`
}

// Run issues a certificate, or takes one back.
func (c *certifyCommand) Run(j *job) error {
	if c.Withdraw != "" {
		in := &ledger.Withdrawal{Certificate: slip.Bare(c.Withdraw), Reason: c.Reason}
		return c.use(j, func(ctx context.Context, d *desk, e malthouse.Entry) (malthouse.Done, error) {
			return d.Withdraw(ctx, d.actor, e, in)
		})
	}
	if c.Again != "" {
		return c.ask(j, func(ctx context.Context, d *desk) error {
			out, err := d.Issued(ctx, d.actor, slip.Bare(c.Again))
			if err != nil {
				return err
			}
			return c.write(j, d, out)
		})
	}
	if c.Shipment == "" {
		return &lineError{"name the load, or a certificate with --withdraw or --again."}
	}
	in, err := c.issue()
	if err != nil {
		return err
	}
	return c.use(j, func(ctx context.Context, d *desk, e malthouse.Entry) (malthouse.Done, error) {
		if err := c.ofSpecification(ctx, d, &in); err != nil {
			return malthouse.Done{}, err
		}
		done, out, err := d.Certify(ctx, d.actor, e, in)
		if err != nil {
			return done, err
		}
		return done, c.write(j, d, out)
	})
}

// issue is what the flags say.
func (c *certifyCommand) issue() (malthouse.Issue, error) {
	in := malthouse.Issue{
		Shipment: slip.Bare(c.Shipment), Replaces: slip.Bare(c.Replaces), Product: c.Product, Order: c.Order, Statements: c.State,
	}
	var err error
	if in.Typical, err = slip.Figures("typical", c.Typical, "usual of the house"); err != nil {
		return in, err
	}
	for _, d := range c.Deviation {
		name, offered, found := strings.Cut(d, ":")
		if !found || !malt.Parameter(name).Known() {
			return in, &lineError{fmt.Sprintf("--deviation “%s”: write the figure, a colon and what is offered, as in “protein: 3 EUR/t less”.", d)}
		}
		in.Deviations = append(in.Deviations, certificate.Deviation{Parameter: malt.Parameter(name), Offered: strings.TrimSpace(offered), Agreed: c.AgreedBy})
	}
	return in, nil
}

// ofSpecification reads what the buyer asks.
func (c *certifyCommand) ofSpecification(ctx context.Context, d *desk, in *malthouse.Issue) (err error) {
	if c.Specification == "" {
		return nil
	}
	if in.SpecText, err = c.asked(ctx, d); err != nil {
		return err
	}
	spec, faults := paper.Read[paper.Specification](c.Specification, in.SpecText)
	if len(faults) > 0 {
		return faults
	}
	asked := spec.Specification()
	in.Specification = &asked
	return nil
}

// asked is what the buyer asks: a file, else a specification of the house.
func (c *certifyCommand) asked(ctx context.Context, d *desk) ([]byte, error) {
	if _, err := os.Stat(c.Specification); errors.Is(err, fs.ErrNotExist) && !strings.ContainsAny(c.Specification, "/.") {
		return d.AgreedText(ctx, d.actor, malthouse.SpecificationKind, c.Specification)
	}
	if err := readable(c.Specification); err != nil {
		return nil, err
	}
	return os.ReadFile(c.Specification)
}

// write writes the files of a certificate.
func (c *certifyCommand) write(j *job, d *desk, out malthouse.Certificate) error {
	name := string(out.Number) + ".json"
	if err := os.WriteFile(name, append(out.Signed, '\n'), 0o666); err != nil {
		return err
	}
	pdf := c.PDF
	if pdf == "" {
		pdf = string(out.Number) + ".pdf"
	}
	s := report.CertificateSheet{Certificate: out.Certificate, Key: out.Key, Units: d.units, Version: house.ReadVersion()}
	j.note("awn: the certificate is in %s, signed with the key %s.", name, certificate.Fingerprint(out.Key))
	return writeFile(j, pdf, "sheet", func(w io.Writer) error { return s.PDF(w, c.paper()) })
}

package cli

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"awn/internal/malthouse"
	"awn/internal/paper"
)

type documentsCommand struct {
	Files []string `arg:"" optional:"" placeholder:"FILE" help:"Documents that the house goes by from now on."`
	End   string   `placeholder:"“KIND NAME”" help:"A specification or contract that holds no more, as in “contract Spring 2026”."`
	Show  string   `placeholder:"“KIND NAME”" help:"Write a document of the house."`
	entering
}

// Help says which documents a house has.
func (c *documentsCommand) Help() string {
	return `  awn documents                          what the house goes by
  awn documents plant.yaml programme-pale.yaml
  awn documents specification-pale.yaml contract.yaml
  awn documents --show "specification Pale base malt"
  awn documents --end "contract Spring 2026"

Of a plant, a silo, a programme and control points a house keeps one; of
specifications and contracts several, each by its name. A certificate takes a
specification by its name, and the page of the malt store holds lots against
all of them. What was kept before stays in the record.`
}

// Run keeps documents, or says which there are.
func (c *documentsCommand) Run(j *job) error {
	switch {
	case c.End != "":
		kind, name, _ := strings.Cut(c.End, " ")
		return c.use(j, func(ctx context.Context, d *desk, e malthouse.Entry) (malthouse.Done, error) {
			return d.Agree(ctx, d.actor, e, kind, name, nil)
		})
	case len(c.Files) == 0:
		return c.list(j)
	}
	if c.ID != "" && len(c.Files) > 1 {
		return &lineError{"--id is the id of one entry: name one file."}
	}
	for _, file := range c.Files { // all are read before any is kept
		if _, _, err := kindOf(file); err != nil {
			return err
		}
	}
	for _, file := range c.Files {
		if err := c.use(j, func(ctx context.Context, d *desk, e malthouse.Entry) (malthouse.Done, error) {
			return keep(ctx, d, e, file)
		}); err != nil {
			return err
		}
	}
	return nil
}

// kindOf reads a document that a house can keep.
func kindOf(file string) (kind string, text []byte, err error) {
	if err := readable(file); err != nil {
		return "", nil, err
	}
	if text, err = os.ReadFile(file); err != nil {
		return "", nil, err
	}
	doc, faults := paper.ReadAny(file, text)
	if len(faults) > 0 {
		return "", nil, faults
	}
	kind, _, _ = strings.Cut(doc.Kind(), "/")
	if all := append(malthouse.Documents(), malthouse.AgreedKinds()...); !slices.Contains(all, kind) {
		return "", nil, &lineError{fmt.Sprintf("%s: a house keeps no %s; it keeps %s.", file, kind, strings.Join(all, ", "))}
	}
	return kind, text, nil
}

// keep keeps a document under its kind, or under its name.
func keep(ctx context.Context, d *desk, e malthouse.Entry, file string) (malthouse.Done, error) {
	kind, text, err := kindOf(file)
	if err != nil {
		return malthouse.Done{}, err
	}
	if slices.Contains(malthouse.AgreedKinds(), kind) {
		return d.Agree(ctx, d.actor, e, kind, paper.ValuesOf(text)["name"], text)
	}
	return d.House.Keep(ctx, d.actor, e, kind, filepath.Base(file), text)
}

// list says what the house goes by, or writes one of it.
func (c *documentsCommand) list(j *job) (err error) {
	d, err := c.open(j, false)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, d.DB.Close()) }()
	if c.Show != "" {
		return c.show(j, d)
	}
	for _, kind := range malthouse.Documents() {
		_, found, err := d.Kept(j.ctx, d.actor, kind)
		if err != nil {
			return err
		}
		word := "none; the example stands in"
		if found {
			word = "kept"
		}
		fmt.Fprintf(j.out, "%-16s %s\n", kind, word)
	}
	for _, kind := range malthouse.AgreedKinds() {
		all, err := d.AllAgreed(j.ctx, d.actor, kind)
		if err != nil {
			return err
		}
		for _, x := range all {
			fmt.Fprintf(j.out, "%-16s %s, entry %d\n", kind, x.Name, x.Fact.Seq)
		}
	}
	return nil
}

func (c *documentsCommand) show(j *job, d *desk) (err error) {
	kind, name, _ := strings.Cut(c.Show, " ")
	var text []byte
	if name != "" {
		text, err = d.AgreedText(j.ctx, d.actor, kind, name)
	} else {
		var found bool
		if text, found, err = d.Kept(j.ctx, d.actor, kind); err == nil && !found {
			err = &refusal{fmt.Errorf("the house keeps no %s; “awn documents FILE” keeps one", kind)}
		}
	}
	if err != nil {
		return err
	}
	_, err = j.out.Write(text)
	return err
}

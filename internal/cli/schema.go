package cli

import (
	"fmt"
	"strings"

	"awn/internal/paper"
	"awn/unit"
)

type schemaCommand struct {
	Kind string `arg:"" optional:"" help:"Kind of document."`
}

// Help says how a schema is put to use.
func (c *schemaCommand) Help() string {
	return `An editor that knows the schema completes the keys of a document, shows what
each means, and marks what awn would refuse. Without a kind it lists them.

  awn schema lot -o lot.schema.json

and as the first line of the document, for editors that read it:

  # yaml-language-server: $schema=lot.schema.json`
}

// Run prints a schema, or the kinds there are.
func (c *schemaCommand) Run(j *job) error {
	if c.Kind == "" {
		_, err := fmt.Fprintln(j.out, strings.Join(paper.Kinds(), "\n"))
		return err
	}
	data, ok := paper.Schema(c.Kind)
	if !ok {
		kinds := paper.Kinds()
		for _, k := range paper.Kinds() {
			name, _, _ := strings.Cut(k, "/")
			kinds = append(kinds, name)
		}
		near := unit.Nearest(c.Kind, kinds)
		if near != "" {
			near = fmt.Sprintf(" (nearest: “%s”)", near)
		}
		return &lineError{fmt.Sprintf("“%s” is no kind of document%s; there are %s.", c.Kind, near, strings.Join(paper.Kinds(), ", "))}
	}
	_, err := fmt.Fprintf(j.out, "%s\n", data)
	return err
}

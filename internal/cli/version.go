package cli

import (
	"fmt"

	"awn/internal/house"
)

type versionCommand struct {
	JSON bool `help:"Write JSON."`
}

// Run prints the version.
func (c *versionCommand) Run(j *job) error {
	v := house.ReadVersion()
	if c.JSON {
		return writeJSON(j.out, v)
	}
	_, err := fmt.Fprintln(j.out, v)
	return err
}

package cli

import (
	"awn/internal/report"
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
		return report.WriteJSON(j.out, v)
	}
	_, err := fmt.Fprintln(j.out, v)
	return err
}

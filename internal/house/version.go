// Package house holds the program's own facts: which version it is and which
// model it computes with.
package house

import (
	"fmt"
	"runtime"
	"runtime/debug"
	"strings"
)

// Release is the version of the program.
const Release = "0.1.0"

// Model is raised whenever a computed number moves; CHANGELOG.md says what
// moved. It is printed with every result.
const Model = 2

// Version is which program this is.
type Version struct {
	Release  string `json:"program"`
	Model    int    `json:"model"`
	Go       string `json:"go"`
	Platform string `json:"platform"`
	Revision string `json:"revision,omitempty"` // of the source, where the build noted it
	Modified bool   `json:"modified,omitempty"` // the source held changes not in that revision
}

// ReadVersion returns the version of the running program.
func ReadVersion() Version {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		info = &debug.BuildInfo{}
	}
	return version(info)
}

func version(info *debug.BuildInfo) Version {
	v := Version{
		Release: Release, Model: Model,
		Go: runtime.Version(), Platform: runtime.GOOS + "/" + runtime.GOARCH,
	}
	for _, s := range info.Settings {
		switch s.Key {
		case "vcs.revision":
			v.Revision = s.Value
		case "vcs.modified":
			v.Modified = s.Value == "true"
		}
	}
	return v
}

// shortRevision is enough of a revision to find it by.
const shortRevision = 12

// String is the version on one line: awn 0.1.0, model 2 (go1.26, linux/amd64,
// revision 0123456789ab with changes).
func (v Version) String() string {
	parts := []string{v.Go, v.Platform}
	if v.Revision != "" {
		r := "revision " + v.Revision[:min(len(v.Revision), shortRevision)]
		if v.Modified {
			r += " with changes"
		}
		parts = append(parts, r)
	}
	return fmt.Sprintf("awn %s, model %d (%s)", v.Release, v.Model, strings.Join(parts, ", "))
}

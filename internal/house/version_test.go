package house

import (
	"runtime/debug"
	"strings"
	"testing"
)

func TestVersionReadsTheBuild(t *testing.T) {
	v := version(&debug.BuildInfo{Settings: []debug.BuildSetting{
		{Key: "vcs.revision", Value: "0123456789abcdef0123"},
		{Key: "vcs.modified", Value: "true"},
	}})
	if v.Revision != "0123456789abcdef0123" || !v.Modified {
		t.Errorf("read %+v", v)
	}
	line := v.String()
	for _, part := range []string{"awn " + Release, "model 2", "revision 0123456789ab with changes"} {
		if !strings.Contains(line, part) {
			t.Errorf("%q lacks %q", line, part)
		}
	}
	if strings.Contains(line, "0123456789abc") {
		t.Errorf("%q gives the whole revision", line)
	}
}

func TestVersionWithoutRevision(t *testing.T) {
	if line := version(&debug.BuildInfo{}).String(); strings.Contains(line, "revision") {
		t.Errorf("%q speaks of a revision", line)
	}
}

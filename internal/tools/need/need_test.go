package need

import (
	"fmt"
	"strings"
	"testing"
)

// outcome stands in for a test and notes how it would have ended.
type outcome struct {
	testing.TB
	said string
}

func (o *outcome) Helper()                   {}
func (o *outcome) Fatalf(f string, a ...any) { o.said = "fail: " + fmt.Sprintf(f, a...) }
func (o *outcome) Skipf(f string, a ...any)  { o.said = "skip: " + fmt.Sprintf(f, a...) }

func TestMet(t *testing.T) {
	for _, c := range []struct {
		require, name string
		found         bool
		want          string
	}{
		{"", "mill", true, ""},
		{"", "mill", false, "skip: "},
		{"mill", "mill", false, "fail: "},
		{"cc,mill", "mill", false, "fail: "},
		{"windmill", "mill", false, "skip: "},
		{"mill", "mill", true, ""},
	} {
		t.Setenv("AWN_REQUIRE", c.require)
		o := &outcome{}
		Met(o, c.name, c.found)
		if !strings.HasPrefix(o.said, c.want) || (c.want == "") != (o.said == "") {
			t.Errorf("AWN_REQUIRE=%q, %s found %v: %q, want %q", c.require, c.name, c.found, o.said, c.want)
		}
	}
}

func TestFindGo(t *testing.T) {
	if _, ok := Find("go"); !ok {
		t.Error("the go command runs this test and was not found")
	}
	if path, ok := Find("no-such-program-anywhere"); ok {
		t.Errorf("found %s", path)
	}
}

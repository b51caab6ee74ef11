package course_test

import (
	"flag"
	"os"
	"testing"
)

// The random pieces of the first tier are the same in every run, so that a
// change is what makes it fail; AWN_RANDOM=1 draws new ones, as whoever works on
// the course does for as long as patience lasts.
func TestMain(m *testing.M) {
	flag.Parse()
	seeded := false
	flag.Visit(func(f *flag.Flag) { seeded = seeded || f.Name == "rapid.seed" })
	if os.Getenv("AWN_RANDOM") == "" && !seeded {
		if err := flag.Set("rapid.seed", "20260302"); err != nil {
			panic(err)
		}
	}
	os.Exit(m.Run())
}

package examples

import (
	"io/fs"
	"os"
	"strings"
	"testing"
)

func TestEveryExampleIsBuiltIn(t *testing.T) {
	err := fs.WalkDir(os.DirFS("."), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(name, ".yaml") {
			return err
		}
		if _, err := fs.Stat(Files, name); err != nil {
			t.Errorf("%s is not built into the program: %v", name, err)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := fs.Stat(Files, First); err != nil {
		t.Error(err)
	}
}

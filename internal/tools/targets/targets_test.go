package targets

import (
	"go/parser"
	"go/token"
	"slices"
	"testing"
)

func parse(t *testing.T, pkg, name, src string) File {
	t.Helper()
	syntax, err := parser.ParseFile(token.NewFileSet(), name, src, 0)
	if err != nil {
		t.Fatal(err)
	}
	return File{pkg, name, syntax}
}

func TestWithPrefix(t *testing.T) {
	files := []File{
		parse(t, "kiln", "a_test.go", `package kiln
func FuzzRead(f *testing.F) {}
func FuzzHelper(t *testing.T) {}
func BenchmarkDry(b *testing.B) {}
func (x y) FuzzMethod(f *testing.F) {}`),
		parse(t, "kiln", "a.go", "package kiln\nfunc FuzzOutsideTests(f *testing.F) {}"),
	}
	if got := WithPrefix(files, "Fuzz", "F"); !slices.Equal(got, []Target{{"kiln", "FuzzRead"}}) {
		t.Errorf("fuzz targets %v", got)
	}
	if got := WithPrefix(files, "Benchmark", "B"); !slices.Equal(got, []Target{{"kiln", "BenchmarkDry"}}) {
		t.Errorf("benchmarks %v", got)
	}
}

func TestConcurrent(t *testing.T) {
	files := []File{
		parse(t, "still", "a.go", "package still\nfunc A() { B() }"),
		parse(t, "busy", "a.go", "package busy\nfunc A() { go A() }"),
		parse(t, "locked", "a.go", "package locked\nimport \"sync\"\nvar m sync.Mutex"),
	}
	if got := Concurrent(files); !slices.Equal(got, []string{"busy", "locked"}) {
		t.Errorf("concurrent packages %v", got)
	}
}

func TestFilesPassesOverTestdataAndOtherModules(t *testing.T) {
	root, err := Root()
	if err != nil {
		t.Fatal(err)
	}
	files, err := Files(root)
	if err != nil {
		t.Fatal(err)
	}
	here := slices.ContainsFunc(files, func(f File) bool { return f.Path() == "internal/tools/targets/targets_test.go" })
	if !here {
		t.Error("this very file was not found")
	}
	for _, f := range files {
		if f.Package == "tools/lint" {
			t.Errorf("%s belongs to another module", f.Path())
		}
	}
}

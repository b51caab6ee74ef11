// Package targets finds, by reading the source, what the test programs work
// on: packages, fuzz targets, benchmarks and packages with concurrency.
package targets

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// File is one Go file of the module.
type File struct {
	Package string // folder below the root, with slashes; "." is the root
	Name    string // file name
	Syntax  *ast.File
}

// Test reports whether the file belongs to a test.
func (f File) Test() bool { return strings.HasSuffix(f.Name, "_test.go") }

// Path is the file's place below the root.
func (f File) Path() string { return filepath.ToSlash(filepath.Join(f.Package, f.Name)) }

// Root returns the folder of the go.mod that governs the current folder.
func Root() (string, error) {
	dir, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir, nil
		}
		up := filepath.Dir(dir)
		if up == dir {
			return "", fmt.Errorf("no go.mod in the current folder or above it")
		}
		dir = up
	}
}

// Files parses every Go file of the module at root. Folders that the go
// command passes over (testdata, names that begin with a dot or an
// underscore, modules of their own) are passed over here too.
func Files(root string) ([]File, error) {
	var out []File
	fset := token.NewFileSet()
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			if path != root && passedOver(path, d.Name()) {
				return filepath.SkipDir
			}
			return nil
		}
		if !strings.HasSuffix(path, ".go") {
			return nil
		}
		syntax, err := parser.ParseFile(fset, path, nil, parser.ParseComments|parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		pkg, err := filepath.Rel(root, filepath.Dir(path))
		if err != nil {
			return err
		}
		out = append(out, File{filepath.ToSlash(pkg), d.Name(), syntax})
		return nil
	})
	return out, err
}

func passedOver(path, name string) bool {
	if name == "testdata" || name == "vendor" || strings.HasPrefix(name, ".") || strings.HasPrefix(name, "_") {
		return true
	}
	_, err := os.Stat(filepath.Join(path, "go.mod"))
	return err == nil
}

// Imports returns the import paths of a file.
func (f File) Imports() []string {
	var out []string
	for _, s := range f.Syntax.Imports {
		path, err := strconv.Unquote(s.Path.Value)
		if err == nil {
			out = append(out, path)
		}
	}
	return out
}

// Target is one fuzz target or benchmark.
type Target struct{ Package, Func string }

// WithPrefix returns the test functions whose name begins with prefix and
// whose parameter is a *testing.kind, e.g. "Fuzz" and "F".
func WithPrefix(files []File, prefix, kind string) []Target {
	var out []Target
	for _, f := range files {
		if !f.Test() {
			continue
		}
		for _, d := range f.Syntax.Decls {
			fn, ok := d.(*ast.FuncDecl)
			if ok && fn.Recv == nil && strings.HasPrefix(fn.Name.Name, prefix) && takes(fn, kind) {
				out = append(out, Target{f.Package, fn.Name.Name})
			}
		}
	}
	return out
}

func takes(fn *ast.FuncDecl, kind string) bool {
	if fn.Type.Params.NumFields() != 1 {
		return false
	}
	star, ok := fn.Type.Params.List[0].Type.(*ast.StarExpr)
	if !ok {
		return false
	}
	sel, ok := star.X.(*ast.SelectorExpr)
	return ok && sel.Sel.Name == kind
}

// Concurrent returns the packages that start goroutines or import sync.
func Concurrent(files []File) []string {
	var out []string
	for _, f := range files {
		if !slices.Contains(out, f.Package) && concurrent(f) {
			out = append(out, f.Package)
		}
	}
	return out
}

func concurrent(f File) bool {
	for _, p := range f.Imports() {
		if p == "sync" || p == "sync/atomic" {
			return true
		}
	}
	found := false
	ast.Inspect(f.Syntax, func(n ast.Node) bool {
		if _, ok := n.(*ast.GoStmt); ok {
			found = true
		}
		return !found
	})
	return found
}

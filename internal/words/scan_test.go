package words

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// used is what the science packages say in codes: each code with the names of
// the figures that stand in the function that uses it. A code that is put
// together from parts has "*" for each part that is not written out.
type used struct {
	findings, acts, lines map[string][]string
	parameters            map[string]bool // keys of parameter tables, which look like codes
}

var (
	actCode     = regexp.MustCompile(`^act\.[a-z0-9-]+\.[a-z0-9*-]+$`)
	findingCode = regexp.MustCompile(`^(begin|lot|plant|programme|steep|germinate|kiln|dress|malt|brew|course|intake|silo|trial|rank|sheet|lab|odds|weigh|survey|crop|complaint)\.[a-z0-9*-]+\.[a-z0-9*-]+$`)
	figureName  = regexp.MustCompile(`^[a-z][a-z0-9]*(_[a-z0-9]+)*$`)
)

// scan reads every file of the science packages, tests apart.
func scan(t *testing.T) used {
	t.Helper()
	root := filepath.Join("..", "..")
	u := used{map[string][]string{}, map[string][]string{}, map[string][]string{}, map[string]bool{}}
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			if path != root && (strings.HasPrefix(d.Name(), ".") || slices.Contains([]string{"internal", "cmd", "tools", "bench", "testdata", "finding"}, d.Name())) {
				return filepath.SkipDir
			}
			return nil
		}
		if !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return nil
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, text, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		for _, decl := range file.Decls {
			if filepath.Base(path) == "parameters.go" {
				u.table(decl)
			} else {
				u.declaration(decl)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for key := range u.parameters {
		delete(u.findings, key)
	}
	return u
}

// isType says whether a literal is of a type of that name, of any package.
func isType(e ast.Expr, name string) bool {
	switch e := e.(type) {
	case *ast.SelectorExpr:
		return e.Sel.Name == name
	case *ast.Ident:
		return e.Name == name
	}
	return false
}

// line notes the code of a balance line.
func (u used) line(lit *ast.CompositeLit) {
	for _, e := range lit.Elts {
		if kv, ok := e.(*ast.KeyValueExpr); ok {
			e = kv.Value
		}
		if text, ok := joined(e); ok {
			u.lines[text] = nil
		}
	}
}

// table notes the keys of a parameter table.
func (u used) table(n ast.Node) {
	ast.Inspect(n, func(n ast.Node) bool {
		if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
			if text, err := strconv.Unquote(lit.Value); err == nil {
				u.parameters[text] = true
			}
		}
		return true
	})
}

// declaration notes the codes of one declaration and the figures named in it.
func (u used) declaration(decl ast.Decl) {
	var codes, names []string
	skip := map[ast.Node]bool{}
	ast.Inspect(decl, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CompositeLit:
			if isType(n.Type, "Line") {
				u.line(n)
			}
		case *ast.KeyValueExpr:
			if key, ok := n.Key.(*ast.Ident); ok && key.Name == "Key" {
				u.table(n.Value)
				return false
			}
		case *ast.Field:
			if n.Tag != nil {
				skip[n.Tag] = true // param:"..." keys
			}
		case *ast.BinaryExpr:
			if text, ok := joined(n); ok {
				codes = append(codes, text)
				return false
			}
		case *ast.BasicLit:
			if text, err := strconv.Unquote(n.Value); err == nil && n.Kind == token.STRING && !skip[n] {
				codes = append(codes, text)
				if figureName.MatchString(text) {
					names = append(names, text)
				}
			}
		}
		return true
	})
	for _, c := range codes {
		switch {
		case actCode.MatchString(c):
			u.acts[c] = append(u.acts[c], names...)
		case findingCode.MatchString(c):
			u.findings[c] = append(u.findings[c], names...)
		}
	}
}

// joined is a text put together with +, with "*" for what is not a literal.
func joined(e ast.Expr) (string, bool) {
	switch e := e.(type) {
	case *ast.BasicLit:
		text, err := strconv.Unquote(e.Value)
		return text, err == nil && e.Kind == token.STRING
	case *ast.BinaryExpr:
		if e.Op != token.ADD {
			return "", false
		}
		a, okA := joined(e.X)
		b, okB := joined(e.Y)
		if !okA {
			a = "*"
		}
		if !okB {
			b = "*"
		}
		return a + b, okA || okB
	}
	return "", false
}

// matching lists the texts whose code fits a pattern.
func matching(texts map[string]string, pattern string) []string {
	re := regexp.MustCompile("^" + strings.ReplaceAll(regexp.QuoteMeta(pattern), `\*`, `[a-z0-9_*-]+`) + "$")
	var out []string
	for code := range texts {
		if re.MatchString(code) {
			out = append(out, code)
		}
	}
	slices.Sort(out)
	return out
}

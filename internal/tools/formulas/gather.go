package main

import (
	"bytes"
	"cmp"
	"fmt"
	"go/ast"
	"go/printer"
	"go/token"
	"slices"
	"strings"

	"awn/internal/flow"
	"awn/internal/tools/targets"
	"awn/reckon"
)

// gather returns the formulas of the module at root, sorted, and what is
// wrong with their comments, each fault with its place.
func gather(root string) (formulas []reckon.Formula, faults []string, err error) {
	files, err := scienceFiles(root)
	if err != nil {
		return nil, nil, err
	}
	numbers := numberTypes(files)
	for _, f := range files {
		for _, d := range f.Syntax.Decls {
			fn, ok := d.(*ast.FuncDecl)
			if !ok || !isFormula(fn, f.Package, numbers) {
				continue
			}
			formula, wrong := read(fn.Doc.Text(), fn.Name.Name)
			formula.Package, formula.Name, formula.Signature = f.Package, name(fn), signature(fn)
			formulas = append(formulas, formula)
			for _, w := range wrong {
				faults = append(faults, fmt.Sprintf("%s: %s: %s", f.Path(), name(fn), w))
			}
		}
	}
	slices.SortFunc(formulas, func(a, b reckon.Formula) int {
		return cmp.Or(cmp.Compare(a.Package, b.Package), cmp.Compare(a.Name, b.Name))
	})
	return formulas, faults, nil
}

// scienceFiles returns the files, tests left out, of the packages that the
// import table makes science.
func scienceFiles(root string) ([]targets.File, error) {
	table, err := flow.Read(root)
	if err != nil {
		return nil, err
	}
	files, err := targets.Files(root)
	if err != nil {
		return nil, err
	}
	return slices.DeleteFunc(files, func(f targets.File) bool {
		rule, ok := table.Find(f.Package)
		return f.Test() || !ok || !rule.Science()
	}), nil
}

// numberTypes returns the names of types declared as float64, with their
// package in front: "unit.Celsius".
func numberTypes(files []targets.File) map[string]bool {
	out := map[string]bool{}
	for _, f := range files {
		ast.Inspect(f.Syntax, func(n ast.Node) bool {
			spec, ok := n.(*ast.TypeSpec)
			if !ok {
				return true
			}
			if id, ok := spec.Type.(*ast.Ident); ok && id.Name == "float64" {
				out[f.Package+"."+spec.Name.Name] = true
			}
			return true
		})
	}
	return out
}

func isFormula(fn *ast.FuncDecl, pkg string, numbers map[string]bool) bool {
	if !fn.Name.IsExported() || fn.Recv != nil && !ast.IsExported(receiver(fn)) {
		return false
	}
	if !givesNumbers(fn, pkg, numbers) {
		return false
	}
	return !isAccessor(fn) && !isReader(fn)
}

// givesNumbers reports whether all results are numbers, but for an error or a
// bool at the end.
func givesNumbers(fn *ast.FuncDecl, pkg string, numbers map[string]bool) bool {
	if fn.Type.Results == nil {
		return false
	}
	results := fn.Type.Results.List
	if last, ok := results[len(results)-1].Type.(*ast.Ident); ok && (last.Name == "error" || last.Name == "bool") {
		results = results[:len(results)-1]
	}
	for _, r := range results {
		switch t := r.Type.(type) {
		case *ast.Ident:
			if t.Name != "float64" && !numbers[pkg+"."+t.Name] {
				return false
			}
		case *ast.SelectorExpr:
			if !numbers[fmt.Sprintf("%s.%s", t.X, t.Sel.Name)] {
				return false
			}
		default:
			return false
		}
	}
	return len(results) > 0
}

// isAccessor reports whether a method hands out what its receiver holds.
func isAccessor(fn *ast.FuncDecl) bool {
	if fn.Recv == nil || fn.Type.Params.NumFields() > 0 || len(fn.Body.List) != 1 {
		return false
	}
	ret, ok := fn.Body.List[0].(*ast.ReturnStmt)
	if !ok || len(ret.Results) != 1 {
		return false
	}
	return holds(ret.Results[0])
}

// holds reports whether e is a name, field, element or conversion of one.
func holds(e ast.Expr) bool {
	switch e := e.(type) {
	case *ast.Ident:
		return true
	case *ast.SelectorExpr:
		return holds(e.X)
	case *ast.IndexExpr:
		return holds(e.X)
	case *ast.CallExpr: // float64(x), unit.Celsius(r.t): a type in place of a function
		return len(e.Args) == 1 && holds(e.Args[0]) && isConversion(e.Fun)
	}
	return false
}

func isConversion(fun ast.Expr) bool {
	switch fun := fun.(type) {
	case *ast.Ident:
		return fun.Name == "float64"
	case *ast.SelectorExpr:
		pkg, ok := fun.X.(*ast.Ident)
		return ok && pkg.Name == "unit"
	}
	return false
}

func isReader(fn *ast.FuncDecl) bool {
	params := fn.Type.Params.List
	if len(params) == 0 {
		return false
	}
	id, ok := params[0].Type.(*ast.Ident)
	return ok && id.Name == "string"
}

// receiver is the name of a method's type.
func receiver(fn *ast.FuncDecl) string {
	t := fn.Recv.List[0].Type
	if star, ok := t.(*ast.StarExpr); ok {
		t = star.X
	}
	if generic, ok := t.(*ast.IndexExpr); ok {
		t = generic.X
	}
	id, ok := t.(*ast.Ident)
	if !ok {
		return ""
	}
	return id.Name
}

func name(fn *ast.FuncDecl) string {
	if fn.Recv == nil {
		return fn.Name.Name
	}
	return receiver(fn) + "." + fn.Name.Name
}

// signature prints the declaration on one line, without comment and body.
func signature(fn *ast.FuncDecl) string {
	bare := *fn
	bare.Doc, bare.Body = nil, nil
	var buf bytes.Buffer
	if err := printer.Fprint(&buf, token.NewFileSet(), &bare); err != nil {
		return ""
	}
	return strings.Join(strings.Fields(buf.String()), " ")
}

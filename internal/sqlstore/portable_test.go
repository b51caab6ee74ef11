package sqlstore

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// apart are the files that may speak the language of one database.
var apart = []string{"sqlite.go", "postgres.go"}

var (
	statement = regexp.MustCompile(`(?i)^\s*(select|insert|update|delete|with|where|create|alter|drop|pragma)\s`)
	numbered  = regexp.MustCompile(`\$(\d+)`)
	foreign   = regexp.MustCompile(`(?i)\bnow\s*\(|current_(timestamp|date|time)|jsonb?|ilike|::|\barray\b|\bany\s*\(|serial|autoincrement|` +
		`strftime|datetime|\btrue\b|\bfalse\b|insert or |replace into|\bpragma\b|distinct on|\bglob\b|ifnull|\bleast\s*\(|greatest\s*\(|\?`)
	ordered = regexp.MustCompile(`(?i)order by\s+([a-z0-9_.]+(?:\s+(?:desc|asc))?(?:\s*,\s*[a-z0-9_.]+(?:\s+(?:desc|asc))?)*)`)
	whole   = regexp.MustCompile(`(?i)^\s+(\w+)\s+(?:integer|bigint)\b`)
)

// faults says what keeps a statement from meaning the same in both databases.
func faults(sql string, integers []string) (found []string) {
	next := 1
	for _, m := range numbered.FindAllStringSubmatch(sql, -1) {
		n, _ := strconv.Atoi(m[1])
		if n > next {
			found = append(found, "$"+m[1]+" comes before $"+strconv.Itoa(next)+": SQLite counts in order of first use")
		}
		if n == next {
			next++
		}
	}
	if m := foreign.FindString(sql); m != "" {
		found = append(found, m+" is not the same in both")
	}
	for _, m := range ordered.FindAllStringSubmatch(sql, -1) {
		for column := range strings.SplitSeq(m[1], ",") {
			column = strings.Fields(column)[0]
			column = column[strings.LastIndex(column, ".")+1:]
			if _, err := strconv.Atoi(column); err != nil && !slices.Contains(integers, column) {
				found = append(found, "order by "+column+": text sorts differently from server to server")
			}
		}
	}
	return found
}

// integers are the columns that hold whole numbers, and ids.
func integers(t *testing.T) []string {
	names := []string{"id", "sha256"}
	err := fs.WalkDir(migrations, ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(migrations, path)
		for line := range strings.Lines(string(text)) {
			if m := whole.FindStringSubmatch(line); m != nil {
				names = append(names, m[1])
			}
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return names
}

func TestStatementsMeanTheSameInBoth(t *testing.T) {
	set := token.NewFileSet()
	entries, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	var files []*ast.File
	for _, e := range entries {
		if strings.HasSuffix(e.Name(), ".go") && !strings.HasSuffix(e.Name(), "_test.go") && !slices.Contains(apart, e.Name()) {
			f, err := parser.ParseFile(set, e.Name(), nil, 0)
			if err != nil {
				t.Fatal(err)
			}
			files = append(files, f)
		}
	}
	read, whole := 0, integers(t)
	named := constants(files)
	for _, f := range files {
		ast.Inspect(f, func(n ast.Node) bool {
			e, ok := n.(ast.Expr)
			if !ok {
				return true
			}
			text, ok := literal(e, named)
			if ok && statement.MatchString(text) {
				read++
				for _, fault := range faults(text, whole) {
					t.Errorf("%s: %s", set.Position(e.Pos()), fault)
				}
			}
			return !ok
		})
	}
	if read < 20 {
		t.Errorf("only %d statements read: the walk has lost its way", read)
	}
}

func constants(files []*ast.File) map[string]string {
	named := map[string]string{}
	for _, f := range files {
		ast.Inspect(f, func(n ast.Node) bool {
			if v, ok := n.(*ast.ValueSpec); ok && len(v.Values) == len(v.Names) {
				for i := range v.Names {
					if text, ok := literal(v.Values[i], named); ok {
						named[v.Names[i].Name] = text
					}
				}
			}
			return true
		})
	}
	return named
}

// literal is the text of a string or of strings put together; what is only
// known when the program runs stands as x.
func literal(e ast.Expr, named map[string]string) (string, bool) {
	switch e := e.(type) {
	case *ast.BasicLit:
		text, err := strconv.Unquote(e.Value)
		return text, err == nil && e.Kind == token.STRING
	case *ast.BinaryExpr:
		left, a := literal(e.X, named)
		right, b := literal(e.Y, named)
		if e.Op != token.ADD || !a && !b {
			return "", false
		}
		if !a {
			left = known(e.X, named)
		}
		if !b {
			right = known(e.Y, named)
		}
		return left + right, true
	}
	return "", false
}

func known(e ast.Expr, named map[string]string) string {
	if id, ok := e.(*ast.Ident); ok && named[id.Name] != "" {
		return named[id.Name]
	}
	return "x"
}

func TestFaultsOfStatements(t *testing.T) {
	for _, c := range []struct {
		sql string
		bad bool
	}{
		{`select a from b where c = $1 and d = $2 or e = $1`, false},
		{`select a from b where c = $2 and d = $1`, true},
		{`select a from b where c = ?`, true},
		{`select now()`, true},
		{`select a::text from b`, true},
		{`select a from b where name ilike 'x'`, true},
		{`update b set closed = true`, true},
		{`select a from b order by at desc, 1`, false},
		{`select a from b order by at, name`, true},
	} {
		if got := faults(c.sql, []string{"at"}); (len(got) > 0) != c.bad {
			t.Errorf("%s: %v", c.sql, got)
		}
	}
}

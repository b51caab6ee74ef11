package main

import (
	"bufio"
	"fmt"
	"go/ast"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"

	"awn/internal/tools/targets"
	"awn/reckon"
)

// unsourced is what a parameter or a table says that has no publication.
const unsourced = "common practice, no source"

// entry is a line of SOURCES.md: a key, a colon, and what the key stands for.
var entry = regexp.MustCompile(`^- \**([^:*]+?)\**:\** \S`)

// citation looks like the key of a publication: names, then a year.
var citation = regexp.MustCompile(`\p{Lu}[\p{L}.&'-]*(?:(?: and)? \p{Lu}[\p{L}.&'-]*)*(?: et al\.?)? (?:18|19|20)\d\d[a-z]?\b`)

// keys returns the keys of SOURCES.md in the order of the file.
func keys(root string) ([]string, error) {
	text, err := os.ReadFile(filepath.Join(root, "SOURCES.md"))
	if err != nil {
		return nil, err
	}
	var out []string
	for line := range strings.Lines(string(text)) {
		if m := entry.FindStringSubmatch(line); m != nil {
			out = append(out, m[1])
		} else if strings.HasPrefix(line, "- ") {
			return nil, fmt.Errorf("SOURCES.md: no key and colon in %q", strings.TrimSpace(line))
		}
	}
	return out, nil
}

// startsWithKey returns the key that text begins with.
func startsWithKey(text string, keys []string) (string, bool) {
	for _, k := range keys {
		if rest, ok := strings.CutPrefix(text, k); ok && (rest == "" || strings.ContainsAny(rest[:1], " ,.;:)")) {
			return k, true
		}
	}
	return "", false
}

// uncited returns the citations in text whose key is none of keys.
func uncited(text string, keys []string) []string {
	var out []string
	for _, c := range citation.FindAllString(text, -1) {
		known := false
		for _, k := range keys {
			// A key may begin before what looks like one ("Treatise on Malt 1901"),
			// or after it, when a sentence begins with a capital letter ("See Reed 1901").
			known = known || strings.HasSuffix(c, " "+k) || strings.HasSuffix(k, c) && strings.Contains(text, k)
		}
		if !known {
			out = append(out, c)
		}
	}
	return out
}

// badSources returns what the formulas cite that SOURCES.md lacks.
func badSources(f reckon.Formula, keys []string) []string {
	var out []string
	if f.Standing == "source" || f.Standing == "recalled" {
		if _, ok := startsWithKey(f.Source, keys); !ok {
			out = append(out, fmt.Sprintf("the source begins with no key of SOURCES.md: %s", f.Source))
		}
	}
	for _, c := range uncited(f.Source+"\n"+f.Check, keys) {
		out = append(out, "SOURCES.md has no entry "+c)
	}
	return out
}

// badParameters returns, with their file, the values of Source fields in
// composite literals (parameters, findings) that neither begin with a key nor
// say that there is no source.
func badParameters(files []targets.File, keys []string) (bad []string, seen int) {
	for _, f := range files {
		ast.Inspect(f.Syntax, func(n ast.Node) bool {
			kv, ok := n.(*ast.KeyValueExpr)
			if !ok {
				return true
			}
			field, ok := kv.Key.(*ast.Ident)
			lit, isText := kv.Value.(*ast.BasicLit)
			if !ok || !isText || field.Name != "Source" || lit.Kind != token.STRING {
				return true
			}
			value, err := strconv.Unquote(lit.Value)
			if err != nil || value == "" {
				return true
			}
			seen++
			if _, ok := startsWithKey(value, keys); !ok && !strings.HasPrefix(value, unsourced) {
				bad = append(bad, fmt.Sprintf("%s: Source %q begins with no key of SOURCES.md and is not %q", f.Path(), value, unsourced))
			}
			return true
		})
	}
	return bad, seen
}

// tables returns the comment head of each table in a testdata folder, by path.
func tables(root string) (map[string]string, error) {
	out := map[string]string{}
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && d.Name() == ".git" {
			return filepath.SkipDir
		}
		if d.IsDir() || filepath.Ext(path) != ".csv" || filepath.Base(filepath.Dir(path)) != "testdata" {
			return nil
		}
		h, err := head(path)
		out[path] = h
		return err
	})
	return out, err
}

func head(path string) (string, error) {
	f, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer f.Close()
	var b strings.Builder
	lines := bufio.NewScanner(f)
	for lines.Scan() && strings.HasPrefix(lines.Text(), "#") {
		b.WriteString(strings.TrimSpace(strings.TrimPrefix(lines.Text(), "#")) + "\n")
	}
	return b.String(), lines.Err()
}

package paper

import (
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/lexer"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"
)

// What a document may measure; the largest that we write has 20 kB and five
// levels.
const (
	mostBytes  = 1 << 20
	mostDepth  = 20
	mostIndent = 80 // columns
)

// place is where something stands in a text.
type place struct{ line, column int }

func placeOf(t *token.Token) place { return place{t.Position.Line, t.Position.Column} }

// parse turns a text into its tree, or says why it is none. Whatever could grow
// without limit is refused before the parser sees it.
func (r *reader) parse() ast.Node {
	switch {
	case len(r.text) > mostBytes:
		r.text = ""
		r.fault(place{1, 1}, "", Fault{Code: "document.text.size", Allowed: []string{"at most 1 MiB"}})
		return nil
	case !utf8.ValidString(r.text) || strings.ContainsRune(r.text, 0):
		r.text = strings.ToValidUTF8(r.text, "\uFFFD")
		r.fault(place{1, 1}, "", Fault{Code: "document.text.encoding"})
		return nil
	}
	tokens := lexer.Tokenize(r.text)
	if !r.plain(tokens) {
		return nil
	}
	file, err := parser.Parse(tokens, 0, parser.AllowDuplicateMapKey())
	if err != nil {
		r.syntax(err)
		return nil
	}
	for i, doc := range file.Docs {
		switch {
		case i > 0 && doc.Body != nil:
			r.fault(placeOf(doc.Body.GetToken()), "", Fault{Code: "document.text.many"})
			return nil
		case i == 0 && doc.Body == nil:
			r.fault(place{1, 1}, "", Fault{Code: "document.text.empty"})
			return nil
		}
	}
	if len(file.Docs) == 0 {
		r.fault(place{1, 1}, "", Fault{Code: "document.text.empty"})
		return nil
	}
	return file.Docs[0].Body
}

// plain reports whether the tokens hold neither references nor deep nesting.
func (r *reader) plain(tokens token.Tokens) bool {
	flow, onLine, line := 0, 0, 0
	for _, t := range tokens {
		if t.Position.Line != line {
			line, onLine = t.Position.Line, 0
			if flow == 0 && t.Position.Column > mostIndent && t.Type != token.CommentType {
				onLine = mostDepth + 1
			}
		}
		switch t.Type {
		case token.MappingStartType, token.SequenceStartType:
			flow++
		case token.MappingEndType, token.SequenceEndType:
			flow--
		case token.SequenceEntryType, token.MappingKeyType:
			onLine++
		case token.AnchorType, token.AliasType, token.TagType, token.MergeKeyType, token.DirectiveType:
			r.fault(placeOf(t), "", Fault{Code: "document.text.reference", Got: t.Value})
			return false
		}
		if flow > mostDepth || onLine > mostDepth {
			r.fault(placeOf(t), "", Fault{Code: "document.text.depth", Allowed: []string{fmt.Sprintf("at most %d levels", mostDepth)}})
			return false
		}
	}
	return true
}

// syntax reports what the parser found, where it found it.
func (r *reader) syntax(err error) {
	at, message := place{1, 1}, err.Error()
	var e *yaml.SyntaxError
	if errors.As(err, &e) {
		message = e.GetMessage()
		if t := e.GetToken(); t != nil && t.Position != nil {
			at = placeOf(t)
		}
	}
	r.fault(at, "", Fault{Code: "document.text.syntax", Got: message})
}

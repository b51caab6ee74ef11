package paper

import (
	"encoding/json"
	"math"
	"reflect"
	"slices"
	"strings"
)

// node is a part of a JSON Schema.
type node map[string]any

// Schema returns the JSON Schema, draft 2020-12, of a kind of document named
// with or without its number, "lot" or "lot/1"; false if there is no such kind.
func Schema(kind string) ([]byte, bool) {
	i := slices.IndexFunc(documents, func(d Document) bool {
		name, _, _ := strings.Cut(d.Kind(), "/")
		return kind == d.Kind() || kind == name
	})
	if i < 0 {
		return nil, false
	}
	n := shapeOfDocument(reflect.TypeOf(documents[i])).schema()
	n["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	n["$id"] = "urn:awn:" + strings.Replace(documents[i].Kind(), "/", ":", 1)
	n["title"] = documents[i].Kind()
	data, err := json.MarshalIndent(n, "", "  ")
	return data, err == nil
}

// schema is the shape as a JSON Schema.
func (s *shape) schema() node {
	n := node{}
	if s.doc != "" {
		title, _, _ := strings.Cut(s.doc, ". ")
		n["title"], n["description"] = strings.TrimSuffix(title, "."), s.doc
	}
	switch s.form {
	case object:
		s.objectSchema(n)
	case list:
		n["type"], n["items"] = "array", s.item.schema()
		n["minItems"], n["maxItems"] = s.least, s.most
	case table:
		n["type"], n["additionalProperties"] = "object", s.item.schema()
		n["propertyNames"] = node{"pattern": s.match.String()}
	case written:
		n["type"], n["pattern"] = "string", s.pattern()
	case text:
		s.textSchema(n)
	case whole:
		n["type"] = "integer"
		s.limitSchema(n)
	case number:
		n["type"] = "number"
		s.limitSchema(n)
	case truth:
		n["type"] = "boolean"
	case link:
		n["oneOf"] = []node{fileName.schema(), s.item.schema()}
	}
	return n
}

func (s *shape) objectSchema(n node) {
	properties, required := node{}, []string{}
	for _, f := range s.fields {
		properties[f.key] = f.shape.schema()
		if f.required {
			required = append(required, f.key)
		}
	}
	n["type"], n["properties"], n["required"], n["additionalProperties"] = "object", properties, required, false
	var all []node
	for _, rule := range s.rules {
		var each []node
		for _, key := range rule.keys {
			each = append(each, node{"required": []string{key}})
		}
		if rule.exact {
			all = append(all, node{"oneOf": each})
		} else {
			all = append(all, node{"anyOf": each})
		}
	}
	if all != nil {
		n["allOf"] = all
	}
}

func (s *shape) textSchema(n node) {
	n["type"] = "string"
	if s.words != nil {
		n["enum"] = s.words
		return
	}
	n["minLength"], n["maxLength"] = s.least, s.most
	if s.match != nil {
		n["pattern"] = s.match.String()
	}
}

func (s *shape) limitSchema(n node) {
	if !math.IsInf(s.least, 0) {
		n["minimum"] = s.least
	}
	if !math.IsInf(s.most, 0) {
		n["maximum"] = s.most
	}
}

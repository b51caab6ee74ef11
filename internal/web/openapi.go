package web

import (
	"encoding/json"
	"fmt"
	"strings"

	"awn/internal/house"
	"awn/internal/paper"
	"awn/internal/slip"
)

// shape is a part of a JSON document.
type shape = map[string]any

// openAPI is the OpenAPI 3.1 document of the operations. The schemas of what is
// sent are those of the documents themselves.
func openAPI(v house.Version, operations []operation) ([]byte, error) {
	schemas := shape{"problem": problemSchema, "account": accountSchema}
	paths := map[string]shape{}
	for _, o := range operations {
		if o.Body != "" {
			name, _, _ := strings.Cut(o.Body, "/")
			text, ok := paper.Schema(name)
			if !ok {
				return nil, fmt.Errorf("no schema of %s", o.Body)
			}
			schemas[name] = json.RawMessage(text)
		}
		if paths[o.Path] == nil {
			paths[o.Path] = shape{}
		}
		paths[o.Path][strings.ToLower(o.Method)] = o.describe()
	}
	return json.MarshalIndent(shape{
		"openapi": "3.1.0",
		"info":    shape{"title": "awn", "version": v.Release, "license": shape{"name": "Apache-2.0", "identifier": "Apache-2.0"}},
		"servers": []shape{{"url": apiAt}}, "paths": paths, "components": shape{"schemas": schemas},
	}, "", " ")
}

// describe is one operation.
func (o operation) describe() shape {
	refuses := shape{"description": "All that is wrong, with codes.", "content": shape{"application/problem+json": ref("problem")}}
	out := shape{
		"operationId": o.ID, "summary": o.Summary,
		"responses": shape{
			"200":     shape{"description": o.Schema + ", in SI units and fractions.", "content": shape{kindJSON: ref("account")}},
			"default": refuses,
		},
	}
	if o.slip != "" {
		out["requestBody"] = shape{"required": true, "description": "What is typed in the fields of the form, each a text.", "content": shape{kindJSON: shape{"schema": slipSchema(o.slip)}}}
	}
	if o.Body != "" {
		name, _, _ := strings.Cut(o.Body, "/")
		out["requestBody"] = shape{
			"required": true, "description": "A document of the kind " + o.Body + ", as YAML or JSON. What it names by a file stands in it instead, or comes as a further file.",
			"content": shape{kindJSON: ref(name), "application/yaml": ref(name), "multipart/form-data": shape{"schema": shape{
				"type": "object", "required": []string{"document"}, "properties": shape{
					"document": shape{"type": "string", "contentMediaType": "application/yaml"},
					"beside":   shape{"type": "array", "items": shape{"type": "string", "contentMediaType": "application/octet-stream"}},
				},
			}}},
		}
	}
	var ask []shape
	for _, a := range o.Ask {
		ask = append(ask, shape{"name": a.Name, "in": a.In, "description": a.Doc, "required": a.Must, "schema": shape{"type": "string"}})
	}
	if ask != nil {
		out["parameters"] = ask
	}
	return out
}

// slipSchema is that of a slip.
func slipSchema(name string) shape {
	text := func(doc string) shape { return shape{"type": "string", "description": doc} }
	fields := shape{
		"id": text("UUID of the entry, made where it is typed. The same id twice enters once."),
		"at": text("When it happened, by the clock of the house or with its offset; now without it."),
	}
	must := []string{}
	for _, f := range slip.Fields(slips[name]()) {
		one := text(f.Hint)
		switch {
		case f.Many:
			one = shape{"type": "array", "items": text(f.Hint)}
		case f.Tick:
			one = shape{"type": "boolean"}
		case f.Words != nil:
			one["enum"] = f.Words
		}
		fields[f.Name] = one
		if f.Must {
			must = append(must, f.Name)
		}
	}
	return shape{"type": "object", "required": must, "properties": fields, "additionalProperties": false}
}

func ref(name string) shape { return shape{"schema": shape{"$ref": "#/components/schemas/" + name}} }

// accountSchema is the envelope of every answer.
var accountSchema = shape{
	"type": "object", "required": []string{"awn", "program", "model", "result"},
	"properties": shape{
		"awn":     shape{"type": "string", "description": "Kind and number of the answer."},
		"program": shape{"type": "string"}, "model": shape{"type": "integer"},
		"result":   shape{"type": []string{"object", "array"}},
		"findings": shape{"type": "array", "items": shape{"type": "object", "required": []string{"code"}}},
	},
}

// problemSchema is an error by RFC 9457 with its faults.
var problemSchema = shape{
	"type": "object", "required": []string{"type", "title", "status", "faults"},
	"properties": shape{
		"type": shape{"type": "string", "description": "urn:awn:fault: and the code of the first fault."}, "title": shape{"type": "string"},
		"status": shape{"type": "integer"}, "detail": shape{"type": "string"},
		"faults": shape{"type": "array", "items": shape{
			"type": "object", "required": []string{"code", "says"},
			"properties": shape{
				"code": shape{"type": "string"}, "says": shape{"type": "string"}, "file": shape{"type": "string"},
				"line": shape{"type": "integer"}, "column": shape{"type": "integer"}, "path": shape{"type": "string"},
				"allowed": shape{"type": "array", "items": shape{"type": "string"}}, "nearest": shape{"type": "string"},
			},
		}},
	},
}

package web

import (
	"encoding/json"
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"awn/internal/house"
	"awn/internal/malthouse"
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
	secured := false
	for _, o := range operations {
		if o.Body != "" {
			name, _, _ := strings.Cut(o.Body, "/")
			text, ok := paper.Schema(name)
			if !ok {
				return nil, fmt.Errorf("no schema of %s", o.Body)
			}
			schemas[name] = json.RawMessage(text)
		}
		if one := answerSchema(o.Schema); one != nil {
			schemas[schemaName(o.Schema)] = one
		}
		if paths[o.Path] == nil {
			paths[o.Path] = shape{}
		}
		paths[o.Path][strings.ToLower(o.Method)] = o.describe()
		secured = secured || o.Use != ""
	}
	parts := shape{"schemas": schemas}
	if secured {
		parts["securitySchemes"] = shape{"token": shape{"type": "http", "scheme": "bearer", "description": "A token of the house, from its settings."}}
	}
	return json.MarshalIndent(shape{
		"openapi": "3.1.0",
		"info":    shape{"title": "awn", "version": v.Release, "license": shape{"name": "Apache-2.0", "identifier": "Apache-2.0"}},
		"servers": []shape{{"url": apiAt}}, "paths": paths, "components": parts,
	}, "", " ")
}

// describe is one operation.
func (o operation) describe() shape {
	answers := shape{"default": telling("All that is wrong, with codes.", kindProblem, "problem")}
	good := telling("A document as it is kept.", kindJSON, "")
	switch {
	case o.Schema != "" && answerSchema(o.Schema) != nil:
		good = telling(o.Schema+", in SI units and fractions.", kindJSON, schemaName(o.Schema))
	case o.Schema != "":
		good = telling(o.Schema+", in SI units and fractions.", kindJSON, "account")
	case o.Changes || o.ID == "document":
		good = telling("A document as it is kept.", kindYAML, "")
	}
	if head := o.heads(); len(head) > 0 {
		good["headers"] = head
	}
	answers["200"] = good
	for _, status := range o.statuses() {
		if status == http.StatusNotModified {
			answers["304"] = shape{"description": "What you have still holds."}
			continue
		}
		answers[strconv.Itoa(status)] = telling(statusSays[status], kindProblem, "problem")
	}
	out := shape{"operationId": o.ID, "summary": o.Summary, "responses": answers}
	if o.Use != "" {
		out["security"] = []shape{{"token": []string{}}}
		out["description"] = "For the roles: " + strings.Join(o.Roles(), ", ") + "."
	}
	if body := o.body(); body != nil {
		out["requestBody"] = body
	}
	if ask := o.parameters(); ask != nil {
		out["parameters"] = ask
	}
	return out
}

// body is what an operation takes; nil if it takes nothing.
func (o operation) body() shape {
	switch {
	case o.slip != "":
		return shape{"required": true, "description": "What is typed in the fields of the form, each a text.", "content": shape{kindJSON: shape{"schema": slipSchema(o.slip)}}}
	case o.Body != "":
		name, _, _ := strings.Cut(o.Body, "/")
		return shape{
			"required": true, "description": "A document of the kind " + o.Body + ", as YAML or JSON. What it names by a file stands in it instead, or comes as a further file.",
			"content": shape{kindJSON: ref(name), kindYAML: ref(name), "multipart/form-data": shape{"schema": shape{
				"type": "object", "required": []string{"document"}, "properties": shape{
					"document": shape{"type": "string", "contentMediaType": kindYAML},
					"beside":   shape{"type": "array", "items": shape{"type": "string", "contentMediaType": "application/octet-stream"}},
				},
			}}},
		}
	case o.Method == http.MethodPatch:
		return shape{"required": true, "content": shape{kindJSON: shape{"schema": shape{"type": "object", "additionalProperties": shape{"type": "string"}}}}}
	case o.Takes != nil:
		return shape{"required": true, "content": shape{kindYAML: shape{"schema": shape{"type": "string"}}}}
	}
	return nil
}

// parameters are those of the address and of the heads.
func (o operation) parameters() (out []shape) {
	for _, a := range o.Asks() {
		one := shape{"name": a.Name, "in": a.In, "description": a.Doc, "required": a.Must, "schema": shape{"type": "string"}}
		if a.Name == "limit" {
			one["schema"] = shape{"type": "integer", "minimum": 1, "maximum": mostPage, "default": usualPage}
		}
		out = append(out, one)
	}
	return out
}

// Asks are all parameters of an operation.
func (o operation) Asks() []asking {
	out := slices.Clone(o.Ask)
	if o.List {
		out = append(out, listing...)
	}
	if o.Changes {
		out = append(out, asking{"If-Match", "header", "The ETag of what you change.", false}, asking{"If-None-Match", "header", "* where nothing is there yet.", false})
	} else if o.Method == http.MethodGet {
		out = append(out, asking{"If-None-Match", "header", "The ETag of what you have; answered with 304 if it still holds.", false})
	}
	return out
}

// heads are those of the answer.
func (o operation) heads() shape {
	out := shape{}
	if o.Method == http.MethodGet || o.Changes {
		out["ETag"] = shape{"description": "Names this answer; the same again means the same.", "schema": shape{"type": "string"}}
	}
	if o.List {
		out["Link"] = shape{"description": `The page that follows, with rel="next" (RFC 8288).`, "schema": shape{"type": "string"}}
	}
	return out
}

// statuses are those of an operation beside 200, in order.
func (o operation) statuses() []int {
	out := []int{}
	add := func(when bool, status ...int) {
		if when {
			out = append(out, status...)
		}
	}
	add(o.Method == http.MethodGet, http.StatusNotModified)
	add(o.Takes != nil, http.StatusBadRequest)
	add(o.Use != "", http.StatusUnauthorized, http.StatusForbidden)
	add(strings.Contains(o.Path, "{"), http.StatusNotFound)
	add(o.slip != "" || o.Method == http.MethodPut, http.StatusConflict)
	add(o.Changes, http.StatusPreconditionFailed)
	add(o.Takes != nil, http.StatusRequestEntityTooLarge, http.StatusUnsupportedMediaType)
	add(o.Takes != nil || o.Asks() != nil, http.StatusUnprocessableEntity)
	add(o.Changes, http.StatusPreconditionRequired)
	return out
}

// statusSays is what each status means here.
var statusSays = map[int]string{
	http.StatusBadRequest:            "What was sent cannot be taken apart.",
	http.StatusUnauthorized:          "No token, or one that does not hold.",
	http.StatusForbidden:             "Your role, or the token, does not let you.",
	http.StatusNotFound:              "There is no such thing.",
	http.StatusMethodNotAllowed:      "This address is asked otherwise; Allow says how.",
	http.StatusConflict:              "Another entry was made with this id.",
	http.StatusPreconditionFailed:    "It was changed meanwhile.",
	http.StatusRequestEntityTooLarge: "More than 2 MiB.",
	http.StatusUnsupportedMediaType:  "Of a kind that is not taken.",
	http.StatusUnprocessableEntity:   "It can be read, and it cannot be.",
	http.StatusPreconditionRequired:  "It was not said what is changed.",
	http.StatusInternalServerError:   "A fault of the program, noted in its log.",
}

// Roles are those who may ask.
func (o operation) Roles() (out []string) {
	for _, r := range malthouse.Roles() {
		if r.May(o.Use) {
			out = append(out, string(r))
		}
	}
	return out
}

// telling is an answer of a kind; of a schema, if it has one.
func telling(says, kind, schema string) shape {
	if schema == "" {
		return shape{"description": says, "content": shape{kind: shape{"schema": shape{"type": []string{"object", "string"}}}}}
	}
	return shape{"description": says, "content": shape{kind: ref(schema)}}
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

package web

import (
	"maps"
	"net/http"
	"slices"
	"strings"

	"awn/internal/malthouse"
	"awn/ledger"
)

// referred is the page for people who write programs, made of the same list as
// the addresses and the OpenAPI document.
type referred struct {
	Operations []operation
	Statuses   []statusLine
	Codes      []codeLine
	Most       string // of a body
	Usual      int    // length of a page
	Longest    int
}

// statusLine is what an answer without success means, codeLine a code.
type statusLine struct {
	Status int
	Says   string
}
type codeLine struct{ Code, Says string }

// reference is the page for people who write programs.
func (s *Server) reference(r *http.Request) (page, error) {
	d := referred{Operations: s.operations(), Usual: usualPage, Longest: mostPage}
	for _, status := range slices.Sorted(maps.Keys(statusSays)) {
		d.Statuses = append(d.Statuses, statusLine{status, statusSays[status]})
	}
	for _, from := range []map[string]string{Codes, malthouse.Sentences, ledger.Sentences} {
		for _, code := range slices.Sorted(maps.Keys(from)) {
			d.Codes = append(d.Codes, codeLine{code, from[code]})
		}
	}
	return page{name: "api", title: readerOf(r).Say("page.foot.api"), data: d}, nil
}

// At is the whole path of an operation.
func (o operation) At() string { return apiAt + o.Path }

// Anchor is its place on the page.
func (o operation) Anchor() string { return "op-" + o.ID }

// Meets are the statuses by which it refuses.
func (o operation) Meets() []int { return append(o.statuses(), http.StatusInternalServerError) }

// FieldList are the fields of a slip, as they are sent.
func (o operation) FieldList() (out []asking) {
	if o.slip == "" {
		return nil
	}
	s := slipSchema(o.slip)
	must, _ := s["required"].([]string)
	fields, _ := s["properties"].(shape)
	for _, name := range slices.Sorted(maps.Keys(fields)) {
		one, _ := fields[name].(shape)
		says, _ := one["description"].(string)
		if words, of := one["enum"].([]string); of {
			says = strings.Join(words, ", ")
		}
		out = append(out, asking{Name: name, Doc: says, Must: slices.Contains(must, name)})
	}
	return out
}

// samples fill an address in for an example.
var samples = strings.NewReplacer("{code}", "P26-0117", "{thing}", "silo:B7", "{number}", "C26-0042", "{kind}", "programme", "{entry}", "emc")

// Try is how to ask from a shell.
func (o operation) Try() string {
	const base = "'http://127.0.0.1:8416"
	parts := []string{"curl"}
	if o.Use != "" {
		parts = append(parts, `-H "Authorization: Bearer $AWN_TOKEN"`)
	}
	name, _, _ := strings.Cut(o.Body, "/")
	switch {
	case o.slip != "":
		parts = append(parts, "--json @"+o.slip+".json")
	case o.Body != "":
		parts = append(parts, "-F document=@"+name+".yaml -F beside=@plant.yaml")
	case o.Method == http.MethodPut:
		parts = append(parts, "-X PUT -H 'If-Match: *' -H 'Content-Type: "+kindYAML+"' --data-binary @programme.yaml")
	case o.Method == http.MethodPatch:
		parts = append(parts, `-X PATCH -H 'If-Match: *' --json '{"house.contact":"office"}'`)
	}
	var asked []string
	for _, a := range o.Ask {
		if a.In == "query" && a.Must {
			asked = append(asked, a.Name+"="+sampleOf[a.Name])
		}
	}
	at := base + samples.Replace(o.At())
	if len(asked) > 0 {
		at += "?" + strings.Join(asked, "&")
	}
	return strings.Join(append(parts, at+"'"), " ")
}

// sampleOf is an example of what is asked in the address.
var sampleOf = map[string]string{"ask": "barley+12+%25+wb+20+°C", "of": "M26-0117", "from": "2026-01-01", "to": "2026-01-31", "lot": "M26-0117", "claim": "moisture+5.2+%25+wb"}

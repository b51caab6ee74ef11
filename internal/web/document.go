package web

import (
	"fmt"
	"io/fs"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"awn/examples"
	"awn/internal/paper"
)

// part is a document that a page is made of: the example it starts from, and the
// kind by which it is laid out as a form; without one it is changed as a text.
type part struct{ File, Kind string }

// document is a part as it stands in the reader's hands.
type document struct {
	part
	Text   string
	Typed  string       // a text that could not be taken, as it was typed
	Wrong  paper.Faults // why it could not
	Values paper.Values
	Form   field
}

// documents are those of a page, by the names of their files; what they name
// beside them is taken from the examples.
type documents []*document

// Open is here for fs.FS; everything is read whole.
func (d documents) Open(name string) (fs.File, error) {
	return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrInvalid}
}

// ReadFile reads one text.
func (d documents) ReadFile(name string) ([]byte, error) {
	if one := d.find(name); one != nil {
		return []byte(one.Text), nil
	}
	return fs.ReadFile(examples.Files, name)
}

func (d documents) find(name string) *document {
	for _, one := range d {
		if one.File == name {
			return one
		}
	}
	return nil
}

// asText marks the name under which a form sends a document as a text.
const asText = "text:"

// documentsOf reads the documents that a form sends: those laid out as a form
// field by field, the others as texts; the examples where nothing is sent.
func documentsOf(r *http.Request, parts []part) (documents, error) {
	form := url.Values{}
	if r.Method == http.MethodPost {
		if err := r.ParseForm(); err != nil {
			return nil, unreadable(err)
		}
		form = r.PostForm
	}
	var out documents
	for _, p := range parts {
		text, err := fs.ReadFile(examples.Files, p.File)
		if err != nil {
			return nil, err
		}
		d := &document{part: p, Text: string(text)}
		typed := strings.ReplaceAll(form.Get(asText+p.File), "\r\n", "\n")
		switch values := valuesOf(form, p.File); {
		case p.Kind == "" && typed != "":
			d.Text = typed
		case p.Kind != "" && len(values) > 0:
			d.set(values)
		}
		if p.Kind != "" && d.Values == nil {
			d.Values = paper.ValuesOf([]byte(d.Text))
		}
		out = append(out, d)
	}
	return out, out.act(form.Get("do"), form)
}

// set makes the document from its values.
func (d *document) set(v paper.Values) {
	d.Values = v
	if text, ok := paper.Write(d.Kind, v); ok {
		d.Text = string(text)
	}
}

// valuesOf are the fields of a form that belong to a document.
func valuesOf(form url.Values, file string) paper.Values {
	v := paper.Values{}
	for name, texts := range form {
		if path, ok := strings.CutPrefix(name, file+":"); ok && texts[0] != "" {
			v[path] = texts[0]
		}
	}
	return v
}

// act does what a button asks for: "add FILE:LIST KIND", "remove FILE:LIST[2]",
// "up" and "down" likewise, "take FILE" for a document typed as a text. Anything
// else is not for documents.
func (d documents) act(do string, form url.Values) error {
	verb, at, _ := strings.Cut(do, " ")
	file, path, _ := strings.Cut(at, ":")
	if verb == "take" {
		if one := d.find(at); one != nil {
			one.take(strings.ReplaceAll(form.Get(asText+at), "\r\n", "\n"))
		}
		return nil
	}
	one := d.find(file)
	if one == nil {
		return nil
	}
	list, kind, _ := strings.Cut(path, " ")
	list, number, item := strings.Cut(list, "[")
	i, err := strconv.Atoi(strings.TrimSuffix(number, "]"))
	if item && err != nil {
		return refuse(http.StatusBadRequest, "web.form.unreadable", fmt.Sprintf("“%s” is no row of a form", do))
	}
	switch verb {
	case "add":
		one.Values.Insert(list, one.Values.Len(list), one.again(list, kind))
	case "remove":
		one.Values.Remove(list, i)
	case "up":
		one.Values.Swap(list, i, i-1)
	case "down":
		one.Values.Swap(list, i, i+1)
	default:
		return nil
	}
	one.set(one.Values)
	return nil
}

// again is what a new row of a list begins with: the last row of its kind once
// more, or an hour of it.
func (d *document) again(list, kind string) paper.Values {
	for i := d.Values.Len(list) - 1; i >= 0; i-- {
		row := paper.Values{}
		for p, text := range d.Values {
			if rest, ok := strings.CutPrefix(p, fmt.Sprintf("%s[%d].", list, i)); ok && strings.HasPrefix(rest, kind) {
				row[rest] = text
			}
		}
		if len(row) > 0 {
			return row
		}
	}
	if kind != "" {
		kind += "."
	}
	return paper.Values{kind + "for": "1 h"}
}

// take takes a document that was typed as a text, if it is one.
func (d *document) take(text string) {
	doc, faults := paper.ReadAny(d.File, []byte(text))
	if len(faults) == 0 && doc.Kind() != d.Kind {
		faults = paper.Faults{{Code: "document.kind.wrong", File: d.File, Line: 1, Column: 1, Got: doc.Kind(), Allowed: []string{d.Kind}}}
	}
	if len(faults) > 0 {
		d.Typed, d.Wrong = text, faults
		return
	}
	d.Text, d.Values = text, paper.ValuesOf([]byte(text))
}

// lay lays the forms out, each fault at its field.
func (d documents) lay(faults paper.Faults) {
	for _, one := range d {
		if one.Kind == "" {
			continue
		}
		var own paper.Faults
		for _, f := range faults {
			if f.File == one.File {
				own = append(own, f)
			}
		}
		if f, ok := paper.Form(one.Kind, one.Values, own); ok {
			one.Form = fieldOf(one.File, f)
		}
	}
}

// refused are the texts that could not be taken, with what is wrong with the
// documents that stand.
func (d documents) refused(faults paper.Faults) (all paper.Faults) {
	for _, one := range d {
		all = append(all, one.Wrong...)
	}
	return append(all, faults...)
}

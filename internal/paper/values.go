package paper

import (
	"fmt"
	"maps"
	"strconv"
	"strings"
)

// Values are the texts of a document by their paths, right or wrong, as they
// stand in a form: "steep[1].air_rest.for" is "10 h". A path whose text is empty
// is as good as not there.
type Values map[string]string

// ValuesOf takes a text apart that reads as YAML. What is wrong with the
// document is for Read to say; a text that is no YAML gives nothing.
func ValuesOf(data []byte) Values {
	r := &reader{text: string(data)}
	root := r.parse()
	if root == nil {
		return nil
	}
	v := Values{}
	walkValues(root, "", func(path, text string) { v[path] = text })
	delete(v, kindKey)
	return v
}

// nth is the path of an item, counted from 0.
func nth(list string, i int) string { return fmt.Sprintf("%s[%d]", list, i) }

// under reports whether anything stands at a path or below it.
func (v Values) under(path string) bool {
	for p, text := range v {
		if text != "" && within(p, path) {
			return true
		}
	}
	return false
}

// within reports whether a path is another or lies below it.
func within(path, above string) bool {
	rest, ok := strings.CutPrefix(path, above)
	return ok && (rest == "" || above == "" || rest[0] == '.' || rest[0] == '[')
}

// Len is how many items a list has.
func (v Values) Len(list string) int {
	n := 0
	for p := range v {
		if i, _, ok := itemOf(p, list); ok {
			n = max(n, i+1)
		}
	}
	return n
}

// itemOf takes a path apart that lies in a list: the item's number and what
// follows.
func itemOf(path, list string) (i int, rest string, ok bool) {
	rest, ok = strings.CutPrefix(path, list+"[")
	if !ok {
		return 0, "", false
	}
	number, rest, ok := strings.Cut(rest, "]")
	i, err := strconv.Atoi(number)
	return i, rest, ok && err == nil && i >= 0 && i < mostItems
}

// mostItems is the longest list that a form shows.
const mostItems = 1000

// Insert makes room for an item before another and fills it; parts are its
// texts by their paths within it.
func (v Values) Insert(list string, at int, parts Values) {
	v.renumber(list, func(i int) int {
		if i >= at {
			return i + 1
		}
		return i
	})
	for p, text := range parts {
		v[join(nth(list, at), p)] = text
	}
}

// Remove takes an item out of a list.
func (v Values) Remove(list string, at int) {
	v.renumber(list, func(i int) int {
		switch {
		case i == at:
			return -1
		case i > at:
			return i - 1
		}
		return i
	})
}

// Swap lets two items of a list change places.
func (v Values) Swap(list string, a, b int) {
	n := v.Len(list)
	if a < 0 || b < 0 || a >= n || b >= n {
		return
	}
	v.renumber(list, func(i int) int {
		switch i {
		case a:
			return b
		case b:
			return a
		}
		return i
	})
}

// Close closes the gaps that rows left empty have made in a list.
func (v Values) Close(list string) {
	for i := v.Len(list) - 1; i >= 0; i-- {
		if !v.under(nth(list, i)) {
			v.Remove(list, i)
		}
	}
}

// renumber gives each item of a list its new number; one below 0 goes.
func (v Values) renumber(list string, to func(int) int) {
	moved := Values{}
	for p, text := range v {
		if i, rest, ok := itemOf(p, list); ok {
			delete(v, p)
			if i = to(i); i >= 0 {
				moved[nth(list, i)+rest] = text
			}
		}
	}
	maps.Copy(v, moved)
}

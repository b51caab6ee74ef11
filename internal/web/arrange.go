package web

import (
	"cmp"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"awn/internal/words"
)

// An address asks for a table to be arranged by these, each with a dot and the
// ID of the table behind it: sort.loads=3.down, find.loads=wexmoor, rows.loads=200.
const (
	askSort = "sort" // number of a column, from 1, and sortDown or nothing
	askFind = "find" // words that a row must hold
	askRows = "rows" // how many rows stand before the first that is shown

	sortDown = ".down"
)

// Of a table so many rows stand on a page, and one of so few needs no field to
// find in.
const (
	pageRows = 200
	fewRows  = 6
)

// order is how an address asks for a table.
type order struct {
	column int // from 0; below 0 leaves the rows as they are
	down   bool
	find   string
	skip   int
}

// orderOf reads what an address asks of a table of so many columns. What cannot
// be, it leaves: an address that was sent to somebody shows the table anyway.
func orderOf(q url.Values, id string, columns int) order {
	o := order{column: -1, find: strings.TrimSpace(q.Get(askFind + "." + id))}
	text, down := strings.CutSuffix(q.Get(askSort+"."+id), sortDown)
	if n, err := strconv.Atoi(text); err == nil && n >= 1 && n <= columns {
		o.column, o.down = n-1, down
	}
	if n, err := strconv.Atoi(q.Get(askRows + "." + id)); err == nil && n > 0 {
		o.skip = n
	}
	return o
}

// rows are those that hold what is to be found, in the order that is asked for.
// A row without an entry in the column comes last either way.
func (o order) rows(all [][]cell) [][]cell {
	out := slices.Clone(all)
	if wanted := strings.Fields(strings.ToLower(o.find)); len(wanted) > 0 {
		out = slices.DeleteFunc(out, func(row []cell) bool { return !holds(row, wanted) })
	}
	if o.column < 0 {
		return out
	}
	slices.SortStableFunc(out, func(a, b []cell) int {
		x, y := a[o.column], b[o.column]
		if x.Text == "" || y.Text == "" {
			return -cmp.Compare(min(len(x.Text), 1), min(len(y.Text), 1))
		}
		if o.down {
			x, y = y, x
		}
		return x.compare(y)
	})
	return out
}

// holds reports whether each word stands somewhere in a row.
func holds(row []cell, wanted []string) bool {
	var b strings.Builder
	for _, c := range row {
		b.WriteString(strings.ToLower(c.Text))
		b.WriteByte('\n')
	}
	text := b.String()
	return !slices.ContainsFunc(wanted, func(w string) bool { return !strings.Contains(text, w) })
}

// compare puts figures and times by their values and before words, and words as
// people count: L26-9 before L26-10.
func (c cell) compare(d cell) int {
	switch {
	case c.keyed && d.keyed:
		return cmp.Compare(c.key, d.key)
	case c.keyed:
		return -1
	case d.keyed:
		return 1
	}
	return natural(strings.ToLower(c.Text), strings.ToLower(d.Text))
}

// natural compares texts, digits in them as whole numbers.
func natural(a, b string) int {
	for a != "" && b != "" {
		m, n := digitsOf(a), digitsOf(b)
		if m > 0 && n > 0 {
			x, y := strings.TrimLeft(a[:m], "0"), strings.TrimLeft(b[:n], "0")
			if c := cmp.Or(cmp.Compare(len(x), len(y)), strings.Compare(x, y)); c != 0 {
				return c
			}
			a, b = a[m:], b[n:]
			continue
		}
		if a[0] != b[0] {
			return cmp.Compare(a[0], b[0])
		}
		a, b = a[1:], b[1:]
	}
	return cmp.Compare(len(a), len(b))
}

// digitsOf is how many digits a text begins with.
func digitsOf(s string) int { return len(s) - len(strings.TrimLeft(s, "0123456789")) }

// arranged is a table as it is set: what is asked for of it, a page at a time,
// with the addresses that ask for it otherwise.
type arranged struct {
	Columns       []column
	Rows          [][]cell
	At            string // where the form to find is sent
	Field, Find   string // name of its field, and what stands in it
	Keeps         []askField
	Says          string // which rows of how many are shown
	Before, After string
}

// column is one head of a table. Sorted is “ascending”, “descending” or nothing.
type column struct {
	Text, Href, Sorted string
	Figure             bool
}

// arrange readies a table for the page that an address asks for.
func (g *grid) arrange(at *url.URL, u words.Units) {
	q := at.Query()
	q.Del("csv")
	q.Del(entered)
	with := func(key, value string) string {
		next := url.Values{}
		for k, v := range q {
			next[k] = v
		}
		next.Del(askRows + "." + g.ID)
		if next.Del(key); value != "" {
			next.Set(key, value)
		}
		return g.address(at.Path, next)
	}
	o := orderOf(q, g.ID, len(g.Head))
	rows := o.rows(g.Rows)
	here := arranged{At: at.Path + "#" + g.anchor(), Field: askFind + "." + g.ID, Find: o.find, Keeps: besides(q, g.ID)}
	for i, text := range g.Head {
		c := column{Text: text, Figure: len(g.Rows) > 0 && g.Rows[0][i].Figure}
		if text != "" && len(g.Rows) > 1 {
			c.Sorted, c.Href = o.next(i, func(value string) string { return with(askSort+"."+g.ID, value) })
		}
		here.Columns = append(here.Columns, c)
	}
	o.skip = min(o.skip, max(0, (len(rows)-1)/pageRows*pageRows))
	here.Rows = rows[o.skip:min(len(rows), o.skip+pageRows)]
	skip := func(n int) string { return with(askRows+"."+g.ID, strconv.Itoa(n)) }
	if o.skip > 0 {
		here.Before = skip(max(0, o.skip-pageRows))
	}
	if end := o.skip + pageRows; end < len(rows) {
		here.After = skip(end)
	}
	count := func(n int) string { return u.Number(float64(n), 0) }
	switch {
	case here.Before != "" || here.After != "":
		here.Says = u.Say("table.rows", "first", count(o.skip+1), "last", count(o.skip+len(here.Rows)), "count", count(len(rows)))
	case o.find != "":
		here.Says = u.Say("table.found", "count", count(len(rows)), "all", count(len(g.Rows)))
	}
	if len(g.Rows) <= fewRows && o.find == "" {
		here.Field = ""
	}
	g.Shown = here
	g.CSV = withQuery(&url.URL{Path: at.Path, RawQuery: q.Encode()}, "csv", g.ID)
}

// next says how a column is sorted now, and where it is sorted otherwise: up,
// then down, then as the rows stood.
func (o order) next(i int, with func(string) string) (sorted, href string) {
	n := strconv.Itoa(i + 1)
	switch {
	case o.column != i:
		return "", with(n)
	case o.down:
		return "descending", with("")
	}
	return "ascending", with(n + sortDown)
}

// besides is what else an address asks, which the form to find sends along.
func besides(q url.Values, id string) (out []askField) {
	for key, values := range q {
		if key == askFind+"."+id || key == askRows+"."+id {
			continue
		}
		for _, value := range values {
			out = append(out, askField{Name: key, Value: value})
		}
	}
	slices.SortFunc(out, func(a, b askField) int { return strings.Compare(a.Name, b.Name) })
	return out
}

// anchor is the place of the table on its page.
func (g *grid) anchor() string { return "table-" + g.ID }

func (g *grid) address(path string, q url.Values) string {
	if len(q) > 0 {
		path += "?" + q.Encode()
	}
	return path + "#" + g.anchor()
}

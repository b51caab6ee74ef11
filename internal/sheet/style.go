package sheet

import (
	"strconv"
	"strings"

	"awn/internal/draw"
)

// rgb is a colour.
type rgb struct{ r, g, b int }

// The colours of print: the ink of the pages on white paper.
var (
	ink   = rgb{0x1e, 0x1b, 0x17}
	white = rgb{0xff, 0xff, 0xff}
	warm  = rgb{0x9c, 0x4a, 0x16}
	faint = rgb{0x6a, 0x62, 0x59}
)

var named = map[string]rgb{"var(--ink)": ink, "var(--paper)": white, "var(--warm)": warm, "var(--faint)": faint}

// look is how an element of a picture is drawn, by the names of CSS.
type look map[string]string

// rule is one selector of a style sheet with what it sets.
type rule struct {
	tag     string
	classes []string
	look    look
}

// rules are those of the pictures, read from the style sheet by which pages
// show them, so that a picture looks the same in print.
var rules = parse(draw.Style)

// parse reads the selectors and declarations of a style sheet. It knows what
// the pictures use: classes and tags behind one another, lists, and blocks
// for narrow screens, which print leaves out.
func parse(css string) []rule {
	var out []rule
	for css != "" {
		head, rest, ok := strings.Cut(css, "{")
		if !ok {
			break
		}
		if strings.HasPrefix(strings.TrimSpace(head), "@") {
			_, css, _ = strings.Cut(rest, "}}")
			continue
		}
		var body string
		body, css, _ = strings.Cut(rest, "}")
		l := look{}
		for declaration := range strings.SplitSeq(body, ";") {
			if name, value, ok := strings.Cut(declaration, ":"); ok {
				l[strings.TrimSpace(name)] = strings.TrimSpace(value)
			}
		}
		for selector := range strings.SplitSeq(head, ",") {
			out = append(out, selected(selector, l))
		}
	}
	return out
}

// selected is the rule of one selector: its last part decides, those before
// it are taken to hold.
func selected(selector string, l look) rule {
	parts := strings.Fields(selector)
	if len(parts) == 0 {
		return rule{tag: "none"}
	}
	words := strings.Split(parts[len(parts)-1], ".")
	return rule{tag: words[0], classes: words[1:], look: l}
}

// styled is how an element looks: what it takes from its parent, then every
// rule that holds for it, the more special later.
func styled(tag string, classes []string, parent look) look {
	out := look{}
	for _, name := range []string{"fill", "stroke", "font-size", "font-style", "font-weight", "text-anchor", "fill-opacity", "stroke-opacity", "stroke-width", "stroke-dasharray"} {
		if v, ok := parent[name]; ok {
			out[name] = v
		}
	}
	for special := range 4 {
		for _, r := range rules {
			if len(r.classes) == special && r.holds(tag, classes) {
				for name, value := range r.look {
					out[name] = value
				}
			}
		}
	}
	if out["font"] != "" { // "13px/1 …"
		if _, own := out["font-size"]; !own || tag == "svg" {
			out["font-size"], _, _ = strings.Cut(out["font"], "/")
		}
	}
	return out
}

func (r rule) holds(tag string, classes []string) bool {
	if r.tag != "" && r.tag != tag {
		return false
	}
	for _, c := range r.classes {
		if !has(classes, c) {
			return false
		}
	}
	return r.tag != "" || len(r.classes) > 0
}

func has(all []string, one string) bool {
	for _, s := range all {
		if s == one {
			return true
		}
	}
	return false
}

// number is a length of a look in pixels.
func (l look) number(name string, otherwise float64) float64 {
	x, err := strconv.ParseFloat(strings.TrimSuffix(l[name], "px"), 64)
	if err != nil {
		return otherwise
	}
	return x
}

// paint is a colour of a look; ok is false where nothing is to be painted.
func (l look) paint(name, otherwise string) (c rgb, ok bool) {
	v, given := l[name]
	if !given {
		v = otherwise
	}
	if c, ok := named[v]; ok {
		return c, true
	}
	return ink, v != "none" && v != ""
}

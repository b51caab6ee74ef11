package malthouse

import (
	"context"
	"slices"
	"strings"

	"awn/ledger"
)

// Named is a document that the house keeps under a name.
type Named struct {
	Name     string
	Document ledger.Digest
	Fact     ledger.Fact // that it holds from
}

// named lists what is kept under names by decisions that begin with a prefix, by
// name: of each name the latest. One that was entered without a document keeps
// nothing any more.
func (h *House) named(ctx context.Context, a Actor, prefix string) (out []Named, err error) {
	all, err := list[*ledger.Decision](ctx, h, a, ledger.Decided)
	seen := map[string]bool{}
	for _, d := range all { // the latest first
		name, ok := strings.CutPrefix(d.Body.Decision, prefix)
		if !ok || seen[name] {
			continue
		}
		if seen[name] = true; d.Body.Document != "" {
			out = append(out, Named{name, d.Body.Document, d.Fact})
		}
	}
	slices.SortFunc(out, func(x, y Named) int { return strings.Compare(x.Name, y.Name) })
	return out, err
}

// underName is what is kept under a name, or a refusal by that code that names
// what is nearest.
func (h *House) underName(ctx context.Context, a Actor, prefix, name, code string) (ledger.Digest, error) {
	all, err := h.named(ctx, a, prefix)
	if err != nil {
		return "", err
	}
	var names []string
	for _, x := range all {
		if x.Name == name {
			return x.Document, nil
		}
		names = append(names, x.Name)
	}
	return "", refuse(code, name, names...)
}

// oneLine reports whether a text can be the name of a document: short, and on
// one line.
func oneLine(name string) bool {
	return name != "" && len(name) <= longestName && name == strings.TrimSpace(name) && !strings.ContainsAny(name, "\r\n\t")
}

// longestName is how long the name of a document may be, in bytes.
const longestName = 80

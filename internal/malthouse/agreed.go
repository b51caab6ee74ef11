package malthouse

import (
	"context"
	"slices"
	"strings"

	"awn/ledger"
)

// Kinds of document that a house has several of, each by its name: what a buyer
// asks of malt, and what barley is bought on.
const (
	SpecificationKind = "specification"
	ContractKind      = "contract"
)

// AgreedKinds are the kinds of document that are agreed with others.
func AgreedKinds() []string { return []string{SpecificationKind, ContractKind} }

// Agreed is a document that was agreed with others.
type Agreed struct {
	Kind, Name string
	Document   ledger.Digest
	Fact       ledger.Fact // that it holds from
}

// longestName is how long the name of an agreed document may be, in bytes.
const longestName = 80

// Agree keeps what was agreed under its name. What was agreed before under that
// name stays in the record, and this takes its place; without a text nothing
// does.
func (h *House) Agree(ctx context.Context, a Actor, e Entry, kind, name string, text []byte) (Done, error) {
	if !slices.Contains(AgreedKinds(), kind) {
		return Done{}, refuse("use.agreed.kind", kind, AgreedKinds()...)
	}
	if name == "" || len(name) > longestName || name != strings.TrimSpace(name) || strings.ContainsAny(name, "\r\n\t") {
		return Done{}, refuse("use.agreed.name", name)
	}
	decided := &ledger.Decision{Decision: kind + ": " + name}
	return h.enter(ctx, a, UseDecide, e, decided, steps{
		complete: func(ctx context.Context, d *desk) (err error) {
			if text == nil {
				return nil
			}
			shelf, ok := d.Writer.(Shelf)
			if !ok {
				return refuse("use.documents.missing", name)
			}
			sha, err := shelf.PutDocument(ctx, "application/yaml", text)
			decided.Document = ledger.Digest(sha)
			return err
		},
		said: func() Said {
			if text == nil {
				return say("agreed-no-more", "what", kind, "name", name)
			}
			return say("agreed", "what", kind, "name", name)
		},
	})
}

// AllAgreed lists what is agreed of a kind, by name.
func (h *House) AllAgreed(ctx context.Context, a Actor, kind string) ([]Agreed, error) {
	all, err := list[*ledger.Decision](ctx, h, a, ledger.Decided)
	var out []Agreed
	seen := map[string]bool{}
	for _, d := range all { // the latest first
		name, ok := strings.CutPrefix(d.Body.Decision, kind+": ")
		if !ok || seen[name] {
			continue
		}
		if seen[name] = true; d.Body.Document != "" {
			out = append(out, Agreed{kind, name, d.Body.Document, d.Fact})
		}
	}
	slices.SortFunc(out, func(a, b Agreed) int { return strings.Compare(a.Name, b.Name) })
	return out, err
}

// AgreedText is what was agreed under a name.
func (h *House) AgreedText(ctx context.Context, a Actor, kind, name string) ([]byte, error) {
	all, err := h.AllAgreed(ctx, a, kind)
	if err != nil {
		return nil, err
	}
	var names []string
	for _, x := range all {
		if x.Name == name {
			return h.Desk.Document(ctx, string(x.Document))
		}
		names = append(names, x.Name)
	}
	return nil, refuse("use.agreed.unknown", name, names...)
}

package malthouse

import (
	"context"
	"slices"

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

// Agree keeps what was agreed under its name. What was agreed before under that
// name stays in the record, and this takes its place; without a text nothing
// does.
func (h *House) Agree(ctx context.Context, a Actor, e Entry, kind, name string, text []byte) (Done, error) {
	if !slices.Contains(AgreedKinds(), kind) {
		return Done{}, refuse("use.agreed.kind", kind, AgreedKinds()...)
	}
	if !oneLine(name) {
		return Done{}, refuse("use.agreed.name", name)
	}
	decided := &ledger.Decision{Decision: kind + agreedBy + name}
	return h.enter(ctx, a, UseDecide, e, decided, steps{
		complete: func(ctx context.Context, d *desk) (err error) {
			if text != nil {
				decided.Document, err = d.file(ctx, "application/yaml", text)
			}
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

// agreedBy stands between the kind and the name in the decision that keeps a
// document.
const agreedBy = ": "

// AllAgreed lists what is agreed of a kind, by name.
func (h *House) AllAgreed(ctx context.Context, a Actor, kind string) ([]Named, error) {
	return h.named(ctx, a, kind+agreedBy)
}

// AgreedText is what was agreed under a name.
func (h *House) AgreedText(ctx context.Context, a Actor, kind, name string) ([]byte, error) {
	sha, err := h.underName(ctx, a, kind+agreedBy, name, "use.agreed.unknown")
	if err != nil {
		return nil, err
	}
	return h.Desk.Document(ctx, string(sha))
}

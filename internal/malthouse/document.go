package malthouse

import (
	"context"

	"awn/ledger"
)

// settingDocument begins the key of a document that a house goes by.
const settingDocument = "document."

// ControlPoints is the kind of the document of a house's control points.
const ControlPoints = "control-points"

// Documents are the kinds that a house goes by: its plant, a silo, a programme,
// its control points.
func Documents() []string { return []string{"plant", "silo", "programme", ControlPoints} }

// Keep keeps a document that the house goes by from now on, and puts that on
// record. Documents of before stay.
func (h *House) Keep(ctx context.Context, a Actor, e Entry, kind, file string, text []byte) (Done, error) {
	decided := &ledger.Decision{Decision: kind + ": " + file}
	done, err := h.enter(ctx, a, UseDecide, e, decided, steps{
		complete: func(ctx context.Context, d *desk) (err error) {
			decided.Document, err = d.file(ctx, "application/yaml", text)
			return err
		},
		said: func() Said { return say("kept", "kind", kind, "file", file) },
	})
	if err != nil {
		return done, err
	}
	return done, h.Desk.Set(ctx, settingDocument+kind, string(decided.Document))
}

// Kept is the document of a kind that the house goes by, and whether there is
// one.
func (h *House) Kept(ctx context.Context, a Actor, kind string) (text []byte, found bool, err error) {
	if err := a.Permit(UseLook); err != nil {
		return nil, false, err
	}
	sha, found, err := h.Desk.Setting(ctx, settingDocument+kind)
	if err != nil || !found {
		return nil, false, err
	}
	text, err = h.Desk.Document(ctx, sha)
	return text, err == nil, err
}

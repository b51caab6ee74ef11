package malthouse

import (
	"context"
	"encoding/json"
	"strings"

	"awn/ledger"
)

// planKept begins the decision by which a house keeps a plan under a name.
const planKept = "plan: "

// KeepPlan keeps a plan under a name. One of that name of before stays in the
// record, and this takes its place.
func (h *House) KeepPlan(ctx context.Context, a Actor, e Entry, name string, p Plan) (Done, error) {
	name = strings.TrimSpace(name)
	if !oneLine(name) {
		return Done{}, refuse("use.plan.name", name)
	}
	in := &ledger.Decision{Decision: planKept + name}
	return h.enter(ctx, a, UseDecide, e, in, steps{
		complete: func(ctx context.Context, d *desk) (err error) {
			in.Document, err = d.shelve(ctx, p)
			return err
		},
		said: func() Said { return say("plan-kept", "name", name) },
	})
}

// shelve puts a plan and the documents it rests on into the store.
func (d *desk) shelve(ctx context.Context, p Plan) (ledger.Digest, error) {
	p.Awn = PlanKind
	for _, in := range p.Inputs {
		sha, err := d.file(ctx, "text/plain; charset=utf-8", in.Text)
		if err != nil {
			return "", err
		}
		if string(sha) != in.SHA256 {
			return "", refuse("use.document.unread", in.File)
		}
	}
	text, err := json.Marshal(p)
	if err != nil {
		return "", err
	}
	return d.file(ctx, "application/json", text)
}

// Plans lists the plans that the house keeps to start pieces from, by name.
func (h *House) Plans(ctx context.Context, a Actor) ([]Named, error) {
	return h.named(ctx, a, planKept)
}

// PlanKept is the plan kept under a name, with the texts that it rests on.
func (h *House) PlanKept(ctx context.Context, a Actor, name string) (*Plan, error) {
	sha, err := h.underName(ctx, a, planKept, name, "use.plan.unknown")
	if err != nil {
		return nil, err
	}
	return h.PlanAt(ctx, a, sha)
}

// PlanAt is the plan of a digest, with the texts that it rests on.
func (h *House) PlanAt(ctx context.Context, a Actor, sha ledger.Digest) (*Plan, error) {
	if err := a.Permit(UseLook); err != nil {
		return nil, err
	}
	p, err := readPlan(ctx, h.Desk, sha)
	if err != nil {
		return nil, err
	}
	for i := range p.Inputs {
		if p.Inputs[i].Text, err = h.Desk.Document(ctx, p.Inputs[i].SHA256); err != nil {
			return nil, err
		}
	}
	return p, nil
}

// readPlan reads a plan off the shelf.
func readPlan(ctx context.Context, desk Desk, sha ledger.Digest) (*Plan, error) {
	text, err := desk.Document(ctx, string(sha))
	if err != nil {
		return nil, err
	}
	p := new(Plan)
	if err := json.Unmarshal(text, p); err != nil {
		return nil, refuse("use.document.unread", err.Error())
	}
	return p, nil
}

package malthouse

import (
	"context"
	"encoding/json"
	"slices"
	"strings"

	"awn/ledger"
)

// planKept begins the decision by which a house keeps a plan under a name.
const planKept = "plan: "

// longestPlan is how long the name of a plan may be, in bytes.
const longestPlan = 60

// KeptPlan is a plan that the house keeps to start pieces from.
type KeptPlan struct {
	Name     string
	Document ledger.Digest
	Fact     ledger.Fact
}

// KeepPlan keeps a plan under a name. One of that name of before stays in the
// record, and this takes its place.
func (h *House) KeepPlan(ctx context.Context, a Actor, e Entry, name string, p Plan) (Done, error) {
	name = strings.TrimSpace(name)
	if name == "" || len(name) > longestPlan || strings.ContainsAny(name, "\r\n\t") {
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
	shelf, ok := d.Writer.(Shelf)
	if !ok {
		return "", refuse("use.documents.missing", "")
	}
	p.Awn = PlanKind
	for _, in := range p.Inputs {
		sha, err := shelf.PutDocument(ctx, "text/plain; charset=utf-8", in.Text)
		if err != nil {
			return "", err
		}
		if sha != in.SHA256 {
			return "", refuse("use.document.unread", in.File)
		}
	}
	text, err := json.Marshal(p)
	if err != nil {
		return "", err
	}
	sha, err := shelf.PutDocument(ctx, "application/json", text)
	return ledger.Digest(sha), err
}

// Plans lists the plans that the house keeps, by name.
func (h *House) Plans(ctx context.Context, a Actor) ([]KeptPlan, error) {
	all, err := list[*ledger.Decision](ctx, h, a, ledger.Decided)
	var out []KeptPlan
	for _, d := range all { // the latest first
		name, ok := strings.CutPrefix(d.Body.Decision, planKept)
		if ok && d.Body.Document != "" && !slices.ContainsFunc(out, func(k KeptPlan) bool { return k.Name == name }) {
			out = append(out, KeptPlan{name, d.Body.Document, d.Fact})
		}
	}
	slices.SortFunc(out, func(a, b KeptPlan) int { return strings.Compare(a.Name, b.Name) })
	return out, err
}

// PlanKept is the plan kept under a name, with the texts that it rests on.
func (h *House) PlanKept(ctx context.Context, a Actor, name string) (*Plan, error) {
	all, err := h.Plans(ctx, a)
	if err != nil {
		return nil, err
	}
	var names []string
	for _, k := range all {
		if k.Name == name {
			return h.PlanAt(ctx, a, k.Document)
		}
		names = append(names, k.Name)
	}
	return nil, refuse("use.plan.unknown", name, names...)
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

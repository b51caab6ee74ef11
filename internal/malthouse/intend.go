package malthouse

import (
	"context"
	"slices"
	"time"

	"awn/ledger"
)

// Intend enters a piece that is to be cast. It follows a plan that is given, one
// that the house keeps under the name that it gives, or that of the intention
// it takes the place of.
func (h *House) Intend(ctx context.Context, a Actor, e Entry, in *ledger.Intention, plan *Plan) (Done, error) {
	if err := a.Permit(UseIntend); err != nil {
		return Done{}, err
	}
	if plan == nil {
		named, err := h.planMeant(ctx, a, in)
		if err != nil {
			return Done{}, err
		}
		plan = named
	}
	plan.vessels(in)
	return h.enter(ctx, a, UseIntend, e, in, steps{
		complete: func(ctx context.Context, d *desk) (err error) {
			if was, again := before[*ledger.Intention](d); again {
				in.Plan = was.Plan
				return nil
			}
			if in.Plan, err = d.shelve(ctx, *plan); err != nil || in.Replaces == "" {
				return err
			}
			return d.stands(ctx, in.Replaces)
		},
		said: func() Said {
			s := say("intended", "vessel", in.Vessel, "order", in.Order, "begin", h.moment(in.Begin))
			if in.Order != "" {
				s.What += "-for"
			}
			return s
		},
	})
}

// planMeant is the plan that an intention names, or that of the one it takes
// the place of.
func (h *House) planMeant(ctx context.Context, a Actor, in *ledger.Intention) (*Plan, error) {
	switch {
	case in.Name != "":
		return h.PlanKept(ctx, a, in.Name)
	case in.Replaces == "":
		return nil, refuse("use.plan.missing", "")
	}
	was, err := h.Intention(ctx, a, in.Replaces)
	if err != nil {
		return nil, err
	}
	in.Name = was.Name
	return h.PlanAt(ctx, a, was.Plan)
}

// moment is a time by the clock of the house.
func (h *House) moment(t ledger.Time) string {
	return time.UnixMilli(int64(t)).In(h.Zone).Format("2006-01-02 15:04")
}

// vessels fills in the vessels that an intention leaves to its plan.
func (p *Plan) vessels(in *ledger.Intention) {
	for _, s := range p.Stages {
		switch into := map[string]*string{"steep": &in.Vessel, "germinate": &in.Box, "kiln": &in.Kiln}[s.Stage]; {
		case into != nil && *into == "":
			*into = s.Vessel
		}
	}
}

// carriesOut refuses a cast that names an intention which does not stand.
func (d *desk) carriesOut(ctx context.Context, in *ledger.Casting) error {
	if in.Does == "" || d.was != nil {
		return nil
	}
	return d.stands(ctx, in.Does)
}

// stands refuses an intention that was struck, replaced or carried out.
func (d *desk) stands(ctx context.Context, id ledger.FactID) error {
	open, err := intentions(ctx, d)
	if err == nil && !slices.ContainsFunc(open, func(i Entered[*ledger.Intention]) bool { return i.Fact.ID == string(id) }) {
		err = refuse("use.intention.unknown", string(id))
	}
	return err
}

// Intentions lists the pieces that are to be cast, in the order of their
// beginnings.
func (h *House) Intentions(ctx context.Context, a Actor) ([]Entered[*ledger.Intention], error) {
	if err := a.Permit(UseLook); err != nil {
		return nil, err
	}
	return intentions(ctx, h.Store.Read(h.Code))
}

// Intention is one that was entered, whether or not it still stands.
func (h *House) Intention(ctx context.Context, a Actor, id ledger.FactID) (*ledger.Intention, error) {
	if err := a.Permit(UseLook); err != nil {
		return nil, err
	}
	f, found, err := h.Store.Read(h.Code).Fact(ctx, string(id))
	if err != nil {
		return nil, err
	}
	if found {
		body, err := ledger.Decode(f.Kind, f.Schema, f.Body)
		if in, ok := body.(*ledger.Intention); ok || err != nil {
			return in, err
		}
	}
	return nil, refuse("use.intention.unknown", string(id))
}

// intentions are those that still stand.
func intentions(ctx context.Context, r ledger.Reader) ([]Entered[*ledger.Intention], error) {
	all, facts, err := bodies[*ledger.Intention](ctx, r, "", ledger.Intended)
	if err != nil {
		return nil, err
	}
	casts, _, err := bodies[*ledger.Casting](ctx, r, "", ledger.Cast)
	if err != nil {
		return nil, err
	}
	gone := map[ledger.FactID]bool{}
	for _, b := range all {
		gone[b.Replaces] = true
	}
	for _, c := range casts {
		gone[c.Does] = true
	}
	var out []Entered[*ledger.Intention]
	for i, b := range all {
		if !gone[ledger.FactID(facts[i].ID)] {
			out = append(out, Entered[*ledger.Intention]{Fact: facts[i], Body: b})
		}
	}
	slices.SortStableFunc(out, func(a, b Entered[*ledger.Intention]) int { return int(min(max(a.Body.Begin-b.Body.Begin, -1), 1)) })
	return out, nil
}

package malthouse

import (
	"context"
	"time"

	"awn/ledger"
)

func timeOf(f ledger.Fact, zone *time.Location) time.Time { return time.UnixMilli(f.At).In(zone) }

// Welcome finds out who somebody is. Of a record that knows nobody yet, the
// first to come is the manager; first says so.
func (h *House) Welcome(ctx context.Context, id string) (a Actor, first bool, err error) {
	people, err := h.Desk.People(ctx)
	if err != nil {
		return Actor{}, false, err
	}
	var ids []string
	for _, p := range people {
		if p.ID == id && p.Role != "" {
			return Actor{p.ID, p.Name, p.Role}, false, nil
		}
		if p.Role != "" {
			ids = append(ids, p.ID)
		}
	}
	if len(ids) > 0 {
		return Actor{}, false, refuse("use.person.unknown", id, ids...)
	}
	p := Person{ID: id, Name: id, Role: Manager}
	return Actor{p.ID, p.Name, p.Role}, true, h.Desk.PutPerson(ctx, p)
}

// Admit makes somebody known, or brings name, role and contact up to date. The
// role is on record as a decision; name and contact are not, so that a person
// can be removed.
func (h *House) Admit(ctx context.Context, a Actor, e Entry, p Person) (Done, error) {
	if err := a.Permit(UsePeople); err != nil {
		return Done{}, err
	}
	if p.Role != "" && !p.Role.known() {
		var all []string
		for _, r := range Roles() {
			all = append(all, string(r))
		}
		return Done{}, refuse("use.person.role", string(p.Role), all...)
	}
	if p.Name == "" {
		p.Name = p.ID
	}
	what := "role of " + p.ID + ": " + string(p.Role)
	said := "admitted"
	if p.Role == "" {
		what, said = "known: "+p.ID, "known"
	}
	done, err := h.enter(ctx, a, UsePeople, e, &ledger.Decision{Decision: what}, steps{
		said: func() Said { return say(said, "who", p.Name, "role", string(p.Role)) },
	})
	if err != nil {
		return done, err
	}
	return done, h.Desk.PutPerson(ctx, p)
}

func (r Role) known() bool { return r.May(UseLook) }

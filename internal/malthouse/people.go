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
			return p.Actor(), false, nil
		}
		if p.Role != "" {
			ids = append(ids, p.ID)
		}
	}
	if len(ids) > 0 {
		return Actor{}, false, refuse("use.person.unknown", id, ids...)
	}
	p := Person{ID: id, Name: id, Role: Manager}
	return p.Actor(), true, h.Desk.PutPerson(ctx, p)
}

// Actor is the person at work.
func (p Person) Actor() Actor { return Actor{ID: p.ID, Name: p.Name, Role: p.Role} }

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
	if p.Role != Manager {
		if _, err := h.leaving(ctx, p.ID); err != nil {
			return Done{}, err
		}
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

// leaving is the person who is no longer to be a manager, if the house knows
// them. It refuses to let the last manager go.
func (h *House) leaving(ctx context.Context, id string) (who *Person, err error) {
	people, err := h.Desk.People(ctx)
	if err != nil {
		return nil, err
	}
	managers := 0
	for i, p := range people {
		if p.ID == id {
			who = &people[i]
		}
		if p.Role == Manager {
			managers++
		}
	}
	if who != nil && who.Role == Manager && managers == 1 {
		return nil, refuse("use.person.last", id)
	}
	return who, nil
}

// Dismiss forgets a person: name, contact, role and all that let them in. What
// they entered keeps their id.
func (h *House) Dismiss(ctx context.Context, a Actor, e Entry, id string) (Done, error) {
	if err := a.Permit(UsePeople); err != nil {
		return Done{}, err
	}
	p, err := h.leaving(ctx, id)
	if err == nil && p == nil {
		err = refuse("use.person.unknown", id)
	}
	if err != nil {
		return Done{}, err
	}
	done, err := h.enter(ctx, a, UsePeople, e, &ledger.Decision{Decision: "removed: " + id}, steps{
		said: func() Said { return say("dismissed", "who", p.Name) },
	})
	if err != nil {
		return done, err
	}
	return done, h.Desk.RemovePerson(ctx, id)
}

func (r Role) known() bool { return r.May(UseLook) }

package office

import (
	"context"
	"strings"

	"awn/internal/malthouse"
	"awn/internal/sqlstore"
)

// cabinet is what a house keeps beside its facts, in its database.
type cabinet struct {
	db    *sqlstore.DB
	house string
}

var _ malthouse.Desk = cabinet{}

// settingRole is the beginning of the key of somebody's role.
const settingRole = "role."

func (c cabinet) whole(ctx context.Context, p sqlstore.Person) (malthouse.Person, error) {
	role, _, err := c.db.Setting(ctx, c.house, settingRole+p.ID)
	var contact []string
	for _, s := range []string{p.Phone, p.Email, p.Address} {
		if s != "" {
			contact = append(contact, s)
		}
	}
	return malthouse.Person{ID: p.ID, Name: p.Name, Role: malthouse.Role(role), Contact: strings.Join(contact, ", ")}, err
}

// Person is who an id stands for.
func (c cabinet) Person(ctx context.Context, id string) (malthouse.Person, error) {
	p, err := c.db.Person(ctx, c.house, id)
	if err != nil {
		return malthouse.Person{}, err
	}
	return c.whole(ctx, p)
}

// People are all that the house knows.
func (c cabinet) People(ctx context.Context) ([]malthouse.Person, error) {
	all, err := c.db.People(ctx, c.house)
	out := make([]malthouse.Person, len(all))
	for i := range all {
		if err == nil {
			out[i], err = c.whole(ctx, all[i])
		}
	}
	return out, err
}

// PutPerson keeps a person, whose contact is a line as it is typed.
func (c cabinet) PutPerson(ctx context.Context, p malthouse.Person) error {
	if err := c.db.PutPerson(ctx, c.house, sqlstore.Person{ID: p.ID, Name: p.Name, Phone: p.Contact}); err != nil {
		return err
	}
	return c.db.Set(ctx, c.house, settingRole+p.ID, string(p.Role))
}

// RemovePerson forgets a person.
func (c cabinet) RemovePerson(ctx context.Context, id string) error {
	if err := c.db.Set(ctx, c.house, settingRole+id, ""); err != nil {
		return err
	}
	return c.db.RemovePerson(ctx, c.house, id)
}

// Setting is what the house has set.
func (c cabinet) Setting(ctx context.Context, key string) (string, bool, error) {
	return c.db.Setting(ctx, c.house, key)
}

// Set keeps a setting; name and zone are those of the house itself as well.
func (c cabinet) Set(ctx context.Context, key, value string) error {
	houses, err := c.db.Houses(ctx)
	if err != nil {
		return err
	}
	for _, h := range houses {
		if h.Code != c.house {
			continue
		}
		switch key {
		case malthouse.SettingName:
			h.Name = value
		case malthouse.SettingZone:
			h.Zone = value
		}
		if err := c.db.PutHouse(ctx, h); err != nil {
			return err
		}
	}
	return c.db.Set(ctx, c.house, key, value)
}

// Document is a file by its name.
func (c cabinet) Document(ctx context.Context, sha string) ([]byte, error) {
	d, err := c.db.Document(ctx, c.house, sha)
	return d.Bytes, err
}

package sqlstore

import (
	"context"
	"database/sql"
	"errors"
)

// Person is somebody whom facts know by id alone.
type Person struct {
	ID                          string
	Name, Email, Phone, Address string
}

// PutPerson adds a person, or brings name and contact up to date.
func (db *DB) PutPerson(ctx context.Context, house string, p Person) error {
	return db.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `
			insert into person (house, id, name, email, phone, address) values ($1, $2, $3, $4, $5, $6)
			on conflict (house, id) do update set
				name = excluded.name, email = excluded.email, phone = excluded.phone, address = excluded.address`,
			house, p.ID, p.Name, p.Email, p.Phone, p.Address)
		return err
	})
}

// Person returns who an id stands for.
func (db *DB) Person(ctx context.Context, house string, id string) (Person, error) {
	p := Person{ID: id}
	err := db.R.QueryRowContext(ctx, `select name, email, phone, address from person where house = $1 and id = $2`, house, id).
		Scan(&p.Name, &p.Email, &p.Phone, &p.Address)
	if errors.Is(err, sql.ErrNoRows) {
		err = &Fault{Code: "record.person.missing", Place: db.Place, Detail: id}
	}
	return p, db.explain(err)
}

// RemovePerson forgets a person. Facts keep the id, so no hash breaks. Backups
// made before still hold the name.
func (db *DB) RemovePerson(ctx context.Context, house string, id string) error {
	return db.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `delete from person where house = $1 and id = $2`, house, id)
		return err
	})
}

// Package office opens the record of a house in a database and gives the house
// that works on it: the one place where the uses meet the store, the clock and
// the key.
package office

import (
	"context"
	"crypto/ed25519"
	"crypto/rand"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"awn/certificate"
	"awn/internal/house"
	"awn/internal/malthouse"
	"awn/internal/sqlstore"
)

// Office is a house with its record open.
type Office struct {
	*malthouse.House
	DB      *sqlstore.DB
	Row     sqlstore.House // of the house in the database
	Address string
}

// usualHouse is what a record holds before anybody names its house.
const usualHouse = "house"

// Open opens the record at an address; it is made if it is not there and create
// says so.
func Open(ctx context.Context, address string, create bool) (*Office, error) {
	open := sqlstore.OpenExisting
	if create {
		open = sqlstore.Open
	}
	db, err := open(ctx, address)
	if err != nil {
		return nil, err
	}
	o, err := of(ctx, db, address)
	if err != nil {
		return nil, errors.Join(err, db.Close())
	}
	return o, nil
}

// of is the first house of a database, made if there is none.
func of(ctx context.Context, db *sqlstore.DB, address string) (*Office, error) {
	houses, err := db.Houses(ctx)
	if err != nil {
		return nil, err
	}
	h := sqlstore.House{Code: usualHouse, Name: usualHouse, Zone: "Local"}
	if len(houses) > 0 {
		h = houses[0]
	} else if err := db.PutHouse(ctx, h); err != nil {
		return nil, err
	}
	zone, err := time.LoadLocation(h.Zone)
	if err != nil {
		return nil, fmt.Errorf("the time zone of the house: %w", err)
	}
	o := &Office{DB: db, Row: h, Address: address}
	o.House = &malthouse.House{
		Code: h.Code, Zone: zone, Store: db, Desk: cabinet{db, h.Code}, Sensors: sensors{db, h.Code, sqlstore.NewEnvelopes(db, h.Code)}, Clock: time.Now, Random: rand.Reader, Key: o.key, Shares: &malthouse.Shares{},
	}
	return o, nil
}

// Set keeps a setting of the house, and goes by its time zone where that is
// set.
func (o *Office) Set(ctx context.Context, key, value string) error {
	if err := malthouse.CheckSetting(key, value); err != nil {
		return err
	}
	if err := o.Desk.Set(ctx, key, value); err != nil {
		return err
	}
	return o.Reread(ctx)
}

// Reread goes by what is set now. The house of before stays as it was, for
// those who are at work in it.
func (o *Office) Reread(ctx context.Context) error {
	houses, err := o.DB.Houses(ctx)
	if err != nil {
		return err
	}
	for _, h := range houses {
		if h.Code != o.Row.Code {
			continue
		}
		zone, err := time.LoadLocation(h.Zone)
		if err != nil {
			return fmt.Errorf("the time zone of the house: %w", err)
		}
		next := *o.House
		next.Zone = zone
		o.Row, o.House = h, &next
	}
	return nil
}

// key is the key that the house signs with.
func (o *Office) key() (ed25519.PrivateKey, error) {
	name, err := o.KeyFile()
	if err != nil {
		return nil, err
	}
	key, _, err := house.Key(name)
	return key, err
}

// KeyFile is where the key lies.
func (o *Office) KeyFile() (string, error) { return o.Beside("key", "AWN_KEY") }

// Beside is the file of a secret that lies beside the record and not in it, or
// where a variable of the environment says.
func (o *Office) Beside(what, variable string) (string, error) {
	if name := os.Getenv(variable); name != "" {
		return name, nil
	}
	if strings.Contains(o.Address, "://") {
		return "", fmt.Errorf("%s must name the file of the %s, for the record is on a server", variable, what)
	}
	file := strings.TrimPrefix(o.Address, "sqlite:")
	return strings.TrimSuffix(file, filepath.Ext(file)) + "." + what, nil
}

// NewKey takes a new key into use. It is made beside the old one, entered, and
// then put in its place; the old one is kept under another name, of which only
// the owner can read it. Cut short, the next try goes on with the same key.
func (o *Office) NewKey(ctx context.Context, a malthouse.Actor, reason string) (done malthouse.Done, retired string, err error) {
	name, err := o.KeyFile()
	if err != nil {
		return done, "", err
	}
	if err := a.Permit(malthouse.UseKey); err != nil {
		return done, "", err
	}
	next := name + ".next"
	key, _, err := house.Key(next)
	if err != nil {
		return done, "", err
	}
	if done, err = o.TakeKey(ctx, a, key.Public().(ed25519.PublicKey), reason); err != nil {
		return done, "", err
	}
	if old, err := house.ReadKey(name); err == nil {
		print := certificate.Fingerprint(old.Public().(ed25519.PublicKey))
		retired = name + ".retired-" + strings.ReplaceAll(print, " ", "")
		if err := os.Rename(name, retired); err != nil {
			return done, "", err
		}
	} else if !errors.Is(err, os.ErrNotExist) {
		return done, "", err
	}
	return done, retired, os.Rename(next, name)
}

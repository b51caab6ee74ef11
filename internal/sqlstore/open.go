package sqlstore

import (
	"context"
	"net/url"
	"strings"
)

// Open opens a record, makes it where there is none, and brings an older one
// to this release. The address is the path of a file, sqlite:PATH, or
// postgres://user@host/database.
func Open(ctx context.Context, address string) (*DB, error) {
	db, err := connect(ctx, address, true)
	if err != nil {
		return nil, err
	}
	return db.ready(ctx)
}

// OpenExisting is [Open] for whoever only wants a record that is there: a
// mistyped path does not make a new one.
func OpenExisting(ctx context.Context, address string) (*DB, error) {
	db, err := connect(ctx, address, false)
	if err != nil {
		return nil, err
	}
	return db.ready(ctx)
}

// ready brings an open record to this release, or lets go of it.
func (db *DB) ready(ctx context.Context) (*DB, error) {
	if err := db.migrate(ctx, migrations); err != nil {
		db.Close()
		return nil, err
	}
	return db, nil
}

// split parts an address into its database and what names the record there.
func split(address string) (Dialect, string, error) {
	scheme, rest, found := strings.Cut(address, ":")
	switch {
	case address == "":
		return "", "", &Fault{Code: "record.address.unknown", Place: "An empty address"}
	case found && scheme == "sqlite":
		return SQLite, rest, nil
	case found && (scheme == "postgres" || scheme == "postgresql") && strings.HasPrefix(rest, "//"):
		return PostgreSQL, address, nil
	case strings.Contains(address, "://"):
		return "", "", &Fault{Code: "record.address.unknown", Place: withoutPassword(address)}
	}
	return SQLite, address, nil
}

// withoutPassword is an address that may be shown.
func withoutPassword(address string) string {
	u, err := url.Parse(address)
	if err != nil {
		scheme, _, _ := strings.Cut(address, ":")
		return scheme + "://..."
	}
	q := u.Query()
	for _, key := range []string{"password", "sslpassword"} {
		q.Del(key)
	}
	u.RawQuery = q.Encode()
	if u.User != nil {
		u.User = url.User(u.User.Username())
	}
	return u.String()
}

func connect(ctx context.Context, address string, create bool) (*DB, error) {
	dialect, name, err := split(address)
	if err != nil {
		return nil, err
	}
	if dialect == PostgreSQL {
		return connectPostgres(ctx, name)
	}
	return connectSQLite(ctx, name, create)
}

// Pools. One writer on SQLite, because it has one lock for the whole file; on
// PostgreSQL enough for a room of people.
const (
	sqliteReaders   = 4
	postgresWriters = 8
	postgresReaders = 8
)

package sqlstore

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"strings"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/stdlib"
	_ "github.com/ncruces/go-sqlite3/driver" // registers sqlite3
)

// Open opens a record, makes it where there is none, and brings an older one
// to this release. The address is the path of a file, sqlite:PATH, or
// postgres://user@host/database.
func Open(ctx context.Context, address string) (*DB, error) {
	db, err := connect(ctx, address, true)
	if err != nil {
		return nil, err
	}
	if err := db.migrate(ctx, migrations); err != nil {
		db.Close()
		return nil, err
	}
	return db, nil
}

// OpenExisting is [Open] for whoever only wants a record that is there: a
// mistyped path does not make a new one.
func OpenExisting(ctx context.Context, address string) (*DB, error) {
	db, err := connect(ctx, address, false)
	if err != nil {
		return nil, err
	}
	if err = db.migrate(ctx, migrations); err != nil {
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

// How a connection to a file behaves. The wait comes first: the other lines
// already touch the file. FULL, so that an acknowledged entry survives a power
// cut. What is deleted, a person removed for instance, is overwritten.
const (
	sqliteWriter = "_pragma=busy_timeout(10000)&_pragma=journal_mode(WAL)&_pragma=synchronous(FULL)" +
		"&_pragma=foreign_keys(1)&_pragma=secure_delete(1)&_txlock=immediate"
	sqliteReader = "_pragma=busy_timeout(10000)&_pragma=query_only(1)&_txlock=deferred"
)

func connectSQLite(ctx context.Context, path string, create bool) (*DB, error) {
	fault := func(code, detail string, err error) (*DB, error) {
		return nil, &Fault{Code: code, Place: path, Detail: detail, Err: err}
	}
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist) && !create:
		return fault("record.file.missing", "", err)
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		return fault("record.file.folder", cause(err), err)
	case err == nil && info.IsDir():
		return fault("record.file.foreign", "it is a folder", nil)
	}
	db := &DB{Dialect: SQLite, Place: path}
	if db.W, err = openFile(path, sqliteWriter, 1); err != nil {
		return nil, err
	}
	if db.R, err = openFile(path, sqliteReader, sqliteReaders); err != nil {
		return nil, err
	}
	if err := db.W.PingContext(ctx); err != nil {
		db.Close()
		return nil, db.explain(err)
	}
	return db, nil
}

// openFile is a pool of connections to a file, none of them made yet.
func openFile(path, behaviour string, size int) (*sql.DB, error) {
	uri, err := fileURI(path)
	if err != nil {
		return nil, err
	}
	pool, err := sql.Open("sqlite3", uri+"?"+behaviour)
	if err != nil {
		return nil, err
	}
	pool.SetMaxOpenConns(size)
	pool.SetMaxIdleConns(size)
	return pool, nil
}

// fileURI names a file for SQLite, whatever signs its name holds.
func fileURI(path string) (string, error) {
	full, err := filepath.Abs(path)
	if err != nil {
		return "", err
	}
	full = filepath.ToSlash(full)
	if !strings.HasPrefix(full, "/") { // a drive letter
		full = "/" + full
	}
	return (&url.URL{Scheme: "file", OmitHost: true, Path: full}).String(), nil
}

func connectPostgres(ctx context.Context, address string) (*DB, error) {
	place := withoutPassword(address)
	config, err := pgx.ParseConfig(address)
	if err != nil {
		// What the parser says repeats the address, so it is not passed on.
		return nil, &Fault{Code: "record.address.unknown", Place: place}
	}
	db := &DB{Dialect: PostgreSQL, Place: place}
	db.W = stdlib.OpenDB(*config)
	db.W.SetMaxOpenConns(postgresWriters)
	db.W.SetMaxIdleConns(postgresWriters)
	reading := config.Copy()
	reading.RuntimeParams["default_transaction_read_only"] = "on"
	db.R = stdlib.OpenDB(*reading)
	db.R.SetMaxOpenConns(postgresReaders)
	db.R.SetMaxIdleConns(postgresReaders)
	if err := db.W.PingContext(ctx); err != nil {
		db.Close()
		return nil, db.explain(err)
	}
	return db, db.checkServer(ctx)
}

// oldestPostgres is the oldest server that the tests run against, as the
// server counts.
const oldestPostgres = 150000

// checkServer refuses a server that is too old or not in UTF-8.
func (db *DB) checkServer(ctx context.Context) error {
	var version, encoding string
	err := db.W.QueryRowContext(ctx, `select current_setting('server_version_num'), current_setting('server_encoding')`).Scan(&version, &encoding)
	if err != nil {
		return db.explain(err)
	}
	refuse := func(why string) error {
		db.Close()
		return &Fault{Code: "record.server.refused", Place: db.Place, Detail: why}
	}
	var number int
	if _, err := fmt.Sscan(version, &number); err != nil || number < oldestPostgres {
		return refuse("PostgreSQL 15 or later is needed")
	}
	if encoding != "UTF8" {
		return refuse("the database must be in UTF-8, and is in " + encoding)
	}
	return nil
}

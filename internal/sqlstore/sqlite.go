package sqlstore

import (
	"context"
	"database/sql"
	"errors"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"time"

	_ "github.com/ncruces/go-sqlite3/driver" // registers sqlite3
)

// How a connection to a file behaves. The wait comes first: the other lines
// already touch the file. FULL, so that an acknowledged entry survives a power
// cut. What is deleted, a person removed for instance, is overwritten.
const (
	mostWait     = 10 * time.Second // as in the lines below
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
	if err := db.reach(ctx); err != nil {
		db.Close()
		return nil, err
	}
	return db, nil
}

// reach makes the first connection. A file that others open for the first time
// too may be locked just then without SQLite waiting: it does not wait for a
// change of the journal.
func (db *DB) reach(ctx context.Context) error {
	const rest = 20 * time.Millisecond
	for begun := time.Now(); ; {
		err := db.W.PingContext(ctx)
		if err == nil {
			return nil
		}
		err = db.explain(err)
		if Code(err) != "record.file.locked" || time.Since(begun) > mostWait {
			return err
		}
		select {
		case <-time.After(rest):
		case <-ctx.Done():
			return ctx.Err()
		}
	}
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

const sqliteTables = `select name from sqlite_schema where type = 'table' and name not like 'sqlite\_%' escape '\' order by 1`

// integrity asks SQLite whether a file is sound.
func integrity(ctx context.Context, pool *sql.DB, place string) error {
	var said string
	if err := pool.QueryRowContext(ctx, `pragma integrity_check(1)`).Scan(&said); err != nil {
		return explain(place, SQLite, err)
	}
	if said != "ok" {
		return &Fault{Code: "record.integrity.database", Place: place, Detail: said}
	}
	return nil
}

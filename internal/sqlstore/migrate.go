package sqlstore

import (
	"context"
	"embed"
	"fmt"
	"io/fs"
	"os"
	"time"

	"github.com/pressly/goose/v3"
)

// embedded holds the migrations, a folder for each database. A number stands
// in both; it never changes once released, and nothing goes back down.
//
//go:embed migrations/*/*.sql
var embedded embed.FS

// migrations are the migrations of this release.
var migrations = must(fs.Sub(embedded, "migrations"))

func must(f fs.FS, err error) fs.FS {
	if err != nil {
		panic(err) // the name is a constant: it is there or the program does not build
	}
	return f
}

// versionTable is where a record keeps which migrations it has had.
const versionTable = "migration"

// migrate brings a record to the last of the migrations. A second program may
// be doing the same: each migration is one transaction, so whoever comes late
// finds it done and goes on from there.
func (db *DB) migrate(ctx context.Context, all fs.FS) error {
	if err := db.checkOurs(ctx); err != nil {
		return err
	}
	files, err := fs.Sub(all, string(db.Dialect))
	if err != nil {
		return err
	}
	dialect := goose.DialectSQLite3
	if db.Dialect == PostgreSQL {
		dialect = goose.DialectPostgres
	}
	provider, err := goose.NewProvider(dialect, db.W, files,
		goose.WithTableName(versionTable), goose.WithDisableGlobalRegistry(true), goose.WithLogger(goose.NopLogger()))
	if err != nil {
		return err
	}
	const (
		tries = 60
		rest  = 20 * time.Millisecond // between tries, for another program may be at the same work
	)
	for i := range tries {
		if i > 0 {
			select {
			case <-time.After(rest):
			case <-ctx.Done():
				return ctx.Err()
			}
		}
		var current, target int64
		if current, target, err = provider.GetVersions(ctx); err != nil {
			continue
		}
		if current > target {
			return &Fault{Code: "record.schema.newer", Place: db.Place,
				Detail: fmt.Sprintf("its tables are number %d, this release knows %d", current, target)}
		}
		if current == target {
			return nil
		}
		err = db.copyBefore(ctx, current)
		if code := Code(err); code == "record.file.locked" || code == "record.backup.exists" {
			continue // another program is at the same
		}
		if err != nil {
			return err
		}
		if _, err = provider.Up(ctx); err == nil {
			return nil
		}
	}
	if err = db.explain(err); Code(err) != "" {
		return err
	}
	return &Fault{Code: "record.schema.stopped", Place: db.Place, Detail: err.Error(), Err: err}
}

// checkOurs refuses a database that holds somebody else's tables.
func (db *DB) checkOurs(ctx context.Context) error {
	names, err := db.tables(ctx)
	if err != nil {
		return err
	}
	for _, n := range names {
		if n == versionTable {
			return nil
		}
	}
	if len(names) > 0 {
		return &Fault{Code: "record.file.foreign", Place: db.Place, Detail: "it holds other tables (" + names[0] + ")"}
	}
	return nil
}

// tables names the tables of the record, in the order of their names.
func (db *DB) tables(ctx context.Context) ([]string, error) {
	query := sqliteTables
	if db.Dialect == PostgreSQL {
		query = postgresTables
	}
	rows, err := db.W.QueryContext(ctx, query)
	if err != nil {
		return nil, db.explain(err)
	}
	return collect(db, rows, func(name *string) []any { return []any{name} })
}

// copyBefore keeps a file as it is before a migration changes it.
func (db *DB) copyBefore(ctx context.Context, version int64) error {
	if db.Dialect != SQLite || version == 0 {
		return nil
	}
	path := fmt.Sprintf("%s.before-%04d", db.Place, version)
	if _, err := os.Stat(path); err == nil {
		return nil // from a try before this one: it is the older state that is worth keeping
	}
	return db.backupFile(ctx, path)
}

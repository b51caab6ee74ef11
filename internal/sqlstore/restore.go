package sqlstore

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"time"
)

// Backup writes a record to a new file while others go on writing to it. From
// SQLite it is a record that can be opened as it is; from PostgreSQL, or when
// asked for, an archive that goes into either database.
func (db *DB) Backup(ctx context.Context, path string, archive bool) error {
	if db.Dialect == SQLite && !archive {
		return db.backupFile(ctx, path)
	}
	err := writeWhole(path, func(part string) error {
		f, err := os.OpenFile(part, os.O_WRONLY, 0)
		if err != nil {
			return err
		}
		if err := errors.Join(db.writeArchive(ctx, f), f.Close()); err != nil {
			return err
		}
		z, _, err := openArchive(part)
		if err != nil {
			return err
		}
		return z.Close()
	})
	return explain(path, SQLite, err) // a full disk is the same whatever was writing
}

// Restore makes a record at an address from a backup. An existing file is
// refused unless replace is set, and then kept under another name once the
// backup has proved sound; a database
// that holds entries is always refused. The record is checked, by verify too
// where given, before it gets its name.
func Restore(ctx context.Context, backup, address string, replace bool, verify func(context.Context, *DB) error) error {
	dialect, path, err := split(address)
	if err != nil {
		return err
	}
	if _, err := os.Stat(backup); err != nil {
		return &Fault{Code: "record.file.missing", Place: backup, Err: err}
	}
	if dialect == PostgreSQL {
		if !isArchive(backup) {
			return &Fault{Code: "record.backup.target", Place: withoutPassword(address), Detail: "SQLite"}
		}
		return restoreInto(ctx, backup, address, verify)
	}
	if _, err := os.Stat(path); err != nil {
		return restoreFile(ctx, backup, path, verify)
	}
	if !replace {
		return &Fault{Code: "record.backup.exists", Place: path}
	}
	restored := path + ".restored"
	if err := restoreFile(ctx, backup, restored, verify); err != nil {
		return err
	}
	if err := setAside(ctx, path); err != nil {
		return err
	}
	return explain(path, SQLite, os.Rename(restored, path))
}

// restoreFile makes a new file from a backup.
func restoreFile(ctx context.Context, backup, path string, verify func(context.Context, *DB) error) error {
	return writeWhole(path, func(part string) error {
		if isArchive(backup) {
			return restoreInto(ctx, backup, part, verify)
		}
		if err := copyFile(backup, part); err != nil {
			return explain(part, SQLite, err)
		}
		if err := settle(ctx, part); err != nil {
			return &Fault{Code: "record.backup.damaged", Place: backup, Detail: err.Error(), Err: err}
		}
		if !isRecord(ctx, part) { // an empty file would pass for a new record
			return &Fault{Code: "record.backup.damaged", Place: backup, Detail: "it holds no record"}
		}
		return check(ctx, part, verify)
	})
}

// isRecord reports whether a file holds the tables of a record.
func isRecord(ctx context.Context, path string) bool {
	db, err := connectSQLite(ctx, path, false)
	if err != nil {
		return false
	}
	defer db.Close()
	names, err := db.tables(ctx)
	return err == nil && slices.Contains(names, versionTable)
}

// restoreInto fills a new record from an archive.
func restoreInto(ctx context.Context, backup, address string, verify func(context.Context, *DB) error) error {
	db, err := Open(ctx, address)
	if err != nil {
		return err
	}
	err = db.fillFrom(ctx, backup)
	if e := db.Close(); err == nil {
		err = e
	}
	if err != nil {
		return err
	}
	return check(ctx, address, verify)
}

// check opens a record anew and looks through it.
func check(ctx context.Context, address string, verify func(context.Context, *DB) error) error {
	db, err := Open(ctx, address)
	if err != nil {
		return err
	}
	err = db.Check(ctx)
	if err == nil && verify != nil {
		err = verify(ctx, db)
	}
	if e := db.Close(); err == nil {
		err = e
	}
	return err
}

// setAside gives a record another name, with what is still in its log. Its
// last connection closing writes the log into the file.
func setAside(ctx context.Context, path string) error {
	if db, err := connectSQLite(ctx, path, false); err == nil {
		db.Close()
	}
	aside := fmt.Sprintf("%s.replaced-%d", path, time.Now().UnixMilli())
	for _, end := range []string{"", "-wal", "-shm"} {
		err := os.Rename(path+end, aside+end)
		if err != nil && !errors.Is(err, os.ErrNotExist) {
			return &Fault{Code: "record.file.folder", Place: path, Detail: cause(err), Err: err}
		}
	}
	return nil
}

func copyFile(from, to string) error {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer in.Close()
	out, err := os.OpenFile(to, os.O_WRONLY|os.O_TRUNC, 0)
	if err != nil {
		return err
	}
	_, err = io.Copy(out, in)
	return errors.Join(err, out.Close())
}

// Check looks for damage: in the file as SQLite sees it, in every document, and
// in the readings under every closed seal. All that it finds is in the error.
func (db *DB) Check(ctx context.Context) error {
	var faults []error
	if db.Dialect == SQLite {
		faults = append(faults, integrity(ctx, db.R, db.Place))
	}
	houses, err := db.Houses(ctx)
	if err != nil {
		return errors.Join(append(faults, err)...)
	}
	for _, h := range houses {
		faults = append(faults, db.checkDocuments(ctx, h.Code), db.checkSeals(ctx, h.Code))
	}
	return errors.Join(faults...)
}

func (db *DB) checkDocuments(ctx context.Context, house string) error {
	rows, err := db.R.QueryContext(ctx, `select sha256 from document where house = $1`, house)
	if err != nil {
		return db.explain(err)
	}
	names, err := collect(db, rows, func(name *string) []any { return []any{name} })
	faults := []error{err}
	for _, name := range names {
		_, err := db.Document(ctx, house, name)
		faults = append(faults, err)
	}
	return errors.Join(faults...)
}

func (db *DB) checkSeals(ctx context.Context, house string) error {
	var seals []Seal
	err := db.look(ctx, func(tx *sql.Tx) (err error) {
		seals, err = db.seals(ctx, tx, `where house = $1 and closed = 1 order by series, number`, house)
		return err
	})
	faults := []error{err}
	for _, s := range seals {
		_, err := db.VerifySeal(ctx, house, s)
		faults = append(faults, err)
	}
	return errors.Join(faults...)
}

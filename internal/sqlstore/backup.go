package sqlstore

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/ncruces/go-sqlite3/driver"
)

// backupFile copies an SQLite record to a new file while others go on writing
// to it. The copy is one state of the record, is checked, and has its name
// only when it is whole and on the disk.
func (db *DB) backupFile(ctx context.Context, path string) error {
	return writeWhole(path, func(part string) error {
		uri, err := fileURI(part)
		if err != nil {
			return err
		}
		conn, err := db.R.Conn(ctx)
		if err != nil {
			return db.explain(err)
		}
		defer conn.Close()
		if err := conn.Raw(func(c any) error { return c.(driver.Conn).Raw().Backup("main", uri) }); err != nil {
			return explain(path, SQLite, err)
		}
		return settle(ctx, part)
	})
}

// settle makes a copied file stand alone, without a log beside it, and checks it.
func settle(ctx context.Context, part string) error {
	pool, err := openFile(part, "_pragma=busy_timeout(1000)&_pragma=journal_mode(DELETE)", 1)
	if err != nil {
		return err
	}
	defer pool.Close()
	return integrity(ctx, pool, part)
}

// writeWhole makes a file that is there whole or not at all. An existing one
// is refused.
func writeWhole(path string, fill func(part string) error) error {
	if _, err := os.Stat(path); err == nil {
		return &Fault{Code: "record.backup.exists", Place: path}
	}
	fault := func(err error) error {
		return &Fault{Code: "record.file.folder", Place: path, Detail: cause(err), Err: err}
	}
	f, err := os.CreateTemp(filepath.Dir(path), filepath.Base(path)+".part-*")
	if err != nil {
		return fault(err)
	}
	part := f.Name()
	defer os.Remove(part)
	if err := f.Close(); err != nil {
		return fault(err)
	}
	if err := fill(part); err != nil {
		return err
	}
	if err := syncFile(part); err != nil {
		return fault(err)
	}
	// A link, unlike a rename, does not overwrite what came there meanwhile.
	err = os.Link(part, path)
	if errors.Is(err, fs.ErrExist) {
		return &Fault{Code: "record.backup.exists", Place: path}
	}
	if err != nil { // a file system without links
		err = os.Rename(part, path)
	}
	if err != nil {
		return fault(err)
	}
	syncFolder(filepath.Dir(path))
	return nil
}

// syncFile waits until a file is on the disk.
func syncFile(path string) error {
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}

// syncFolder waits until a name is on the disk, where the system can do that;
// some cannot, and then there is nothing more to be done.
func syncFolder(path string) {
	f, err := os.Open(path)
	if err != nil {
		return
	}
	f.Sync()
	f.Close()
}

package sqlstore

import (
	"context"
	"database/sql"
	"database/sql/driver"
	"errors"
	"io"
	"io/fs"
	"net"
	"os"
	"path/filepath"
	"strings"
	"syscall"

	"github.com/jackc/pgx/v5/pgconn"
	"github.com/ncruces/go-sqlite3"
)

func explain(place string, dialect Dialect, err error) error {
	if _, ok := errors.AsType[*Fault](err); ok || err == nil {
		return err
	}
	if errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded) || errors.Is(err, sql.ErrNoRows) {
		return err
	}
	code, detail := "", ""
	if dialect == SQLite {
		code, detail = explainSQLite(err)
	} else {
		code, detail = explainPostgres(err)
	}
	switch {
	case code == "record.file.machine" && errors.Is(writeBeside(place), syscall.ENOSPC):
		code, detail = "record.file.full", ""
	case code == "record.file.folder" && there(place) && errors.Is(writeBeside(place), fs.ErrPermission):
		code, detail = "record.file.read-only", "" // its log cannot be made
	}
	if code == "" {
		return err
	}
	return &Fault{Code: code, Place: place, Detail: detail, Err: err}
}

// explainSQLite finds the code for what SQLite said. A pragma that fails on
// opening hides the code in the text, so the text is looked at last.
func explainSQLite(err error) (code, detail string) {
	switch {
	case errors.Is(err, sqlite3.FULL):
		return "record.file.full", ""
	case errors.Is(err, sqlite3.BUSY), errors.Is(err, sqlite3.LOCKED):
		return "record.file.locked", ""
	case errors.Is(err, sqlite3.READONLY):
		return "record.file.read-only", ""
	case errors.Is(err, sqlite3.NOTADB):
		return "record.file.foreign", "it is not a database"
	case errors.Is(err, sqlite3.CORRUPT):
		return "record.file.damaged", err.Error()
	case errors.Is(err, sqlite3.CANTOPEN), errors.Is(err, sqlite3.PERM):
		return "record.file.folder", cause(err)
	case errors.Is(err, sqlite3.IOERR):
		return "record.file.machine", cause(err)
	}
	for text, code := range map[string]string{
		"database is locked":        "record.file.locked",
		"readonly database":         "record.file.read-only",
		"database or disk is full":  "record.file.full",
		"file is not a database":    "record.file.foreign",
		"disk image is malformed":   "record.file.damaged",
		"unable to open database f": "record.file.folder",
		"disk I/O error":            "record.file.machine",
	} {
		if strings.Contains(err.Error(), text) {
			return code, err.Error()
		}
	}
	return "", ""
}

func there(place string) bool {
	_, err := os.Stat(place)
	return err == nil
}

// writeBeside tries to write next to a file: the driver says only that
// something failed, not that the disk is full or the folder closed. The file
// itself is not touched, because closing it could drop a lock of SQLite.
func writeBeside(place string) error {
	f, err := os.CreateTemp(filepath.Dir(place), ".awn-room-*")
	if err != nil {
		return err
	}
	defer os.Remove(f.Name())
	_, err = f.Write(make([]byte, 1<<20))
	return errors.Join(err, f.Close())
}

// cause is what the system said below SQLite, where it said anything.
func cause(err error) string {
	if e, ok := errors.AsType[syscall.Errno](err); ok {
		return e.Error()
	}
	if e, ok := errors.AsType[*fs.PathError](err); ok {
		return e.Err.Error()
	}
	return err.Error()
}

// explainPostgres finds the code for what PostgreSQL, or the way to it, said.
// The five signs of a state are in PostgreSQL 15, appendix A.
func explainPostgres(err error) (code, detail string) {
	if e, ok := errors.AsType[*pgconn.PgError](err); ok {
		switch class := e.Code[:min(2, len(e.Code))]; {
		case e.Code == "53100": // disk full
			return "record.file.full", ""
		case e.Code == "25006": // read-only transaction, as on a standby
			return "record.file.read-only", ""
		case e.Code == "53300": // too many connections
			return "record.server.busy", e.Message
		case class == "57": // stopped by an operator, shutting down, starting up
			return "record.server.lost", ""
		case class == "28", class == "3D", e.Code == "42501": // login, database, rights
			return "record.server.refused", e.Message
		case class == "40", e.Code == "55P03": // rolled back for another; lock not to be had
			return "record.server.busy", e.Message
		case class == "58", class == "XX": // system error, damaged data
			return "record.file.damaged", e.Message
		}
		return "", ""
	}
	if e, ok := errors.AsType[*pgconn.ConnectError](err); ok {
		return "record.server.absent", cause(e.Unwrap())
	}
	network, _ := errors.AsType[net.Error](err)
	if network != nil || errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, driver.ErrBadConn) ||
		strings.Contains(err.Error(), "conn closed") {
		return "record.server.lost", ""
	}
	return "", ""
}

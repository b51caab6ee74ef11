// Package storetest gives tests an empty record in either database, and holds
// the suite that both must pass alike.
package storetest

import (
	"path/filepath"
	"testing"

	"awn/internal/sqlstore"
)

// SQLiteURL is the address of a record in a new folder; no file is there yet.
func SQLiteURL(t testing.TB) string { return filepath.Join(t.TempDir(), "record.awn") }

// Open opens a record and closes it after the test.
func Open(t testing.TB, address string) *sqlstore.DB {
	t.Helper()
	db, err := sqlstore.Open(t.Context(), address)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { db.Close() })
	return db
}

// Each runs a test on an empty record in SQLite and in PostgreSQL.
func Each(t *testing.T, test func(t *testing.T, db *sqlstore.DB)) {
	t.Helper()
	EachURL(t, func(t *testing.T, address string) { test(t, Open(t, address)) })
}

// EachURL runs a test with the address of a record that nobody has opened yet.
func EachURL(t *testing.T, test func(t *testing.T, address string)) {
	t.Run("sqlite", func(t *testing.T) { test(t, SQLiteURL(t)) })
	t.Run("postgres", func(t *testing.T) { test(t, PostgresURL(t)) })
}

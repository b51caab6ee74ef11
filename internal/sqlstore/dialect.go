package sqlstore

import (
	"context"
	"database/sql"
)

// Dialect is which database holds a record.
type Dialect string

// The two databases.
const (
	SQLite     Dialect = "sqlite"
	PostgreSQL Dialect = "postgres"
)

// DB is an open record.
type DB struct {
	W       *sql.DB // writes; on SQLite a single connection, so a transaction must not wait for another
	R       *sql.DB // reads only, and is refused a write by the database
	Dialect Dialect
	Place   string // the file, or the server without its password

	statements statements
}

// Close lets go of the record.
func (db *DB) Close() error {
	err := db.R.Close()
	if e := db.W.Close(); err == nil {
		err = e
	}
	return db.explain(err)
}

// write runs work in one transaction: all of it is saved or none.
func (db *DB) write(ctx context.Context, work func(tx *sql.Tx) error) error {
	return db.transact(ctx, db.W, nil, func(_ *sql.Conn, tx *sql.Tx) error { return work(tx) })
}

// look runs work against one unchanging state of the record.
func (db *DB) look(ctx context.Context, work func(tx *sql.Tx) error) error {
	options := sql.TxOptions{ReadOnly: true}
	if db.Dialect == PostgreSQL {
		options.Isolation = sql.LevelRepeatableRead // SQLite has nothing less
	}
	return db.transact(ctx, db.R, &options, func(_ *sql.Conn, tx *sql.Tx) error { return work(tx) })
}

// transact also hands out the connection, for what database/sql cannot say.
func (db *DB) transact(ctx context.Context, pool *sql.DB, options *sql.TxOptions, work func(*sql.Conn, *sql.Tx) error) error {
	conn, err := pool.Conn(ctx)
	if err != nil {
		return db.explain(err)
	}
	defer conn.Close()
	tx, err := conn.BeginTx(ctx, options)
	if err != nil {
		return db.explain(err)
	}
	defer tx.Rollback() // after Commit it does nothing
	if err := work(conn, tx); err != nil {
		return db.explain(err)
	}
	return db.explain(tx.Commit())
}

// explain puts what a database said into a Fault. What is not a matter of the
// database, and what is explained already, passes through.
func (db *DB) explain(err error) error { return explain(db.Place, db.Dialect, err) }

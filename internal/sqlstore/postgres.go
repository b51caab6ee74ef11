package sqlstore

import (
	"context"
	"database/sql"
	"fmt"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/stdlib"
)

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

const postgresTables = `
	select c.relname from pg_class c join pg_namespace n on n.oid = c.relnamespace
	where c.relkind = 'r' and n.nspname = current_schema() order by c.relname collate "C"`

// copyIn loads by COPY, ten and more times as fast as row by row. COPY cannot
// pass over a row that is there already, so it fills a table of its own first.
func copyIn(conn *sql.Conn, tx *sql.Tx, house string) (loader, error) {
	_, err := tx.Exec(`create temp table if not exists incoming (at bigint, value double precision) on commit delete rows`)
	return func(ctx context.Context, seal int64, rows []Reading) (added span, err error) {
		err = conn.Raw(func(c any) error {
			next := func(i int) ([]any, error) { return []any{rows[i].AtMS, rows[i].Value}, nil }
			_, err := c.(*stdlib.Conn).Conn().CopyFrom(ctx, pgx.Identifier{"incoming"}, []string{"at", "value"}, pgx.CopyFromSlice(len(rows), next))
			return err
		})
		if err != nil {
			return added, err
		}
		err = tx.QueryRowContext(ctx, `
			with added as (
				insert into reading (house, series, at, value, seal)
				select distinct on (at) $1::text, $2::bigint, at, value, $3::bigint from incoming
				on conflict (house, series, at) do nothing returning at)
			select count(*), coalesce(min(at), 0), coalesce(max(at), 0) from added`, house, rows[0].Series, seal).
			Scan(&added.count, &added.fromMS, &added.toMS)
		if err != nil {
			return added, err
		}
		_, err = tx.ExecContext(ctx, `delete from incoming`)
		return added, err
	}, err
}

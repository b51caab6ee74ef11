package sqlstore

import (
	"context"
	"database/sql"
	"sync"
)

// statements are those that writing facts uses again and again, prepared on
// the writing pool. One that is new is used as text first and prepared when
// the transaction is over, because the transaction holds the only connection.
type statements struct {
	lock  sync.Mutex
	ready map[string]*sql.Stmt
}

// prepared is a transaction that uses prepared statements where it can.
type prepared struct {
	*sql.Tx
	db  *DB
	new map[string]bool
}

func (p prepared) find(ctx context.Context, query string) *sql.Stmt {
	p.db.statements.lock.Lock()
	defer p.db.statements.lock.Unlock()
	s := p.db.statements.ready[query]
	if s == nil {
		p.new[query] = true
		return nil
	}
	return p.StmtContext(ctx, s)
}

// ExecContext runs a statement.
func (p prepared) ExecContext(ctx context.Context, query string, args ...any) (sql.Result, error) {
	if s := p.find(ctx, query); s != nil {
		return s.ExecContext(ctx, args...)
	}
	return p.Tx.ExecContext(ctx, query, args...)
}

// QueryContext asks for rows.
func (p prepared) QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error) {
	if s := p.find(ctx, query); s != nil {
		return s.QueryContext(ctx, args...)
	}
	return p.Tx.QueryContext(ctx, query, args...)
}

// QueryRowContext asks for one row.
func (p prepared) QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row {
	if s := p.find(ctx, query); s != nil {
		return s.QueryRowContext(ctx, args...)
	}
	return p.Tx.QueryRowContext(ctx, query, args...)
}

// prepare makes statements ready for the next transaction. PostgreSQL's driver
// does so by itself.
func (db *DB) prepare(ctx context.Context, queries map[string]bool) {
	if db.Dialect != SQLite {
		return
	}
	for q := range queries {
		s, err := db.W.PrepareContext(ctx, q) // waits for the connection, so the lock must be free
		if err != nil {
			return // it goes on being used as text, which will say what is wrong
		}
		db.statements.keep(q, s)
	}
}

// keep makes a statement ready, unless another transaction was first.
func (all *statements) keep(query string, s *sql.Stmt) {
	all.lock.Lock()
	defer all.lock.Unlock()
	switch {
	case all.ready == nil:
		all.ready = map[string]*sql.Stmt{query: s}
	case all.ready[query] == nil:
		all.ready[query] = s
	default:
		s.Close()
	}
}

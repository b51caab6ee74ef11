package sqlstore

import "database/sql"

// collect reads all rows, each into a new T whose places are given by fields.
func collect[T any](db *DB, rows *sql.Rows, fields func(*T) []any) ([]T, error) {
	defer rows.Close()
	var all []T
	for rows.Next() {
		var one T
		if err := rows.Scan(fields(&one)...); err != nil {
			return nil, db.explain(err)
		}
		all = append(all, one)
	}
	return all, db.explain(rows.Err())
}

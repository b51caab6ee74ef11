// Package sqlstore keeps the record in SQLite, one file for one malthouse, or
// in PostgreSQL for a company with several. The SQL is one text for both and
// stands beside the function that uses it; internal/sqlstore/portable_test.go
// says what may stand in it. Where the two must differ (bulk loading, files)
// the difference is a method of [Dialect] or a pair of small functions.
//
// What happened is kept as facts, which are only ever added to. Beside them
// lie readings with their seals, documents, people and settings.
package sqlstore

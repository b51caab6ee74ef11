package sqlstore

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"errors"
)

// Document is a file as it was brought in or sent out.
type Document struct {
	SHA256 string // of the bytes, in hexadecimal; this is its name
	Media  string // as in application/pdf
	Bytes  []byte
}

// PutDocument keeps a file and returns its name. The same bytes put again
// change nothing.
func (db *DB) PutDocument(ctx context.Context, house string, media string, bytes []byte) (sha string, err error) {
	err = db.write(ctx, func(tx *sql.Tx) error {
		sha, err = putDocument(ctx, tx, house, media, bytes)
		return err
	})
	return sha, err
}

// putDocument is PutDocument inside a transaction that does more.
func putDocument(ctx context.Context, tx querier, house, media string, bytes []byte) (sha string, err error) {
	if bytes == nil {
		bytes = []byte{} // an empty file is a file
	}
	sha = digestOf(bytes)
	_, err = tx.ExecContext(ctx, `
		insert into document (house, sha256, media, bytes) values ($1, $2, $3, $4)
		on conflict (house, sha256) do nothing`, house, sha, media, bytes)
	return sha, err
}

func digestOf(bytes []byte) string {
	sum := sha256.Sum256(bytes)
	return hex.EncodeToString(sum[:])
}

// Document returns a file by its name. One that no longer is what was put in
// is a fault, not an answer.
func (db *DB) Document(ctx context.Context, house string, sha string) (Document, error) {
	d := Document{SHA256: sha}
	err := db.R.QueryRowContext(ctx, `select media, bytes from document where house = $1 and sha256 = $2`, house, sha).
		Scan(&d.Media, &d.Bytes)
	switch {
	case errors.Is(err, sql.ErrNoRows):
		err = &Fault{Code: "record.document.missing", Place: db.Place, Detail: sha}
	case err == nil && digestOf(d.Bytes) != sha:
		err = &Fault{Code: "record.document.changed", Place: db.Place, Detail: sha}
	}
	if err != nil {
		return Document{}, db.explain(err)
	}
	return d, nil
}

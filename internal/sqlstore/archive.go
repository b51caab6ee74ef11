package sqlstore

import (
	"archive/zip"
	"bufio"
	"bytes"
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"hash"
	"io"
	"os"
	"slices"
	"strconv"
	"strings"
)

// archiveKind is what the head of an archive begins with.
const archiveKind = "archive/1"

// head is head.json, the last entry of an archive: an archive cut short has none.
type head struct {
	Awn    string      `json:"awn"`
	Schema int64       `json:"schema"` // number of the last migration of the record
	Tables []tableHead `json:"tables"`
}

type tableHead struct {
	Name    string   `json:"name"`
	Columns []string `json:"columns"`
	Rows    int      `json:"rows"`
	SHA256  string   `json:"sha256"` // of the table's entry
}

// writeArchive writes one state of a record as a ZIP of one entry a table,
// each row a line of JSON. Either database reads what the other wrote.
func (db *DB) writeArchive(ctx context.Context, w io.Writer) error {
	names, err := db.archived(ctx)
	if err != nil {
		return err
	}
	z := zip.NewWriter(w)
	h := head{Awn: archiveKind}
	err = db.look(ctx, func(tx *sql.Tx) error {
		if h.Schema, err = schemaNumber(ctx, tx); err != nil {
			return err
		}
		for _, name := range names {
			t, err := writeTable(ctx, tx, z, name)
			if err != nil {
				return err
			}
			h.Tables = append(h.Tables, t)
		}
		return nil
	})
	if err != nil {
		return err
	}
	last, err := z.Create("head.json")
	if err != nil {
		return err
	}
	if err := json.NewEncoder(last).Encode(h); err != nil {
		return err
	}
	return z.Close()
}

// archived names the tables of an archive, each after those it refers to.
func (db *DB) archived(ctx context.Context) ([]string, error) {
	names, err := db.tables(ctx)
	if err != nil {
		return nil, err
	}
	order := []string{"house", "series", "person"}
	for _, n := range names {
		if n != versionTable && !slices.Contains(order, n) {
			order = append(order, n)
		}
	}
	return order, nil
}

func schemaNumber(ctx context.Context, tx *sql.Tx) (n int64, err error) {
	err = tx.QueryRowContext(ctx, `select max(version_id) from migration`).Scan(&n)
	return n, err
}

func writeTable(ctx context.Context, tx *sql.Tx, z *zip.Writer, name string) (tableHead, error) {
	t := tableHead{Name: name}
	entry, err := z.Create(name + ".jsonl")
	if err != nil {
		return t, err
	}
	sum := sha256.New()
	buffer := bufio.NewWriter(io.MultiWriter(entry, sum))
	rows, err := tx.QueryContext(ctx, `select * from `+name)
	if err != nil {
		return t, err
	}
	defer rows.Close()
	if t.Columns, err = rows.Columns(); err != nil {
		return t, err
	}
	values, places := make([]any, len(t.Columns)), make([]any, len(t.Columns))
	for i := range values {
		places[i] = &values[i]
	}
	for ; rows.Next(); t.Rows++ {
		if err := rows.Scan(places...); err != nil {
			return t, err
		}
		line, err := json.Marshal(cells(values))
		if err != nil {
			return t, err
		}
		buffer.Write(append(line, '\n'))
	}
	if err := rows.Err(); err != nil {
		return t, err
	}
	err = buffer.Flush()
	t.SHA256 = hex.EncodeToString(sum.Sum(nil))
	return t, err
}

// cells puts a row into JSON: bytes become an object, so that they are not
// taken for text.
func cells(row []any) []any {
	out := make([]any, len(row))
	for i, v := range row {
		out[i] = v
		if b, ok := v.([]byte); ok {
			out[i] = map[string]string{"base64": base64.StdEncoding.EncodeToString(b)}
		}
	}
	return out
}

// cell is the way back.
func cell(v any) (any, error) {
	switch v := v.(type) {
	case json.Number:
		if strings.ContainsAny(v.String(), ".eE") {
			return v.Float64()
		}
		return strconv.ParseInt(v.String(), 10, 64)
	case map[string]any:
		text, _ := v["base64"].(string)
		return base64.StdEncoding.DecodeString(text)
	}
	return v, nil
}

// openArchive reads the head of an archive and checks every entry against it.
func openArchive(path string) (*zip.ReadCloser, head, error) {
	damaged := func(why string) error { return &Fault{Code: "record.backup.damaged", Place: path, Detail: why} }
	z, err := zip.OpenReader(path)
	if err != nil {
		return nil, head{}, damaged(cause(err))
	}
	var h head
	f, err := z.Open("head.json")
	if err == nil {
		err = json.NewDecoder(f).Decode(&h)
		f.Close()
	}
	if err != nil || h.Awn != archiveKind {
		z.Close()
		return nil, h, damaged("it has no head")
	}
	for _, t := range h.Tables {
		sum := sha256.New()
		if err := readEntry(z, t.Name, sum); err != nil || hex.EncodeToString(sum.Sum(nil)) != t.SHA256 {
			z.Close()
			return nil, h, damaged("table " + t.Name + " is not what was written")
		}
	}
	return z, h, nil
}

func readEntry(z *zip.ReadCloser, table string, into hash.Hash) error {
	f, err := z.Open(table + ".jsonl")
	if err != nil {
		return err
	}
	defer f.Close()
	_, err = io.Copy(into, f)
	return err
}

// fillFrom puts an archive into an empty record, all of it or nothing.
func (db *DB) fillFrom(ctx context.Context, path string) error {
	z, h, err := openArchive(path)
	if err != nil {
		return err
	}
	defer z.Close()
	known, err := db.archived(ctx)
	if err != nil {
		return err
	}
	return db.write(ctx, func(tx *sql.Tx) error {
		now, err := schemaNumber(ctx, tx)
		if err != nil {
			return err
		}
		if h.Schema != now {
			return &Fault{Code: "record.backup.damaged", Place: path,
				Detail: fmt.Sprintf("its tables are number %d, this release has %d; open it with that release first", h.Schema, now)}
		}
		for _, t := range h.Tables {
			if !slices.Contains(known, t.Name) {
				return &Fault{Code: "record.backup.damaged", Place: path, Detail: "there is no table " + t.Name}
			}
			if err := fillTable(ctx, tx, z, t); err != nil {
				return err
			}
		}
		return nil
	})
}

func fillTable(ctx context.Context, tx *sql.Tx, z *zip.ReadCloser, t tableHead) error {
	// Columns are taken from our own table: nothing of the file goes into SQL.
	empty, err := tx.QueryContext(ctx, `select * from `+t.Name+` limit 1`)
	if err != nil {
		return err
	}
	columns, err := empty.Columns()
	full := empty.Next()
	empty.Close()
	if err != nil {
		return err
	}
	if full {
		return &Fault{Code: "record.backup.exists", Place: "A record with entries (" + t.Name + ")"}
	}
	marks := make([]string, len(columns))
	for i := range marks {
		marks[i] = "$" + strconv.Itoa(i+1)
	}
	insert, err := tx.PrepareContext(ctx, `insert into `+t.Name+` (`+strings.Join(columns, ", ")+`) values (`+strings.Join(marks, ", ")+`)`)
	if err != nil {
		return err
	}
	f, err := z.Open(t.Name + ".jsonl")
	if err != nil {
		return err
	}
	defer f.Close()
	place := map[string]int{}
	for i, c := range t.Columns {
		place[c] = i
	}
	decoder := json.NewDecoder(f)
	decoder.UseNumber()
	for decoder.More() {
		var line, row []any
		if err := decoder.Decode(&line); err != nil {
			return err
		}
		for _, c := range columns {
			i, ok := place[c]
			if !ok || i >= len(line) {
				return fmt.Errorf("table %s has no column %s in the archive", t.Name, c)
			}
			v, err := cell(line[i])
			if err != nil {
				return err
			}
			row = append(row, v)
		}
		if _, err := insert.ExecContext(ctx, row...); err != nil {
			return err
		}
	}
	return nil
}

// isArchive tells an archive from the file of a record by its first bytes.
func isArchive(path string) bool {
	f, err := os.Open(path)
	if err != nil {
		return false
	}
	defer f.Close()
	sign := make([]byte, 4)
	_, err = io.ReadFull(f, sign)
	return err == nil && bytes.Equal(sign, []byte("PK\x03\x04"))
}

package sqlstore

import (
	"database/sql"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"testing/fstest"
)

// numbers maps the number of each migration in a folder to its name.
func numbers(t *testing.T, folder string) map[string]string {
	names, err := fs.Glob(migrations, folder+"/*.sql")
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]string{}
	for _, n := range names {
		number, _, _ := strings.Cut(filepath.Base(n), "_")
		if all[number] != "" {
			t.Errorf("%s and %s have one number", all[number], n)
		}
		all[number] = n
	}
	return all
}

func TestMigrationsStandInBothFolders(t *testing.T) {
	lite, pg := numbers(t, "sqlite"), numbers(t, "postgres")
	for n := range lite {
		if pg[n] == "" {
			t.Errorf("%s is missing for PostgreSQL", lite[n])
		}
	}
	for n := range pg {
		if lite[n] == "" {
			t.Errorf("%s is missing for SQLite", pg[n])
		}
	}
	for _, folder := range []map[string]string{lite, pg} {
		for _, name := range folder {
			text, err := fs.ReadFile(migrations, name)
			if err != nil || strings.Contains(string(text), "goose Down") {
				t.Errorf("%s goes back down, or cannot be read: %v", name, err)
			}
			if strings.HasPrefix(name, "sqlite/") && strings.Count(string(text), "create table") != strings.Count(string(text), ") strict") {
				t.Errorf("%s has a table that is not strict", name)
			}
		}
	}
}

// Both folders say the same, each in the spelling of its database.
func TestMigrationsSayTheSame(t *testing.T) {
	lite, pg := numbers(t, "sqlite"), numbers(t, "postgres")
	spelled := strings.NewReplacer(" bigint ", " integer ", " double precision", " real", " bytea ", " blob ", ") strict, without rowid;", ");", ") strict;", ");")
	for n := range pg {
		a, errA := fs.ReadFile(migrations, lite[n])
		b, errB := fs.ReadFile(migrations, pg[n])
		if errA != nil || errB != nil {
			t.Fatal(errA, errB)
		}
		if x, y := spelled.Replace(string(a)), spelled.Replace(string(b)); x != y {
			t.Errorf("%s and %s part at %q and %q", lite[n], pg[n], parting(x, y), parting(y, x))
		}
	}
}

// parting is the line in which a text first differs from another.
func parting(a, b string) string {
	other := strings.Split(b, "\n")
	for i, line := range strings.Split(a, "\n") {
		if i >= len(other) || other[i] != line {
			return line
		}
	}
	return ""
}

var (
	one = fstest.MapFS{
		"sqlite/0001_a.sql": {Data: []byte("-- +goose Up\ncreate table a (n bigint);\ninsert into a values (7);")},
	}
	two = fstest.MapFS{
		"sqlite/0001_a.sql": one["sqlite/0001_a.sql"],
		"sqlite/0002_b.sql": {Data: []byte("-- +goose Up\nalter table a add column m bigint;")},
	}
	broken = fstest.MapFS{
		"sqlite/0001_a.sql": one["sqlite/0001_a.sql"],
		"sqlite/0002_b.sql": {Data: []byte("-- +goose Up\nupdate a set n = 8;\nalter table nowhere add column m bigint;")},
	}
)

func migrated(t *testing.T, path string, all fs.FS) error {
	t.Helper()
	db, err := connect(t.Context(), path, true)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	return db.migrate(t.Context(), all)
}

// value is what a file holds after the first migration.
func value(t *testing.T, path string) (n int) {
	t.Helper()
	db, err := connect(t.Context(), path, false)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	if err := db.R.QueryRow(`select n from a`).Scan(&n); err != nil {
		t.Fatal(err)
	}
	return n
}

func TestMigrateForward(t *testing.T) {
	path := filepath.Join(t.TempDir(), "r.awn")
	if err := migrated(t, path, one); err != nil {
		t.Fatal(err)
	}
	if err := migrated(t, path, broken); Code(err) != "record.schema.stopped" {
		t.Errorf("a migration that fails: %v", err)
	}
	if got := value(t, path); got != 7 {
		t.Errorf("a failed migration left %d, want 7", got)
	}
	if err := migrated(t, path, two); err != nil {
		t.Fatal(err)
	}
	if got := value(t, path+".before-0001"); got != 7 {
		t.Errorf("the copy holds %d, want 7", got)
	}
	if err := migrated(t, path, one); Code(err) != "record.schema.newer" {
		t.Errorf("a newer record: %v", err)
	}
}

func TestMigrateByManyAtOnce(t *testing.T) {
	path := filepath.Join(t.TempDir(), "r.awn")
	var wait sync.WaitGroup
	for range 4 {
		wait.Go(func() {
			db, err := Open(t.Context(), path)
			if err != nil {
				t.Error(err)
				return
			}
			db.Close()
		})
	}
	wait.Wait()
}

func TestForeignTablesAreLeftAlone(t *testing.T) {
	path := filepath.Join(t.TempDir(), "other.db")
	pool, err := sql.Open("sqlite3", path)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := pool.Exec(`create table songs (title text)`); err != nil {
		t.Fatal(err)
	}
	pool.Close()
	if _, err := Open(t.Context(), path); Code(err) != "record.file.foreign" {
		t.Error(err)
	}
}

// Each file of testdata is a record as a former state of the program made it,
// as SQL text. Write the next one with the shell of SQLite: .dump
func TestFormerRecords(t *testing.T) {
	files, err := filepath.Glob("testdata/record-*.sqlite.sql")
	if err != nil || len(files) == 0 {
		t.Fatalf("no former records: %v", err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(t.TempDir(), "r.awn")
		pool, err := openFile(path, "_pragma=foreign_keys(0)", 1) // .dump has the tables in no order
		if err != nil {
			t.Fatal(err)
		}
		if _, err := pool.Exec(string(text)); err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		pool.Close()
		db, err := Open(t.Context(), path)
		if err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		if err := db.Check(t.Context()); err != nil {
			t.Errorf("%s: %v", file, err)
		}
		if _, err := db.Document(t.Context(), "hallow", digestOf([]byte("abc"))); err != nil {
			t.Errorf("%s: %v", file, err)
		}
		points, err := db.Readings(t.Context(), "hallow", 1, 0, 4000, 10)
		if err != nil || len(points) != 5 {
			t.Errorf("%s: %d readings, want 5: %v", file, len(points), err)
		}
		db.Close()
	}
}

package sqlstore_test

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"awn/internal/sqlstore"
	"awn/internal/sqlstore/storetest"
)

// count is how many readings of the first series a record has.
func count(t *testing.T, db *sqlstore.DB) int {
	t.Helper()
	points, err := db.Readings(t.Context(), "hallow", 1, 0, 1<<40, 1)
	if err != nil {
		t.Fatal(err)
	}
	if len(points) == 0 {
		return 0
	}
	return points[0].Count
}

func TestBackupUnderLoadAndRestore(t *testing.T) {
	storetest.Each(t, func(t *testing.T, db *sqlstore.DB) {
		storetest.Furnish(t, db)
		if _, err := db.PutDocument(t.Context(), "hallow", "text/plain", []byte("abc")); err != nil {
			t.Fatal(err)
		}
		rows := storetest.Rows(1, 20_000)
		if _, err := db.AppendReadings(t.Context(), "hallow", sqlstore.UsualSeal, rows[:5000]); err != nil {
			t.Fatal(err)
		}
		stopped := make(chan error)
		go func() {
			for i := 5000; i < len(rows); i += 100 {
				if _, err := db.AppendReadings(context.Background(), "hallow", sqlstore.UsualSeal, rows[i:i+100]); err != nil {
					stopped <- err
					return
				}
			}
			stopped <- nil
		}()
		folder := t.TempDir()
		plain, archive := filepath.Join(folder, "backup"), filepath.Join(folder, "archive")
		for _, err := range []error{db.Backup(t.Context(), plain, false), db.Backup(t.Context(), archive, true), <-stopped} {
			if err != nil {
				t.Fatal(err)
			}
		}
		if err := db.Backup(t.Context(), plain, false); sqlstore.Code(err) != "record.backup.exists" {
			t.Errorf("over a backup: %v", err)
		}
		for _, from := range []string{plain, archive} {
			for _, to := range []string{storetest.SQLiteURL(t), storetest.PostgresURL(t)} {
				restored(t, from, to, db.Dialect == sqlstore.SQLite && from == plain)
			}
		}
	})
}

func restored(t *testing.T, from, to string, fileOnly bool) {
	t.Helper()
	err := sqlstore.Restore(t.Context(), from, to, false, nil)
	if fileOnly && to[:4] == "post" {
		if sqlstore.Code(err) != "record.backup.target" {
			t.Errorf("a file into a server: %v", err)
		}
		return
	}
	if err != nil {
		t.Fatal(err)
	}
	if n := count(t, storetest.Open(t, to)); n < 5000 || n%100 != 0 {
		t.Errorf("%d readings: not a state that was", n)
	}
	if err := sqlstore.Restore(t.Context(), from, to, false, nil); sqlstore.Code(err) != "record.backup.exists" {
		t.Errorf("over a record: %v", err)
	}
}

func TestRestoreRefusesDamageAndReplacesWhenTold(t *testing.T) {
	folder := t.TempDir()
	path, archive, bad := filepath.Join(folder, "r.awn"), filepath.Join(folder, "a.zip"), filepath.Join(folder, "b.zip")
	db := storetest.Open(t, path)
	storetest.Furnish(t, db)
	if err := db.Backup(t.Context(), archive, true); err != nil {
		t.Fatal(err)
	}
	bytes, err := os.ReadFile(archive)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := db.AppendReadings(t.Context(), "hallow", sqlstore.UsualSeal, storetest.Rows(1, 10)); err != nil {
		t.Fatal(err)
	}
	db.Close()
	for _, cut := range [][]byte{bytes[:len(bytes)/2], nil, append(append([]byte{}, bytes[:60]...), append([]byte{bytes[60] ^ 1}, bytes[61:]...)...)} {
		if err := os.WriteFile(bad, cut, 0o600); err != nil {
			t.Fatal(err)
		}
		if err := sqlstore.Restore(t.Context(), bad, path, true, nil); err == nil {
			t.Error("a damaged backup was taken")
		}
	}
	if n := count(t, storetest.Open(t, path)); n != 10 {
		t.Errorf("after refused backups the record has %d readings, want 10", n)
	}
	if err := sqlstore.Restore(t.Context(), archive, path, true, nil); err != nil {
		t.Fatal(err)
	}
	if n := count(t, storetest.Open(t, path)); n != 0 {
		t.Errorf("%d readings after going back, want 0", n)
	}
	aside, _ := filepath.Glob(path + ".replaced-*")
	if len(aside) == 0 {
		t.Error("the replaced record is gone")
	}
}

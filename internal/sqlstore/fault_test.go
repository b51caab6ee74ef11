//go:build unix

package sqlstore_test

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"awn/internal/sqlstore"
	"awn/internal/sqlstore/storetest"
	"awn/internal/tools/need"
)

func TestMain(m *testing.M) {
	if work := os.Getenv("AWN_STORE_CHILD"); work != "" {
		os.Exit(child(work, os.Getenv("AWN_STORE_PATH")))
	}
	os.Exit(storetest.Main(m))
}

// child is what a second process does with a record: it prints the code of the
// fault that it meets, or how many batches it saved.
func child(work, path string) int {
	signal.Ignore(syscall.SIGXFSZ) // a file at its limit is to be an error, not the end
	db, err := sqlstore.Open(context.Background(), path)
	if err != nil {
		fmt.Print(sqlstore.Code(err))
		return 0
	}
	defer db.Close()
	if start, isFacts := strings.CutPrefix(work, "facts "); isFacts {
		return enterWithoutEnd(db, start)
	}
	series := int64(1)
	if work == "second" {
		series = 2
	}
	rows := storetest.Rows(series, 100_000)
	for i := 0; i < len(rows); i += 1000 {
		if _, err := db.AppendReadings(context.Background(), "hallow", sqlstore.UsualSeal, rows[i:i+1000]); err != nil {
			fmt.Print(sqlstore.Code(err), " ", i)
			return 0
		}
		if work != "full" && i >= 20_000 {
			break
		}
	}
	fmt.Print("saved")
	return 0
}

// run has a child work on a record, below what stands before it.
func run(t *testing.T, program, work, path string, before ...string) *exec.Cmd {
	t.Helper()
	line := append(before, program)
	cmd := exec.Command(line[0], line[1:]...)
	cmd.Dir = filepath.Dir(path)
	cmd.Env = append(os.Environ(), "AWN_STORE_CHILD="+work, "AWN_STORE_PATH="+path)
	return cmd
}

func furnished(t *testing.T, path string) {
	t.Helper()
	db := storetest.Open(t, path)
	storetest.Furnish(t, db)
	db.Close()
}

// full has a child write until it meets its fault, and checks that what was
// acknowledged before is there.
func full(t *testing.T, path, code string, before ...string) {
	t.Helper()
	out, err := run(t, os.Args[0], "full", path, before...).Output()
	said, at, found := strings.Cut(string(out), " ")
	if err != nil || said != code || !found {
		t.Fatalf("%q, want %s: %v", out, code, err)
	}
	var saved int
	fmt.Sscan(at, &saved)
	db := storetest.Open(t, path)
	if n := count(t, db); n != saved || n == 0 {
		t.Errorf("%d readings, %d were acknowledged", n, saved)
	}
	if err := db.Check(t.Context()); err != nil {
		t.Error(err)
	}
	db.Close()
}

func TestDiskFull(t *testing.T) {
	folder := t.TempDir()
	mount := exec.Command("mount", "-t", "tmpfs", "-o", "size=3m", "none", folder)
	need.Met(t, "tmpfs", mount.Run() == nil) // only root may mount
	t.Cleanup(func() { exec.Command("umount", folder).Run() })
	path := filepath.Join(folder, "r.awn")
	furnished(t, path)
	full(t, path, "record.file.full")
}

func TestFileAtTheLimitOfTheSystem(t *testing.T) {
	path := storetest.SQLiteURL(t)
	furnished(t, path)
	// 4000 blocks of half a kilobyte. The driver does not pass on which limit it was.
	full(t, path, "record.file.machine", "sh", "-c", `ulimit -f 4000; exec "$0"`)
}

func TestTwoProcessesOnOneFile(t *testing.T) {
	path := storetest.SQLiteURL(t)
	furnished(t, path)
	first, second := run(t, os.Args[0], "first", path), run(t, os.Args[0], "second", path)
	for _, cmd := range []*exec.Cmd{first, second} {
		out, err := cmd.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		defer func() {
			said, _ := io.ReadAll(out)
			if err := cmd.Wait(); err != nil || string(said) != "saved" {
				t.Errorf("%q: %v", said, err)
			}
		}()
	}
}

func TestLockedFile(t *testing.T) {
	path := storetest.SQLiteURL(t)
	furnished(t, path)
	holder, waiting := storetest.Open(t, path), storetest.Open(t, path)
	tx, err := holder.W.Begin()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := waiting.W.Exec(`pragma busy_timeout = 20`); err != nil {
		t.Fatal(err)
	}
	if err := waiting.Set(t.Context(), "hallow", "a", "b"); sqlstore.Code(err) != "record.file.locked" {
		t.Error(err)
	}
	if err := tx.Rollback(); err != nil {
		t.Fatal(err)
	}
	if err := waiting.Set(t.Context(), "hallow", "a", "b"); err != nil {
		t.Error(err)
	}
}

func TestReadOnlyFile(t *testing.T) {
	folder, err := os.MkdirTemp("", "awn-read-only") // not t.TempDir, which is closed to other users
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.Chmod(folder, 0o755); os.RemoveAll(folder) })
	path, program := filepath.Join(folder, "r.awn"), filepath.Join(folder, "child")
	furnished(t, path)
	bytes, err := os.ReadFile(os.Args[0])
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(program, bytes, 0o755); err != nil {
		t.Fatal(err)
	}
	os.Chmod(path, 0o444)
	os.Chmod(folder, 0o555)
	var before []string
	if os.Geteuid() == 0 { // root may write to anything
		before = []string{need.Program(t, "runuser"), "-u", "nobody", "--"}
	}
	out, err := run(t, program, "first", path, before...).CombinedOutput()
	if err != nil || string(out) != "record.file.read-only" {
		t.Errorf("%q, want record.file.read-only: %v", out, err)
	}
}

func TestServerCrashesInTheMiddle(t *testing.T) {
	need.Program(t, "postgres")
	server, err := storetest.Start()
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { server.Remove() })
	address, err := server.Database()
	if err != nil {
		t.Fatal(err)
	}
	db := storetest.Open(t, address)
	storetest.Furnish(t, db)
	rows := storetest.Rows(1, 1_000_000)
	saved, ended := make(chan int, 1), make(chan error)
	go func() {
		for i := 0; i < len(rows); i += 100 {
			if _, err := db.AppendReadings(context.Background(), "hallow", sqlstore.UsualSeal, rows[i:i+100]); err != nil {
				saved <- i
				ended <- err
				return
			}
			if i == 1000 {
				ended <- nil
			}
		}
	}()
	if err := <-ended; err != nil {
		t.Fatal(err)
	}
	if err := server.Crash(); err != nil {
		t.Fatal(err)
	}
	err = <-ended
	if c := sqlstore.Code(err); c != "record.server.lost" && c != "record.server.absent" {
		t.Errorf("%v, want record.server.lost", err)
	}
	if err := server.Up(); err != nil {
		t.Fatal(err)
	}
	n := <-saved
	// The batch under way may have been saved and its acknowledgement lost.
	if got := count(t, db); got != n && got != n+100 {
		t.Errorf("%d readings, %d were acknowledged", got, n)
	}
	if _, err := db.AppendReadings(t.Context(), "hallow", sqlstore.UsualSeal, rows[n:n+100]); err != nil {
		t.Error(err)
	}
	if got := count(t, db); got != n+100 {
		t.Errorf("after the same batch again %d readings, want %d", got, n+100)
	}
	if err := db.Check(t.Context()); err != nil {
		t.Error(err)
	}
}

package storetest

import (
	"bytes"
	"context"
	"database/sql"
	"fmt"
	"io"
	"net/url"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"slices"
	"strconv"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"awn/internal/tools/need"

	_ "github.com/jackc/pgx/v5/stdlib" // registers pgx
)

// Server is a PostgreSQL of our own: a temporary folder, a socket in it and no
// port, under a user without rights.
type Server struct {
	bin, folder string
	as          []string // what stands before a command to run it as that user
	stop        io.Closer
	run         *exec.Cmd
	said        *bytes.Buffer
}

var (
	shared   = sync.OnceValues(Start)
	used     atomic.Bool
	database atomic.Int64
)

// Main runs the tests of a package and stops the server that they shared.
func Main(m *testing.M) int {
	code := m.Run()
	if used.Load() {
		if s, err := shared(); err == nil {
			s.Remove()
		}
	}
	return code
}

// PostgresURL is the address of an empty database on the server that the tests
// of one binary share, or ends the test where there is no PostgreSQL.
func PostgresURL(t testing.TB) string {
	t.Helper()
	need.Program(t, "postgres")
	used.Store(true)
	s, err := shared()
	if err != nil {
		t.Fatal(err)
	}
	address, err := s.Database()
	if err != nil {
		t.Fatal(err)
	}
	return address
}

// Start makes a server and waits until it answers.
func Start() (*Server, error) {
	postgres, _ := need.Find("postgres")
	s := &Server{bin: filepath.Dir(postgres)}
	var err error
	// Short, because the path of a socket may have about 100 signs.
	if s.folder, err = os.MkdirTemp("", "awn-pg"); err != nil {
		return nil, err
	}
	if err := s.giveAway(); err != nil {
		return nil, err
	}
	out, err := s.command(filepath.Join(s.bin, "initdb"), "-D", s.data(), "-U", "awn", "-A", "trust", "-E", "UTF8", "--locale=C.UTF-8", "--no-sync").CombinedOutput()
	if err != nil {
		return nil, fmt.Errorf("initdb: %w\n%s", err, out)
	}
	return s, s.Up()
}

func (s *Server) data() string { return filepath.Join(s.folder, "data") }

// giveAway gives the folder to a user without rights where we are root:
// PostgreSQL refuses to run as root.
func (s *Server) giveAway() error {
	if os.Geteuid() != 0 {
		return nil
	}
	for _, name := range []string{"postgres", "nobody"} {
		u, err := user.Lookup(name)
		if err != nil {
			continue
		}
		uid, _ := strconv.Atoi(u.Uid)
		gid, _ := strconv.Atoi(u.Gid)
		s.as = []string{"runuser", "-u", name, "--"}
		return os.Chown(s.folder, uid, gid)
	}
	return fmt.Errorf("no user postgres or nobody to run the server as")
}

func (s *Server) command(program string, args ...string) *exec.Cmd {
	line := append(append(slices.Clone(s.as), program), args...)
	cmd := exec.Command(line[0], line[1:]...)
	cmd.Dir = s.folder
	return cmd
}

// Up starts a server that is down. A shell stands between: it stops the server
// when our end of the pipe closes, so none is left when a test dies.
func (s *Server) Up() error {
	s.run = s.command("sh", "-c", `"$@" & server=$!; read _; kill -INT $server; wait $server`, "sh", filepath.Join(s.bin, "postgres"),
		"-D", s.data(), "-k", s.folder, "-c", "listen_addresses=", "-c", "shared_buffers=32MB")
	var err error
	s.said = &bytes.Buffer{}
	s.run.Stdout, s.run.Stderr = s.said, s.said
	if s.stop, err = s.run.StdinPipe(); err != nil {
		return err
	}
	if err := s.run.Start(); err != nil {
		return err
	}
	return s.wait()
}

// wait returns when the server answers.
func (s *Server) wait() error {
	db, err := sql.Open("pgx", s.url("postgres"))
	if err != nil {
		return err
	}
	defer db.Close()
	for range 300 {
		if err = db.Ping(); err == nil {
			return nil
		}
		time.Sleep(100 * time.Millisecond)
	}
	s.Down()
	return fmt.Errorf("the server does not answer: %w\n%s", err, s.said)
}

// Down stops the server; those connected are cut off.
func (s *Server) Down() error {
	s.stop.Close()
	return s.run.Wait()
}

// Crash ends the server without letting it save anything.
func (s *Server) Crash() error {
	out, err := s.command(filepath.Join(s.bin, "pg_ctl"), "stop", "-D", s.data(), "-m", "immediate").CombinedOutput()
	s.Down()
	if err != nil {
		return fmt.Errorf("pg_ctl: %w\n%s", err, out)
	}
	return nil
}

// Remove stops the server and clears its folder away.
func (s *Server) Remove() error {
	s.Down()
	return os.RemoveAll(s.folder)
}

// Database makes an empty database and returns its address.
func (s *Server) Database() (string, error) {
	db, err := sql.Open("pgx", s.url("postgres"))
	if err != nil {
		return "", err
	}
	defer db.Close()
	name := fmt.Sprintf("t%d", database.Add(1))
	_, err = db.ExecContext(context.Background(), `create database `+name)
	return s.url(name), err
}

func (s *Server) url(database string) string {
	return "postgres:///" + database + "?" + url.Values{"host": {s.folder}, "user": {"awn"}}.Encode()
}

package authority

import (
	"bytes"
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"testing"
	"time"

	"awn/internal/tools/need"
)

var day0 = time.Date(2026, 11, 2, 8, 0, 0, 0, time.UTC)

func at(now *time.Time) func() time.Time { return func() time.Time { return *now } }

// The certificate stands before OpenSSL, which is not ours: for the names and
// addresses of the house and no other, and for a browser on a phone.
func TestOpenSSLBelievesIt(t *testing.T) {
	program := need.Program(t, "openssl")
	dir, now := t.TempDir(), time.Now()
	a, _, err := Open(filepath.Join(dir, "house.authority"), "Hallow Sound", []string{"malt.local", "192.168.4.7"}, at(&now))
	if err != nil {
		t.Fatal(err)
	}
	leaf, err := a.certificate()
	if err != nil {
		t.Fatal(err)
	}
	ca, crt := filepath.Join(dir, "ca.pem"), filepath.Join(dir, "leaf.pem")
	for name, text := range map[string][]byte{ca: a.PEM(), crt: pem.EncodeToMemory(&pem.Block{Type: pemCert, Bytes: leaf.Certificate[0]})} {
		if err := os.WriteFile(name, text, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range []struct {
		flag, name string
		want       bool
	}{{"-verify_hostname", "malt.local", true}, {"-verify_ip", "192.168.4.7", true}, {"-verify_hostname", "other.local", false}, {"-verify_ip", "192.168.4.8", false}} {
		out, err := exec.Command(program, "verify", "-x509_strict", "-purpose", "sslserver", c.flag, c.name, "-CAfile", ca, crt).CombinedOutput()
		if (err == nil) != c.want {
			t.Errorf("%s: %v: %s", c.name, err, out)
		}
	}
	out, err := exec.Command(program, "x509", "-in", ca, "-noout", "-fingerprint", "-sha256").CombinedOutput()
	if _, got, _ := bytes.Cut(bytes.TrimSpace(out), []byte("=")); err != nil || string(got) != Fingerprint(a.PEM()) {
		t.Errorf("the fingerprint: %s, want %s", got, Fingerprint(a.PEM()))
	}
}

func TestKeyIsTheOwners(t *testing.T) {
	file, now := filepath.Join(t.TempDir(), "house.authority"), day0
	a, fresh, err := Open(file, "Hallow Sound", []string{"localhost"}, at(&now))
	if err != nil || !fresh {
		t.Fatal(err, fresh)
	}
	b, fresh, err := Open(file, "Hallow Sound", []string{"localhost", "10.0.0.5"}, at(&now))
	if err != nil || fresh || !bytes.Equal(a.PEM(), b.PEM()) {
		t.Fatalf("opened again it is another: %v", err)
	}
	if bytes.Contains(a.PEM(), []byte(pemKey)) {
		t.Error("what is given away holds the key")
	}
	if runtime.GOOS == "windows" {
		return // rights are kept in another way there
	}
	if info, err := os.Stat(file); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("%v, %v", info.Mode(), err)
	}
	if err := os.Chmod(file, 0o640); err != nil {
		t.Fatal(err)
	}
	if _, _, err := Open(file, "Hallow Sound", []string{"localhost"}, at(&now)); err == nil {
		t.Error("a key that others may read is taken")
	}
}

// A stolen key deceives nobody about a site of the world.
func TestAuthorityIsBound(t *testing.T) {
	file, now := filepath.Join(t.TempDir(), "house.authority"), day0
	if _, _, err := Open(file, "Hallow Sound", []string{"malt.local"}, at(&now)); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"example.com", "203.0.113.9", "2001:db8::1"} {
		if _, _, err := Open(file, "Hallow Sound", []string{name}, at(&now)); err == nil {
			t.Errorf("it vouches for %s", name)
		}
	}
}

func TestCertificateIsMadeAnew(t *testing.T) {
	now := day0
	a, _, err := Open(filepath.Join(t.TempDir(), "house.authority"), "Hallow Sound", []string{"localhost"}, at(&now))
	if err != nil {
		t.Fatal(err)
	}
	get := func() *x509.Certificate {
		c, err := a.TLS().GetCertificate(&tls.ClientHelloInfo{})
		if err != nil {
			t.Fatal(err)
		}
		return c.Leaf
	}
	first := get()
	now = now.Add(leafLasts - leafAnew - time.Hour)
	if get() != first {
		t.Error("another is made too soon")
	}
	now = now.Add(2 * time.Hour)
	if next := get(); next == first || !next.NotAfter.After(first.NotAfter) {
		t.Error("none is made before it ends")
	}
}

func TestNames(t *testing.T) {
	if got, err := Names("127.0.0.1", nil); err != nil || !slices.Equal(got, []string{"127.0.0.1"}) {
		t.Errorf("%v, %v", got, err)
	}
	got, err := Names("0.0.0.0", []string{"malt.local"})
	if err != nil || got[0] != "malt.local" || !slices.Contains(got, "localhost") {
		t.Errorf("%v, %v", got, err)
	}
	for _, n := range got {
		if ip := net.ParseIP(n); ip != nil && !ip.IsPrivate() && !ip.IsLoopback() {
			t.Errorf("%s is an address of the world", n)
		}
	}
}

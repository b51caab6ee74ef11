package certificate

import (
	"bytes"
	"crypto/ed25519"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"awn/internal/tools/need"
	"awn/malt"
)

func at(x float64) *float64 { return &x }

// sample is a certificate that may go out.
func sample() *Certificate {
	return &Certificate{
		Awn: Kind, Number: "C26-0001", IssuedMs: 1785312000000, OffsetMin: 120,
		House: Party{Name: "Hallow Sound malthouse"}, Buyer: Party{Name: "Skerry Brewery <Ltd>"}, Shipment: "S26-0004", Product: "pale malt", NetKg: 24600,
		Lots:    []Lot{{Code: "L26-0007", Share: 0.6, CropYear: 2026}, {Code: "L26-0008", Share: 0.4, CropYear: 2026}},
		Origins: []Origin{{Share{"Wennemark, east", 0.31}, 0.1, 0.5}},
		Values: []Value{
			{Parameter: malt.Moisture, Basis: malt.WetBasis, Value: 0.046, Method: "EBC 4.2", Of: OfLoad, Most: at(0.05)},
			{Parameter: malt.ExtractFine, Basis: malt.Dry, Value: 0.812, Low: at(0.806), High: at(0.818), Method: "EBC 4.5.1", Of: OfLot, Least: at(0.80)},
		},
	}
}

// seed is the secret key of the first test vector of RFC 8032, section 7.1.
const seed = "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60"

func key(t testing.TB) ed25519.PrivateKey {
	b, err := hex.DecodeString(seed)
	if err != nil {
		t.Fatal(err)
	}
	return ed25519.NewKeyFromSeed(b)
}

func signed(t testing.TB) []byte {
	file, err := Sign(sample(), key(t))
	if err != nil {
		t.Fatal(err)
	}
	return file
}

func TestSignedIsVerified(t *testing.T) {
	c, public, err := Verify(signed(t))
	if err != nil {
		t.Fatal(err)
	}
	// RFC 8032, section 7.1, test 1: the public key of that secret.
	if got, want := hex.EncodeToString(public), "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a"; got != want {
		t.Errorf("public key %s, want %s", got, want)
	}
	if c.Number != "C26-0001" || c.Buyer.Name != "Skerry Brewery <Ltd>" || !c.Blend() {
		t.Errorf("read back as %+v", c)
	}
	var spaced bytes.Buffer
	if err := json.Indent(&spaced, signed(t), " ", "\t\t"); err != nil {
		t.Fatal(err)
	}
	if _, _, err := Verify(spaced.Bytes()); err != nil {
		t.Errorf("set with other spaces: %v", err)
	}
}

// TestOneLetterChanged changes every byte of a file in turn: no change may
// pass that alters what is read.
func TestOneLetterChanged(t *testing.T) {
	file := signed(t)
	want, _, err := Verify(file)
	if err != nil {
		t.Fatal(err)
	}
	before, _ := json.Marshal(want)
	for i := range file {
		for _, other := range []byte{file[i] ^ 1, file[i] ^ 0x20, '0', ' '} {
			if other == file[i] {
				continue
			}
			changed := bytes.Clone(file)
			changed[i] = other
			c, public, err := Verify(changed)
			if err != nil {
				continue
			}
			after, _ := json.Marshal(c)
			if !bytes.Equal(before, after) || !bytes.Equal(public, key(t).Public().(ed25519.PublicKey)) {
				t.Fatalf("byte %d changed from %q to %q is taken as signed", i, file[i], other)
			}
		}
	}
}

func TestOneFileSaysOneThing(t *testing.T) {
	file := string(signed(t))
	for name, changed := range map[string]string{
		"a second certificate":   strings.Replace(file, `"certificate": {`, `"certificate": {}, "certificate": {`, 1),
		"one in capitals":        strings.Replace(file, `"certificate": {`, `"Certificate": {}, "certificate": {`, 1),
		"an unknown key":         strings.Replace(file, `"signature": {`, `"remark": 1, "signature": {`, 1),
		"something behind it":    file + `{}`,
		"another algorithm":      strings.Replace(file, "Ed25519", "none", 1),
		"no key":                 strings.Replace(file, base64.StdEncoding.EncodeToString(key(t).Public().(ed25519.PublicKey)), "", 1),
		"a certificate unsigned": `{"awn":"certificate/1"}`,
		"nothing":                "",
	} {
		if _, _, err := Verify([]byte(changed)); !errors.Is(err, ErrForm) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, _, err := Verify([]byte(strings.Replace(file, "24600", "24601", 1))); !errors.Is(err, ErrChanged) {
		t.Errorf("another mass: %v", err)
	}
}

// TestOpenSSLVerifies has OpenSSL check the signature over what the format
// says it is over, where that program is.
func TestOpenSSLVerifies(t *testing.T) {
	openssl := need.Program(t, "openssl")
	var s Signed
	if err := json.Unmarshal(signed(t), &s); err != nil {
		t.Fatal(err)
	}
	over := bytes.NewBufferString(SignedKind + "\n")
	if err := json.Compact(over, s.Certificate); err != nil {
		t.Fatal(err)
	}
	// RFC 8410, section 4: a public key of this kind in DER is these bytes before the key.
	der, _ := hex.DecodeString("302a300506032b6570032100")
	dir := t.TempDir()
	for name, data := range map[string][]byte{"key": append(der, s.Signature.Key...), "over": over.Bytes(), "sig": s.Signature.Value} {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	cmd := exec.Command(openssl, "pkeyutl", "-verify", "-pubin", "-keyform", "DER", "-inkey", "key", "-rawin", "-in", "over", "-sigfile", "sig")
	cmd.Dir = dir
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Errorf("%v: %s", err, out)
	}
}

func TestWhatCannotGoOut(t *testing.T) {
	for want, change := range map[string]func(*Certificate){
		"number is missing":               func(c *Certificate) { c.Number = "" },
		"buyer.name":                      func(c *Certificate) { c.Buyer.Name = "" },
		"net_kg":                          func(c *Certificate) { c.NetKg = 0 },
		"add up to":                       func(c *Certificate) { c.Lots[0].Share = 0.5 },
		"lots is empty":                   func(c *Certificate) { c.Lots = nil },
		"values is empty":                 func(c *Certificate) { c.Values = nil },
		"names no method":                 func(c *Certificate) { c.Values[0].Method = "" },
		"on the basis":                    func(c *Certificate) { c.Values[0].Basis = malt.Dry },
		"must be of load, lot or typical": func(c *Certificate) { c.Values[0].Of = "" },
		"does not lie in its own band":    func(c *Certificate) { c.Values[1].Low = at(0.9) },
		"deviations says nothing of it":   func(c *Certificate) { c.Values[0].Value = 0.06 },
		"origins[0]":                      func(c *Certificate) { c.Origins[0].Least = 0.4 },
	} {
		c := sample()
		change(c)
		if _, err := Sign(c, key(t)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", want, err)
		}
	}
	c := sample()
	c.Values[0].Value = 0.06
	c.Deviations = []Deviation{{Parameter: malt.Moisture, Offered: "price less 2 EUR/t"}}
	if _, err := Sign(c, key(t)); err != nil {
		t.Errorf("a miss that is told: %v", err)
	}
}

func TestFingerprint(t *testing.T) {
	// SHA-256 of the public key, as sha256sum prints it.
	if got, want := Fingerprint(key(t).Public().(ed25519.PublicKey)), "21FE 31DF A154 A261 626B F854 046F D227"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

func FuzzVerify(f *testing.F) {
	f.Add(signed(f))
	f.Add([]byte(`{"awn":"signed-certificate/1","certificate":[[[]]],"signature":{"key":"","value":""}}`))
	f.Fuzz(func(t *testing.T, file []byte) {
		if c, public, err := Verify(file); err == nil {
			if again, _, err := Verify(file); err != nil || again.Number != c.Number || len(public) != ed25519.PublicKeySize {
				t.Errorf("read twice, %v", err)
			}
		}
	})
}

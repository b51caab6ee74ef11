package certificate

import (
	"bytes"
	"crypto/ed25519"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
)

// SignedKind is the first key of a file with a certificate and its signature.
const SignedKind = "signed-certificate/1"

const algorithm = "Ed25519"

// Signed is a certificate with its signature, as it is handed out.
type Signed struct {
	Awn         string          `json:"awn"` // SignedKind
	Certificate json.RawMessage `json:"certificate"`
	Signature   Signature       `json:"signature"`
}

// Signature is by Ed25519 (RFC 8032) over SignedKind, a line feed, and the
// certificate as JSON without spaces between its parts, in the order and with
// the spelling of the file.
type Signature struct {
	Algorithm string `json:"algorithm"`
	Key       []byte `json:"key"` // public, in base64
	Value     []byte `json:"value"`
}

// signedBytes is what the signature is over.
func signedBytes(certificate []byte) ([]byte, error) {
	b := bytes.NewBufferString(SignedKind + "\n")
	err := json.Compact(b, certificate)
	return b.Bytes(), err
}

// Sign signs a certificate and returns the file to hand out.
func Sign(c *Certificate, key ed25519.PrivateKey) ([]byte, error) {
	if problems := c.Check(); problems != nil {
		return nil, fmt.Errorf("the certificate cannot go out: %s", strings.Join(problems, "; "))
	}
	body, err := json.Marshal(c)
	if err != nil {
		return nil, err
	}
	over, err := signedBytes(body)
	if err != nil {
		return nil, err
	}
	return json.MarshalIndent(Signed{
		Awn: SignedKind, Certificate: body,
		Signature: Signature{algorithm, key.Public().(ed25519.PublicKey), ed25519.Sign(key, over)},
	}, "", "  ")
}

// What Verify finds.
var (
	ErrForm    = errors.New("this is not a signed certificate")
	ErrChanged = errors.New("the certificate is not as it was signed")
)

// Verify reads a signed certificate and checks its signature. Whose key it is
// the file cannot prove: compare its fingerprint with the one that the house
// makes known. The error wraps ErrForm or ErrChanged.
func Verify(file []byte) (*Certificate, ed25519.PublicKey, error) {
	var s Signed
	if err := strict(file, &s); err != nil {
		return nil, nil, fmt.Errorf("%w: %w", ErrForm, err)
	}
	switch {
	case s.Awn != SignedKind:
		return nil, nil, fmt.Errorf("%w: awn is %q, and must be %q", ErrForm, s.Awn, SignedKind)
	case s.Signature.Algorithm != algorithm:
		return nil, nil, fmt.Errorf("%w: it is signed by %q, and only %s is known", ErrForm, s.Signature.Algorithm, algorithm)
	case len(s.Signature.Key) != ed25519.PublicKeySize:
		return nil, nil, fmt.Errorf("%w: the key has %d bytes, and must have %d", ErrForm, len(s.Signature.Key), ed25519.PublicKeySize)
	}
	over, err := signedBytes(s.Certificate)
	if err != nil {
		return nil, nil, fmt.Errorf("%w: %w", ErrForm, err)
	}
	key := ed25519.PublicKey(s.Signature.Key)
	if !ed25519.Verify(key, over, s.Signature.Value) {
		return nil, key, ErrChanged
	}
	var c Certificate
	if err := strict(s.Certificate, &c); err != nil {
		return nil, key, fmt.Errorf("%w: %w", ErrForm, err)
	}
	return &c, key, nil
}

// strict decodes JSON in which every key is known and stands once: two readers
// must not be able to see two things in one file.
func strict(data []byte, into any) error {
	if err := once(json.NewDecoder(bytes.NewReader(data))); err != nil {
		return err
	}
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	if err := d.Decode(into); err != nil {
		return err
	}
	if _, err := d.Token(); err != io.EOF {
		return errors.New("something stands behind its end")
	}
	return nil
}

// once refuses a key that stands twice in an object, in any spelling: the
// standard decoder takes capitals for small letters.
func once(d *json.Decoder) error {
	t, err := d.Token()
	if err != nil {
		return err
	}
	switch t {
	case json.Delim('{'):
		seen := map[string]bool{}
		for d.More() {
			key, err := d.Token()
			if err != nil {
				return err
			}
			name := strings.ToLower(key.(string))
			if seen[name] {
				return fmt.Errorf("%q stands twice", key)
			}
			seen[name] = true
			if err := once(d); err != nil {
				return err
			}
		}
		_, err = d.Token()
	case json.Delim('['):
		for d.More() {
			if err := once(d); err != nil {
				return err
			}
		}
		_, err = d.Token()
	}
	return err
}

// Fingerprint is a key as people compare it: the first 16 bytes of its
// SHA-256, in groups of four.
func Fingerprint(key ed25519.PublicKey) string {
	sum := sha256.Sum256(key)
	text := strings.ToUpper(hex.EncodeToString(sum[:16]))
	var groups []string
	for i := 0; i < len(text); i += 4 {
		groups = append(groups, text[i:i+4])
	}
	return strings.Join(groups, " ")
}

// SameFingerprint reports whether a fingerprint, however it is spaced and
// spelled, is that of a key.
func SameFingerprint(text string, key ed25519.PublicKey) bool {
	plain := func(s string) string {
		return strings.ToUpper(strings.Join(strings.FieldsFunc(s, func(r rune) bool { return r == ' ' || r == ':' || r == '-' }), ""))
	}
	return plain(text) == plain(Fingerprint(key))
}

package house

import (
	"crypto/ed25519"
	"crypto/x509"
	"encoding/pem"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
)

const pemKind = "PRIVATE KEY"

// ReadKey reads the key that the house signs with: PKCS #8 in PEM, in a file
// that nobody but its owner may read.
func ReadKey(name string) (ed25519.PrivateKey, error) {
	info, err := os.Stat(name)
	if err != nil {
		return nil, err
	}
	if open := info.Mode().Perm() & 0o077; open != 0 && runtime.GOOS != "windows" {
		return nil, fmt.Errorf("others may read the key in %s: take that right away (chmod 600), and make a new key if somebody did", name)
	}
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, err
	}
	block, _ := pem.Decode(data)
	if block == nil || block.Type != pemKind {
		return nil, fmt.Errorf("%s holds no key in PEM", name)
	}
	key, err := x509.ParsePKCS8PrivateKey(block.Bytes)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	signing, ok := key.(ed25519.PrivateKey)
	if !ok {
		return nil, fmt.Errorf("%s holds a key of another kind than Ed25519", name)
	}
	return signing, nil
}

// MakeKey makes a key and keeps it in a new file that only its owner may
// read. It never replaces one.
func MakeKey(name string) (ed25519.PrivateKey, error) {
	_, key, err := ed25519.GenerateKey(nil)
	if err != nil {
		return nil, err
	}
	der, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		return nil, err
	}
	if err := os.MkdirAll(filepath.Dir(name), 0o700); err != nil {
		return nil, err
	}
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return nil, err
	}
	err = errors.Join(pem.Encode(f, &pem.Block{Type: pemKind, Bytes: der}), f.Sync(), f.Close())
	if err != nil {
		return nil, errors.Join(err, os.Remove(name))
	}
	return key, nil
}

// Key reads the key of a house, or makes its first. It reports whether it is
// new.
func Key(name string) (key ed25519.PrivateKey, fresh bool, err error) {
	if key, err = ReadKey(name); !errors.Is(err, fs.ErrNotExist) {
		return key, false, err
	}
	key, err = MakeKey(name)
	return key, true, err
}

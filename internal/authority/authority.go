// Package authority vouches for a house on its own network, where nobody else
// does: an authority made once, whose key lies beside the record, and a
// certificate for the names and addresses under which the house is found.
package authority

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/sha256"
	"crypto/tls"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"errors"
	"fmt"
	"io/fs"
	"math/big"
	"net"
	"os"
	"runtime"
	"strings"
	"sync"
	"time"
)

// How long the authority and a certificate hold. Phones take no certificate of
// more than 825 days from an authority that a person installed (Apple, about
// the security of TLS certificates from 2019; recalled).
const (
	lasts     = 10 * 365 * 24 * time.Hour
	leafLasts = 90 * 24 * time.Hour
	leafAnew  = 30 * 24 * time.Hour // this long before it ends another is made
	slack     = time.Hour           // for clocks that are behind
)

// local are the networks that nobody outside can have (RFC 1918, 3927, 4193,
// 4291): the authority is bound to them, and a stolen key deceives nobody
// elsewhere.
var local = []string{
	"10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16", "127.0.0.0/8", "fc00::/7", "fe80::/10", "::1/128",
}

// localNames are the names that stand for no host of the world (RFC 6761, 6762,
// 8375), and .internal, which ICANN keeps free.
var localNames = []string{"localhost", "local", "home.arpa", "internal"}

// Authority vouches for a house.
type Authority struct {
	cert *x509.Certificate
	key  *ecdsa.PrivateKey
	now  func() time.Time

	mutex sync.Mutex
	names []string
	leaf  *tls.Certificate
}

// PEM is the certificate that a browser is given to trust.
func (a *Authority) PEM() []byte {
	return pem.EncodeToMemory(&pem.Block{Type: pemCert, Bytes: a.cert.Raw})
}

const (
	pemCert = "CERTIFICATE"
	pemKey  = "PRIVATE KEY"
)

// Fingerprint is the SHA-256 of a certificate in PEM, as phones show it.
func Fingerprint(certificate []byte) string {
	block, _ := pem.Decode(certificate)
	if block == nil {
		return ""
	}
	sum := sha256.Sum256(block.Bytes)
	parts := make([]string, len(sum))
	for i, b := range sum {
		parts[i] = fmt.Sprintf("%02X", b)
	}
	return strings.Join(parts, ":")
}

// Open reads the authority from a file, or makes it there for names that are
// its own beside those of every local network. It reports whether it is new.
func Open(file, house string, names []string, now func() time.Time) (a *Authority, fresh bool, err error) {
	a, err = read(file)
	if errors.Is(err, fs.ErrNotExist) {
		fresh = true
		a, err = found(file, house, names, now())
	}
	if err != nil {
		return nil, false, err
	}
	a.now, a.names = now, names
	_, err = a.certificate()
	return a, fresh, err
}

// read reads an authority that nobody but its owner may read.
func read(file string) (*Authority, error) {
	info, err := os.Stat(file)
	if err != nil {
		return nil, err
	}
	if info.Mode().Perm()&0o077 != 0 && runtime.GOOS != "windows" {
		return nil, fmt.Errorf("others may read the key in %s: take that right away (chmod 600), and make a new authority if somebody did", file)
	}
	data, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	a := &Authority{}
	for block, rest := pem.Decode(data); block != nil; block, rest = pem.Decode(rest) {
		switch block.Type {
		case pemCert:
			if a.cert, err = x509.ParseCertificate(block.Bytes); err != nil {
				return nil, fmt.Errorf("%s: %w", file, err)
			}
		case pemKey:
			key, err := x509.ParsePKCS8PrivateKey(block.Bytes)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", file, err)
			}
			a.key, _ = key.(*ecdsa.PrivateKey)
		}
	}
	if a.cert == nil || a.key == nil || !a.key.PublicKey.Equal(a.cert.PublicKey) {
		return nil, fmt.Errorf("%s does not hold an authority: a certificate and its key in PEM", file)
	}
	return a, nil
}

// found makes an authority in a new file, which is never one that is there.
func found(file, house string, names []string, now time.Time) (*Authority, error) {
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return nil, err
	}
	t := &x509.Certificate{
		SerialNumber: serial(), Subject: pkix.Name{CommonName: "awn, " + house, Organization: []string{house}},
		NotBefore: now.Add(-slack), NotAfter: now.Add(lasts), IsCA: true, BasicConstraintsValid: true, MaxPathLenZero: true,
		KeyUsage: x509.KeyUsageCertSign | x509.KeyUsageCRLSign, ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
		PermittedDNSDomainsCritical: true, PermittedDNSDomains: localNames,
	}
	for _, n := range local {
		_, network, err := net.ParseCIDR(n)
		if err != nil {
			return nil, err
		}
		t.PermittedIPRanges = append(t.PermittedIPRanges, network)
	}
	for _, n := range names {
		if net.ParseIP(n) == nil {
			t.PermittedDNSDomains = append(t.PermittedDNSDomains, n)
		}
	}
	der, err := x509.CreateCertificate(rand.Reader, t, t, key.Public(), key)
	if err != nil {
		return nil, err
	}
	cert, err := x509.ParseCertificate(der)
	if err != nil {
		return nil, err
	}
	secret, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		return nil, err
	}
	f, err := os.OpenFile(file, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return nil, err
	}
	err = errors.Join(pem.Encode(f, &pem.Block{Type: pemCert, Bytes: der}), pem.Encode(f, &pem.Block{Type: pemKey, Bytes: secret}), f.Sync(), f.Close())
	if err != nil {
		return nil, errors.Join(err, os.Remove(file))
	}
	return &Authority{cert: cert, key: key}, nil
}

// serial is a random number of a certificate.
func serial() *big.Int {
	b := make([]byte, 16)
	_, _ = rand.Read(b) // it never fails
	b[0] &= 0x7f
	return new(big.Int).SetBytes(b)
}

// TLS serves with a certificate that is made anew before it ends.
func (a *Authority) TLS() *tls.Config {
	return &tls.Config{MinVersion: tls.VersionTLS12, GetCertificate: func(*tls.ClientHelloInfo) (*tls.Certificate, error) { return a.certificate() }}
}

// certificate is that of the house, which the authority vouches for; one that
// it may not vouch for is an error.
func (a *Authority) certificate() (*tls.Certificate, error) {
	a.mutex.Lock()
	defer a.mutex.Unlock()
	now := a.now()
	if a.leaf != nil && now.Before(a.leaf.Leaf.NotAfter.Add(-leafAnew)) {
		return a.leaf, nil
	}
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return nil, err
	}
	t := &x509.Certificate{
		SerialNumber: serial(), Subject: pkix.Name{CommonName: a.names[0]}, NotBefore: now.Add(-slack), NotAfter: now.Add(leafLasts),
		KeyUsage: x509.KeyUsageDigitalSignature, ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
	}
	for _, n := range a.names {
		if ip := net.ParseIP(n); ip != nil {
			t.IPAddresses = append(t.IPAddresses, ip)
		} else {
			t.DNSNames = append(t.DNSNames, n)
		}
	}
	der, err := x509.CreateCertificate(rand.Reader, t, a.cert, key.Public(), a.key)
	if err != nil {
		return nil, err
	}
	leaf, err := x509.ParseCertificate(der)
	if err != nil {
		return nil, err
	}
	roots := x509.NewCertPool()
	roots.AddCert(a.cert)
	if _, err := leaf.Verify(x509.VerifyOptions{Roots: roots, CurrentTime: now}); err != nil {
		return nil, fmt.Errorf("the authority of the house does not vouch for %s: %w", strings.Join(a.names, ", "), err)
	}
	a.leaf = &tls.Certificate{Certificate: [][]byte{der}, PrivateKey: key, Leaf: leaf}
	return a.leaf, nil
}

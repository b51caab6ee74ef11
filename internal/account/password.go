package account

import (
	"context"
	"crypto/rand"
	"crypto/subtle"
	"encoding/base64"
	"fmt"
	"strings"

	"golang.org/x/crypto/argon2"
)

// How a password is hashed: argon2id over 19 MiB, twice, in one lane, the least
// that OWASP's sheet on keeping passwords gives (recalled).
const (
	memoryKiB = 19 * 1024
	passes    = 2
	lanes     = 1
	saltBytes = 16
	hashBytes = 32
)

// atOnce is how many passwords are hashed at the same time: each takes the
// memory above, and many who try must not take all there is.
const atOnce = 2

// hasher hashes passwords, a few at a time.
type hasher chan struct{}

// wait takes a place; free gives it back.
func (h hasher) wait(ctx context.Context) error {
	select {
	case h <- struct{}{}:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

func (h hasher) free() { <-h }

// hash is a password as it is kept: the text form of argon2's own program.
func (h hasher) hash(ctx context.Context, password string) (string, error) {
	if err := h.wait(ctx); err != nil {
		return "", err
	}
	defer h.free()
	salt := make([]byte, saltBytes)
	_, _ = rand.Read(salt) // it never fails
	return written(memoryKiB, passes, lanes, salt, argon2.IDKey([]byte(password), salt, passes, memoryKiB, lanes, hashBytes)), nil
}

func written(memory, time uint32, threads uint8, salt, sum []byte) string {
	b64 := base64.RawStdEncoding.EncodeToString
	return fmt.Sprintf("$argon2id$v=%d$m=%d,t=%d,p=%d$%s$%s", argon2.Version, memory, time, threads, b64(salt), b64(sum))
}

// is reports whether a password is that of a hash. What is no hash is nobody's.
func (h hasher) is(ctx context.Context, password, kept string) (bool, error) {
	if err := h.wait(ctx); err != nil {
		return false, err
	}
	defer h.free()
	parts := strings.Split(kept, "$")
	var (
		version      int
		memory, time uint32
		threads      uint8
	)
	if len(parts) != 6 || parts[1] != "argon2id" {
		return false, nil
	}
	if _, err := fmt.Sscanf(parts[2]+" "+parts[3], "v=%d m=%d,t=%d,p=%d", &version, &memory, &time, &threads); err != nil {
		return false, nil
	}
	salt, bad := base64.RawStdEncoding.DecodeString(parts[4])
	sum, worse := base64.RawStdEncoding.DecodeString(parts[5])
	if bad != nil || worse != nil || version != argon2.Version || memory > mostKiB || time < 1 || time > mostPasses || threads < 1 || len(sum) < saltBytes {
		return false, nil
	}
	got := argon2.IDKey([]byte(password), salt, time, memory, threads, uint32(len(sum)))
	return subtle.ConstantTimeCompare(got, sum) == 1, nil
}

// The most that a hash may cost which was made elsewhere.
const (
	mostKiB    = 1 << 17
	mostPasses = 10
)

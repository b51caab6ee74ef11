package malthouse

import (
	"context"
	"crypto/ed25519"
	"strings"

	"awn/certificate"
	"awn/ledger"
)

// SigningKey is a key that the house signed with, as the record knows it.
type SigningKey struct {
	Fingerprint  string
	Seq          int64 // of the entry that took it into use; 0 if it was simply used
	AtMs         int64 // when, or of the first certificate signed with it
	Certificates int   // signed with it
}

// keyTaken begins the decision that takes a key into use.
const keyTaken = "signing key "

// Keys are the keys that the house signed with, in order. The last is the one in
// use. Certificates of all of them stay good: each carries its key.
func (h *House) Keys(ctx context.Context, a Actor) (out []SigningKey, err error) {
	if err := a.Permit(UseLook); err != nil {
		return nil, err
	}
	r := h.Store.Read(h.Code)
	known := func(print string, f ledger.Fact) *SigningKey {
		for i := range out {
			if out[i].Fingerprint == print {
				return &out[i]
			}
		}
		out = append(out, SigningKey{Fingerprint: print, AtMs: f.At})
		return &out[len(out)-1]
	}
	for f, err := range r.Facts(ctx, ledger.Query{}) {
		if err != nil {
			return nil, err
		}
		if f.Kind != ledger.Certified && f.Kind != ledger.Decided {
			continue
		}
		body, err := ledger.Decode(f.Kind, f.Schema, f.Body)
		if err != nil {
			return nil, err
		}
		switch b := body.(type) {
		case *ledger.Decision:
			if print, is := strings.CutPrefix(b.Decision, keyTaken); is {
				known(print, f).Seq = f.Seq
			}
		case *ledger.Certificate:
			signed, err := h.Desk.Document(ctx, string(b.Document))
			if err != nil {
				return nil, err
			}
			_, key, err := certificate.Verify(signed)
			if err != nil {
				return nil, err
			}
			known(certificate.Fingerprint(key), f).Certificates++
		}
	}
	return out, nil
}

// TakeKey enters that the house signs with a new key from now on. What is
// signed with older ones stays good.
func (h *House) TakeKey(ctx context.Context, a Actor, key ed25519.PublicKey, reason string) (Done, error) {
	if reason == "" {
		return Done{}, refuse("use.reason.missing", "a new key")
	}
	print := certificate.Fingerprint(key)
	return h.enter(ctx, a, UseKey, Entry{}, &ledger.Decision{Decision: keyTaken + print, Reason: reason}, steps{
		said: func() Said { return say("key-taken", "key", print) },
	})
}

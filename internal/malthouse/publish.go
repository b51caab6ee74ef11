package malthouse

import (
	"context"
	"crypto/rand"

	"awn/ledger"
)

// The keys under which the house keeps the words of certificates that anybody
// with the word may read. The word stands in no fact: whoever reads the record
// has the certificate, and whoever has the word has that one alone.
const (
	publicNumber = "public.number." // of a word
	publicWord   = "public.word."   // of a number
)

// Publish lets anybody who has a word read a certificate; that it was done, and
// by whom, is on record. Done again it gives the same word.
func (h *House) Publish(ctx context.Context, a Actor, e Entry, number ledger.Code) (Done, error) {
	if _, err := h.Issued(ctx, a, number); err != nil {
		return Done{}, err
	}
	done, err := h.enter(ctx, a, UseCertify, e, &ledger.Decision{Of: ledger.To(ledger.CertificateKind, number), Decision: "public"}, steps{
		said: func() Said { return say("public", "certificate", string(number)) },
	})
	if err != nil {
		return done, err
	}
	if _, found, err := h.Desk.Setting(ctx, publicWord+string(number)); err != nil || found {
		return done, err
	}
	word := rand.Text()
	if err := h.Desk.Set(ctx, publicNumber+word, string(number)); err != nil {
		return done, err
	}
	return done, h.Desk.Set(ctx, publicWord+string(number), word)
}

// PublicWord is the word of a certificate, if it is public.
func (h *House) PublicWord(ctx context.Context, number ledger.Code) (word string, found bool, err error) {
	return h.Desk.Setting(ctx, publicWord+string(number))
}

// Public is the certificate of a word.
func (h *House) Public(ctx context.Context, word string) (Certificate, error) {
	number, found, err := h.Desk.Setting(ctx, publicNumber+word)
	if err != nil {
		return Certificate{}, err
	}
	if word == "" || !found {
		return Certificate{}, refuse("use.thing.unknown", Kinds[ledger.CertificateKind])
	}
	return h.Issued(ctx, Actor{Role: Auditor}, ledger.Code(number))
}

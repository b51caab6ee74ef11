package web

import (
	"bytes"
	"net/http"

	"awn/internal/authority"
)

// Where the house says how it is trusted, and gives the certificate.
const (
	trustAt     = "/trust"
	authorityAt = trustAt + "/awn.crt"
)

// openTrust sets the page for who has not come in yet: a phone must trust the
// house before anybody types a password into it.
func (s *Server) openTrust() {
	s.meet("GET "+trustAt, s.trust)
	s.meet("GET "+authorityAt, func(w http.ResponseWriter, _ *http.Request) error {
		file{name: "awn.crt", kind: "application/x-x509-ca-cert"}.send(w, bytes.NewBuffer(s.Authority))
		return nil
	})
}

func (s *Server) trust(w http.ResponseWriter, r *http.Request) error {
	u := readerOf(r)
	of := room{Title: u.Say("trust.title"), Under: u.Say("trust.under"), Parts: []roomPart{
		{Heading: u.Say("trust.fingerprint"), Once: authority.Fingerprint(s.Authority), Says: []saying{{Text: u.Say("trust.take"), Href: authorityAt}, {Text: u.Say("trust.bounds")}}},
	}}
	for _, system := range []string{"ios", "android", "desk"} {
		part := roomPart{Heading: u.Say("trust." + system)}
		for _, step := range []string{"1", "2", "3"} {
			part.Says = append(part.Says, saying{Text: step + ". " + u.Say("trust."+system+"."+step)})
		}
		of.Parts = append(of.Parts, part)
	}
	s.show(w, r, of, http.StatusOK)
	return nil
}

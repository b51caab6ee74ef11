package web

import (
	"fmt"
	"io"
	"net/http"
	"net/url"
	"strings"

	"awn/internal/malthouse"
	"awn/internal/paper"
	"awn/internal/report"
	"awn/ledger"
)

// openCertificates opens the pages of certificates, for the house and for
// whoever has the word of one.
func (s *Server) openCertificates() {
	s.room("GET /certificates/{number}", malthouse.UseLook, func(v visit) (room, error) {
		c, err := s.House.Issued(v.Context(), v.Actor, ledger.Code(v.PathValue("number")))
		if err != nil {
			return room{}, err
		}
		secret, found, err := s.House.PublicWord(v.Context(), c.Number)
		if err != nil {
			return room{}, err
		}
		out := s.certificateRoom(v, c, "")
		out.API = apiAt + certificateAt(string(c.Number))
		public := roomPart{Heading: v.Units.Say("certificate.public")}
		switch {
		case found:
			public.Says = []saying{{Text: s.origin(v.Request) + "/c/" + secret, Href: "/c/" + secret}}
		case v.Actor.May(malthouse.UseCertify):
			public.Forms = []blankForm{{
				At: certificateAt(string(c.Number)) + "/public", Word: v.Units.Say("certificate.make-public"), Hidden: []blank{{Name: "id", Value: newID(s.House.Clock())}},
			}}
		}
		out.Parts = append(out.Parts, public)
		return out, nil
	})
	s.let("POST /certificates/{number}/public", malthouse.UseCertify, func(w http.ResponseWriter, v visit) error {
		number := v.PathValue("number")
		done, err := s.House.Publish(v.Context(), v.Actor, malthouse.Entry{ID: v.PostFormValue("id")}, ledger.Code(number))
		return s.told(w, v, done, certificateAt(number), err)
	})
	s.meet("GET "+publicAt, func(w http.ResponseWriter, r *http.Request) error {
		v := visit{r, malthouse.Actor{}, readerOf(r)}
		c, err := s.House.Public(r.Context(), r.PathValue("word"))
		if malthouse.IsRefused(err) {
			return errNoPage
		}
		if err != nil {
			return err
		}
		return s.showRoom(w, v, s.certificateRoom(v, c, s.origin(r)+r.URL.Path))
	})
	s.openCertify()
}

// certificateRoom is a certificate as a page; public is where anybody can read it.
func (s *Server) certificateRoom(v visit, c malthouse.Certificate, public string) room {
	sheet := s.sheetOf(v, c)
	sheet.URL = public
	l := sheet.Leaf()
	out := leafRoom(v, l)
	out.Says = append([]saying{{Text: v.Units.Say("certificate.good")}}, out.Says...)
	if out.File = printed(v, string(c.Number), l); v.URL.Query().Get("print") == "json" {
		out.File = signedFile(c)
	}
	last := &out.Parts[len(out.Parts)-1]
	last.Says = append(last.Says, saying{Text: v.Units.Say("certificate.take-json"), Href: withQuery(v.URL, "print", "json")})
	return out
}

// certifyAt is where certificates are issued, and publicAt where anybody reads
// one.
const (
	certifyAt = "/certify"
	publicAt  = "/c/{word}"
)

// origin is how addresses of this house begin, as the browser came to it.
func (s *Server) origin(r *http.Request) string {
	scheme := "http"
	if d, ok := s.Doors.(signed); ok && d.secret(r) {
		scheme = "https"
	}
	return scheme + "://" + r.Host
}

// certifying is the form of a certificate.
func (s *Server) certifying(v visit, shipment string) (blankForm, error) {
	u := v.Units
	asked, err := s.House.AllAgreed(v.Context(), v.Actor, malthouse.SpecificationKind)
	names := []string{""}
	for _, a := range asked {
		names = append(names, a.Name)
	}
	return blankForm{
		At: certifyAt, Word: u.Say("certificate.issue"), Hidden: []blank{{Name: "shipment", Value: shipment}, {Name: "id", Value: newID(s.House.Clock())}},
		Blanks: []blank{
			{Name: "product", Label: u.Say("certificate.product"), Value: "Malt"}, {Name: "order", Label: u.Say("certificate.order")},
			{Name: "replaces", Label: u.Say("certificate.replaces")}, {Name: "statement", Label: u.Say("certificate.statement")},
			{Name: "agreed", Label: u.Say("certificate.as-agreed"), Words: names}, {Name: "specification", Label: u.Say("certificate.asked"), Kind: "lines"},
		},
	}, err
}

// openCertify opens the page on which a certificate is issued.
func (s *Server) openCertify() {
	of := func(v visit, shipment string) func(blankForm) room {
		return door(v.Units.Say("certificate.for-load", "shipment", shipment), v.Units.Say("certificate.under"))
	}
	s.room("GET "+certifyAt, malthouse.UseCertify, func(v visit) (room, error) {
		shipment := v.URL.Query().Get("shipment")
		f, err := s.certifying(v, shipment)
		return of(v, shipment)(f), err
	})
	s.let("POST "+certifyAt, malthouse.UseCertify, func(w http.ResponseWriter, v visit) error {
		if err := v.ParseForm(); err != nil {
			return unreadable(err)
		}
		shipment := v.PostForm.Get("shipment")
		in, err := s.issueOf(v)
		var done malthouse.Done
		var out malthouse.Certificate
		if err == nil {
			done, out, err = s.House.Certify(v.Context(), v.Actor, malthouse.Entry{ID: v.PostForm.Get("id")}, in)
		}
		if err != nil {
			f, lost := s.certifying(v, shipment)
			if lost != nil {
				return lost
			}
			return s.again(w, v.Request, f, err, of(v, shipment))
		}
		return s.told(w, v, done, certificateAt(string(out.Number)), nil)
	})
}

// issueOf is what the form of a certificate says.
func (s *Server) issueOf(v visit) (malthouse.Issue, error) {
	form := v.PostForm
	in := malthouse.Issue{
		Shipment: ledger.Code(form.Get("shipment")), Replaces: ledger.Code(form.Get("replaces")), Product: form.Get("product"), Order: form.Get("order"),
		Statements: filledIn([]string{form.Get("statement")}),
	}
	text := strings.ReplaceAll(strings.TrimSpace(form.Get("specification")), "\r\n", "\n")
	if name := form.Get("agreed"); text == "" && name != "" {
		agreed, err := s.House.AgreedText(v.Context(), v.Actor, malthouse.SpecificationKind, name)
		if err != nil {
			return in, err
		}
		text = string(agreed)
	}
	if text == "" {
		return in, nil
	}
	spec, faults := paper.Read[paper.Specification]("specification.yaml", []byte(text))
	if len(faults) > 0 {
		return in, faults
	}
	asked := spec.Specification()
	in.Specification, in.SpecText = &asked, []byte(text)
	return in, nil
}

// certificateAt is where a certificate is shown to the house.
func certificateAt(number string) string { return "/certificates/" + url.PathEscape(number) }

// sheetOf is a certificate as it is shown.
func (s *Server) sheetOf(v visit, c malthouse.Certificate) report.CertificateSheet {
	return report.CertificateSheet{Certificate: c.Certificate, Key: c.Key, Units: v.Units, Version: s.Version}
}

// signedFile is a certificate as the file that programs check.
func signedFile(c malthouse.Certificate) *file {
	return &file{string(c.Number) + ".json", kindJSON, func(w io.Writer) error { _, err := fmt.Fprintln(w, string(c.Signed)); return err }}
}

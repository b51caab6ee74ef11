package web

import (
	"crypto/rand"
	"fmt"
	"net/http"
	"strings"

	"awn/internal/malthouse"
	"awn/internal/paper"
	"awn/ledger"
)

// The keys under which the house keeps the words of public certificates: the
// number of each word, and the word of each number.
const (
	publicNumber = "public.number."
	publicWord   = "public.word."
)

// openCertificates opens the pages of certificates, for the house and for
// whoever has the word of one.
func (s *Server) openCertificates() {
	s.room("GET /certificates/{number}", malthouse.UseLook, func(v visit) (room, error) {
		c, err := s.House.Issued(v.Context(), v.Actor, ledger.Code(v.PathValue("number")))
		if err != nil {
			return room{}, err
		}
		word, found, err := s.House.Desk.Setting(v.Context(), publicWord+string(c.Number))
		if err != nil {
			return room{}, err
		}
		out := s.certificateRoom(v, c, "")
		public := roomPart{Heading: v.Units.Say("certificate.public")}
		switch {
		case found:
			public.Says = []saying{{Text: s.origin(v.Request) + "/c/" + word, Href: "/c/" + word}}
		case v.Actor.May(malthouse.UseCertify):
			public.Forms = []blankForm{{At: certificateAt(string(c.Number)) + "/public", Word: v.Units.Say("certificate.make-public")}}
		}
		out.Parts = append(out.Parts, public)
		return out, nil
	})
	s.let("POST /certificates/{number}/public", malthouse.UseCertify, func(w http.ResponseWriter, v visit) error {
		number := v.PathValue("number")
		if _, err := s.House.Issued(v.Context(), v.Actor, ledger.Code(number)); err != nil {
			return err
		}
		word := rand.Text()
		if err := s.House.Desk.Set(v.Context(), publicNumber+word, number); err != nil {
			return err
		}
		if err := s.House.Desk.Set(v.Context(), publicWord+number, word); err != nil {
			return err
		}
		http.Redirect(w, v.Request, certificateAt(number), http.StatusSeeOther)
		return nil
	})
	s.mux.HandleFunc("GET "+publicAt, func(w http.ResponseWriter, r *http.Request) {
		v := visit{r, malthouse.Actor{Role: malthouse.Auditor}, readerOf(r)}
		number, found, err := s.House.Desk.Setting(r.Context(), publicNumber+r.PathValue("word"))
		if err != nil || !found || strings.TrimSpace(number) == "" {
			s.set(w, r, s.failed(r, errNoPage))
			return
		}
		c, err := s.House.Issued(r.Context(), v.Actor, ledger.Code(number))
		if err != nil {
			s.set(w, r, s.failed(r, ofRecord(err)))
			return
		}
		out := s.certificateRoom(v, c, s.origin(r)+r.URL.Path)
		if err := s.showRoom(w, v, out); err != nil {
			s.set(w, r, s.failed(r, err))
		}
	})
	s.openCertify()
}

// certificateRoom is a certificate as a page; url is where anybody can read it.
func (s *Server) certificateRoom(v visit, c malthouse.Certificate, url string) room {
	sheet := s.sheetOf(v, c)
	sheet.URL = url
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
func certifying(v visit, shipment string) roomPart {
	u := v.Units
	return roomPart{Forms: []blankForm{{
		At: certifyAt, Word: u.Say("certificate.issue"), Hidden: []blank{{Name: "shipment", Value: shipment}},
		Blanks: []blank{
			{Name: "product", Label: u.Say("certificate.product"), Value: "Malt"}, {Name: "order", Label: u.Say("certificate.order")},
			{Name: "replaces", Label: u.Say("certificate.replaces")}, {Name: "statement", Label: u.Say("certificate.statement")},
			{Name: "specification", Label: u.Say("certificate.asked"), Kind: "lines"},
		},
	}}}
}

// openCertify takes the form of a certificate in.
func (s *Server) openCertify() {
	s.room("GET "+certifyAt, malthouse.UseCertify, func(v visit) (room, error) {
		shipment := v.URL.Query().Get("shipment")
		return room{Title: v.Units.Say("certificate.of", "shipment", shipment), Under: v.Units.Say("certificate.under"), Parts: []roomPart{certifying(v, shipment)}}, nil
	})
	s.let("POST "+certifyAt, malthouse.UseCertify, func(w http.ResponseWriter, v visit) error {
		in := malthouse.Issue{
			Shipment: ledger.Code(v.PostFormValue("shipment")), Replaces: ledger.Code(v.PostFormValue("replaces")),
			Product: v.PostFormValue("product"), Order: v.PostFormValue("order"), Statements: filledIn([]string{v.PostFormValue("statement")}),
		}
		if text := strings.TrimSpace(v.PostFormValue("specification")); text != "" {
			spec, faults := paper.Read[paper.Specification]("specification.yaml", []byte(text))
			if len(faults) > 0 {
				return &fault{http.StatusUnprocessableEntity, faults[0].Code, faults.Error()}
			}
			asked := spec.Specification()
			in.Specification, in.SpecText = &asked, []byte(text)
		}
		done, out, err := s.House.Certify(v.Context(), v.Actor, malthouse.Entry{ID: v.PostFormValue("id")}, in)
		if err != nil {
			return err
		}
		s.said.keep(done)
		http.Redirect(w, v.Request, certificateAt(string(out.Number))+"?"+entered+"="+done.Fact.ID, http.StatusSeeOther)
		return nil
	})
}

// openShifts signs handovers.
func (s *Server) openShifts() {
	s.let("POST /handover/give", malthouse.UseShift, func(w http.ResponseWriter, v visit) error {
		x, err := s.House.Shift(v.Context(), v.Actor, s.House.Clock().Add(-shiftLasts))
		if err != nil {
			return err
		}
		note := v.PostFormValue("note")
		x.Notes = filledIn([]string{note})
		var page strings.Builder
		if err := s.sheets(v).Shift(x, nil).Text(&page); err != nil {
			return err
		}
		done, err := s.House.GiveShift(v.Context(), v.Actor, malthouse.Entry{}, note, []byte(page.String()))
		return s.told(w, v, done, "/handover", err)
	})
	s.let("POST /handover/take", malthouse.UseShift, func(w http.ResponseWriter, v visit) error {
		done, err := s.House.TakeShift(v.Context(), v.Actor, malthouse.Entry{})
		return s.told(w, v, done, "/handover", err)
	})
}

// told goes on to a page that says what was entered.
func (s *Server) told(w http.ResponseWriter, v visit, done malthouse.Done, to string, err error) error {
	if err != nil {
		return err
	}
	s.said.keep(done)
	http.Redirect(w, v.Request, fmt.Sprintf("%s?%s=%s", to, entered, done.Fact.ID), http.StatusSeeOther)
	return nil
}
